import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled } from '../parts.ts';
import { button, element } from './controls.ts';

/** Rows shown at a time. */
export const rowsOfPage = 50;

/** Turns the pages of a table, and says which rows are shown. */
export interface Pager {
  readonly element: HTMLElement;
  readonly show: (page: number, rows: number) => void;
}

/** The page nearest to the one wanted that a table of so many rows has. */
export function pageWithin(wanted: number, rows: number): number {
  return Math.max(0, Math.min(Math.ceil(rows / rowsOfPage) - 1, wanted));
}

export function createPager(words: VariantsWords, turn: (by: 1 | -1) => void): Pager {
  const pager = element('p', 'variants-pager');
  const previous = turner('\u25C2', words.previous, () => turn(-1));
  const next = turner('\u25B8', words.next, () => turn(1));
  const place = document.createElement('span');
  pager.append(previous, place, next);
  return {
    element: pager,
    show: (page, rows) => {
      const first = page * rowsOfPage;
      const end = Math.min(first + rowsOfPage, rows);
      pager.hidden = rows <= rowsOfPage;
      place.textContent = filled(words.page, first + 1, end, rows);
      previous.disabled = page === 0;
      next.disabled = end === rows;
    },
  };
}

function turner(sign: string, words: string, act: () => void): HTMLButtonElement {
  const made = button(sign, act);
  made.title = words;
  made.setAttribute('aria-label', words);
  return made;
}
