import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { fillChoices, textElement } from '../parts.ts';
import { checkbox, choice, element } from './controls.ts';
import { axesOf, columnTitle, type Look } from './look.ts';

/** What the axes of the chart show, and the columns of the table. */
export interface Choices {
  readonly axes: HTMLElement;
  readonly columns: HTMLElement;
  readonly show: (variants: ShownVariants, look: Look) => void;
}

export function createChoices(words: VariantsWords, change: (next: Partial<Look>) => void): Choices {
  const across = choice(words.across, (name) => change({ across: name }));
  const upwards = choice(words.upwards, (name) => change({ upwards: name }));
  const axes = element('div', 'variants-axes');
  axes.append(across.element, upwards.element);
  const columns = document.createElement('details');
  columns.className = 'variants-columns';
  const list = element('div', 'variants-column-list');
  columns.append(textElement('summary', words.columns), list);
  columns.addEventListener('keydown', ({ key }) => {
    if (key !== 'Escape') return;
    columns.open = false;
    columns.querySelector('summary')?.focus();
  });
  let look: Look;
  let listed = '';

  const turned = (name: string) => (on: boolean) =>
    change({ hidden: on ? look.hidden.filter((each) => each !== name) : [...look.hidden, name] });
  return {
    axes,
    columns,
    show: ({ question, own, rows }, next) => {
      look = next;
      if (question === null) return;
      const titles = question.columns.map((column) => ({ value: column.name, text: columnTitle(column) }));
      const { x, y } = axesOf(question, look, { rows });
      fillChoices(across.select, titles, question.columns[x]?.name ?? '');
      fillChoices(upwards.select, titles, question.columns[y]?.name ?? '');
      const entries = [
        ...question.columns.map(({ name }) => ({ name, text: name })),
        ...(question.limits.length > 0 ? [{ name: 'limits', text: words.limits }] : []),
      ];
      const key = JSON.stringify([entries, own !== null]);
      if (key === listed) return;
      listed = key;
      list.replaceChildren(
        ...entries.map(({ name, text }) => checkbox(text, !look.hidden.includes(name), turned(name))),
        ...(own ? [checkbox(words.differences, look.differences, (on) => change({ differences: on }))] : []),
      );
    },
  };
}
