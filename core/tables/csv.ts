import papaparse from 'papaparse';
import { fixed } from '../language/numbers.ts';
import { type Cell, type ColumnDescription, headingOf, type MadeTable, scaledUnit } from './column.ts';

/** A table as CSV (RFC 4180: CRLF, header row, UTF-8 without a mark; `.` decimals); what is not known is empty. */
export function csvText({ columns, cells }: MadeTable): string {
  const rows = cells.map((row) => row.map((cell, index) => csvCell(columns[index]!, cell)));
  const options = { newline: '\r\n', escapeFormulae: formula };
  return `${papaparse.unparse([columns.map(csvHeading), ...rows], options)}\r\n`;
}

/** What a spreadsheet would take for a formula: not a negative number, which is to stay one. */
const formula = /^(?!-\d+(?:\.\d+)?$)[=+\-@\t\r]/;

/** A heading in one word, as the report's JSON has its names: `EMF angle` is `emfAngle`. */
export function csvHeading(column: ColumnDescription): string {
  const [first = '', ...rest] = headingOf(column).replace('\u00b0C', 'degC').replace('/', ' per ').split(' ');
  return [first.toLowerCase(), ...rest.map((word) => word.slice(0, 1).toUpperCase() + word.slice(1))].join(
    '',
  );
}

/**
 * A cell as a CSV file has it: lengths in mm or m, numbers to six decimals without a negative zero, factors and
 * meters with nine, so that no exponent is ever needed.
 */
export function csvCell(column: ColumnDescription, cell: Cell): Cell {
  if (typeof cell !== 'number') return cell;
  const { unit } = column;
  if (unit === 'factor' || unit === 'meters') return fixed(cell, 9);
  const shown = unit === 'length' ? cell * 1000 : cell / (scaledUnit(column)?.factor ?? 1);
  return Math.round(shown * 1e6) / 1e6 + 0;
}
