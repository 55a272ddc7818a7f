import type { Figure } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Connections } from '../winding/joints/joints.ts';
import type { TipSpacing } from '../winding/joints/tips.ts';
import type { Bar, EndSide, Winding } from '../winding/model.ts';
import type { EndGeometry } from './ends/barEnd.ts';
import type { EndForm } from './ends/endForms.ts';
import type { LayerSizes } from './ends/endSizes.ts';
import type { EndSlope } from './ends/endSlopes.ts';
import type { LinkPieceKind, Piece } from './piece.ts';
import type { Section } from './section.ts';
import type { SpaceProblem } from './spaceProblems.ts';

/**
 * Every bar of a winding in space. How to walk it: a bar is its layer's `slotParts` piece and two
 * `BarEnd`s, each a list of pieces from the stack's face outwards; all are those of a bar in slot 1 and
 * stand at `turn` radians about the axis: `stationAt(piece.curve, fraction, bar.turn)` gives point and
 * frame, with the layer's section across it. `chordsFor` says how many chords follow a curve closely.
 * From one end of a bar to the other: the connection side's pieces backwards, the slot part, the far
 * side's pieces. Many bars share one end: `ends` lists each once, and what is computed for an end holds
 * for all bars that share it, turned. Lengths in m, angles in radians.
 */
export interface Space {
  readonly slots: number;
  /** Its length. */
  readonly stack: number;
  /** From the axis outwards. */
  readonly layers: readonly LayerSizes[];
  /** The slopes of each side's rings, one a layer. */
  readonly slopes: Readonly<Record<EndSide, readonly EndSlope[]>>;
  readonly bends: BendRadii;
  /** Height of the straight part before the first bend, m. */
  readonly endStraight: number;
  /** Within the stack, one a layer, from the connection side to the far side. */
  readonly slotParts: readonly Piece[];
  /** Every distinct bar end. */
  readonly ends: readonly BarEnd[];
  /** By place as in the slot table's `cells`; null for empty places. */
  readonly bars: readonly (SpaceBar | null)[];
  readonly links: readonly ConnectingPiece[];
  readonly rings: readonly EndRing[];
  /** Height above the stack at which the joints of a side end; null where no joint is made from its bars. */
  readonly jointPlanes: Readonly<Record<EndSide, HeightRange | null>>;
  /** How far bars, pieces and rings stand out of the stack, coating included. */
  readonly overhang: Readonly<Record<EndSide, number>>;
}

/** Inner radii of all bends, m. */
export interface BendRadii {
  /** Of bends within the surface of a layer. */
  readonly edge: number;
  /** Of bends out of it. */
  readonly flat: number;
  /** Not written, but taken from the bars' width. */
  readonly assumed: boolean;
}

/** From the lowest to the highest, m above the stack. */
export interface HeightRange {
  readonly lowest: number;
  readonly highest: number;
}

/** One end of bars that are bent alike. */
export interface BarEnd extends EndForm, EndGeometry {
  /** Place in `Space.ends`. */
  readonly index: number;
}

/** A bar: its ends, the joint or path end each belongs to (by number), and its place round the axis. */
export interface SpaceBar {
  readonly bar: Bar;
  /** Radians about the axis from slot 1. */
  readonly turn: number;
  readonly connection: BarEnd;
  readonly far: BarEnd;
  /** Of the joint or path end there. */
  readonly connectionNumber: number;
  /** The same on the far side. */
  readonly farNumber: number;
}

/** A separate connecting piece from the tip of one bar to that of another. */
export interface ConnectingPiece {
  /** Its number. */
  readonly joint: number;
  /** Index of the path it is part of. */
  readonly path: number;
  readonly side: EndSide;
  readonly from: Bar;
  readonly to: Bar;
  /** From 1, the lowest. */
  readonly level: number;
  readonly section: Section;
  /** Radians about the axis at which its pieces stand: those of its first bar. */
  readonly turn: number;
  readonly pieces: readonly Piece<LinkPieceKind>[];
  /** Along the center line. */
  readonly length: number;
  /** Height of the level part's center line above the stack. */
  readonly height: number;
  /** Signed distance along the radius by which its level part runs beside its feet, so that risers pass beside each other's. */
  readonly beside: number;
  /** Radius of its corners' center line. */
  readonly corner: number;
}

/** A ring above the bar ends of a star point or terminal. */
export interface EndRing {
  /** The star point or terminal: N, U1; of a delta both: U1 W2. */
  readonly name: string;
  readonly kind: 'star' | 'terminal';
  readonly side: EndSide;
  /** From 1, above the connecting pieces. */
  readonly level: number;
  readonly section: Section;
  readonly piece: Piece<LinkPieceKind>;
  /** Of its center line above the stack. */
  readonly height: number;
  /** The bars whose ends it joins. */
  readonly bars: readonly Bar[];
}

/** What the bars in space are made from: sizes and wishes of the text, and how the bars are joined. */
export interface SpaceInput {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connections: Connections;
  /** How the joint tips of a side are spread for the text's sizes, where that is known already. */
  readonly tips?: (side: EndSide) => TipSpacing | null;
}

/** The bars in space, and what stands in their way. */
export interface SpaceResult {
  readonly space: Figure<Space>;
  readonly problems: readonly SpaceProblem[];
}
