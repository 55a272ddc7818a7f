import { significant } from '../../../core/language/numbers.ts';
import type { ShownVariant, ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement } from '../parts.ts';
import { columnTitle, type Look } from './look.ts';

/** The table of the candidates, some of them at a time. */
export interface VariantTable {
  readonly element: HTMLElement;
  readonly show: (variants: ShownVariants, look: Look, current: number, beside: readonly number[]) => void;
  /** Turns to the page on which a candidate stands. */
  readonly turnTo: (number: number) => void;
}

export interface TableHooks {
  readonly look: (number: number) => void;
  readonly toggle: (number: number) => void;
  /** The table is to be sorted by a column; null for the order of the question. */
  readonly sort: (order: Look['order']) => void;
}

/** Rows shown at a time. */
const rowsOfPage = 50;

/** A table without rows. */
export function createVariantTable(words: VariantsWords, { look, toggle, sort }: TableHooks): VariantTable {
  const element = document.createElement('div');
  element.className = 'variants-list';
  const scroll = document.createElement('div');
  scroll.className = 'scroll';
  const table = document.createElement('table');
  table.setAttribute('aria-label', words.table);
  table.setAttribute('aria-describedby', 'panel-variants-table-keys');
  const [head, body] = [table.createTHead(), table.createTBody()];
  const keys = textElement('p', words.tableKeys);
  keys.className = 'unseen';
  keys.id = 'panel-variants-table-keys';
  const pager = document.createElement('p');
  pager.className = 'variants-pager';
  const [previous, next] = [pageButton('\u25C2', words.previous), pageButton('\u25B8', words.next)];
  const place = document.createElement('span');
  pager.append(previous, place, next);
  scroll.append(table);
  element.append(scroll, pager, keys);

  let page = 0;
  let shown: Parameters<VariantTable['show']> | null = null;
  let sorted: readonly ShownVariant[] = [];
  /** What the head and each row of the body were made of. */
  let headKey = '';
  let made = new Map<number, { readonly key: string; readonly row: HTMLTableRowElement }>();

  const pages = () => Math.max(1, Math.ceil(sorted.length / rowsOfPage));
  const turn = (to: number) => {
    page = Math.max(0, Math.min(pages() - 1, to));
    fill();
    scroll.scrollTop = 0;
  };
  previous.addEventListener('click', () => turn(page - 1));
  next.addEventListener('click', () => turn(page + 1));
  const go = (index: number) => {
    const row = sorted[Math.max(0, Math.min(sorted.length - 1, index))];
    if (!row) return;
    look(row.number);
    made.get(row.number)?.row.querySelector<HTMLElement>('button')?.focus();
  };
  table.addEventListener('keydown', (event) => {
    const target = event.target as HTMLElement;
    if (!body.contains(target)) return;
    const at = sorted.findIndex(({ number }) => number === shown?.[2]);
    const to = {
      ArrowDown: at + 1,
      ArrowUp: at - 1,
      PageDown: at + rowsOfPage,
      PageUp: at - rowsOfPage,
      Home: 0,
      End: sorted.length - 1,
    }[event.key];
    if (event.key === ' ' && target instanceof HTMLButtonElement && at >= 0) toggle(sorted[at]!.number);
    else if (to === undefined) return;
    else go(to);
    event.preventDefault();
  });
  const headCell = (title: string, name: string, order: Look['order']): HTMLElement => {
    const cell = document.createElement('th');
    cell.scope = 'col';
    const own = order?.column === name ? order : null;
    cell.setAttribute('aria-sort', own === null ? 'none' : own.backwards ? 'descending' : 'ascending');
    const button = textElement('button', title);
    button.setAttribute('type', 'button');
    button.addEventListener('click', () => {
      // Up, down, and back to the order of the question.
      sort(
        own === null
          ? { column: name, backwards: false }
          : own.backwards
            ? null
            : { ...own, backwards: true },
      );
      head.querySelectorAll<HTMLElement>('button')[[...head.rows[0]!.cells].indexOf(cell) - 1]?.focus();
    });
    cell.append(button);
    return cell;
  };
  const line = (row: ShownVariant, cells: readonly string[]): HTMLTableRowElement => {
    const element = document.createElement('tr');
    const own = row.number === 0;
    const first = document.createElement('td');
    const header = document.createElement('th');
    header.scope = 'row';
    if (own) {
      header.textContent = words.own;
      header.title = words.ownWords;
      element.className = 'variants-own-row';
    } else {
      const box = document.createElement('input');
      box.type = 'checkbox';
      box.setAttribute('aria-label', filled(words.besideRow, row.number));
      box.tabIndex = -1;
      box.addEventListener('click', (event) => {
        event.stopPropagation();
        toggle(row.number);
      });
      first.append(box);
      const button = textElement('button', String(row.number));
      button.setAttribute('type', 'button');
      button.setAttribute('aria-label', filled(words.candidate, row.number));
      button.className = 'link';
      button.addEventListener('focus', () => {
        if (shown?.[2] !== row.number) look(row.number);
      });
      header.append(button);
      element.className = 'leads';
      element.addEventListener('click', () => look(row.number));
    }
    element.append(first, header, ...cells.map((cell) => textElement('td', cell)));
    return element;
  };

  const fill = () => {
    if (shown === null) return;
    const [variants, present, current, beside] = shown;
    const { question, own, rows } = variants;
    if (question === null) return;
    const columns = question.columns.flatMap((column, index) =>
      present.hidden.includes(column.name) ? [] : [{ column, index }],
    );
    const withLimits = question.limits.length > 0 && !present.hidden.includes('limits');
    const withFront = variants.standing.front !== null;
    sorted = sortedVariants(variants, present.order);
    page = Math.min(page, pages() - 1);
    const key = JSON.stringify([
      columns.map(({ column }) => columnTitle(column)),
      present.order,
      withLimits,
      withFront,
    ]);
    if (key !== headKey) {
      headKey = key;
      made = new Map();
      const row = document.createElement('tr');
      const corner = document.createElement('th');
      corner.scope = 'col';
      const name = textElement('span', words.beside);
      name.className = 'unseen';
      corner.append(name);
      row.append(
        corner,
        headCell(words.number, '', present.order),
        ...columns.map(({ column }) => headCell(columnTitle(column), column.name, present.order)),
        ...(withLimits ? [plainHead(words.limits)] : []),
        ...(withFront ? [plainHead(words.front)] : []),
      );
      head.replaceChildren(row);
    }
    const cellsOf = (row: ShownVariant) => [
      ...columns.map(({ column, index }) =>
        present.differences && column.kind === 'figure' && row.number > 0
          ? (differenceText(row.amounts[index], own?.amounts[index], column.unit) ?? row.texts[index] ?? '')
          : (row.texts[index] ?? ''),
      ),
      ...(withLimits ? [row.limits] : []),
      ...(withFront ? [row.front ? '\u25C6' : ''] : []),
    ];
    const listed = [...(own ? [own] : []), ...sorted.slice(page * rowsOfPage, (page + 1) * rowsOfPage)];
    // Rows that stay as they are keep their focus.
    const before = made;
    made = new Map();
    for (const row of listed) {
      const cells = cellsOf(row);
      const rowKey = cells.join('\t');
      const known = before.get(row.number);
      made.set(row.number, known?.key === rowKey ? known : { key: rowKey, row: line(row, cells) });
    }
    const present_ = [...made.values()].map(({ row }) => row);
    if (present_.length !== body.rows.length || present_.some((row, at) => body.rows[at] !== row)) {
      const focused = document.activeElement;
      const number = [...before].find(([, { row }]) => row.contains(focused))?.[0];
      body.replaceChildren(...present_);
      if (number !== undefined) made.get(number)?.row.querySelector<HTMLElement>('button')?.focus();
    }
    const stands =
      made.has(current) && current > 0 ? current : listed.find(({ number }) => number > 0)?.number;
    for (const [number, { row }] of made) {
      row.classList.toggle('drawn', number > 0 && number === current);
      const button = row.querySelector('button');
      if (button) button.tabIndex = number === stands ? 0 : -1;
      button?.setAttribute('aria-current', String(number === current));
      const box = row.querySelector('input');
      if (box) {
        box.checked = beside.includes(number);
        box.tabIndex = number === stands ? 0 : -1;
      }
    }
    pager.hidden = sorted.length <= rowsOfPage;
    const first = page * rowsOfPage;
    place.textContent = filled(
      words.page,
      first + 1,
      Math.min(first + rowsOfPage, sorted.length),
      sorted.length,
    );
    previous.disabled = page === 0;
    next.disabled = page === pages() - 1;
    table.hidden = rows.length === 0 && own === null;
  };
  return {
    element,
    show: (...now) => {
      shown = now;
      fill();
    },
    turnTo: (number) => {
      const at = sorted.findIndex((row) => row.number === number);
      if (at < 0) return;
      const to = Math.floor(at / rowsOfPage);
      if (to !== page) turn(to);
      made.get(number)?.row.scrollIntoView({ block: 'nearest' });
    },
  };
}

/** The rows in the order of a column: numbers by size, words by letter, what is missing last. */
export function sortedVariants(
  { question, rows }: Pick<ShownVariants, 'question' | 'rows'>,
  order: Look['order'],
): readonly ShownVariant[] {
  if (order === null || question === null) return rows;
  const index = question.columns.findIndex(({ name }) => name === order.column);
  const amount = (row: ShownVariant) => (order.column === '' ? row.number : (row.amounts[index] ?? null));
  const way = order.backwards ? -1 : 1;
  if (index < 0 && order.column !== '') return rows;
  return [...rows].sort((a, b) => {
    const [x, y] = [amount(a), amount(b)];
    if (x !== null && y !== null) return way * (x - y);
    if (x !== null || y !== null) return x === null ? 1 : -1;
    const [left, right] = [a.texts[index] ?? '', b.texts[index] ?? ''];
    return way * (left < right ? -1 : left > right ? 1 : 0);
  });
}

/** How a figure differs from that of the text: `+1.25 W`; null where one of them is missing. */
export function differenceText(
  amount: number | null | undefined,
  own: number | null | undefined,
  unit: string,
): string | null {
  if (amount == null || own == null) return null;
  const difference = amount - own;
  const size = Math.abs(difference);
  if (size <= 1e-6 * Math.max(Math.abs(amount), Math.abs(own))) return '\u00B10';
  const number = significant(size, 3);
  return `${difference > 0 ? '+' : '\u2212'}${number}${unit === '' ? '' : ` ${unit}`}`;
}

function plainHead(words: string): HTMLElement {
  const cell = textElement('th', words);
  cell.setAttribute('scope', 'col');
  return cell;
}

function pageButton(sign: string, words: string): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = sign;
  button.title = words;
  button.setAttribute('aria-label', words);
  return button;
}
