import type { ShownTable } from '../../protocol/viewContent.ts';
import { linkButton, textElement } from '../parts.ts';
import { type Order, sortedRows } from './sortRows.ts';

/** A table on the page that its reader can sort and copy. */
export interface TableControl {
  readonly show: (table: ShownTable) => void;
  /** The table as it stands, cells apart by tabs, ready to be pasted into a spreadsheet. */
  readonly text: () => string;
}

/**
 * Takes over an empty table element; a click on a column's head sorts by it, the next one backwards. A row that stands
 * for a place of the winding leads there by its first cell, or by a click anywhere on it.
 */
export function controlTable(
  element: HTMLTableElement,
  go: (place: string) => void = () => {},
): TableControl {
  let shown: ShownTable | null = null;
  let order: Order | null = null;
  /** Whether each column holds numbers, which stand at its end, below each other. */
  let numeric: readonly boolean[] = [];

  const rows = () => (shown === null ? [] : sortedRows(shown.rows, order));
  const fill = () => {
    if (shown === null) return;
    numeric = numericColumns(shown);
    const head = document.createElement('tr');
    head.append(...shown.columns.map((column, index) => headCell(column, index)));
    const [first] = element.tHead ? [element.tHead] : [element.createTHead()];
    first.replaceChildren(head);
    const body = element.tBodies[0] ?? element.createTBody();
    element.hidden = shown.rows.length === 0;
    const { signs = {} } = shown;
    body.replaceChildren(...rows().map((cells) => line(cells, { numeric, signs }, go)));
  };
  const headCell = (column: string, index: number) => {
    const cell = document.createElement('th');
    cell.scope = 'col';
    cell.className = numeric[index] ? 'number' : '';
    const own = order?.column === index ? order : null;
    cell.setAttribute('aria-sort', own === null ? 'none' : own.backwards ? 'descending' : 'ascending');
    const button = textElement('button', column);
    button.setAttribute('type', 'button');
    button.addEventListener('click', () => {
      order = { column: index, backwards: order?.column === index && !order.backwards };
      fill();
      element.tHead?.querySelectorAll('button')[index]?.focus();
    });
    cell.append(button);
    return cell;
  };
  return {
    show: (table) => {
      if (shown?.columns.join('\t') !== table.columns.join('\t')) order = null;
      shown = table;
      fill();
    },
    text: () =>
      [...(shown === null ? [] : [shown.columns]), ...rows()]
        .map((cells) =>
          cells
            .slice(0, shown?.columns.length)
            .map((cell) => cell.replace(/[\t\r\n]+/g, ' '))
            .join('\t'),
        )
        .join('\n'),
  };
}

/** Columns that hold numbers and nothing else, names of rows aside. */
export function numericColumns({ columns, rows }: ShownTable): readonly boolean[] {
  return columns.map((_, index) => {
    const told = rows.map((cells) => cells[index] ?? '').filter((cell) => cell !== '');
    return index > 0 && told.length > 0 && told.every((cell) => /^[+-]?\d+(\.\d+)?( %)?$/.test(cell));
  });
}

function line(
  cells: readonly string[],
  {
    numeric,
    signs,
  }: { readonly numeric: readonly boolean[]; readonly signs: Readonly<Record<string, string>> },
  go: (place: string) => void,
): HTMLElement {
  const columns = numeric.length;
  const row = document.createElement('tr');
  const place = cells[columns];
  const follow = () => {
    // Words that are being marked are left alone.
    if (place !== undefined && String(getSelection()) === '') go(place);
  };
  if (place !== undefined) {
    row.className = 'leads';
    row.addEventListener('click', follow);
  }
  row.append(
    ...cells.slice(0, columns).map((text, index) => {
      const cell = textElement(index === 0 ? 'th' : 'td', index === 0 && place !== undefined ? '' : text);
      // The row hears the click.
      if (index === 0 && place !== undefined) cell.append(linkButton(text, () => {}));
      if (index === 0) cell.setAttribute('scope', 'row');
      if (Object.hasOwn(signs, text)) cell.replaceChildren(signElement(text, signs[text]!));
      cell.className = text.length > 24 ? 'long' : numeric[index] ? 'number' : '';
      return cell;
    }),
  );
  return row;
}

/** A sign that is read aloud in words, which show where the pointer rests. */
function signElement(sign: string, words: string): HTMLElement {
  const element = textElement('span', sign);
  element.setAttribute('role', 'img');
  element.setAttribute('aria-label', words);
  element.title = words;
  return element;
}
