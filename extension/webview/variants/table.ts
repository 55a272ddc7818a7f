import type { ShownVariant, ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement } from '../parts.ts';
import { button, element, headCell } from './controls.ts';
import type { Look, Seen, VariantsPart } from './look.ts';
import { createPager, pageWithin, rowsOfPage } from './pager.ts';
import { sortedVariants, type TableColumn, tableColumns } from './rows.ts';

/** The table of the candidates, some of them at a time. */
export interface VariantTable extends VariantsPart {
  /** Turns to the page on which a candidate stands. */
  readonly turnTo: (number: number) => void;
  /** Gives the focus to a candidate's row; where it is not in sight, to that which the Tab key comes to. */
  readonly focus: (number: number) => void;
}

export interface TableHooks {
  readonly look: (number: number) => void;
  readonly toggle: (number: number) => void;
  /** The table is to be sorted by a column; null for the order of the question. */
  readonly sort: (order: Look['order']) => void;
}

/** A row of the body, and what it was made of. */
interface MadeRow {
  readonly key: string;
  readonly row: HTMLTableRowElement;
}

/** A table without rows. */
export function createVariantTable(words: VariantsWords, hooks: TableHooks): VariantTable {
  const scroll = element('div', 'scroll');
  const table = document.createElement('table');
  table.setAttribute('aria-label', words.table);
  table.setAttribute('aria-describedby', 'panel-variants-table-keys');
  scroll.append(table);
  const [head, body] = [table.createTHead(), table.createTBody()];
  const keys = element('p', 'unseen');
  keys.textContent = words.tableKeys;
  keys.id = 'panel-variants-table-keys';
  const pager = createPager(words, (by) => turn(page + by));
  const all = element('div', 'variants-list');
  all.append(scroll, pager.element, keys);

  let page = 0;
  let shown: { readonly variants: ShownVariants; readonly seen: Seen } | null = null;
  let sorted: readonly ShownVariant[] = [];
  let headKey = '';
  let made = new Map<number, MadeRow>();

  const turn = (to: number) => {
    page = pageWithin(to, sorted.length);
    fill();
    scroll.scrollTop = 0;
  };
  const focus = (number: number) => {
    const row = made.get(number)?.row ?? body;
    row.querySelector<HTMLElement>('button')?.focus();
  };
  const go = (index: number) => {
    const row = sorted[Math.max(0, Math.min(sorted.length - 1, index))];
    if (!row) return;
    hooks.look(row.number);
    focus(row.number);
  };
  table.addEventListener('keydown', (event) => {
    const target = event.target as HTMLElement;
    if (!body.contains(target)) return;
    const at = sorted.findIndex(({ number }) => number === shown?.seen.current);
    const to = {
      ArrowDown: at + 1,
      ArrowUp: at - 1,
      PageDown: at + rowsOfPage,
      PageUp: at - rowsOfPage,
      Home: 0,
      End: sorted.length - 1,
    }[event.key];
    if (event.key === ' ' && target instanceof HTMLButtonElement && at >= 0) hooks.toggle(sorted[at]!.number);
    else if (to === undefined) return;
    else go(to);
    event.preventDefault();
  });

  const fillHead = (columns: readonly TableColumn[], order: Look['order']) => {
    const key = JSON.stringify([columns, order]);
    if (key === headKey) return;
    headKey = key;
    made = new Map();
    const sort = (next: Look['order'], cell: HTMLTableCellElement) => {
      const place = [...head.rows[0]!.cells].indexOf(cell);
      hooks.sort(next);
      // Sorting makes the head anew.
      head.rows[0]!.cells[place]?.querySelector('button')?.focus();
    };
    head.replaceChildren(headRow(columns, order, words, sort));
  };
  const fillBody = (listed: readonly ShownVariant[], columns: readonly TableColumn[]) => {
    // Rows that stay as they are keep their focus.
    const before = made;
    made = new Map();
    for (const row of listed) {
      const cells = columns.map(({ text }) => text(row));
      const key = cells.join('\t');
      const known = before.get(row.number);
      made.set(row.number, known?.key === key ? known : { key, row: makeRow(row, cells) });
    }
    const rows = [...made.values()].map(({ row }) => row);
    if (rows.length === body.rows.length && rows.every((row, at) => body.rows[at] === row)) return;
    const focused = document.activeElement;
    const number = [...before].find(([, { row }]) => row.contains(focused))?.[0];
    body.replaceChildren(...rows);
    if (number !== undefined) focus(number);
  };
  const makeRow = ({ number }: ShownVariant, cells: readonly string[]) =>
    number === 0 ? ownRow(words, cells) : candidateRow(number, cells, words, hooks);
  const fill = () => {
    if (shown === null || shown.variants.question === null) return;
    const { variants, seen } = shown;
    const { own, rows } = variants;
    const columns = tableColumns(variants, seen.look, words);
    sorted = sortedVariants(variants, seen.look.order);
    page = pageWithin(page, sorted.length);
    const listed = [...(own ? [own] : []), ...sorted.slice(page * rowsOfPage, (page + 1) * rowsOfPage)];
    fillHead(columns, seen.look.order);
    fillBody(listed, columns);
    // A row that took the focus may be the one looked at by now.
    markRows(made, shown.seen);
    pager.show(page, sorted.length);
    table.hidden = rows.length === 0 && own === null;
  };
  return {
    element: all,
    show: (variants, seen) => {
      shown = { variants, seen };
      fill();
    },
    focus,
    turnTo: (number) => {
      const at = sorted.findIndex((row) => row.number === number);
      if (at < 0) return;
      const to = Math.floor(at / rowsOfPage);
      if (to !== page) turn(to);
      made.get(number)?.row.scrollIntoView({ block: 'nearest' });
    },
  };
}

function headRow(
  columns: readonly TableColumn[],
  order: Look['order'],
  words: VariantsWords,
  sort: (next: Look['order'], cell: HTMLTableCellElement) => void,
): HTMLElement {
  const row = document.createElement('tr');
  const corner = headCell('');
  const name = element('span', 'unseen');
  name.textContent = words.beside;
  corner.append(name);
  row.append(
    corner,
    sortingCell(words.number, '', order, sort),
    ...columns.map(({ title, sorts }) =>
      sorts === null ? headCell(title) : sortingCell(title, sorts, order, sort),
    ),
  );
  return row;
}

/** A column's head; sorts up, down, and back to the order of the question. */
function sortingCell(
  title: string,
  column: string,
  order: Look['order'],
  sort: (next: Look['order'], cell: HTMLTableCellElement) => void,
): HTMLElement {
  const cell = headCell('');
  const own = order?.column === column ? order : null;
  cell.setAttribute('aria-sort', own === null ? 'none' : own.backwards ? 'descending' : 'ascending');
  const next =
    own === null ? { column, backwards: false } : own.backwards ? null : { ...own, backwards: true };
  cell.append(button(title, () => sort(next, cell)));
  return cell;
}

/** The row of the text itself. */
function ownRow(words: VariantsWords, cells: readonly string[]): HTMLTableRowElement {
  const header = textElement('th', words.own);
  header.title = words.ownWords;
  return bodyRow('variants-own-row', document.createElement('td'), header, cells);
}

/** The row of a candidate, with the box that sets it beside others. */
function candidateRow(
  number: number,
  cells: readonly string[],
  words: VariantsWords,
  { look, toggle }: Pick<TableHooks, 'look' | 'toggle'>,
): HTMLTableRowElement {
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.setAttribute('aria-label', filled(words.besideRow, number));
  box.tabIndex = -1;
  box.addEventListener('click', (event) => {
    event.stopPropagation();
    toggle(number);
  });
  const first = document.createElement('td');
  first.append(box);
  const name = button(String(number), () => undefined);
  name.setAttribute('aria-label', filled(words.candidate, number));
  name.className = 'link';
  name.addEventListener('focus', () => look(number));
  const header = document.createElement('th');
  header.append(name);
  const row = bodyRow('leads', first, header, cells);
  row.addEventListener('click', () => look(number));
  return row;
}

function bodyRow(
  name: string,
  first: HTMLElement,
  header: HTMLElement,
  cells: readonly string[],
): HTMLTableRowElement {
  const row = document.createElement('tr');
  row.className = name;
  header.setAttribute('scope', 'row');
  row.append(first, header, ...cells.map((cell) => textElement('td', cell)));
  return row;
}

/** Marks the candidate looked at and those beside; one row takes the focus of the Tab key. */
function markRows(made: ReadonlyMap<number, MadeRow>, { current, beside }: Seen): void {
  const stands = made.has(current) && current > 0 ? current : [...made.keys()].find((number) => number > 0);
  for (const [number, { row }] of made) {
    row.classList.toggle('drawn', number > 0 && number === current);
    const tabIndex = number === stands ? 0 : -1;
    const name = row.querySelector('button');
    if (name) name.tabIndex = tabIndex;
    name?.setAttribute('aria-current', String(number === current));
    const box = row.querySelector('input');
    if (box) {
      box.checked = beside.includes(number);
      box.tabIndex = tabIndex;
    }
  }
}
