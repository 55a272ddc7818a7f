import { wantsLessMotion } from './motion.ts';

/** The controls of the field view's instant. */
export interface InstantParts {
  readonly slider: HTMLInputElement;
  readonly value: HTMLElement;
  readonly play: HTMLButtonElement;
}

/** Keeps slider, value and button in step with the picture. */
export interface InstantControl {
  /** Call with each picture of the field: only then does a running animation ask for the next one. */
  readonly drawn: (instant: number) => void;
  /** Stops a running animation. */
  readonly stop: () => void;
}

const step = 5;
const pause = 60;

/**
 * The slider asks for an instant; the button plays through all of them, each when the last has been
 * drawn. Readers who asked for less motion get one step a press instead.
 */
export function controlInstant(parts: InstantParts, wanted: (instant: number) => void): InstantControl {
  const { slider, value, play } = parts;
  let playing = false;

  const words = () => {
    play.textContent = (playing ? play.dataset.pause : play.dataset.play) ?? '';
    play.setAttribute('aria-pressed', String(playing));
  };
  const turn = (on: boolean) => {
    playing = on;
    words();
  };
  const next = () => wanted((Number(slider.value) + step) % 360);
  slider.addEventListener('input', () => {
    turn(false);
    wanted(Number(slider.value) % 360);
  });
  play.addEventListener('click', () => {
    if (!playing && wantsLessMotion()) {
      next();
      return;
    }
    turn(!playing);
    if (playing) next();
  });
  words();
  return {
    drawn: (instant) => {
      slider.value = String(instant);
      value.textContent = `${instant}°`;
      if (playing)
        setTimeout(() => {
          if (playing) next();
        }, pause);
    },
    stop: () => turn(false),
  };
}
