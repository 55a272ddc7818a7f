import { pathShape } from '../../picture/make.ts';
import { boxOutline } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Subject } from '../../picture/picture.ts';
import type { Block } from './flow.ts';
import { fitted, type LetterHeight, line, lineHeight, toBase, widthOf, wrappedTo } from './text.ts';

/** One cell: words, and what they name. */
export type TableCell = string | { readonly words: string; readonly subject: Subject };

/** A table as it stands on a sheet. */
export interface SheetTable {
  /** Unique in the set; ids of its primitives begin with it. */
  readonly id: string;
  readonly section: string;
  readonly heading: string;
  readonly columns: readonly {
    readonly name: string;
    readonly align?: 'start' | 'end' | 'middle';
    /** Texts wider than this, mm, are cut with an ellipsis. */
    readonly most?: number;
  }[];
  readonly rows: readonly (readonly TableCell[])[];
  /** Words under the heading, one line each. */
  readonly remarks?: readonly string[];
  /** Letter height of the rows. */
  readonly letters?: LetterHeight;
  /** Whether a part may begin with a row: rows that belong together are not parted. Default: with any. */
  readonly begins?: (row: number) => boolean;
  /** A rule after every so many rows. */
  readonly ruleEvery?: number;
}

export const headingHeight = 6.6;
const remarkPitch = 3.8;
const leastRemarkWidth = 80;
/** Longer remarks are cut with an ellipsis. */
const mostRemarkLines = 5;
const headHeight = 4.4;
const cellPad = 1.3;
/** Tables of up to so many rows are not split. */
const wholeRows = 18;

/**
 * The block of a table no wider than `available`: letters of 1.8 mm where it would be wider, then its
 * widest columns cut. Split, each part has its heading and column names.
 */
export function tableBlock(given: SheetTable, available: number): Block {
  const { table, widths } = fittedTable(given, available);
  const width = Math.max(leastRemarkWidth, sum(widths));
  const remarks = (table.remarks ?? []).flatMap((words) => wrappedTo(words, 1.8, width, mostRemarkLines));
  return blockFrom({ ...table, remarks }, widths, 0);
}

function fittedTable(
  table: SheetTable,
  available: number,
): { readonly table: SheetTable; readonly widths: readonly number[] } {
  const widths = columnWidths(table);
  if (sum(widths) <= available) return { table, widths };
  if (table.letters !== 1.8) return fittedTable({ ...table, letters: 1.8 }, available);
  const widest = widths.indexOf(Math.max(...widths));
  // Down to the column next in width, so that all give way evenly.
  const next = Math.max(0, ...widths.filter((_, index) => index !== widest));
  const narrowing = Math.max(1, Math.min(sum(widths) - available, widths[widest]! - next));
  const most = Math.max(1, widths[widest]! - 2 * cellPad - narrowing);
  if (most <= 1) return { table, widths };
  const columns = table.columns.map((column, index) => (index === widest ? { ...column, most } : column));
  return fittedTable({ ...table, columns }, available);
}

/** Width of a table in millimeters. */
function tableWidth(table: SheetTable, widths: readonly number[]): number {
  return Math.max(
    sum(widths),
    widthOf(`${table.heading}, continued`, 3.5),
    ...(table.remarks ?? []).map((words) => widthOf(words, 1.8)),
  );
}

function blockFrom(table: SheetTable, widths: readonly number[], from: number): Block {
  const remarks = from === 0 ? (table.remarks ?? []) : [];
  const head = headingHeight + remarks.length * remarkPitch + columnHeadHeight(table) + 0.4;
  const pitch = rowPitch(table);
  return {
    section: table.section,
    width: tableWidth(table, widths),
    take: (room) => {
      const left = table.rows.length - from;
      const fitting = Math.floor((room - head - 0.4) / pitch);
      // Short tables stay whole; of long ones no part is left with less than three rows.
      if (fitting < Math.min(left, from === 0 && left <= wholeRows ? left : 3)) return null;
      const inTwo = left > fitting && left <= 2 * fitting;
      let count = inTwo ? Math.ceil(left / 2) : Math.min(left, fitting);
      if (left - count > 0 && left - count < 3 && count > 5) count -= 3 - (left - count);
      const kept = keptTogether(table, from, count);
      if (kept === 0 && count < longestTogether) return null;
      count = kept || count;
      return {
        part: {
          height: head + count * pitch + 0.4,
          draw: (x, y) => drawPart(table, widths, { from, count, remarks }, x, y),
        },
        rest: count < left ? blockFrom(table, widths, from + count) : null,
      };
    },
  };
}

/** Rows that belong together are parted where they are as many. */
const longestTogether = 20;

/** As many of `count` rows as leave together what belongs together. */
function keptTogether({ rows, begins = () => true }: SheetTable, from: number, count: number): number {
  let kept = count;
  while (kept > 0 && from + kept < rows.length && !begins(from + kept)) kept--;
  return kept;
}

/** Tables whose columns have no names have no row for these. */
function columnHeadHeight({ columns }: SheetTable): number {
  return columns.some(({ name }) => name !== '') ? headHeight : 0;
}

function rowPitch({ letters = 2.5 }: SheetTable): number {
  return lineHeight(letters) + 0.7;
}

function columnWidths({ columns, rows, letters = 2.5 }: SheetTable): readonly number[] {
  return columns.map(({ name, most = Number.POSITIVE_INFINITY }, column) => {
    let widest = Math.min(most, widthOf(name, 1.8));
    for (const row of rows)
      widest = Math.max(widest, Math.min(most, widthOf(wordsOf(row[column]!), letters)));
    return widest + 2 * cellPad;
  });
}

function wordsOf(cell: TableCell): string {
  return typeof cell === 'string' ? cell : cell.words;
}

interface Slice {
  readonly from: number;
  readonly count: number;
  readonly remarks: readonly string[];
}

function drawPart(
  table: SheetTable,
  widths: readonly number[],
  { from, count, remarks }: Slice,
  left: number,
  top: number,
): readonly Primitive[] {
  const { id, columns, rows, letters = 2.5, ruleEvery = 1 } = table;
  const width = sum(widths);
  const pitch = rowPitch(table);
  const heading = from === 0 ? table.heading : `${table.heading}, continued`;
  const items: Primitive[] = [...drawHeading(`${id}-heading-${from}`, heading, left, top)];
  remarks.forEach((words, index) => {
    const y = top + headingHeight + index * remarkPitch + toBase(1.8);
    items.push(line(`${id}-remark-${index}`, 'sheet-text', left, y, words, { height: 1.8 }));
  });
  const headTop = top + headingHeight + remarks.length * remarkPitch;
  const headed = columnHeadHeight(table) > 0;
  const bodyTop = headTop + columnHeadHeight(table) + 0.4;
  const bottom = bodyTop + count * pitch;
  const starts = widths.map((_, column) => widths.slice(0, column).reduce((sum, each) => sum + each, left));
  const place = (column: number): { x: number; anchor: 'start' | 'middle' | 'end' } => {
    const align = columns[column]!.align ?? 'start';
    const share = { start: cellPad, middle: widths[column]! / 2, end: widths[column]! - cellPad }[align];
    return { x: starts[column]! + share, anchor: align };
  };
  columns.forEach(({ name }, column) => {
    if (name === '') return;
    const { x, anchor } = place(column);
    items.push(
      line(
        `${id}-head-${from}-${column}`,
        'table-head',
        x,
        headTop + 3.1,
        fitted(name, 1.8, widths[column]! - 2 * cellPad + 0.01),
        { height: 1.8, anchor },
      ),
    );
  });
  const rules: PathPart[] = [];
  for (let row = 0; row < count; row++) {
    const y = bodyTop + row * pitch;
    if (row > 0 && (from + row) % ruleEvery === 0) rules.push([left, y, left + width, y]);
    rows[from + row]!.forEach((cell, column) => {
      const { most } = columns[column]!;
      const words = most === undefined ? wordsOf(cell) : fitted(wordsOf(cell), letters, most);
      if (words === '') return;
      const { x, anchor } = place(column);
      const made = line(
        `${id}-${from + row + 1}-${column}`,
        'table-text',
        x,
        y + 0.35 + toBase(letters),
        words,
        { height: letters, anchor },
      );
      items.push(typeof cell === 'string' ? made : { ...made, subject: cell.subject });
    });
  }
  const frame = boxOutline(left, headTop, left + width, bottom);
  items.push(
    pathShape(`${id}-frame-${from}`, 'table-line', [
      frame,
      ...(headed ? [[left, bodyTop - 0.2, left + width, bodyTop - 0.2]] : []),
    ]),
  );
  if (rules.length > 0) items.push(pathShape(`${id}-rules-${from}`, 'table-rule', rules));
  return items;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** A heading of a block, 3.5 mm high. */
export function drawHeading(id: string, words: string, left: number, top: number): readonly Primitive[] {
  return [line(id, 'heading', left, top + toBase(3.5), words, { height: 3.5 })];
}
