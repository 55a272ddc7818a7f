import type { Wish } from '../../protocol/wish.ts';
import { readView, type View } from './viewport.ts';

/** The zoom and place that the reader chose in each view of a text. */
export type Zooms = Readonly<Record<string, View | null>>;

/** The views between which zoom and place are kept apart. */
export function zoomKey({ view, wholeCircle }: Wish): string {
  return view === 'section' && wholeCircle ? 'section of all slots' : view;
}

/** The zooms that were saved; what is none is left out. */
export function readZooms(value: unknown): Zooms {
  if (typeof value !== 'object' || value === null) return {};
  const entries = Object.entries(value).map(([key, view]) => [key, readView(view)] as const);
  return Object.fromEntries(entries.filter(([, view]) => view !== null));
}
