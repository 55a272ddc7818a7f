import { OrthographicCamera, WebGLRenderer } from 'three';
import type { Vector } from '../../../core/space/vectors.ts';
import type { Solids } from '../../../core/views/space/solids.ts';
import type { Marked } from '../marking.ts';
import { wantsLessMotion } from '../motion.ts';
import { listenToPointing } from '../pointing.ts';
import { listenToGestures } from '../viewport/gestures.ts';
import type { Pixels, Size } from '../viewport/viewport.ts';
import { between, cameraOf, firstEye, halfSeen, moved, turned, turnedTo, zoomed } from './eye.ts';
import type { Eye, LiveSpace, SpaceLook, Standing, StartLiveSpace } from './liveSpace.ts';
import { controlNames } from './names.ts';
import { type BarScene, buildScene } from './scene.ts';
import { type ThemeColors, themeColors } from './themeColors.ts';

/** A drawing that takes longer, ms, is made coarse while the view moves. */
const slow = 34;
/** Milliseconds after the last move until all is drawn finely again, and that a turn by itself takes. */
const rest = 160;
const turnTime = 260;
/** Pixels that an arrow key turns or moves by. */
const keyStep = 40;

const nothing: Marked = { bars: [], joints: [], paths: [], chosen: null };
const allAlike: Standing = { phase: null, path: null, layer: null, side: null };

/** Starts the live view: it owns a canvas in the area, and draws only when something has changed. */
const startLiveSpace: StartLiveSpace = (area, opening, hooks) => {
  const canvas = document.createElement('canvas');
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setClearAlpha(0);
  area.append(canvas);
  const names = controlNames(area);
  const camera = new OrthographicCamera();
  let colors: ThemeColors = themeColors(area);
  let solids: Solids | null = null;
  let bars: BarScene | null = null;
  let eye: Eye = opening ?? firstEye;
  let look: SpaceLook = { coloring: 'phase', opened: 0 };
  let standing: Standing = allAlike;
  let marks: Marked = nothing;
  /** Something is to be painted anew before the next frame. */
  let stale = true;
  let asked = false;
  let moving = false;
  /** Drawing finely takes too long to turn it so. */
  let isSlow = false;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let turningBy = 0;
  let ended = false;

  const size = (): Size => ({ width: Math.max(area.clientWidth, 1), height: Math.max(area.clientHeight, 1) });
  const aim = () => {
    if (solids === null) return;
    const half = halfSeen(eye, solids.reach, size());
    const { right, up, towards } = cameraOf(eye);
    const { radius, low, high } = solids.reach;
    const middle = (low + high) / 2;
    const far = 2 * Math.hypot(radius, high - middle);
    camera.position.set(far * towards[0], far * towards[1], middle + far * towards[2]);
    camera.up.set(up[0], up[1], up[2]);
    camera.lookAt(0, 0, middle);
    [camera.left, camera.right] = [eye.right - half.width, eye.right + half.width];
    [camera.bottom, camera.top] = [eye.up - half.height, eye.up + half.height];
    [camera.near, camera.far] = [0, 2 * far];
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    bars?.light({ right, up, towards });
    bars?.scaled((2 * half.height) / size().height);
  };
  const draw = () => {
    asked = false;
    // A hidden area has no size.
    if (ended || bars === null || area.clientWidth === 0) return;
    const { width, height } = size();
    const coarse = moving && isSlow;
    renderer.setPixelRatio(coarse ? 1 : window.devicePixelRatio);
    renderer.setSize(width, height);
    if (stale) bars.paint(colors, look, standing, marks);
    stale = false;
    bars.coarse(coarse);
    aim();
    const begun = performance.now();
    renderer.render(bars.scene, camera);
    const { hides } = bars;
    const hidden = moving ? null : (at: Vector) => hides(at, camera);
    names.place(camera, { width, height }, eye.above >= 0, hidden);
    // For those who measure and test: how often it was drawn, and of what.
    area.dataset.frames = String(Number(area.dataset.frames ?? 0) + 1);
    area.dataset.calls = String(renderer.info.render.calls);
    area.dataset.triangles = String(renderer.info.render.triangles);
    if (!coarse)
      requestAnimationFrame(() => {
        isSlow = performance.now() - begun > slow;
      });
  };
  const redraw = () => {
    if (asked || ended) return;
    asked = true;
    requestAnimationFrame(draw);
  };
  const move = (next: Eye, byReader = true) => {
    if (ended) return;
    eye = next;
    moving = true;
    clearTimeout(resting);
    resting = setTimeout(() => {
      moving = false;
      redraw();
      hooks.moved(eye);
    }, rest);
    if (byReader) turningBy++;
    redraw();
  };
  /** Turns by itself, unless the reader wants less motion or turns it himself meanwhile. */
  const turnGently = (to: Eye) => {
    if (to === eye) return;
    if (wantsLessMotion()) {
      move(to);
      return;
    }
    const [from, turn, begun] = [eye, ++turningBy, performance.now()];
    const step = () => {
      if (turn !== turningBy || ended) return;
      const share = Math.min((performance.now() - begun) / turnTime, 1);
      move(between(from, to, share * (2 - share)), false);
      if (share < 1) requestAnimationFrame(step);
    };
    step();
  };
  const fit = () => {
    if (ended) return;
    turningBy++;
    clearTimeout(resting);
    moving = false;
    eye = firstEye;
    redraw();
    hooks.moved(null);
  };
  const zoomAt = (point: Pixels, factor: number) => {
    if (solids !== null) move(zoomed(eye, solids.reach, size(), point, factor));
  };
  const shift = (by: Pixels) => {
    if (solids !== null) move(moved(eye, solids.reach, size(), by));
  };

  // What was given up listens no more: another view of the same area may follow.
  // Keys that step along a path come before those that turn.
  listenToPointing(area, {
    point: (subject) => !ended && hooks.point(subject),
    choose: (subject) => !ended && hooks.choose(subject),
    step: (by) => !ended && hooks.step(by),
    release: () => !ended && hooks.release(),
    subjectAt: (x, y) => {
      const box = canvas.getBoundingClientRect();
      aim();
      const right = (2 * (x - box.left)) / box.width - 1;
      const up = 1 - (2 * (y - box.top)) / box.height;
      return bars?.subjectAt(right, up, camera) ?? null;
    },
  });
  area.addEventListener('keydown', (event) => {
    const by = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (ended || by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const step = { x: keyStep * by[0]!, y: keyStep * by[1]! };
    if (event.shiftKey) shift(step);
    else move(turned(eye, step));
  });
  listenToGestures(area, {
    zoom: zoomAt,
    fit,
    move: (by, { fingers, shifted }) => (fingers > 1 || shifted ? shift(by) : move(turned(eye, by))),
    wheelZooms: () => true,
  });
  canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();
    if (!ended) hooks.lost();
  });
  const sizes = new ResizeObserver(redraw);
  sizes.observe(area);

  const live: LiveSpace = {
    show: (next) => {
      bars?.end();
      solids = next;
      bars = buildScene(next);
      names.show(next.names, next.places);
      stale = true;
      redraw();
    },
    look: (nextLook, nextStanding) => {
      look = nextLook;
      standing = nextStanding;
      stale = true;
      redraw();
    },
    mark: (marked) => {
      marks = marked;
      stale = true;
      redraw();
    },
    turnTo: (wanted, always) => {
      const angle = solids && middleAngle(solids, wanted);
      if (angle !== null) turnGently(turnedTo(eye, angle, always));
    },
    fit,
    face: (seen) => {
      turningBy++;
      clearTimeout(resting);
      moving = false;
      eye = seen ?? firstEye;
      redraw();
    },
    zoom: (factor) => {
      const { width, height } = size();
      zoomAt({ x: width / 2, y: height / 2 }, factor);
    },
    recolor: () => {
      colors = themeColors(area);
      stale = true;
      redraw();
    },
    picture: () => {
      // What was drawn is there only within the same turn of the page.
      draw();
      return pictureOf(canvas, colors, (context) => {
        names.write(context, canvas.width / size().width, colors.inkWords, colors.groundWords);
      });
    },
    end: () => {
      ended = true;
      clearTimeout(resting);
      sizes.disconnect();
      bars?.end();
      renderer.dispose();
      names.show([], []);
      canvas.remove();
    },
  };
  return live;
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

async function pictureOf(
  drawn: HTMLCanvasElement,
  { groundWords }: ThemeColors,
  write: (context: CanvasRenderingContext2D) => void,
): Promise<Blob> {
  const copy = document.createElement('canvas');
  [copy.width, copy.height] = [drawn.width, drawn.height];
  const context = copy.getContext('2d');
  if (context === null) throw new Error('There is no canvas to draw on');
  context.fillStyle = groundWords;
  context.fillRect(0, 0, copy.width, copy.height);
  context.drawImage(drawn, 0, 0);
  write(context);
  const blob = await new Promise<Blob | null>((resolve) => {
    copy.toBlob(resolve, 'image/png');
  });
  if (blob === null) throw new Error('The picture is too large');
  return blob;
}

window.slotwrightSpace = startLiveSpace;
