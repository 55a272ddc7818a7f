import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { legibleFrom } from '../room.ts';
import { spread } from './levels.ts';

/** A line that leaves at one cut edge and comes back at the other, on paper. */
export interface Cut {
  readonly left: number;
  readonly right: number;
  readonly y: number;
  readonly number: string;
}

/** How the numbers of one side's cut lines are arranged beyond both edges. */
export interface CutColumns {
  /** Cuts that get a number, from top to bottom. */
  readonly numbered: readonly {
    readonly cut: Pick<Cut, 'y' | 'number'>;
    readonly shelf: number;
    readonly column: number;
  }[];
  readonly columns: number;
  readonly columnWidth: number;
  /** Room the numbers take beyond each edge. */
  readonly width: number;
  /** 1: every cut line is numbered; n: every n-th. */
  readonly step: number;
}

/** Width over which the numbers' lines spread before the first column. */
const fan = 5;
const mostColumns = 4;
const shelfGap = 0.55;

/**
 * Arranges the numbers of cuts (sorted by y) between top and bottom: each stands on a thin line of its
 * own that leads to its cut; where one column is too short they take up to four, and where those are
 * too few every n-th cut gets one.
 */
export function arrangeCutNumbers(
  cuts: readonly Pick<Cut, 'y' | 'number'>[],
  top: number,
  bottom: number,
): CutColumns {
  const room = Math.max(bottom - top, textRow);
  const rowHeight = (columns: number) => textRow + 0.2 + shelfGap * (columns - 1);
  const capacity = (columns: number) => columns * Math.max(1, Math.floor(room / rowHeight(columns)));
  let columns = 1;
  while (columns < mostColumns && capacity(columns) < cuts.length) columns++;
  const step = Math.max(1, Math.ceil(cuts.length / capacity(columns)));
  const chosen = cuts.filter((_, index) => index % step === 0);
  const columnWidth = Math.max(0, ...chosen.map(({ number }) => textWidth(number, textSize))) + 0.8;
  const rows: (typeof chosen)[] = [];
  for (let index = 0; index < chosen.length; index += columns)
    rows.push(chosen.slice(index, index + columns));
  const height = rowHeight(columns);
  const shelves = spread(
    rows.map((row) => row.reduce((sum, { y }) => sum + y, 0) / row.length),
    height,
    top + textRow,
    bottom - shelfGap * (columns - 1),
  );
  return {
    numbered: rows.flatMap((row, index) =>
      row.map((cut, column) => ({ cut, column, shelf: shelves[index]! + column * shelfGap })),
    ),
    columns,
    columnWidth,
    width: chosen.length === 0 ? 0 : fan + columns * columnWidth,
    step,
  };
}

/** The numbers and their lines beyond both edges; `edges` are the places from which the numbers' room begins. */
export function drawCutNumbers(
  id: string,
  cuts: readonly Cut[],
  arranged: CutColumns,
  edges: { readonly left: number; readonly right: number },
): readonly Primitive[] {
  const byNumber = new Map(cuts.map((cut) => [cut.number, cut]));
  const drawn = arranged.numbered.flatMap((numbered) => {
    const { left, right, y, number } = byNumber.get(numbered.cut.number)!;
    return [
      drawCutNumber(`cut-left-${id}-${number}`, numbered, arranged, [left, y], edges.left, -1),
      drawCutNumber(`cut-right-${id}-${number}`, numbered, arranged, [right, y], edges.right, 1),
    ];
  });
  return withLeaders(`cut-leaders-${id}`, drawn, legibleFrom);
}

/** A number with the line that leads to it. */
interface LedNumber {
  readonly leader: PathPart;
  readonly name: Primitive;
}

/** One number of a cut on paper, beyond the edge `start` outwards: to the right, `way` 1, or the left. */
export function drawCutNumber(
  id: string,
  { cut: { number }, shelf, column }: CutColumns['numbered'][number],
  { columnWidth }: CutColumns,
  [x, y]: readonly [number, number],
  start: number,
  way: 1 | -1,
): LedNumber {
  const at = (distance: number) => start + way * distance;
  const near = fan + column * columnWidth;
  return {
    leader: [x, y, at(0.8), y, at(fan - 0.4), shelf, at(near + columnWidth - 0.4), shelf],
    name: text(
      id,
      'cut-number',
      at(near + columnWidth / 2 - 0.4),
      shelf - textRow + baseLine - 0.12,
      number,
      { anchor: 'middle' },
    ),
  };
}

/** Their lines as one path, and the numbers. */
export function withLeaders(
  id: string,
  numbers: readonly LedNumber[],
  shownFrom?: number,
): readonly Primitive[] {
  if (numbers.length === 0) return [];
  const leaders = numbers.map(({ leader }) => leader);
  return [pathShape(id, 'cut-leader', leaders, { shownFrom }), ...numbers.map(({ name }) => name)];
}
