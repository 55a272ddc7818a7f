import type { Box as Sight } from '../../../core/picture/bounds.ts';

/** Width and height, of the picture in millimeters or of its area in pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** What of the picture is seen: the point at the middle of the area, in millimeters, and pixels per millimeter. */
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

/** How a view opens: all of it; its height, to be scrolled sideways; its width, to be scrolled down; legible. */
export type Opening = 'whole' | 'height' | 'width' | 'legible';

/** Pixels per millimeter at which ordinary text, 2.5 mm, is 9 pixels high; a hair more, for rounding. */
export const legibleScale = 3.61;

/** Pixels per millimeter at which views are read: ordinary text is 11 pixels high then. */
export const readingScale = 4.4;

const largestScale = 60;
/** Drawings do not open larger than this: 15 pixels of ordinary text. */
const largestOpening = 6;
/** A drawing that is hardly too high opens legible, and is scrolled a little. */
const hardlyTooHigh = 0.7;

/** The view that shows the whole picture. Both sizes are positive. */
export function fitView(picture: Size, area: Size): View {
  const scale = Math.min(area.width / picture.width, area.height / picture.height);
  return { x: picture.width / 2, y: picture.height / 2, scale };
}

/** The view a drawing opens with, and that Fit goes back to. */
export function openingView(opening: Opening, picture: Size, area: Size): View {
  const whole = fitView(picture, area);
  if (opening === 'whole') return whole;
  const scale = Math.min(openingScale(opening, picture, area), Math.max(largestOpening, whole.scale));
  const left = opening === 'legible' ? picture.width / 2 : 0;
  return clampView({ x: left, y: 0, scale }, picture, area);
}

function openingScale(opening: Exclude<Opening, 'whole'>, picture: Size, area: Size): number {
  const [byWidth, byHeight] = [area.width / picture.width, area.height / picture.height];
  switch (opening) {
    case 'width':
      // Charts are laid out no narrower than they can be read: a panel narrower than that scrolls sideways.
      return Math.max(byWidth, legibleScale);
    case 'height':
      return byHeight >= hardlyTooHigh * legibleScale ? Math.max(byHeight, legibleScale) : byHeight;
    case 'legible':
      return Math.max(Math.min(byWidth, byHeight), readingScale);
  }
}

/** The view `factor` times as large, with the picture's point under `point` staying where it is. */
export function zoomView(view: View, picture: Size, area: Size, point: Pixels, factor: number): View {
  const smallest = Math.min(fitView(picture, area).scale, view.scale);
  const scale = Math.min(Math.max(view.scale * factor, smallest), Math.max(largestScale, smallest));
  const shift = 1 / view.scale - 1 / scale;
  return clampView(
    {
      x: view.x + (point.x - area.width / 2) * shift,
      y: view.y + (point.y - area.height / 2) * shift,
      scale,
    },
    picture,
    area,
  );
}

/** The view with the picture moved by so many pixels to the right and down. */
export function moveView(view: View, picture: Size, area: Size, by: Pixels): View {
  return clampView({ ...view, x: view.x - by.x / view.scale, y: view.y - by.y / view.scale }, picture, area);
}

/** A part of the picture, in millimeters. */
export interface Box extends Size {
  readonly x: number;
  readonly y: number;
}

const largestBoxScale = 16;

/** The view with a part of the picture in its middle, three times as wide and high as that part, or more. */
export function boxView(box: Box, picture: Size, area: Size): View {
  const whole = fitView(picture, area).scale;
  const scale = Math.min(area.width / (3 * box.width), area.height / (1.15 * box.height), largestBoxScale);
  return clampView({ ...middleOf(box), scale: Math.max(scale, whole) }, picture, area);
}

/** Pixels round a part of the picture that is brought into sight. */
const sightMargin = 24;

/** The view moved until a part of the picture is in it, with a little room; itself while that part is in it already. */
export function viewWith(box: Box, view: View, picture: Size, area: Size): View {
  const along = (at: number, start: number, size: number, room: number): number => {
    const half = room / 2 / view.scale;
    if (start >= at - half && start + size <= at + half) return at;
    const margin = Math.min(sightMargin / view.scale, Math.max(0, half - size / 2));
    // Of what is larger than the area, its middle.
    if (size > 2 * half) return start + size / 2;
    return Math.min(Math.max(at, start + size + margin - half), start - margin + half);
  };
  const x = along(view.x, box.x, box.width, area.width);
  const y = box.height * view.scale > area.height ? view.y : along(view.y, box.y, box.height, area.height);
  return x === view.x && y === view.y ? view : clampView({ ...view, x, y }, picture, area);
}

/** The view moved back onto the picture; what is smaller than the area stands in its middle. */
export function clampView(view: View, picture: Size, area: Size): View {
  const along = (at: number, size: number, room: number): number => {
    const half = room / 2 / view.scale;
    return size <= 2 * half ? size / 2 : Math.min(Math.max(at, half), size - half);
  };
  return {
    ...view,
    x: along(view.x, picture.width, area.width),
    y: along(view.y, picture.height, area.height),
  };
}

/** The part of the picture's width that is seen, from 0 to 1. */
export function seenWidth({ x, scale }: View, picture: Size, area: Size): { from: number; to: number } {
  const half = area.width / 2 / scale;
  const share = (at: number) => Math.min(Math.max(at / picture.width, 0), 1);
  return { from: share(x - half), to: share(x + half) };
}

/** How far the picture is scrolled, in pixels from its left and top. */
export function scrollOf({ x, y, scale }: View, area: Size): { left: number; top: number } {
  return { left: Math.max(0, x * scale - area.width / 2), top: Math.max(0, y * scale - area.height / 2) };
}

/** The view of an area that is scrolled so far. */
export function scrolledView(
  { left, top }: { readonly left: number; readonly top: number },
  scale: number,
  picture: Size,
  area: Size,
): View {
  const middle = { x: (left + area.width / 2) / scale, y: (top + area.height / 2) / scale };
  return clampView({ ...middle, scale }, picture, area);
}

function middleOf(box: Box): Pixels {
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** The stretch of the picture that fills the area, in millimeters. */
export function sightOf({ x, y, scale }: View, area: Size): Sight {
  const [across, down] = [area.width / scale / 2, area.height / scale / 2];
  return { left: x - across, top: y - down, right: x + across, bottom: y + down };
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
