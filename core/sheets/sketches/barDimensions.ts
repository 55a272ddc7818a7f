import { pathShape } from '../../picture/make.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
import { millimeterText } from '../numbers.ts';
import { crownLean, type DrawnLeg, farEndPoints, heights, type Levels, legDistance } from './barFigure.ts';
import { horizontalDimension, slantingDimension, verticalChain } from './dimension.ts';
import { type BentEnd, type Leg, mainSizes, type ShapeSizes, slotPitch } from './shapeData.ts';
import { leaders, sizeWords, slotsWords } from './sketch.ts';

/** The slot part: beside the stack, and of leaning bars along the bar too, which is longer. */
export function stackDimensions(
  id: string,
  drawn: readonly DrawnLeg[],
  winding: Winding,
  sizes: ShapeSizes,
  y: Levels,
  chainX: number,
): readonly Primitive[] {
  const active = (leg: Leg) => sizeWords('L', sizes.active?.[leg.bar.layer] ?? null);
  const leans = drawn.map(({ leg }) => (winding.lean[leg.bar.layer] ?? 0) !== 0);
  const leaning = leans.includes(true);
  const words = leaning ? sizeWords('S', sizes.stack) : active(drawn.at(-1)!.leg);
  return [
    ...verticalChain({
      id: `${id}-stack`,
      x: chainX,
      beside: 'right',
      stretches: [{ from: y.stackTop, to: y.stackBottom, words }],
    }),
    ...drawn.flatMap(({ leg, x }, index) =>
      leans[index]
        ? slantingDimension({
            id: `${id}-along-${index}`,
            from: [x.top, y.stackTop],
            to: [x.bottom, y.stackBottom],
            beside: index === 0 ? 'left' : 'right',
            distance: 3.5,
            words: active(leg),
          })
        : [],
    ),
  ];
}

/** Dimensions of a leg's end above the stack, with thin lines from the bar to the chain. */
export function connectionChain(
  id: string,
  { leg, upper, x }: DrawnLeg,
  sizes: ShapeSizes,
  y: Levels,
  chainX: number,
  beside: 'left' | 'right',
): readonly Primitive[] {
  const levels = { straight: y.straight, bend: y.bend, end: y.end, stack: y.stackTop };
  const chain = endChain(leg.connection, sizes, levels, { bent: upper[0]!, straight: x.above });
  return [
    leaders(`${id}-leaders`, chain.ends, chainX),
    ...verticalChain({ id, x: chainX, beside, stretches: chain.stretches }),
  ];
}

/** Dimensions of a single bar's end below the stack. */
export function farChain(
  id: string,
  { leg, x }: DrawnLeg,
  sizes: ShapeSizes,
  y: Levels,
  chainX: number,
): readonly Primitive[] {
  const bent = farEndPoints(leg.far, x.below, y)[0]!;
  const levels = { straight: y.farStraight, bend: y.farBend, end: y.farEnd, stack: y.stackBottom };
  const chain = endChain(leg.far, sizes, levels, { bent, straight: x.below });
  return [
    leaders(`${id}-leaders`, chain.ends, chainX),
    ...verticalChain({ id, x: chainX, beside: 'right', stretches: chain.stretches }),
  ];
}

/** Heights on paper of one end, from the stack outwards. */
interface EndLevels {
  readonly stack: number;
  readonly straight: number;
  readonly bend: number;
  readonly end: number;
}

/** The dimensions of an axial end from its tip to the stack: lead, joint, slope, straight; and where they begin. */
function endChain(
  end: BentEnd,
  sizes: ShapeSizes,
  level: EndLevels,
  x: { readonly bent: number; readonly straight: number },
) {
  const own = mainSizes(end);
  const outwards = Math.sign(level.end - level.straight);
  const bent = end.sense !== 0;
  const foot = bent ? level.bend : level.straight;
  const tip = bent ? level.end : level.straight + outwards * heights.joint;
  const at = bent ? x.bent : x.straight;
  const hasLead = own !== null && own.lead > 0;
  const plane = hasLead ? (foot + tip) / 2 : tip;
  const stretches = [
    ...(hasLead ? [{ from: tip, to: plane, words: sizeWords('J', own.lead) }] : []),
    { from: plane, to: foot, words: sizeWords('J', own?.joint ?? sizes.jointStraight) },
    ...(bent ? [{ from: foot, to: level.straight, words: sizeWords('H', own?.rise ?? null) }] : []),
    { from: level.straight, to: level.stack, words: sizeWords('E', sizes.endStraight) },
  ];
  const ends: (readonly [number, number])[] = [
    [at, tip],
    ...(hasLead ? [[at, plane] as const] : []),
    ...(bent ? [[at, foot] as const] : []),
    [x.straight, level.straight],
  ];
  // Chains run down the paper.
  return outwards < 0
    ? { stretches, ends }
    : {
        stretches: [...stretches].reverse().map(({ from, to, words }) => ({ from: to, to: from, words })),
        ends,
      };
}

/** Dimensions of a hairpin's crown: height to the apex, and span. */
export function drawCrown(
  id: string,
  legs: readonly Leg[],
  sizes: ShapeSizes,
  winding: Winding,
  middle: number,
  y: Levels,
  chainX: number,
): readonly Primitive[] {
  const [, second] = legs as readonly [Leg, Leg];
  const bent = legs.map(({ far }) => mainSizes(far));
  const rises = bent.map((own) => own?.rise ?? null);
  const rise = rises.some((each) => each === null) ? null : Math.max(...(rises as number[]));
  const pitches = legs.map(({ bar }) => slotPitch(sizes, winding, bar.layer));
  const turns = bent.map((own, index) =>
    own && sizes.radii ? Math.abs(own.offset) / sizes.radii[legs[index]!.bar.layer]! : null,
  );
  const known = sizes.radii !== null && turns.every((turn) => turn !== null);
  const across = known
    ? ((turns[0]! + turns[1]!) * (pitches[0]! + pitches[1]!) * winding.slots) / (4 * Math.PI)
    : null;
  const words = across === null ? slotsWords(Math.abs(second.far.slots ?? 0)) : millimeterText(across);
  const axes = legs.map(({ bar }, index) => {
    const x = middle + (index === 0 ? -legDistance : legDistance);
    return x + crownLean * Math.sign(winding.lean[bar.layer] ?? 0);
  });
  const dimensionY = y.farBend + 6;
  return [
    leaders(
      `${id}-crown-leaders`,
      [
        [axes[1]!, y.farStraight],
        [middle, y.farBend],
      ],
      chainX,
    ),
    ...verticalChain({
      id: `${id}-crown`,
      x: chainX,
      beside: 'right',
      stretches: [
        { from: y.stackBottom, to: y.farStraight, words: sizeWords('E', sizes.endStraight) },
        { from: y.farStraight, to: y.farBend, words: sizeWords('H', rise) },
      ],
    }),
    pathShape(
      `${id}-crown-axes`,
      'dimension-line',
      axes.map((axis) => [axis, y.farStraight + 1.4, axis, dimensionY + 1]),
    ),
    ...horizontalDimension(`${id}-crown-span`, axes[0]!, axes[1]!, dimensionY, words),
  ];
}

/** How far a bent end lies aside of the end of its bar's straight part. */
export function offsetDimension(
  id: string,
  end: BentEnd,
  at: {
    readonly axis: number;
    readonly end: number;
    readonly y: number;
    readonly from: readonly [number, number];
  },
): readonly Primitive[] {
  if (end.sense === 0) return [];
  const own = mainSizes(end);
  const words = own
    ? millimeterText(Math.abs(own.offset))
    : `${fixedShort(Math.abs(end.slots ?? 0) / 2)} sl.`;
  const beyond = at.y + Math.sign(at.y - at.from[1]) * 0.6;
  const clear = Math.sign(at.y - at.from[1]) * 1.4;
  return [
    pathShape(`${id}-axes`, 'dimension-line', [
      [at.axis, at.from[0] + clear, at.axis, beyond],
      [at.end, at.from[1] + clear, at.end, beyond],
    ]),
    ...horizontalDimension(id, at.axis, at.end, at.y, words, at.y < at.from[1] ? 'above' : 'below'),
  ];
}

function fixedShort(value: number): string {
  return fixedText(value, 2).replace(/\.?0+$/, '');
}
