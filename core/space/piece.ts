import { type Curve, curveLength } from './curve.ts';

/**
 * What a stretch of a bar is. slot: within the stack. straight: beyond it, along the bar's lean. bend: an
 * edgewise corner. leg: the slope, with the step towards the other bar of a joint at its end. crown: from
 * a leg to the apex of a hairpin. joint: the axial part on which two bars are joined. lead: what goes on
 * beyond it.
 */
export type BarPieceKind = 'slot' | 'straight' | 'bend' | 'leg' | 'crown' | 'joint' | 'lead';

/** What a stretch of a connecting piece or ring is: up from a bar, a corner, round the axis. */
export type LinkPieceKind = 'riser' | 'bend' | 'arc';

/**
 * A smooth stretch of a center line with its exact length. Neighboring pieces meet with one tangent.
 * Several in a row may be of one kind: a crown is an arc and a step, each smooth in itself.
 */
export interface Piece<Kind = BarPieceKind> {
  readonly kind: Kind;
  readonly curve: Curve;
  /** m. */
  readonly length: number;
}

/** The piece of a curve. */
export function pieceOf<Kind>(kind: Kind, curve: Curve): Piece<Kind> {
  return { kind, curve, length: curveLength(curve) };
}

/** The pieces of a bar end up to its joint or tip, and those of the lead that goes on beyond it. */
export function leadApart(pieces: readonly Piece[]): {
  readonly own: readonly Piece[];
  readonly lead: readonly Piece[];
} {
  const first = pieces.findIndex(({ kind }) => kind === 'lead');
  return first < 0 ? { own: pieces, lead: [] } : { own: pieces.slice(0, first), lead: pieces.slice(first) };
}

/** Sum of the lengths of pieces, m. */
export function lengthOf(pieces: readonly Piece<unknown>[]): number {
  return pieces.reduce((sum, { length }) => sum + length, 0);
}
