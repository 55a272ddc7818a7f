import { pathShape } from '../../picture/make.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
import { millimetreText } from '../tables.ts';
import { type DrawnLeg, farEndPoints, heights, type Levels, legDistance } from './barFigure.ts';
import { horizontalDimension, slantingDimension, verticalChain } from './dimension.ts';
import { type BentEnd, bendHeight, type Leg, type ShapeSizes, slotPitch } from './shapeData.ts';
import { leaders, type SketchContext, sizeWords, slotsWords } from './sketch.ts';

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
  const straight = { from: y.straight, to: y.stackTop, words: sizeWords('E', sizes.endStraight) };
  const joint = sizeWords('J', sizes.jointStraight);
  const bent = leg.connection.span !== null;
  const stretches = bent
    ? [
        { from: y.end, to: y.bend, words: joint },
        {
          from: y.bend,
          to: y.straight,
          words: sizeWords('H', bendHeight(sizes, leg.bar.layer, leg.connection.span)),
        },
        straight,
      ]
    : [{ from: y.straight - heights.joint, to: y.straight, words: joint }, straight];
  const ends: readonly (readonly [number, number])[] = bent
    ? [
        [upper[0]!, y.end],
        [upper[0]!, y.bend],
        [x.top, y.straight],
      ]
    : [
        [x.top, y.straight - heights.joint],
        [x.top, y.straight],
      ];
  return [leaders(`${id}-leaders`, ends, chainX), ...verticalChain({ id, x: chainX, beside, stretches })];
}

/** Dimensions of a single bar's end below the stack. */
export function farChain(
  id: string,
  { leg, x }: DrawnLeg,
  sizes: ShapeSizes,
  y: Levels,
  chainX: number,
): readonly Primitive[] {
  const bent = leg.far.span !== null;
  const end = farEndPoints(leg.far, x.bottom, y);
  const straight = { from: y.stackBottom, to: y.farStraight, words: sizeWords('E', sizes.endStraight) };
  const joint = sizeWords('J', sizes.jointStraight);
  const stretches = bent
    ? [
        straight,
        {
          from: y.farStraight,
          to: y.farBend,
          words: sizeWords('H', bendHeight(sizes, leg.bar.layer, leg.far.span)),
        },
        { from: y.farBend, to: y.farEnd, words: joint },
      ]
    : [straight, { from: y.farStraight, to: y.farStraight + heights.joint, words: joint }];
  const ends: [number, number][] = [[x.bottom, y.farStraight]];
  for (let index = 0; index < end.length; index += 2) ends.push([end[index]!, end[index + 1]!]);
  return [
    leaders(`${id}-leaders`, ends, chainX),
    ...verticalChain({ id, x: chainX, beside: 'right', stretches }),
  ];
}

/** Dimensions of a hairpin's crown: height and span. */
export function drawCrown(
  id: string,
  legs: readonly Leg[],
  sizes: ShapeSizes,
  winding: Winding,
  middle: number,
  y: Levels,
  chainX: number,
): readonly Primitive[] {
  const [first, second] = legs as readonly [Leg, Leg];
  const rises = legs.map(({ bar, far }) => bendHeight(sizes, bar.layer, far.span));
  const rise = rises.some((each) => each === null) ? null : Math.max(...(rises as number[]));
  const pitches = legs.map(({ bar }) => slotPitch(sizes, winding, bar.layer));
  const span = first.far.span;
  const known = pitches.every((pitch) => pitch !== null) && span !== null;
  const words = known
    ? millimetreText((Math.abs(span) * (pitches[0]! + pitches[1]!)) / 2)
    : slotsWords(Math.abs(second.far.slots ?? 0));
  const x = legs.map((_, index) => middle + (index === 0 ? -legDistance : legDistance));
  const leans = legs.map(({ bar }) => 2.5 * Math.sign(winding.lean[bar.layer] ?? 0));
  const axes = x.map((each, index) => each + leans[index]!);
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

/** How far a bent end lies aside of its bar: half of the joint's span, the other bar reaching the rest. */
export function offsetDimension(
  id: string,
  { span, slots }: BentEnd,
  layer: number,
  { winding, sizes }: Pick<SketchContext, 'winding' | 'sizes'>,
  at: {
    readonly axis: number;
    readonly end: number;
    readonly y: number;
    readonly from: readonly [number, number];
  },
): readonly Primitive[] {
  if (span === null || slots === null) return [];
  const pitch = slotPitch(sizes, winding, layer);
  const half = Math.abs(span) / 2;
  const words = pitch === null ? `${fixedShort(Math.abs(slots) / 2)} sl.` : millimetreText(half * pitch);
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
