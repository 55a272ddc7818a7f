import { format } from '../../language/format/formatter.ts';
import type { TableWishes } from './head.ts';
import { type ImportedTable, readWinding } from './readWinding.ts';

/** A winding file from a table of a spreadsheet, as `readWinding` makes it, in canonical form. */
export function windingFromTable(csv: string, wishes: TableWishes = {}): ImportedTable {
  const made = readWinding(csv, wishes);
  return made.kind === 'winding' ? { ...made, text: format(made.text) } : made;
}
