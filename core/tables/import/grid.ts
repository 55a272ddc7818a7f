import papaparse from 'papaparse';
import { visible } from '../../language/text/visible.ts';

/** A cell of a spreadsheet, with its place. */
export interface GridCell {
  /** From 1, as spreadsheets count. */
  readonly row: number;
  /** From 0: column A. */
  readonly column: number;
  /** Without blanks about it. */
  readonly text: string;
}

export type GridRow = readonly GridCell[];

/** What is wrong with a table, and where; row and column are null where it is the table as a whole. */
export interface TableTrouble {
  readonly row: number | null;
  readonly column: number | null;
  readonly message: string;
}

/** What may stand between the cells of a row. */
const delimiters = [',', ';', '\t', '|'] as const;

/** The trouble of a cell. */
export function troubleAt({ row, column }: GridCell, message: string): TableTrouble {
  return { row, column, message };
}

/** A trouble in words: `row 5, column C: ...`. */
export function troubleWords({ row, column, message }: TableTrouble): string {
  if (row === null) return message;
  const place = column === null ? '' : `, column ${columnName(column)}`;
  return `row ${row}${place}: ${message}`;
}

/** The letters of a column, as spreadsheets name it: A, B ... Z, AA. */
export function columnName(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnName(Math.floor(column / 26) - 1) + last;
}

/** The words of a cell as a message may quote them, long ones cut. */
export function quoted(text: string): string {
  const shown = visible(text);
  return `'${shown.length > 24 ? `${shown.slice(0, 24)}…` : shown}'`;
}

/**
 * The rows of a text by each delimiter that yields more than one column, likeliest first: a first line `sep=;`
 * decides, else the delimiter that the most rows hold equally often. Empty rows are left out.
 */
export function grids(text: string): readonly (readonly GridRow[])[] {
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const said = /^"?sep=([^\r\n])"?\r?\n?/i.exec(body);
  if (said) return [gridOf(body.slice(said[0].length), said[1]!, 1)];
  const read = delimiters.map((delimiter) => ({ delimiter, rows: gridOf(body, delimiter, 0) }));
  const usable = read.filter(({ rows }) => rows.some((row) => row.length > 1));
  const ranked = (usable.length > 0 ? usable : read.slice(0, 1)).map(({ rows }) => ({
    rows,
    evenness: evenness(rows),
  }));
  return ranked.sort((a, b) => b.evenness - a.evenness).map(({ rows }) => rows);
}

/** How many rows have the commonest number of cells above one. */
function evenness(rows: readonly GridRow[]): number {
  const counts = new Map<number, number>();
  for (const { length } of rows) if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
  return Math.max(0, ...counts.values());
}

function gridOf(text: string, delimiter: string, before: number): readonly GridRow[] {
  const { data } = papaparse.parse(text, { delimiter, skipEmptyLines: false });
  return data
    .map((cells, index): GridRow => {
      const row = index + 1 + before;
      return cells.map((cell, column) => ({ row, column, text: cell.trim() }));
    })
    .filter((row) => row.some(({ text: words }) => words !== ''));
}
