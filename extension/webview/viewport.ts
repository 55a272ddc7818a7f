import { fixed } from '../../core/language/numbers.ts';
/** Width and height, of the picture in millimetres or of its area in pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** What of the picture is seen: the point at the middle of the area, in millimetres, and pixels per millimetre. */
export interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** A point or a movement in the area, in pixels from its top left. */
export interface Pixels {
  readonly x: number;
  readonly y: number;
}

const marginShare = 0.02;
const largestScale = 60;

/** The view that shows the whole picture with a narrow margin. Both sizes are positive. */
export function fitView(picture: Size, area: Size): View {
  const scale = Math.min(area.width / picture.width, area.height / picture.height) * (1 - 2 * marginShare);
  return { x: picture.width / 2, y: picture.height / 2, scale };
}

/** The view `factor` times as large, with the picture's point under `point` staying where it is. */
export function zoomView(view: View, picture: Size, area: Size, point: Pixels, factor: number): View {
  const smallest = fitView(picture, area).scale / 2;
  const scale = Math.min(Math.max(view.scale * factor, smallest), Math.max(largestScale, smallest));
  const shift = 1 / view.scale - 1 / scale;
  return keepInSight(
    {
      x: view.x + (point.x - area.width / 2) * shift,
      y: view.y + (point.y - area.height / 2) * shift,
      scale,
    },
    picture,
  );
}

/** The view with the picture moved by so many pixels to the right and down. */
export function moveView(view: View, picture: Size, by: Pixels): View {
  return keepInSight({ ...view, x: view.x - by.x / view.scale, y: view.y - by.y / view.scale }, picture);
}

/** A part of the picture, in millimetres. */
export interface Box extends Size {
  readonly x: number;
  readonly y: number;
}

const largestBoxScale = 16;

/** The view with a part of the picture in its middle, three times as wide and high as that part, or more. */
export function boxView(box: Box, picture: Size, area: Size): View {
  const whole = fitView(picture, area).scale;
  const scale = Math.min(area.width / (3 * box.width), area.height / (1.15 * box.height), largestBoxScale);
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  return keepInSight({ ...middle, scale: Math.max(scale, whole) }, picture);
}

/** The view moved no further than it takes to see the middle of a part of the picture. */
export function viewWith(box: Box, view: View, picture: Size, area: Size): View {
  const [halfWidth, halfHeight] = [area.width / view.scale / 2.5, area.height / view.scale / 2.5];
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const moved = {
    ...view,
    x: Math.min(Math.max(view.x, x - halfWidth), x + halfWidth),
    y:
      box.height * view.scale > area.height
        ? view.y
        : Math.min(Math.max(view.y, y - halfHeight), y + halfHeight),
  };
  return keepInSight(moved, picture);
}

/** The view with its middle brought back onto the picture, so that the picture cannot be lost. */
export function keepInSight(view: View, picture: Size): View {
  return { ...view, x: clamp(view.x, picture.width), y: clamp(view.y, picture.height) };
}

function clamp(value: number, limit: number): number {
  return Math.min(Math.max(value, 0), limit);
}

/** The stretch of the picture that fills the area, as an SVG viewBox. */
export function viewBox({ x, y, scale }: View, area: Size): string {
  const width = area.width / scale;
  const height = area.height / scale;
  return [x - width / 2, y - height / 2, width, height].map((value) => fixed(value, 4)).join(' ');
}

/** A view that was saved, or null where the value is none. */
export function readView(value: unknown): View | null {
  if (typeof value !== 'object' || value === null) return null;
  const { x, y, scale } = value as Partial<Record<keyof View, unknown>>;
  if (!isMeasure(x) || !isMeasure(y) || !isMeasure(scale) || scale <= 0) return null;
  return { x, y, scale };
}

function isMeasure(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}
