import type { Speech } from '../../figures/speech.ts';
import type { Bar, EndSide, JointKind, Winding } from '../../winding/model.ts';
import type { Room } from '../room.ts';

/**
 * What joins two bar ends on one side: a joint of a path, or the end of a generated coil that has no
 * joint yet. `span` is signed and unreduced, in slots from `from` to `to`, |span| < slots.
 */
export interface DrawnEnd {
  readonly side: EndSide;
  readonly from: Bar;
  readonly to: Bar;
  /** Slots, signed. */
  readonly span: number;
  readonly kind: 'coil-end' | JointKind;
  /** Joint number; coil ends have none. */
  readonly number?: number | undefined;
  readonly separatePiece: boolean;
  /** Index of the phase, from 0. */
  readonly phase: number;
  readonly path?: number | undefined;
  readonly source?: string | undefined;
}

/** An end of a path: the bar it is at, and on which side; `number` where it is numbered with the joints. */
export interface DrawnPathEnd {
  readonly side: EndSide;
  readonly bar: Bar;
  readonly number?: number | undefined;
  /** Index of the phase, from 0. */
  readonly phase: number;
  readonly path?: number | undefined;
  readonly source?: string | undefined;
}

/** A path end that goes to a terminal. Leads of one terminal on one side meet on a common line. */
export interface DrawnLead extends DrawnPathEnd {
  readonly terminal: string;
}

/** Path ends that meet in a star point. */
export interface DrawnStarPoint {
  /** N, 1N, 2N. */
  readonly name: string;
  readonly ends: readonly DrawnPathEnd[];
}

/** Everything the developed layout shows. */
export interface LayoutInput extends DrawnLayout {
  readonly title: string;
}

/** All of it but the winding's name. */
export interface DrawnLayout {
  readonly winding: Winding;
  readonly ends: readonly DrawnEnd[];
  readonly leads: readonly DrawnLead[];
  readonly starPoints: readonly DrawnStarPoint[];
  /** Why there are no joints, to end a sentence; left out where there are, or where the text does not say how. */
  readonly unjoined?: string | undefined;
  /** Number of the parallel path a bar belongs to; left out while there are no paths. */
  readonly barPath?: ((bar: Bar) => number | undefined) | undefined;
  /** Name of the statement that defines a bar. */
  readonly barSource?: ((bar: Bar) => string | undefined) | undefined;
  /** Lines are drawn by what became of them, so that their width tells nothing else. */
  readonly compared?: boolean | undefined;
  /** What stands out from the rest. */
  readonly emphasis?: Standout | undefined;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** What is to stand out from the rest of a picture: all that meets everything given here. */
export interface Standout {
  /** A phase, from 0. */
  readonly phase?: number | undefined;
  /** The parallel path of this number, of every phase unless one is given. */
  readonly path?: number | undefined;
  /** Bars of a layer, from 0, and the joints that end there. */
  readonly layer?: number | undefined;
  /** Joints and leads of a side; bars have both. */
  readonly side?: EndSide | undefined;
}
