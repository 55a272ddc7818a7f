import { fixed, significant } from '../../language/numbers.ts';
import {
  type Cell,
  type Column,
  type ColumnDescription,
  headingOf,
  scaledUnit,
} from '../../tables/column.ts';

/** A Markdown table; numbers are best aligned right. Cells are Markdown already, without line breaks; their pipes are escaped here. */
export function markdownTable(
  head: readonly string[],
  align: readonly ('left' | 'right')[],
  rows: readonly (readonly string[])[],
): string {
  const line = (cells: readonly string[]) => `| ${cells.map(cellText).join(' | ')} |`;
  const rule = align.map((side) => (side === 'right' ? '---:' : '---'));
  return [line(head), line(rule), ...rows.map(line)].join('\n');
}

/** A cell whose pipes end no cell. A backslash before one would be read in two ways: U+200B parts them. */
function cellText(cell: string): string {
  return cell.replace(/\\?\|/g, (pipe) => (pipe === '|' ? '\\|' : '\\\u200b\\|'));
}

/** A Markdown table of columns that are described in `core/tables`. */
export function columnsTable<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  return markdownTable(
    columns.map((column) => `${headingOf(column)}${column.unit === 'edeg' ? ' °' : ''}`),
    columns.map(({ align }) => (align === 'right' ? 'right' : 'left')),
    rows.map((row) => columns.map((column) => reportedCell(column, column.value(row)))),
  );
}

/** Decimals of units that have a fixed number of them. */
const decimals: Readonly<Record<string, number>> = { factor: 3, edeg: 1, temperature: 1 };

/** A cell as the report has it: measured numbers with the digits of its figures, a dash where one is not known. */
function reportedCell(column: ColumnDescription, cell: Cell): string {
  const scaled = scaledUnit(column);
  const digits = decimals[column.unit ?? ''] ?? null;
  if (cell === null) return scaled || digits !== null ? '–' : '';
  if (typeof cell === 'string') return cell;
  if (digits !== null) return fixed(cell, digits);
  return scaled ? significant(cell / scaled.factor, 5) : String(cell);
}
