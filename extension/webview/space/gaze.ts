import { wantsLessMotion } from '../motion.ts';
import { between, firstEye } from './eye.ts';
import type { Eye } from './liveSpace.ts';

/** Milliseconds after the last move until the eye rests, and that a turn by itself takes. */
const restTime = 160;
const turnTime = 260;

/** Where the eye is, and how it comes elsewhere. */
export interface Gaze {
  readonly eye: () => Eye;
  /** Whether it has moved a moment ago. */
  readonly isMoving: () => boolean;
  readonly move: (to: Eye) => void;
  /** Turns by itself, unless the reader wants less motion or turns it himself meanwhile. */
  readonly turnGently: (to: Eye) => void;
  /** Sees from there at once; null: from where it is seen at first. */
  readonly face: (seen: Eye | null) => void;
  readonly end: () => void;
}

export interface GazeHooks {
  /** It has moved, or rests again. */
  readonly changed: () => void;
  /** It rests here. */
  readonly rested: (eye: Eye) => void;
}

export function createGaze(opening: Eye | null, { changed, rested }: GazeHooks): Gaze {
  let eye = opening ?? firstEye;
  let moving = false;
  let resting: ReturnType<typeof setTimeout> | undefined;
  /** Counts what ends a turn by itself. */
  let turn = 0;

  const go = (to: Eye) => {
    eye = to;
    moving = true;
    clearTimeout(resting);
    resting = setTimeout(() => {
      moving = false;
      changed();
      rested(eye);
    }, restTime);
    changed();
  };
  const move = (to: Eye) => {
    turn++;
    go(to);
  };
  const stop = () => {
    turn++;
    clearTimeout(resting);
    moving = false;
  };
  return {
    eye: () => eye,
    isMoving: () => moving,
    move,
    turnGently: (to) => {
      if (to === eye) return;
      if (wantsLessMotion()) return move(to);
      const [from, own, begun] = [eye, ++turn, performance.now()];
      const step = () => {
        if (own !== turn) return;
        const share = Math.min((performance.now() - begun) / turnTime, 1);
        go(between(from, to, share * (2 - share)));
        if (share < 1) requestAnimationFrame(step);
      };
      step();
    },
    face: (seen) => {
      stop();
      eye = seen ?? firstEye;
      changed();
    },
    end: stop,
  };
}
