import type { Winding } from '../../winding/model.ts';
import type { BentEnd, Leg } from './shapeData.ts';

/** Heights in a sketch of a bar, from its top down; not to scale. */
export const heights = { end: 8.5, joint: 7.4, slope: 8.5, straight: 5, stack: 9.5, below: 8 } as const;
/** How far leaning bars move aside over half of the stack, and over the straight part beyond it. */
const leanWidth = 2.5;
const straightLean = (leanWidth * heights.straight) / (heights.stack / 2);
/** The same from mid-stack to the end of the straight part. */
export const crownLean = leanWidth + straightLean;
export const barSketchHeight =
  heights.end + 2 * (heights.joint + heights.slope + heights.straight) + heights.stack + heights.below;

export const legDistance = 13;
const bendWidth = 11;

/** Heights on paper of one sketch, down from its top. */
export function levelsFrom(top: number) {
  const end = top + heights.end;
  const bend = end + heights.joint;
  const straight = bend + heights.slope;
  const stackTop = straight + heights.straight;
  const stackBottom = stackTop + heights.stack;
  const farStraight = stackBottom + heights.straight;
  const farBend = farStraight + heights.slope;
  return {
    end,
    bend,
    straight,
    stackTop,
    stackBottom,
    farStraight,
    farBend,
    farEnd: farBend + heights.joint,
  };
}

export type Levels = ReturnType<typeof levelsFrom>;

/** A leg's line in parts. */
export interface LegPoints {
  /** From the free end down to the upper end of the slot part. */
  readonly upper: readonly number[];
  /** From the slot part's lower end to the end of the straight part below it. */
  readonly lower: readonly number[];
  /** Where the leg passes the ends of the stack, and the ends of the straight parts beyond them. */
  readonly x: {
    readonly top: number;
    readonly bottom: number;
    readonly above: number;
    readonly below: number;
  };
}

/** A leg's line about its place in the stack: its straight parts go on along the lean. */
export function legPoints(leg: Leg, winding: Winding, x: number, y: Levels): LegPoints {
  const sense = Math.sign(winding.lean[leg.bar.layer] ?? 0);
  const [topX, bottomX] = [x - sense * leanWidth, x + sense * leanWidth];
  const [upperX, lowerX] = [topX - sense * straightLean, bottomX + sense * straightLean];
  const bend = leg.connection.sense;
  const end = upperX + bendWidth * bend;
  const upper =
    bend === 0
      ? [upperX, y.straight - heights.joint, upperX, y.straight, topX, y.stackTop]
      : [end, y.end, end, y.bend, upperX, y.straight, topX, y.stackTop];
  return {
    upper,
    lower: [bottomX, y.stackBottom, lowerX, y.farStraight],
    x: { top: topX, bottom: bottomX, above: upperX, below: lowerX },
  };
}

/** A bar's end below the stack, on from the straight part. */
export function farEndPoints({ sense }: BentEnd, x: number, y: Levels): readonly number[] {
  if (sense === 0) return [x, y.farStraight + heights.joint];
  const end = x + bendWidth * sense;
  return [end, y.farBend, end, y.farEnd];
}

export type DrawnLeg = LegPoints & { readonly leg: Leg };
