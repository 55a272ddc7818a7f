import type { ShownConnections } from '../protocol/shownParts.ts';
import { filled, part, partOf, textElement, unbroken } from './parts.ts';

/** What a reader does with the list of connections. */
export interface ConnectionActs {
  /** Draws one of them. */
  readonly draw: (index: number) => void;
  /** Writes one of them into the text. */
  readonly write: (index: number) => void;
}

/** Takes over the list of connections; the arrow keys go from one to the next, and what has the focus is drawn. */
export function controlConnections({ draw, write }: ConnectionActs): (connections: ShownConnections) => void {
  const table = partOf('connections', HTMLTableElement);
  const writes = part('write');
  const body = table.tBodies[0]!;
  let drawn = 0;
  let filledWith = '';

  writes.addEventListener('click', () => write(drawn));
  body.addEventListener('keydown', (event) => {
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const buttons = [...body.querySelectorAll('button')];
    const next = buttons[buttons.findIndex((button) => button.matches(':focus')) + by];
    if (by === 0 || next === undefined) return;
    event.preventDefault();
    next.focus();
    next.click();
  });
  const line = (cells: readonly string[], index: number) => {
    const row = document.createElement('tr');
    row.className = 'leads';
    row.addEventListener('click', () => draw(index));
    const head = document.createElement('th');
    head.scope = 'row';
    const button = textElement('button', String(index + 1));
    button.setAttribute('type', 'button');
    button.setAttribute('aria-label', filled(table.dataset.draw, index + 1));
    button.className = 'link';
    head.append(button);
    row.append(head, ...cells.map((cell) => textElement('td', unbroken(cell))));
    return row;
  };
  return (connections) => {
    const { status, rows } = connections;
    const some = status === 'found' && rows.length > 1;
    const words = part('connections-words');
    words.textContent = some ? '' : (words.dataset[status === 'found' ? 'alone' : status] ?? '');
    for (const each of [table, part('connections-acts'), part('connections-about')]) each.hidden = !some;
    const key = JSON.stringify(rows);
    // Rows that come again unchanged keep the focus.
    if (key !== filledWith) body.replaceChildren(...rows.map(line));
    filledWith = key;
    drawn = connections.drawn;
    for (const [index, row] of [...body.rows].entries()) {
      row.classList.toggle('drawn', index === drawn);
      row.querySelector('button')?.setAttribute('aria-pressed', String(index === drawn));
    }
    writes.textContent = filled(writes.dataset.words, drawn + 1);
  };
}
