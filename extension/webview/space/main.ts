import type { Solids } from '../../../core/views/space/solids.ts';
import { listenToPointing } from '../pointing.ts';
import { listenToGestures } from '../viewport/gestures.ts';
import type { Pixels } from '../viewport/viewport.ts';
import { moved, turned, turnedIntoSight, turnedTo, zoomed } from './eye.ts';
import { createGaze } from './gaze.ts';
import type { StartLiveSpace } from './liveSpace.ts';
import { createStage } from './stage.ts';
import { themeColors } from './themeColors.ts';

/** Pixels that an arrow key turns or moves by. */
const keyStep = 40;

/** Starts the live view: it owns a canvas in the area, and draws only when something has changed. */
const startLiveSpace: StartLiveSpace = (area, opening, hooks) => {
  const gaze = createGaze(opening, { changed: () => stage.redraw(), rested: hooks.moved });
  const stage = createStage(area, gaze);
  // What was given up listens no more: another view of the same area may follow.
  let ended = false;

  const turn = (by: Pixels) => gaze.move(turned(gaze.eye(), by));
  const shift = (by: Pixels) => {
    const solids = stage.solids();
    if (solids !== null) gaze.move(moved(gaze.eye(), solids.reach, stage.size(), by));
  };
  const zoomAt = (point: Pixels, factor: number) => {
    const solids = stage.solids();
    if (solids !== null) gaze.move(zoomed(gaze.eye(), solids.reach, stage.size(), point, factor));
  };
  const turnGently = (bars: readonly string[], turnedBy: typeof turnedTo) => {
    const solids = stage.solids();
    const angle = solids && middleAngle(solids, bars);
    if (angle !== null) gaze.turnGently(turnedBy(gaze.eye(), angle));
  };
  const seeWhole = () => {
    gaze.face(null);
    hooks.moved(null);
  };

  // Keys that step along a path come before those that turn.
  listenToPointing(area, {
    point: (subject) => !ended && hooks.point(subject),
    choose: (subject) => !ended && hooks.choose(subject),
    step: (by) => !ended && hooks.step(by),
    release: () => !ended && hooks.release(),
    subjectAt: (x, y) => stage.subjectAt({ x, y }),
  });
  area.addEventListener('keydown', (event) => {
    const by = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (ended || by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const step = { x: keyStep * by[0]!, y: keyStep * by[1]! };
    if (event.shiftKey) shift(step);
    else turn(step);
  });
  listenToGestures(area, {
    zoom: (point, factor) => !ended && zoomAt(point, factor),
    fit: () => !ended && seeWhole(),
    move: (by, { fingers, shifted }) => !ended && (fingers > 1 || shifted ? shift(by) : turn(by)),
    wheelZooms: () => true,
  });
  stage.canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();
    if (!ended) hooks.lost();
  });

  return {
    show: stage.show,
    look: (look, standing) => stage.paint({ look, standing }),
    mark: (marks) => stage.paint({ marks }),
    turnTo: (bars) => turnGently(bars, turnedTo),
    bringIntoSight: (bars) => turnGently(bars, turnedIntoSight),
    fit: seeWhole,
    face: gaze.face,
    zoom: (factor) => {
      const { width, height } = stage.size();
      zoomAt({ x: width / 2, y: height / 2 }, factor);
    },
    recolor: () => stage.paint({ colors: themeColors(area) }),
    picture: stage.picture,
    end: () => {
      ended = true;
      gaze.end();
      stage.end();
    },
  };
};

/** The angle about the axis in the middle of bars, by their names; null where there are none. */
function middleAngle({ slots }: Solids, bars: readonly string[]): number | null {
  const angles = bars.map((name) => ((Number.parseInt(name, 10) - 1) * 2 * Math.PI) / slots);
  const [x, y] = [Math.cos, Math.sin].map((part) => angles.reduce((sum, angle) => sum + part(angle), 0)) as [
    number,
    number,
  ];
  return Math.hypot(x, y) < 1e-6 ? null : Math.atan2(y, x);
}

window.slotwrightSpace = startLiveSpace;
