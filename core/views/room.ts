import { textSize } from '../picture/make.ts';

/**
 * The room of a live panel, in millimeters at the scale at which its letters are read. Views are laid out for it:
 * without head and notes, which the panel shows beside them (`Picture.notes`).
 */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** Pixels per millimeter at which ordinary text is 9 pixels high: from there on numbers show, and what leads to them. */
export const legibleFrom = 9 / textSize;

/** Pixels per millimeter from which on small marks on bars show: two pixels and more. */
export const marksFrom = 1.2;

/** Where a view's drawing begins: a page for paper has a head above it, a panel has none. */
export interface Frame {
  readonly margin: number;
  readonly top: number;
  /** Whole width of a panel's drawing; null: as wide as it comes. */
  readonly width: number | null;
}

/** Narrower panels scroll sideways. */
const least = 100;

export function panelFrame(room: Room): Frame {
  return { margin: 3, top: 2, width: Math.max(room.width, least) };
}
