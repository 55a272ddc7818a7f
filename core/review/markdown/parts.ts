import { isOne, plural } from '../../language/lists.ts';
import { markdownTable } from '../../report/markdown/table.ts';

/** Rows of a table that people read. */
export const mostRows = 120;
/** Rows that stand open; longer tables are folded or cut. */
export const mostUnfolded = 12;

type Align = 'left' | 'right';

/** A table, cut to a length that people read; `left` are the rows that the caller has cut. */
export function table(
  head: readonly string[],
  align: readonly Align[],
  rows: readonly (readonly string[])[],
  left = Math.max(0, rows.length - mostRows),
): string {
  const cut = left > 0 ? `\n\n${plural(left, 'more row')} ${isOne(left) ? 'is' : 'are'} not listed.` : '';
  return `${markdownTable(head, align, rows.slice(0, mostRows))}${cut}`;
}

/** What a reader unfolds. */
export function folded(title: string, body: string): string {
  return `<details>\n<summary>${title}</summary>\n\n${body}\n\n</details>`;
}
