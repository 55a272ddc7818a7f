import type { Winding } from '../../winding/model.ts';
import type { BentEnd, Leg } from './shapeData.ts';

/** Heights in a sketch of a bar, from its top down; not to scale. */
export const heights = { end: 8.5, joint: 5.5, slope: 8.5, straight: 5, stack: 9.5, below: 8 } as const;
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
  /** Where the leg passes the ends of the stack. */
  readonly x: { readonly top: number; readonly bottom: number };
}

/** A leg's line about its place in the stack. */
export function legPoints(leg: Leg, winding: Winding, x: number, y: Levels): LegPoints {
  const lean = 2.5 * Math.sign(winding.lean[leg.bar.layer] ?? 0);
  const [topX, bottomX] = [x - lean, x + lean];
  const { span } = leg.connection;
  const upper =
    span === null
      ? [topX, y.straight - heights.joint, topX, y.stackTop]
      : (() => {
          const end = topX + bendWidth * Math.sign(span);
          return [end, y.end, end, y.bend, topX, y.straight, topX, y.stackTop];
        })();
  return {
    upper,
    lower: [bottomX, y.stackBottom, bottomX, y.farStraight],
    x: { top: topX, bottom: bottomX },
  };
}

/** A bar's end below the stack, on from the straight part. */
export function farEndPoints({ span }: BentEnd, x: number, y: Levels): readonly number[] {
  if (span === null) return [x, y.farStraight + heights.joint];
  const end = x + bendWidth * Math.sign(span);
  return [end, y.farBend, end, y.farEnd];
}

export type DrawnLeg = LegPoints & { readonly leg: Leg };
