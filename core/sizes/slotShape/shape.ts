import type { SlotRow } from '../slotRows.ts';

/** A bar in its slot: millimeters from the axis outwards, and across. */
export interface BarPlace {
  /** From 0. */
  readonly layer: number;
  readonly from: number;
  /** The outer end. */
  readonly to: number;
  /** Across. */
  readonly width: number;
}

/** One straight piece of the room in the core: a slot or its opening. Millimeters. */
export interface RoomPiece {
  readonly kind: 'slot' | 'opening';
  readonly from: number;
  readonly to: number;
  readonly width: number;
}

/** A row of bars in its slot, between `from` and `to`. Millimeters. */
export interface RowShape {
  /** From 0, inner first. */
  readonly layers: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly width: number;
  /** Thickness. */
  readonly liner: number;
  /** Height along the depth. */
  readonly wedge: number;
  readonly opensInside: boolean;
  readonly opensOutside: boolean;
  /** Of a slot by its number, from 1. */
  readonly barsOf: (slot: number) => readonly BarPlace[];
  /** Their sizes are given and fit; else they share the room evenly. */
  readonly barsToScale: boolean;
  /** Thickness on each face of its bars; 0 where these are not to scale. */
  readonly coating: number;
}

/** A row of slots, in millimeters. */
export interface RowSize {
  readonly row: SlotRow;
  readonly width: number;
  readonly depth: number;
  readonly liner: number;
  readonly wedge: number;
}

/** What bounds the core at one end: a gap, its back, or a break line. */
export type CoreEnd = 'gap' | 'back' | 'break';

/** One slot with all in it, and the core's ends. Millimeters from the axis; developed: from a base. */
export interface SectionShape {
  /** Slot pitches are angles about the axis, or lengths. */
  readonly pitch: { readonly angle: number } | { readonly length: number };
  /** Where the core begins. */
  readonly inner: number;
  /** Where it ends. */
  readonly outer: number;
  readonly innerEnd: CoreEnd;
  readonly outerEnd: CoreEnd;
  readonly pieces: readonly RoomPiece[];
  readonly rows: readonly RowShape[];
  /** What a reader must know about the sizes. */
  readonly notes: readonly string[];
}

/** Millimeters in a meter. */
export const millimeters = 1000;
