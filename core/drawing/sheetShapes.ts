import type { Winding } from '../winding/model.ts';
import { layerLetter } from '../winding/model.ts';
import { pathShape } from './make.ts';
import { fixedText } from './numberText.ts';
import type { PathPart, Primitive } from './picture.ts';
import { horizontalDimension, verticalChain } from './sheetDimension.ts';
import type { Block } from './sheetFlow.ts';
import {
  type BentEnd,
  bendHeight,
  type Leg,
  type PieceShape,
  type ShapeRow,
  type ShapeSizes,
  type SizeLetter,
  slotPitch,
} from './sheetShapeData.ts';
import { drawHeading, headingHeight } from './sheetTable.ts';
import { lengthRange, millimetreText, signed } from './sheetTables.ts';
import { fitted, line, toBase, wrapped } from './sheetText.ts';

export const sketchWidth = 88;
const notePitch = 3.7;

/** Heights in a sketch of a bar, from its top down; not to scale. */
const heights = { end: 9, joint: 6.5, slope: 10, straight: 6, stack: 13, below: 8 } as const;
const barSketchHeight =
  heights.end + 2 * (heights.joint + heights.slope + heights.straight) + heights.stack + heights.below;

const legDistance = 13;
const bendWidth = 11;
const chainDistance = 31;

/** What sketches need besides their shape. */
export interface SketchContext {
  readonly winding: Winding;
  readonly sizes: ShapeSizes;
  readonly section: string;
}

/** The dimensioned sketch of a shape of the bar list. */
export function barSketch(row: ShapeRow, context: SketchContext): Block {
  const { shape } = row;
  const form = shape.form === 'single-bar' ? 'single bar' : shape.form;
  const words = `Bar shape ${shape.number}: ${form}, quantity ${shape.count}`;
  return sketchBlock(
    `bar-shape-${shape.number}`,
    words,
    context.section,
    barSketchHeight,
    barNotes(row, context),
    (id, left, top) => drawBar(id, row, context, left, top),
  );
}

/** The dimensioned sketch of connecting pieces of one joint shape. */
export function pieceSketch(piece: PieceShape, context: SketchContext): Block {
  const { shape } = piece;
  const words = `Piece, joint shape ${shape.number}: quantity ${piece.joints.length}`;
  return sketchBlock(
    `piece-shape-${shape.number}`,
    words,
    context.section,
    pieceSketchHeight,
    pieceNotes(piece),
    (id, left, top) => drawPiece(id, piece, left, top),
  );
}

function sketchBlock(
  id: string,
  heading: string,
  section: string,
  figureHeight: number,
  notes: readonly string[],
  draw: (id: string, left: number, top: number) => readonly Primitive[],
): Block {
  const lines = notes.flatMap((words) => wrapped(words, 1.8, sketchWidth - 2));
  const height = headingHeight + figureHeight + lines.length * notePitch + 1;
  const drawAll = (left: number, top: number): readonly Primitive[] => [
    ...drawHeading(`${id}-heading`, fitted(heading, 3.5, sketchWidth), left, top),
    ...draw(id, left, top + headingHeight),
    ...lines.map((words, index) => {
      const y = top + headingHeight + figureHeight + index * notePitch + toBase(1.8);
      return line(`${id}-note-${index + 1}`, 'sheet-text', left, y, words, 1.8);
    }),
  ];
  return {
    section,
    width: sketchWidth,
    take: (room) => (room < height ? null : { part: { height, draw: drawAll }, rest: null }),
  };
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
  left: number,
  top: number,
): readonly Primitive[] {
  const y = levelsFrom(top);
  const middle = left + sketchWidth / 2;
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
    const free: PathPart[] = [[upper[0]!, upper[1]!, upper[0]!, upper[1]! + 4]];
    if (hairpin) return free;
    const far = farEndPoints(leg.far, lower.at(-2)!, y);
    const [x, end] = far.slice(-2) as [number, number];
    return [...free, [x, end - 4, x, end]];
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

function sizeWords(letter: SizeLetter, value: number | null): string {
  return value === null ? letter : millimetreText(value);
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

/** Thin lines from places on a bar to a chain of dimensions. */
function leaders(id: string, ends: readonly (readonly [number, number])[], chainX: number): Primitive {
  return pathShape(
    id,
    'dimension-line',
    ends.map(([x, level]) => {
      const way = Math.sign(chainX - x);
      return [x + 1.4 * way, level, chainX + 1 * way, level];
    }),
  );
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

/** Slots as words: 1 slot, 6 slots. */
function slotsWords(count: number): string {
  return `${count} ${count === 1 ? 'slot' : 'slots'}`;
}

function fixedShort(value: number): string {
  return fixedText(value, 2).replace(/\.?0+$/, '');
}

/** What a sketch of a bar says in words below the figure. */
function barNotes({ shape, legs, lengths }: ShapeRow, { winding, sizes }: SketchContext): readonly string[] {
  const reach = legs.map(({ bar, connection, far }) => {
    const letter = layerLetter(bar.layer);
    const ends = [`connection side ${endWords(connection)}`];
    if (shape.form !== 'hairpin') ends.push(`far side ${endWords(far)}`);
    return `${letter}: ${ends.join(', ')}`;
  });
  const order = legs.length > 1 ? 'Layers from left to right. ' : 'Layer ';
  const notes = [`${order}${reach.join('; ')}. Each bar reaches half the span.`];
  const radii = sizes.radii;
  const crown = shape.crown === null ? '' : `Crown ${slotsWords(Math.abs(shape.crown))}. `;
  if (radii === null && crown !== '') notes.push(crown.trim());
  if (radii !== null)
    notes.push(
      `${crown}Mean radius: ${[...new Set(legs.map(({ bar }) => bar.layer))].map((layer) => `${layerLetter(layer)} ${millimetreText(radii[layer]!)}`).join(', ')} mm.`,
    );
  const leans = legs.filter(({ bar }) => (winding.lean[bar.layer] ?? 0) !== 0);
  if (leans.length > 0)
    notes.push(
      `Lean over the stack: ${leans.map(({ bar }) => leanWords(winding, sizes, bar.layer)).join(', ')}; L runs along the bar.`,
    );
  const bare = sizes.bareEnd === null ? 'B' : `${millimetreText(sizes.bareEnd)} mm`;
  const radius =
    sizes.bendRadius === null ? '' : ` Inner bend radius ${millimetreText(sizes.bendRadius)} mm.`;
  if (lengths !== null) notes.push(`Developed length ${lengthRange(lengths)} mm.`);
  notes.push(`Bared ends (thick) ${bare}.${radius} Tolerances: left to the shop.`);
  notes.push(...needWords(sizes));
  return notes;
}

function endWords({ slots, otherLayer }: BentEnd): string {
  return slots === null || otherLayer === null
    ? 'straight'
    : `${signed(slots)} to layer ${layerLetter(otherLayer)}`;
}

function leanWords(winding: Winding, sizes: ShapeSizes, layer: number): string {
  const lean = winding.lean[layer]!;
  const pitches = fixedText((lean * winding.slots) / (2 * Math.PI), 2).replace('-', '\u2212');
  const length = sizes.radii === null ? '' : ` (${millimetreText(Math.abs(lean) * sizes.radii[layer]!)} mm)`;
  return `${layerLetter(layer)} ${lean > 0 ? '+' : ''}${pitches} slots${length}`;
}

const letterWords: Readonly<Record<SizeLetter, string>> = {
  L: 'slot part',
  E: 'straight part',
  H: 'bend height',
  J: 'joint part',
  B: 'bared end',
};

/** Which statement each letter waits for. */
function needWords({ needs, radii }: ShapeSizes): readonly string[] {
  if (needs.size === 0) return [];
  const words = [...needs].map(([letter, statements]) => {
    const give = statements.length === 0 ? '' : ` needs ${statements.join(', ')}`;
    return `${letter} ${letterWords[letter]}${give}`;
  });
  return [`Not given: ${words.join('; ')}.${radii === null ? ' sl.: slots.' : ''}`];
}

const pieceSketchHeight = 36;

/** Two risers and the arc between them. */
function drawPiece(id: string, piece: PieceShape, left: number, top: number): readonly Primitive[] {
  const middle = left + sketchWidth / 2;
  const [from, to] = [middle - 20, middle + 20];
  const [bridge, foot] = [top + 12, top + 30];
  const slots = slotsWords(Math.abs(piece.shape.offset));
  const words = piece.arc === null ? slots : `${millimetreText(piece.arc)} (${slots})`;
  const chainX = middle + chainDistance;
  return [
    pathShape(`${id}-bars`, 'sketch-bar', [[from, foot, from, bridge, to, bridge, to, foot]]),
    pathShape(`${id}-bared`, 'bared-end', [
      [from, foot - 4, from, foot],
      [to, foot - 4, to, foot],
    ]),
    leaders(
      `${id}-leaders`,
      [
        [to, bridge],
        [to, foot],
      ],
      chainX,
    ),
    ...verticalChain({
      id: `${id}-riser`,
      x: chainX,
      beside: 'right',
      stretches: [
        { from: bridge, to: foot, words: piece.riser === null ? 'R' : millimetreText(piece.riser) },
      ],
    }),
    pathShape(`${id}-axes`, 'dimension-line', [
      [from, bridge - 1.4, from, top + 5],
      [to, bridge - 1.4, to, top + 5],
    ]),
    ...horizontalDimension(`${id}-arc`, from, to, top + 6, words),
  ];
}

function pieceNotes({ shape, joints, lengths, riser, levels }: PieceShape): readonly string[] {
  const numbers = joints.map(({ number }) => number);
  const shown = numbers.slice(0, 40).join(', ');
  const more = numbers.length > 40 ? ` and ${numbers.length - 40} more` : '';
  const layers =
    shape.lowerLayer === shape.upperLayer
      ? `in layer ${layerLetter(shape.lowerLayer)}`
      : `from layer ${layerLetter(shape.lowerLayer)} to layer ${layerLetter(shape.upperLayer)}`;
  const side = shape.side === 'far' ? 'Far side' : 'Connection side';
  return [
    `${side}, ${layers}, span ${signed(shape.offset)}, arc at the mean radius; level ${levels.join(', ')} above the end winding.`,
    `Joints ${shown}${more}.`,
    lengths === null ? '' : `Developed length ${lengthRange(lengths)} mm.`,
    riser === null ? 'Not given: R riser, from the sizes of the bars and of the machine.' : '',
  ].filter((words) => words !== '');
}
