import { significant } from '../../language/numbers.ts';
import { pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { SectionShape } from '../../sizes/slotShape/shape.ts';
import { line, widthOf } from '../page/text.ts';
import { horizontalDimension, verticalChain } from './dimension.ts';
import type { SlotBar, SlotFigure } from './slot.ts';

/** Distance of dimensions above each other. */
export const tierHeight = 6;
const chainGap = 4;
/** Stretches shorter than this on paper have no dimension: the tables have the sizes. */
const leastStretch = 1.6;

/** A width across the slot, and where its extension lines begin. */
interface Width {
  readonly key: string;
  readonly width: number;
  readonly outwards: number;
}

/** How many rows of dimensions stand above and below the slot. */
export function widthTiers(
  shape: SectionShape,
  bars: readonly SlotBar[],
): { readonly above: number; readonly below: number } {
  const { above, below } = widths(shape, bars);
  return { above: above.length, below: below.length };
}

/** Nearest to the core first; wider ones lie farther out, so that no line runs through a text. */
function widths(
  shape: SectionShape,
  bars: readonly SlotBar[],
): { readonly above: readonly Width[]; readonly below: readonly Width[] } {
  const [inner, outer] = [shape.rows[0]!, shape.rows.at(-1)!];
  const openings = shape.pieces.filter(({ kind }) => kind === 'opening');
  const opening = (end: 'gap' | 'back' | 'break', at: 'first' | 'last', slot: number): readonly Width[] => {
    const piece = at === 'first' ? openings[0] : openings.at(-1);
    if (end !== 'gap' || piece === undefined || piece.width > slot - 1e-9) return [];
    return [{ key: `opening-${at}`, width: piece.width, outwards: at === 'first' ? piece.from : piece.to }];
  };
  const drawn = bars.filter(({ toScale }) => toScale);
  const lowest = drawn[0];
  const highest = drawn.at(-1);
  const barAbove = highest !== undefined && shape.outerEnd !== 'gap';
  const bar = (each: SlotBar | undefined, outwards: 'from' | 'to'): readonly Width[] =>
    each === undefined ? [] : [{ key: 'bar-width', width: each.width, outwards: each[outwards] }];
  return {
    above: [
      ...opening(shape.outerEnd, 'last', outer.width),
      ...(barAbove ? bar(highest, 'to') : []),
      { key: 'slot-width', width: outer.width, outwards: outer.to },
    ],
    below: [
      ...opening(shape.innerEnd, 'first', inner.width),
      ...(barAbove ? [] : bar(lowest, 'from')),
      ...(shape.rows.length > 1 && Math.abs(inner.width - outer.width) > 1e-9
        ? [{ key: 'inner-slot-width', width: inner.width, outwards: inner.from }]
        : []),
    ],
  };
}

function sizeText(length: number): string {
  return significant(length, 4);
}

/** Widths above and below, depths at the right, heights of the bars at the left. */
export function drawSlotDimensions(id: string, figure: SlotFigure): readonly Primitive[] {
  const { shape, bars } = figure;
  const { above, below } = widths(shape, bars);
  const widest = (all: readonly Width[]) => Math.max(0, ...all.map(({ width }) => width));
  return [
    ...above.flatMap((width, tier) =>
      drawWidth(id, figure, width, widest(above), figure.top - (tier + 0.7) * tierHeight, -1),
    ),
    ...below.flatMap((width, tier) =>
      drawWidth(id, figure, width, widest(below), figure.bottom + (tier + 1) * tierHeight, 1),
    ),
    ...drawDepths(id, figure),
    ...drawHeights(id, figure),
  ];
}

function drawWidth(
  id: string,
  { place, scale }: SlotFigure,
  { key, width, outwards }: Width,
  /** The widest on the same side, whose lines pass beside this one. */
  widest: number,
  y: number,
  way: 1 | -1,
): readonly Primitive[] {
  if (width * scale < leastStretch) return [];
  const words = sizeText(width);
  const [left, from] = place.at(0, -width / 2, outwards);
  const [right] = place.at(0, width / 2, outwards);
  const axes = pathShape(
    `${id}-${key}-axes`,
    'dimension-line',
    [left, right].map((x): PathPart => [x, from + 0.6 * way, x, y + 0.8 * way]),
  );
  if (widthOf(words, 2.5) + 0.8 <= right - left)
    return [axes, ...horizontalDimension(`${id}-${key}`, left, right, y, words)];
  // A text wider than its dimension stands beside it, and beside the lines of wider ones.
  const textX = Math.max(right + 3, place.at(0, widest / 2, outwards)[0] + 1);
  return [
    axes,
    pathShape(`${id}-${key}-reach`, 'dimension-line', [[right, y, textX - 0.5, y]]),
    ...horizontalDimension(`${id}-${key}`, left, right, y, ''),
    line(`${id}-${key}`, 'dimension-text', textX, y + 1.25, words, { height: 2.5 }),
  ];
}

/** Depths of the slots and heights of their openings, a chain from the inner end outwards. */
function drawDepths(id: string, { shape, place, scale, right }: SlotFigure): readonly Primitive[] {
  const x = right + chainGap;
  const pieces = shape.pieces.filter(({ from, to }) => (to - from) * scale >= leastStretch);
  const half = (piece: (typeof pieces)[number]) => piece.width / 2;
  const ends = pieces.flatMap((piece) =>
    [piece.from, piece.to].map((outwards) => place.at(0, half(piece), outwards)),
  );
  return [
    pathShape(
      `${id}-depth-leaders`,
      'dimension-line',
      ends.map(([from, y]): PathPart => [from + 0.6, y, x + 1, y]),
    ),
    ...verticalChain({
      id: `${id}-depth`,
      x,
      beside: 'right',
      stretches: pieces.map(({ from, to }) => ({
        from: place.at(0, 0, from)[1],
        to: place.at(0, 0, to)[1],
        words: sizeText(to - from),
      })),
    }),
  ];
}

/** Heights of the bars without coating: of all, or of the first of each height where they are thin. */
function drawHeights(id: string, { bars, place, scale, left }: SlotFigure): readonly Primitive[] {
  const x = left - chainGap;
  const legible = bars.filter((bar) => bar.toScale && (bar.to - bar.from) * scale >= 4.2);
  const heights = new Set<string>();
  const shown =
    legible.length === bars.length && bars.length <= 8
      ? legible
      : legible.filter((bar) => {
          const words = sizeText(bar.to - bar.from);
          if (heights.has(words)) return false;
          heights.add(words);
          return true;
        });
  if (shown.length === 0) return [];
  return [
    pathShape(
      `${id}-height-leaders`,
      'dimension-line',
      shown.flatMap((bar) =>
        [bar.from, bar.to].map((outwards): PathPart => {
          const [from, y] = place.at(0, -bar.width / 2, outwards);
          return [from - 0.6, y, x - 1, y];
        }),
      ),
    ),
    ...verticalChain({
      id: `${id}-height`,
      x,
      beside: 'left',
      stretches: shown.map((bar) => ({
        from: place.at(0, 0, bar.from)[1],
        to: place.at(0, 0, bar.to)[1],
        words: sizeText(bar.to - bar.from),
      })),
    }),
  ];
}
