import type { Specification } from '../../language/specification/specification.ts';
import { type Bends, regularBends } from '../../winding/joints/bends.ts';
import type { JointHeight } from '../../winding/joints/crossing.ts';
import type { TipSizes } from '../../winding/joints/tips.ts';
import { withoutSizes } from '../../winding/joints/tips.ts';
import type { EndSide, Winding } from '../../winding/model.ts';
import { coatedHeight, coatedWidth } from '../section.ts';
import { type EndSizes, endSizes, straightShare } from './endSizes.ts';
import { type EndSlope, endSlopes, layersThatCannotPass } from './endSlopes.ts';

/** What the text tells of the bar ends on both sides, for the choice of joint tips. */
export function tipSizes(
  specification: Specification,
  winding: Winding,
  bends: Bends = regularBends(winding),
): Readonly<Record<EndSide, TipSizes>> {
  const sizes = endSizes(specification, winding);
  const known = sizes.known && layersThatCannotPass(sizes.value).length === 0 ? sizes.value : null;
  // Bars that do not lean end where they leave the stack, however far they go straight on.
  const share = winding.lean.some((lean) => lean !== 0) ? straightShare(specification) : 0;
  const ofSide = (side: EndSide): TipSizes =>
    known
      ? {
          straightShare: share,
          heights: jointHeights(known, endSlopes(known, bends, side)),
          between: slotsBetween(known),
        }
      : { ...withoutSizes, straightShare: share };
  return { connection: ofSide('connection'), far: ofSide('far') };
}

/**
 * How high the joints of each layer stand for legs that pass above them: their straight part, and what the
 * width of the joint and of the leg takes, m. Null where all joints of a side end in one plane, which is
 * known once all tips are chosen: then none is passed.
 */
export function jointHeights(sizes: EndSizes, slopes: readonly EndSlope[]): readonly JointHeight[] | null {
  if (sizes.levelPlane) return null;
  const pitch = (2 * Math.PI) / sizes.slots;
  return sizes.layers.map(({ section }, layer) => {
    const { rise, angle } = slopes[layer]!;
    return { rise: rise * pitch, straight: sizes.jointStraight + widthAbove(coatedWidth(section), angle) };
  });
}

/** Slots that the upright ends of two layers have to be apart; 0 where the radius keeps them apart. */
function slotsBetween({ layers, slots, endClearance }: EndSizes): readonly (readonly number[])[] {
  return layers.map((a) =>
    layers.map((b) => {
      const [height, other] = [coatedHeight(a.section), coatedHeight(b.section)];
      if (Math.abs(a.radius - b.radius) - (height + other) / 2 >= endClearance) return 0;
      const inner = Math.min(a.radius - height / 2, b.radius - other / 2);
      const width = (coatedWidth(a.section) + coatedWidth(b.section)) / 2;
      return ((width + endClearance) * slots) / (2 * Math.PI * inner);
    }),
  );
}

/**
 * How far above the middle of a leg's end the middle of a leg that passes it has to lie because both are
 * wide: the upper edge of the joint is level, the lower edge of the leg slopes.
 */
function widthAbove(width: number, slope: number): number {
  return ((width / 2) * (1 + Math.sin(slope))) / Math.cos(slope);
}
