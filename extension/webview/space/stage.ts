import { OrthographicCamera, WebGLRenderer } from 'three';
import type { Vector } from '../../../core/space/vectors.ts';
import type { Solids } from '../../../core/views/space/solids.ts';
import type { Subject } from '../../protocol/subject.ts';
import type { Marked } from '../marking.ts';
import type { Pixels, Size } from '../viewport/viewport.ts';
import { cameraOf, halfSeen } from './eye.ts';
import type { Gaze } from './gaze.ts';
import type { SpaceLook, Standing } from './liveSpace.ts';
import { controlNames } from './names.ts';
import { type BarScene, buildScene } from './scene.ts';
import { type ThemeColors, themeColors } from './themeColors.ts';

/** A drawing that takes longer, ms, is made coarse while the view moves. */
const slow = 34;

/** How bars are painted. */
interface Paint {
  readonly colors: ThemeColors;
  readonly look: SpaceLook;
  readonly standing: Standing;
  readonly marks: Marked;
}

/** Bars on a canvas in the area, drawn in the next frame after something has changed. */
export interface Stage {
  readonly canvas: HTMLCanvasElement;
  readonly size: () => Size;
  readonly solids: () => Solids | null;
  readonly show: (solids: Solids) => void;
  readonly paint: (next: Partial<Paint>) => void;
  readonly redraw: () => void;
  /** What stands at a place of the window. */
  readonly subjectAt: (place: Pixels) => Subject | null;
  readonly picture: () => Promise<Blob>;
  readonly end: () => void;
}

/** Throws where the browser cannot draw. */
export function createStage(area: HTMLElement, gaze: Gaze): Stage {
  const canvas = document.createElement('canvas');
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setClearAlpha(0);
  area.append(canvas);
  const names = controlNames(area);
  const camera = new OrthographicCamera();
  let solids: Solids | null = null;
  let bars: BarScene | null = null;
  let paint: Paint = {
    colors: themeColors(area),
    look: { coloring: 'phase', opened: 0 },
    standing: { phase: null, path: null, layer: null, side: null },
    marks: { bars: [], joints: [], paths: [], chosen: null },
  };
  /** Something is to be painted anew before the next frame. */
  let stale = true;
  let asked = false;
  /** Drawing finely takes too long to turn it so. */
  let isSlow = false;
  let ended = false;

  const size = (): Size => ({ width: Math.max(area.clientWidth, 1), height: Math.max(area.clientHeight, 1) });
  const aim = () => {
    if (solids === null) return;
    const eye = gaze.eye();
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
    const moving = gaze.isMoving();
    const coarse = moving && isSlow;
    renderer.setPixelRatio(coarse ? 1 : window.devicePixelRatio);
    renderer.setSize(width, height);
    if (stale) bars.paint(paint.colors, paint.look, paint.standing, paint.marks);
    stale = false;
    bars.coarse(coarse);
    aim();
    const begun = performance.now();
    renderer.render(bars.scene, camera);
    const { hides } = bars;
    const hidden = moving ? null : (at: Vector) => hides(at, camera);
    names.place(camera, { width, height }, gaze.eye().above >= 0, hidden);
    tellDrawn(area, renderer);
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
  const paintAnew = () => {
    stale = true;
    redraw();
  };
  const sizes = new ResizeObserver(redraw);
  sizes.observe(area);
  return {
    canvas,
    size,
    solids: () => solids,
    show: (next) => {
      bars?.end();
      solids = next;
      bars = buildScene(next);
      names.show(next.names, next.places);
      paintAnew();
    },
    paint: (next) => {
      paint = { ...paint, ...next };
      paintAnew();
    },
    redraw,
    subjectAt: ({ x, y }) => {
      const box = canvas.getBoundingClientRect();
      aim();
      const right = (2 * (x - box.left)) / box.width - 1;
      const up = 1 - (2 * (y - box.top)) / box.height;
      return bars?.subjectAt(right, up, camera) ?? null;
    },
    picture: () => {
      // What was drawn is there only within the same turn of the page.
      draw();
      const { groundWords, inkWords } = paint.colors;
      return pictureOf(canvas, groundWords, (context) => {
        names.write(context, canvas.width / size().width, inkWords, groundWords);
      });
    },
    end: () => {
      ended = true;
      sizes.disconnect();
      bars?.end();
      renderer.dispose();
      names.show([], []);
      canvas.remove();
    },
  };
}

/** For those who measure and test: how often it was drawn, and of what. */
function tellDrawn(area: HTMLElement, { info }: WebGLRenderer): void {
  area.dataset.frames = String(Number(area.dataset.frames ?? 0) + 1);
  area.dataset.calls = String(info.render.calls);
  area.dataset.triangles = String(info.render.triangles);
}

async function pictureOf(
  drawn: HTMLCanvasElement,
  ground: string,
  write: (context: CanvasRenderingContext2D) => void,
): Promise<Blob> {
  const copy = document.createElement('canvas');
  [copy.width, copy.height] = [drawn.width, drawn.height];
  const context = copy.getContext('2d');
  if (context === null) throw new Error('There is no canvas to draw on');
  context.fillStyle = ground;
  context.fillRect(0, 0, copy.width, copy.height);
  context.drawImage(drawn, 0, 0);
  write(context);
  const blob = await new Promise<Blob | null>((resolve) => {
    copy.toBlob(resolve, 'image/png');
  });
  if (blob === null) throw new Error('The picture is too large');
  return blob;
}
