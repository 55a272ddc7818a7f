import { pathShape } from './make.ts';
import type { PathPart, Primitive, Subject } from './picture.ts';
import type { Block } from './sheetFlow.ts';
import { fitted, type LetterHeight, line, lineHeight, toBase, widthOf } from './sheetText.ts';

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
    /** Wider texts are cut with an ellipsis. */
    readonly most?: number;
  }[];
  readonly rows: readonly (readonly TableCell[])[];
  /** Words under the heading, one line each. */
  readonly remarks?: readonly string[];
  /** Letter height of the rows. */
  readonly letters?: LetterHeight;
  /** A rule after every so many rows. */
  readonly ruleEvery?: number;
}

export const headingHeight = 6.6;
const remarkPitch = 3.8;
const headHeight = 4.4;
const cellPad = 1.3;

/** The block of a table; split, each part has its heading and column names. */
export function tableBlock(table: SheetTable): Block {
  return blockFrom(table, columnWidths(table), 0);
}

/** Width of a table in millimetres. */
export function tableWidth(table: SheetTable): number {
  return Math.max(
    columnWidths(table).reduce((sum, width) => sum + width, 0),
    widthOf(`${table.heading}, continued`, 3.5),
    ...(table.remarks ?? []).map((words) => widthOf(words, 1.8)),
  );
}

function blockFrom(table: SheetTable, widths: readonly number[], from: number): Block {
  const remarks = from === 0 ? (table.remarks ?? []) : [];
  const head = headingHeight + remarks.length * remarkPitch + headHeight + 0.4;
  const pitch = rowPitch(table);
  return {
    section: table.section,
    width: tableWidth(table),
    take: (room) => {
      const left = table.rows.length - from;
      const fitting = Math.floor((room - head - 0.4) / pitch);
      // No lonely rows: at least three, or all there are.
      if (fitting < Math.min(3, left)) return null;
      let count = Math.min(left, fitting);
      if (left - count > 0 && left - count < 3 && count > 5) count -= 3 - (left - count);
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

function rowPitch({ letters = 2.5 }: SheetTable): number {
  return lineHeight(letters) + 0.7;
}

function columnWidths({ columns, rows, letters = 2.5 }: SheetTable): readonly number[] {
  return columns.map(({ name, most = Number.POSITIVE_INFINITY }, column) => {
    let widest = widthOf(name, 1.8);
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
  const width = widths.reduce((sum, each) => sum + each, 0);
  const pitch = rowPitch(table);
  const heading = from === 0 ? table.heading : `${table.heading}, continued`;
  const items: Primitive[] = [...drawHeading(`${id}-heading-${from}`, heading, left, top)];
  remarks.forEach((words, index) => {
    const y = top + headingHeight + index * remarkPitch + toBase(1.8);
    items.push(line(`${id}-remark-${index}`, 'sheet-text', left, y, words, 1.8));
  });
  const headTop = top + headingHeight + remarks.length * remarkPitch;
  const bodyTop = headTop + headHeight + 0.4;
  const bottom = bodyTop + count * pitch;
  const starts = widths.map((_, column) => widths.slice(0, column).reduce((sum, each) => sum + each, left));
  const place = (column: number): { x: number; anchor: 'start' | 'middle' | 'end' } => {
    const align = columns[column]!.align ?? 'start';
    const share = { start: cellPad, middle: widths[column]! / 2, end: widths[column]! - cellPad }[align];
    return { x: starts[column]! + share, anchor: align };
  };
  columns.forEach(({ name }, column) => {
    const { x, anchor } = place(column);
    items.push(line(`${id}-head-${from}-${column}`, 'table-head', x, headTop + 3.1, name, 1.8, anchor));
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
        letters,
        anchor,
      );
      items.push(typeof cell === 'string' ? made : { ...made, subject: cell.subject });
    });
  }
  const frame = [left, headTop, left + width, headTop, left + width, bottom, left, bottom, left, headTop];
  items.push(
    pathShape(`${id}-frame-${from}`, 'table-line', [
      frame,
      [left, bodyTop - 0.2, left + width, bodyTop - 0.2],
    ]),
  );
  if (rules.length > 0) items.push(pathShape(`${id}-rules-${from}`, 'table-rule', rules));
  return items;
}

/** A heading of a block, 3.5 mm high. */
export function drawHeading(id: string, words: string, left: number, top: number): readonly Primitive[] {
  return [line(id, 'heading', left, top + toBase(3.5), words, 3.5)];
}
