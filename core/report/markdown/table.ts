import { type Column, headingOf } from '../../tables/column.ts';
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
    columns.map(headingOf),
    columns.map(({ align }) => (align === 'right' ? 'right' : 'left')),
    rows.map((row) => columns.map(({ value }) => String(value(row) ?? ''))),
  );
}
