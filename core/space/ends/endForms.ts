import type { Connections, WindingJoint } from '../../winding/joints/joints.ts';
import { endShift, type TipChoice, type TipSide, tipFromLower } from '../../winding/joints/tips.ts';
import type { EndSide } from '../../winding/model.ts';
import type { EndSizes } from './endSizes.ts';
import type { EndSlope } from './endSlopes.ts';

/** How a bar end comes to a ring that it does not stand below: both signed, from the center line of its straight part. */
export interface Reach {
  /** Radians round the axis, by which it steps aside before it turns to the ring; 0: it turns at once. */
  readonly round: number;
  /** Along the radius, to the ring's side, m. */
  readonly along: number;
}

/** What the end of a bar is for. */
export type EndUse = 'crown' | 'joint' | 'piece' | 'lead' | 'star';

/** How the end of a bar is bent, whatever the radii of its bends. Lengths in m, angles in radians. */
export interface EndForm {
  readonly side: EndSide;
  /** From 0. */
  readonly layer: number;
  readonly use: EndUse;
  /** Signed angle from the end of its straight part to its tip or apex; null: straight out of the slot. */
  readonly turn: number | null;
  /** The layer of a crown's other leg. */
  readonly crownLayer: number | null;
  /** Along the radius, at the end of the leg, towards the bar it is joined to. */
  readonly shift: number;
  /** Height above the stack of the plane it ends in, and how far it goes on beyond. */
  readonly plane: number;
  readonly lead: number;
  /** How it goes on to the side of a ring; null: it stops there. */
  readonly reach: Reach | null;
}

/** The two ends of all joints of one shape. */
export interface BentShape {
  /** Number of the joint shape. */
  readonly shape: number;
  readonly lower: EndForm;
  readonly upper: EndForm;
}

/** A side with the rises of its rings. */
export interface SlopedSide {
  readonly tips: TipSide;
  readonly sizes: EndSizes;
  readonly slopes: readonly EndSlope[];
}

/** Joints of a side that are bent from their bars, not made `apart`, by shape. Crowns are those of hairpins. */
export function bentShapes(
  { tips, sizes, slopes }: SlopedSide,
  { shapes, joints }: Connections,
  crowns: boolean,
  choices: ReadonlyMap<number, TipChoice>,
  apart: (joint: WindingJoint) => boolean,
): readonly BentShape[] {
  const pitch = (2 * Math.PI) / sizes.slots;
  const { side } = tips;
  const bent = new Set<number>();
  for (const joint of joints) if (!apart(joint)) bent.add(joint.shape);
  const own = shapes.filter((shape) => shape.side === side && bent.has(shape.number));
  const drafts = own.map((shape) => {
    const { lowerLayer, upperLayer, offset, number } = shape;
    const lower = slopes[lowerLayer]!.rise;
    const upper = slopes[upperLayer]!.rise;
    const start = endShift(tips, lowerLayer);
    const end = offset + endShift(tips, upperLayer);
    // The two legs of a crown meet where they have come to one height.
    const tip = crowns
      ? start + ((end - start) * upper) / (lower + upper)
      : tipFromLower(tips, shape, choices.get(number) ?? 'middle');
    const turns = { lower: (tip - start) * pitch, upper: (tip - end) * pitch };
    const rise = Math.max(Math.abs(turns.lower) * lower, Math.abs(turns.upper) * upper);
    return { shape, turns, plane: sizes.endStraight + rise + sizes.jointStraight };
  });
  const highest = drafts.reduce((most, { plane }) => Math.max(most, plane), 0);
  return drafts.map(({ shape, turns, plane }): BentShape => {
    const { lowerLayer, upperLayer } = shape;
    const shift = crowns ? 0 : jointShift(sizes, lowerLayer, upperLayer);
    const common = {
      side,
      use: crowns ? ('crown' as const) : ('joint' as const),
      plane: sizes.levelPlane ? highest : plane,
      lead: 0,
      reach: null,
    };
    return {
      shape: shape.number,
      lower: {
        ...common,
        layer: lowerLayer,
        turn: turns.lower,
        crownLayer: crowns ? upperLayer : null,
        shift,
      },
      upper: {
        ...common,
        layer: upperLayer,
        turn: turns.upper,
        crownLayer: crowns ? lowerLayer : null,
        shift: -shift,
      },
    };
  });
}

/** How far each bar of a joint is set towards the other: half of what they stand further apart than the joint's gap. */
function jointShift({ layers, jointGap }: EndSizes, lower: number, upper: number): number {
  if (jointGap === null || lower === upper) return 0;
  const inner = layers[lower]!;
  const outer = layers[upper]!;
  const gap = outer.radius - inner.radius - (inner.section.height + outer.section.height) / 2;
  return Math.max(0, (gap - jointGap) / 2);
}
