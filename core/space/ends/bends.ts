import { deriveFigure, type Figure, known, missing } from '../../figures/figure.ts';
import type { EndSide } from '../../winding/model.ts';
import { coatedHeight, coatedWidth } from '../section.ts';
import type { BendRadii, Space } from '../space.ts';
import {
  type EndFinish,
  type EndGeometry,
  type EndLeg,
  type EndRooms,
  type EndStart,
  endFits,
  endGeometry,
  endRooms,
} from './barEnd.ts';
import type { EndForm } from './endForms.ts';
import type { EndSizes } from './endSizes.ts';
import type { EndSlope } from './endSlopes.ts';

/** All that shapes bar ends but the radii of their bends. */
export interface BendInput {
  readonly sizes: EndSizes;
  readonly slopes: Readonly<Record<EndSide, readonly EndSlope[]>>;
}

type Radii = Pick<BendRadii, 'edge' | 'flat'>;

/** The center line of a bar end. */
export function bendEnd(input: BendInput, form: EndForm, radii: Radii): EndGeometry {
  return endGeometry(...endParts(input, form, radii));
}

/** What bends and steps leave of each part of a bar end. */
export function roomsOf(input: BendInput, form: EndForm, radii: Radii): EndRooms {
  return endRooms(...endParts(input, form, radii));
}

/** Whether a bar end can be bent with these radii. */
export function bendsFit(input: BendInput, form: EndForm, radii: Radii): boolean {
  return endFits(roomsOf(input, form, radii));
}

function endParts(
  { sizes, slopes }: BendInput,
  form: EndForm,
  radii: Radii,
): [EndStart, EndLeg | null, EndFinish] {
  const { radius, lean, section } = sizes.layers[form.layer]!;
  const rises = slopes[form.side];
  const crown = form.crownLayer === null ? null : sizes.layers[form.crownLayer]!;
  const widths = [section, ...(crown ? [crown.section] : [])].map(coatedWidth);
  const heights = [section, ...(crown ? [crown.section] : [])].map(coatedHeight);
  return [
    {
      side: form.side === 'far' ? 1 : -1,
      stack: sizes.stack,
      radius,
      lean,
      endStraight: sizes.endStraight,
      jointStraight: sizes.jointStraight,
      edge: radii.edge + Math.max(...widths) / 2,
      flat: radii.flat + Math.max(...heights) / 2,
    },
    form.turn === null ? null : { turn: form.turn, rise: rises[form.layer]!.rise },
    crown && form.crownLayer !== null
      ? { kind: 'crown', otherRadius: crown.radius, otherRise: rises[form.crownLayer]!.rise }
      : { kind: 'axial', shift: form.shift, plane: form.plane, lead: form.lead, reach: form.reach },
  ];
}

/** The radii of bends with this one edgewise: flatwise the same unless another is written. */
export function radiiWith({ sizes: { flatRadius } }: BendInput, edge: number): Radii {
  return { edge, flat: flatRadius ?? edge };
}

/** Radii are assumed in steps of this, m. */
const radiusStep = 1e-4;

/**
 * The radii as written. Without `bend-radius` one bar width, less where the ends would not hold it (0
 * where they hold none).
 */
export function bendRadii(input: BendInput, forms: readonly EndForm[]): BendRadii {
  const { bendRadius, layers } = input.sizes;
  if (bendRadius !== null) return { ...radiiWith(input, bendRadius), assumed: false };
  const width = Math.max(...layers.map(({ section }) => section.width));
  const edge =
    largestThatFits(width, radiusStep, (radius) =>
      forms.every((form) => bendsFit(input, form, radiiWith(input, radius))),
    ) ?? 0;
  return { ...radiiWith(input, edge), assumed: true };
}

/** The bars as the text bends them; missing where radii of bends are only assumed: nothing is bent or judged by these. */
export function bentAsWritten(space: Figure<Space>): Figure<Space> {
  return deriveFigure({ space }, (given) =>
    given.space.bends.assumed ? missing('bar bend-radius') : known(given.space),
  );
}

/**
 * The largest of `most` and the multiples of `step` below it that passes, where all below one that
 * passes do too; null where 0 does not.
 */
export function largestThatFits(
  most: number,
  step: number,
  passes: (value: number) => boolean,
): number | null {
  if (passes(most)) return most;
  if (!passes(0)) return null;
  let good = 0;
  let bad = Math.ceil(most / step - 1e-9);
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (passes(middle * step)) good = middle;
    else bad = middle;
  }
  return good * step;
}
