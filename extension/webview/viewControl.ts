import { fixed } from '../../core/language/numbers.ts';
import { listenToGestures, zoomStep } from './gestures.ts';
import {
  type Box,
  boxView,
  fitView,
  keepInSight,
  moveView,
  type Pixels,
  type Size,
  type View,
  viewBox,
  viewWith,
  zoomView,
} from './viewport.ts';

/** Keeps the drawing's view over repaints and changes of size. */
export interface ViewControl {
  /** Call after each repaint with the picture's size in millimetres. */
  readonly repainted: (picture: Size) => void;
  /** Takes up a saved view; null fits the whole picture, also when the area changes its size. */
  readonly restore: (view: View | null) => void;
  /** Turns to a part of the picture, in millimetres. */
  readonly show: (box: Box) => void;
  /** Moves the picture, if need be, until this part is seen. */
  readonly bringIntoSight: (box: Box) => void;
}

/** The parts of the page it works on. */
export interface ViewParts {
  readonly area: HTMLElement;
  readonly fit: HTMLElement;
  readonly zoomIn: HTMLElement;
  readonly zoomOut: HTMLElement;
}

/** Connects the drawing's area and the toolbar; `changed` hears of every view the reader chose. */
export function controlView(parts: ViewParts, changed: (view: View | null) => void): ViewControl {
  const { area } = parts;
  let picture: Size | null = null;
  let chosen: View | null = null;

  const areaSize = (): Size => ({
    width: Math.max(area.clientWidth, 1),
    height: Math.max(area.clientHeight, 1),
  });
  const apply = () => {
    if (picture === null) return;
    const view = chosen === null ? fitView(picture, areaSize()) : keepInSight(chosen, picture);
    area.querySelector('svg')?.setAttribute('viewBox', viewBox(view, areaSize()));
  };
  const choose = (next: (view: View, picture: Size) => View) => {
    if (picture === null) return;
    chosen = next(chosen ?? fitView(picture, areaSize()), picture);
    apply();
    changed(chosen);
  };
  const fit = () => {
    chosen = null;
    apply();
    changed(null);
  };
  const zoom = (point: Pixels, factor: number) =>
    choose((view, size) => zoomView(view, size, areaSize(), point, factor));
  const zoomMiddle = (factor: number) => zoom({ x: area.clientWidth / 2, y: area.clientHeight / 2 }, factor);

  listenToGestures(area, { zoom, fit, move: (by) => choose((view, size) => moveView(view, size, by)) });
  parts.fit.addEventListener('click', fit);
  parts.zoomIn.addEventListener('click', () => zoomMiddle(zoomStep));
  parts.zoomOut.addEventListener('click', () => zoomMiddle(1 / zoomStep));
  new ResizeObserver(apply).observe(area);
  return {
    repainted: (size) => {
      picture = size;
      area.style.setProperty('--proportion', fixed(size.height / size.width, 4));
      apply();
    },
    show: (box) => choose((_, size) => boxView(box, size, areaSize())),
    bringIntoSight: (box) => {
      if (chosen !== null) choose((view, size) => viewWith(box, view, size, areaSize()));
    },
    restore: (view) => {
      chosen = view;
      apply();
    },
  };
}
