import type { Winding } from '../winding/model.ts';
import { pathShape } from './make.ts';
import { fixedText } from './numberText.ts';
import type { PathPart, Primitive } from './picture.ts';
import { barNotes } from './sheetBarNotes.ts';
import { horizontalDimension, verticalChain } from './sheetDimension.ts';
import type { Block } from './sheetFlow.ts';
import {
  type BentEnd,
  bendHeight,
  type Leg,
  type ShapeRow,
  type ShapeSizes,
  slotPitch,
} from './sheetShapeData.ts';
import {
  chainDistance,
  leaders,
  type SketchContext,
  sizeWords,
  sketchBlock,
  slotsWords,
} from './sheetSketch.ts';
import { millimetreText } from './sheetTables.ts';

/** Heights in a sketch of a bar, from its top down; not to scale. */
const heights = { end: 8.5, joint: 5.5, slope: 8.5, straight: 5, stack: 9.5, below: 8 } as const;
const barSketchHeight =
  heights.end + 2 * (heights.joint + heights.slope + heights.straight) + heights.stack + heights.below;

const legDistance = 13;
const bendWidth = 11;

/** The dimensioned sketch of a shape of the bar list. */
export function barSketch(row: ShapeRow, context: SketchContext): Block {
  const { shape } = row;
  const form = shape.form === 'single-bar' ? 'single bar' : shape.form;
  const words = `Bar shape ${shape.number}: ${form}, quantity ${shape.count}`;
  return sketchBlock(
    `bar-shape-${shape.number}`,
    words,
    context,
    barSketchHeight,
    barNotes(row, context),
    (id, middle, top) => drawBar(id, row, context, middle, top),
  );
}

/** Heights on paper of one sketch. */
function levelsFrom(top: number) {
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

type Levels = ReturnType<typeof levelsFrom>;

function drawBar(
  id: string,
  { legs, shape }: ShapeRow,
  { winding, sizes }: SketchContext,
  middle: number,
  top: number,
): readonly Primitive[] {
  const y = levelsFrom(top);
  const hairpin = shape.form === 'hairpin';
  const drawn = legs.map((leg, index) => {
    const x = middle + (hairpin ? (index === 0 ? -legDistance : legDistance) : 0);
    return { leg, ...legPoints(leg, winding, x, y) };
  });
  const bars = drawn.map(({ upper, lower, leg }, index): PathPart => {
    if (!hairpin) return [...upper, ...lower, ...farEndPoints(leg.far, lower.at(-2)!, y)];
    // Both legs meet in the crown; the second is walked back from there.
    const nose = index === 0 ? [middle, y.farBend, middle, y.farEnd] : [middle, y.farBend];
    return [...upper, ...lower, ...nose];
  });
  const bared = drawn.flatMap(({ upper, lower, leg }): PathPart[] => {
    const free: PathPart[] = [[upper[0]!, upper[1]!, upper[0]!, upper[1]! + 3.5]];
    if (hairpin) return free;
    const far = farEndPoints(leg.far, lower.at(-2)!, y);
    const [x, end] = far.slice(-2) as [number, number];
    return [...free, [x, end - 3.5, x, end]];
  });
  const right = drawn.at(-1)!;
  const chainX = { left: middle - chainDistance, right: middle + chainDistance };
  return [
    pathShape(
      `${id}-core`,
      'core-end',
      [y.stackTop, y.stackBottom].map((level) => [
        middle - chainDistance - 1,
        level,
        middle + chainDistance + 1,
        level,
      ]),
    ),
    pathShape(`${id}-bars`, 'sketch-bar', bars),
    pathShape(`${id}-bared`, 'bared-end', bared),
    ...(hairpin ? connectionChain(`${id}-left`, drawn[0]!, sizes, y, chainX.left, 'left') : []),
    ...connectionChain(`${id}-right`, right, sizes, y, chainX.right, 'right'),
    ...verticalChain({
      id: `${id}-stack`,
      x: chainX.right,
      beside: 'right',
      stretches: [
        {
          from: y.stackTop,
          to: y.stackBottom,
          words: sizeWords('L', sizes.active?.[right.leg.bar.layer] ?? null),
        },
      ],
    }),
    ...(hairpin
      ? drawCrown(id, legs, sizes, winding, middle, y, chainX.right)
      : farChain(`${id}-far`, right, sizes, y, chainX.right)),
    ...drawn.flatMap(({ leg, upper, x }, index) =>
      offsetDimension(`${id}-offset-${index}`, leg.connection, leg.bar.layer, context(winding, sizes), {
        axis: x.top,
        end: upper[0]!,
        y: y.end - 4,
        from: [y.straight, y.end],
      }),
    ),
    ...(hairpin
      ? []
      : offsetDimension(`${id}-far-offset`, right.leg.far, right.leg.bar.layer, context(winding, sizes), {
          axis: right.x.bottom,
          end: farEndPoints(right.leg.far, right.x.bottom, y).at(-2)!,
          y: y.farEnd + 2.4,
          from: [y.farStraight, y.farEnd],
        })),
  ];
}

function context(winding: Winding, sizes: ShapeSizes): Pick<SketchContext, 'winding' | 'sizes'> {
  return { winding, sizes };
}

interface LegPoints {
  /** From the free end down to the upper end of the slot part. */
  readonly upper: readonly number[];
  /** From the slot part's lower end to the end of the straight part below it. */
  readonly lower: readonly number[];
  /** Where the leg passes the ends of the stack. */
  readonly x: { readonly top: number; readonly bottom: number };
}

function legPoints(leg: Leg, winding: Winding, x: number, y: Levels): LegPoints {
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

function farEndPoints({ span }: BentEnd, x: number, y: Levels): readonly number[] {
  if (span === null) return [x, y.farStraight + heights.joint];
  const end = x + bendWidth * Math.sign(span);
  return [end, y.farBend, end, y.farEnd];
}

type DrawnLeg = LegPoints & { readonly leg: Leg };

/** Dimensions of a leg's end above the stack, with thin lines from the bar to the chain. */
function connectionChain(
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
function farChain(
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
function drawCrown(
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
  const dimensionY = y.farEnd + 6;
  return [
    leaders(
      `${id}-crown-leaders`,
      [
        [axes[1]!, y.farStraight],
        [middle, y.farBend],
        [middle, y.farEnd],
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
        { from: y.farBend, to: y.farEnd, words: sizeWords('J', sizes.jointStraight) },
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
function offsetDimension(
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
