import type { Pixels } from './viewport.ts';

/** How something is moved: by so many pointers at once, 0 for a key, and with Shift held down. */
export interface Drag {
  readonly fingers: number;
  readonly shifted: boolean;
}

/** What a reader may do to the view by wheel, pointer and key. */
export interface Gestures {
  readonly zoom: (point: Pixels, factor: number) => void;
  readonly move: (by: Pixels, how: Drag) => void;
  readonly fit: () => void;
  /** The wheel zooms; where not, it scrolls, and zooms with Ctrl. */
  readonly wheelZooms: () => boolean;
}

/** One press of a zoom key or button. */
export const zoomStep = 1.25;

const keyMove = 60;
const byKey: Drag = { fingers: 0, shifted: false };

/** Listens to wheel, mouse, pen, fingers and keys on the drawing's area. */
export function listenToGestures(area: HTMLElement, gestures: Gestures): void {
  listenToWheel(area, gestures);
  listenToPointers(area, gestures);
  area.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = keyActions(area, gestures)[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
}

function keyActions(area: HTMLElement, { zoom, move, fit }: Gestures): Readonly<Record<string, () => void>> {
  const middle = { x: area.clientWidth / 2, y: area.clientHeight / 2 };
  const larger = () => zoom(middle, zoomStep);
  return {
    '+': larger,
    '=': larger,
    '-': () => zoom(middle, 1 / zoomStep),
    '0': fit,
    ArrowLeft: () => move({ x: keyMove, y: 0 }, byKey),
    ArrowRight: () => move({ x: -keyMove, y: 0 }, byKey),
    ArrowUp: () => move({ x: 0, y: keyMove }, byKey),
    ArrowDown: () => move({ x: 0, y: -keyMove }, byKey),
  };
}

/** Pixels of the wheel that one turn may count as: pinches come as wheel turns with Ctrl, a few pixels each. */
const largestTurn = 100;

/** The wheel zooms at the pointer; with Shift, or sideways, it scrolls, as does any turn where it does not zoom. */
function listenToWheel(area: HTMLElement, { zoom, wheelZooms }: Gestures): void {
  area.addEventListener(
    'wheel',
    (event) => {
      const sideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
      if (!event.ctrlKey && (sideways || !wheelZooms())) return;
      event.preventDefault();
      zoom(place(area, event), wheelFactor(event));
    },
    { passive: false },
  );
}

/** How much one turn of the wheel zooms: never more with Ctrl than without. */
export function wheelFactor({
  deltaY,
  deltaMode,
  ctrlKey,
}: Pick<WheelEvent, 'deltaY' | 'deltaMode' | 'ctrlKey'>): number {
  const pixels = deltaY * (deltaMode === 0 ? 1 : 20);
  const turn = Math.min(Math.max(pixels * (ctrlKey ? 4 : 1), -largestTurn), largestTurn);
  return Math.exp(-turn / 400);
}

/** One pointer drags; two pinch: their middle moves the picture and their distance zooms it. */
function listenToPointers(area: HTMLElement, { zoom, move }: Gestures): void {
  const down = new Map<number, Pixels>();
  area.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'mouse' && event.button !== 0) return;
    // On a scroll bar.
    const at = place(area, event);
    if (at.x >= area.clientWidth || at.y >= area.clientHeight) return;
    area.setPointerCapture(event.pointerId);
    down.set(event.pointerId, at);
  });
  area.addEventListener('pointermove', (event) => {
    if (!down.has(event.pointerId)) return;
    const before = [...down.values()];
    down.set(event.pointerId, place(area, event));
    const after = [...down.values()];
    move(difference(middle(after), middle(before)), { fingers: after.length, shifted: event.shiftKey });
    if (after.length > 1) zoom(middle(after), spread(after) / Math.max(spread(before), 1));
  });
  for (const end of ['pointerup', 'pointercancel'] as const)
    area.addEventListener(end, (event) => down.delete(event.pointerId));
}

function place(area: HTMLElement, event: MouseEvent): Pixels {
  const box = area.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

function middle(points: readonly Pixels[]): Pixels {
  const sum = points.reduce((total, point) => ({ x: total.x + point.x, y: total.y + point.y }));
  return { x: sum.x / points.length, y: sum.y / points.length };
}

function difference(to: Pixels, from: Pixels): Pixels {
  return { x: to.x - from.x, y: to.y - from.y };
}

/** The distance of the first two pointers, at least 1 pixel. */
function spread([first, second]: readonly Pixels[]): number {
  if (first === undefined || second === undefined) return 1;
  return Math.max(Math.hypot(second.x - first.x, second.y - first.y), 1);
}
