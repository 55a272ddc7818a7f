import { lowerBar, offsetOf, upperBar, type WindingJoint } from '../winding/joints/joints.ts';

/** A connecting piece, as far as its level depends on it. */
export type Piece = Pick<WindingJoint, 'number' | 'side' | 'from' | 'to' | 'span'>;

/** Over which slots and layers a connecting piece reaches. */
export interface Arc {
  readonly joint: Piece;
  readonly start: number;
  readonly length: number;
  readonly lower: number;
  readonly upper: number;
}

/** The slots and layers of a connecting piece: from the slot where it starts towards higher numbers. */
export function arcOf(joint: Piece): Arc {
  const lower = lowerBar(joint);
  const start = offsetOf(joint) >= 0 ? lower.slot : upperBar(joint).slot;
  return {
    joint,
    start,
    length: Math.abs(joint.span),
    lower: lower.layer,
    upper: upperBar(joint).layer,
  };
}
