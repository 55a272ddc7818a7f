import { wantsLessMotion } from '../motion.ts';
import { lookAt } from '../paint.ts';
import { listenToGestures, zoomStep } from './gestures.ts';
import {
  type Box,
  boxView,
  clampView,
  moveView,
  type Opening,
  openingView,
  type Pixels,
  type Size,
  scrolledView,
  scrollOf,
  seenWidth,
  sightOf,
  type View,
  viewWith,
  zoomView,
} from './viewport.ts';

/** Keeps the drawing's view over repaints and changes of size. */
export interface ViewControl {
  /**
   * Call with each picture's size in millimeters, and how such a picture opens: before it is painted, so that what is
   * seen of it can be painted first.
   */
  readonly repainted: (picture: Size, opening?: Opening) => void;
  /** Takes up a saved view; null opens the picture anew, also when the area changes its size. */
  readonly restore: (view: View | null) => void;
  /** Turns to a part of the picture, in millimeters. */
  readonly show: (box: Box) => void;
  /** Moves the picture gently, if need be, until this part is seen. */
  readonly bringIntoSight: (box: Box) => void;
  /** Moves the picture sideways until this share of its width, from 0 to 1, is in the middle. */
  readonly center: (share: number) => void;
}

/** The parts of the page it works on. */
export interface ViewParts {
  readonly area: HTMLElement;
  readonly fit: HTMLElement;
  readonly zoomIn: HTMLElement;
  readonly zoomOut: HTMLElement;
  /** Hears which part of the picture's width is seen, from 0 to 1. */
  readonly seen?: (part: { readonly from: number; readonly to: number }) => void;
}

/**
 * Connects the drawing's area and the toolbar; `changed` hears of every view the reader chose. The area scrolls as
 * any other does; the drawing itself stays in its sight, and only its viewBox moves, so that large pictures cost no
 * more than small ones.
 */
export function controlView(parts: ViewParts, changed: (view: View | null) => void): ViewControl {
  const { area } = parts;
  const drawing = area.firstElementChild as HTMLElement;
  const extent = document.createElement('div');
  extent.className = 'extent';
  drawing.before(extent);
  extent.append(drawing);
  let picture: Size | null = null;
  let opening: Opening = 'whole';
  let chosen: View | null = null;
  /** Where the area is scrolling to gently; null while it is not. */
  let goal: View | null = null;
  /** Where the area was scrolled to by the last `apply`. */
  let scrolled = { left: 0, top: 0 };

  const areaSize = (): Size => ({
    width: Math.max(area.clientWidth, 1),
    height: Math.max(area.clientHeight, 1),
  });
  const present = (size: Size): View =>
    chosen === null ? openingView(opening, size, areaSize()) : clampView(chosen, size, areaSize());
  const draw = (view: View, size: Size) => {
    const room = areaSize();
    lookAt(drawing, sightOf(view, room), view.scale);
    parts.seen?.(seenWidth(view, size, room));
  };
  const apply = () => {
    // A hidden area has no size.
    if (picture === null || area.clientWidth === 0) return;
    const room = areaSize();
    // A repaint on the way takes it to where it was going.
    if (goal !== null) chosen = goal;
    goal = null;
    const view = present(picture);
    setSize(drawing, room.width, room.height);
    setSize(extent, picture.width * view.scale, picture.height * view.scale);
    scrolled = scrollOf(view, room);
    area.scrollTo({ ...scrolled, behavior: 'instant' });
    draw(view, picture);
  };
  const choose = (next: (view: View, picture: Size) => View) => {
    // A hidden area has no size.
    if (picture === null || area.clientWidth === 0) return;
    chosen = next(present(picture), picture);
    goal = null;
    apply();
    changed(chosen);
  };
  const fit = () => {
    if (area.clientWidth === 0) return;
    chosen = null;
    goal = null;
    apply();
    changed(null);
  };
  const zoom = (point: Pixels, factor: number) =>
    choose((view, size) => zoomView(view, size, areaSize(), point, factor));
  const zoomMiddle = (factor: number) => zoom({ x: area.clientWidth / 2, y: area.clientHeight / 2 }, factor);

  listenToGestures(area, {
    zoom,
    fit,
    move: (by) => choose((view, size) => moveView(view, size, areaSize(), by)),
    wheelZooms: () => opening !== 'width',
  });
  area.addEventListener('scroll', () => {
    const [left, top] = [area.scrollLeft, area.scrollTop];
    // Browsers round where they scroll to.
    if (picture === null || (near(left, scrolled.left) && near(top, scrolled.top))) return;
    scrolled = { left, top };
    chosen = scrolledView(scrolled, present(picture).scale, picture, areaSize());
    draw(chosen, picture);
    changed(chosen);
  });
  area.addEventListener('scrollend', () => {
    goal = null;
  });
  parts.fit.addEventListener('click', fit);
  parts.zoomIn.addEventListener('click', () => zoomMiddle(zoomStep));
  parts.zoomOut.addEventListener('click', () => zoomMiddle(1 / zoomStep));
  new ResizeObserver(apply).observe(area);
  return {
    repainted: (size, how = 'whole') => {
      picture = size;
      opening = how;
      apply();
    },
    show: (box) => choose((_, size) => boxView(box, size, areaSize())),
    bringIntoSight: (box) => {
      if (picture === null) return;
      const view = present(picture);
      const next = viewWith(box, view, picture, areaSize());
      if (next === view) return;
      goal = next;
      area.scrollTo({ ...scrollOf(next, areaSize()), behavior: gently() });
    },
    center: (share) =>
      choose((view, size) => clampView({ ...view, x: share * size.width }, size, areaSize())),
    restore: (view) => {
      chosen = view;
      goal = null;
      apply();
    },
  };
}

function near(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1;
}

function setSize({ style }: HTMLElement, width: number, height: number): void {
  style.width = `${width}px`;
  style.height = `${height}px`;
}

function gently(): ScrollBehavior {
  return wantsLessMotion() ? 'instant' : 'smooth';
}
