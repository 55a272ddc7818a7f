import type { FactorTableRow, KeyFigure } from '../../../core/report/figures.ts';
import { factorColumns } from '../../protocol/shownParts.ts';
import { textElement } from '../parts.ts';

/** Fills the list of key figures. */
export function showFigures(list: HTMLElement, figures: readonly KeyFigure[]): void {
  list.replaceChildren(
    ...figures.map(({ label, value, help }) => {
      const pair = document.createElement('div');
      if (help !== undefined) pair.title = help;
      pair.append(textElement('dt', label), textElement('dd', value));
      return pair;
    }),
  );
}

/** Fills the factor table; the order heads its row. */
export function showFactors(table: HTMLTableElement, rows: readonly FactorTableRow[]): void {
  const body = table.tBodies[0];
  if (body === undefined) throw new RangeError('The factor table has no body');
  // Bars without skew have the same in every row: the column gives its place to the others.
  table.classList.toggle(
    'unskewed',
    rows.every(({ skew }) => Number(skew) === 1),
  );
  body.replaceChildren(...rows.map(factorLine));
}

function factorLine(row: FactorTableRow): HTMLElement {
  const line = document.createElement('tr');
  const [first, ...others] = factorColumns;
  const head = textElement('th', row[first]);
  head.setAttribute('scope', 'row');
  line.append(head, ...others.map((column) => textElement('td', row[column])));
  return line;
}
