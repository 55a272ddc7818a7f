import { significant, withMinus } from '../language/numbers.ts';
import { fixedText } from '../picture/numberText.ts';
import { type Column, headingOf, scaledUnit } from '../tables/column.ts';
import { millimeterText, signed } from './numbers.ts';
import type { SheetTable, TableCell } from './page/table.ts';

/** Columns and rows of a sheet's table, of columns that are described in `core/tables`. */
export function columnsAndRows<Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
): Pick<SheetTable, 'columns' | 'rows'> {
  return {
    columns: columns.map((column) => ({ name: headingOf(column), ...alignment(column) })),
    rows: rows.map((row) => columns.map((column) => printedCell(column, row))),
  };
}

function alignment<Row>({ align }: Column<Row>): { readonly align?: 'end' | 'middle' } {
  return align === undefined ? {} : { align: align === 'right' ? 'end' : align };
}

/** A cell as print has it: lengths in mm with one decimal, slots with their sign; what is not known is empty. */
function printedCell<Row>(column: Column<Row>, row: Row): TableCell {
  const value = column.value(row);
  const words = typeof value === 'number' ? withMinus(printedNumber(column, value)) : (value ?? '');
  const subject = column.subject?.(row);
  return subject ? { words, subject } : words;
}

function printedNumber(column: Pick<Column<never>, 'unit'>, value: number): string {
  const { unit } = column;
  const scaled = scaledUnit(column);
  if (scaled) return significant(value / scaled.factor, 4);
  if (unit === 'factor') return fixedText(value, 3);
  if (unit === 'edeg') return fixedText(value, 1);
  if (unit === 'slots') return signed(value);
  return unit === 'length' ? millimeterText(value) : String(value);
}
