import type { BesideVariant, ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement, unbroken } from '../parts.ts';
import { createChanges } from './changes.ts';
import { button, element, headCell } from './controls.ts';
import type { VariantsPart } from './look.ts';
import { differenceText } from './rows.ts';

export interface BesideHooks {
  readonly open: (number: number) => void;
  readonly take: (number: number) => void;
  readonly remove: (number: number) => void;
  /** The last one is gone that had the focus. */
  readonly emptied: () => void;
}

/** The candidates that are set side by side, nothing where there are none. */
export function createCompared(words: VariantsWords, hooks: BesideHooks): VariantsPart {
  const all = element('section', 'variants-beside-part');
  all.setAttribute('aria-label', words.sideBySide);
  const hasChanged = createChanges();
  return {
    element: all,
    show: (variants) => {
      const { question, own, beside } = variants;
      if (!hasChanged(question, own, beside)) return;
      const focused = all.contains(document.activeElement) ? document.activeElement : null;
      all.hidden = beside.length === 0;
      all.replaceChildren(
        ...(all.hidden ? [] : [textElement('h2', words.sideBySide), besideTable(variants, words, hooks)]),
      );
      if (focused === null) return;
      // The same button again, else one of those that are left.
      const buttons = [...all.querySelectorAll('button')];
      const again = buttons.find((each) => each.ariaLabel === focused.ariaLabel) ?? buttons[0];
      if (again) again.focus();
      else hooks.emptied();
    },
  };
}

/** Candidates side by side: a column for each, with its values, figures, limits, layout and waves. */
function besideTable(
  { question, own, beside }: ShownVariants,
  words: VariantsWords,
  { open, take, remove }: BesideHooks,
): HTMLElement {
  const table = document.createElement('table');
  table.className = 'variants-compared';
  table.setAttribute('aria-label', words.sideBySide);
  if (question === null) return table;
  const head = document.createElement('tr');
  head.append(
    textElement('td', ''),
    ...(own ? [headCell(words.ownWords)] : []),
    ...beside.map(({ number, waiting }) => {
      const cell = headCell(filled(words.candidate, number));
      if (waiting) cell.append(quiet(words.waiting));
      return cell;
    }),
  );
  table.createTHead().append(head);
  const body = table.createTBody();
  const group = (title: string) => {
    const row = document.createElement('tr');
    const cell = headCell(title);
    cell.scope = 'rowgroup';
    cell.colSpan = 1 + (own ? 1 : 0) + beside.length;
    cell.className = 'variants-group';
    row.append(cell);
    body.append(row);
  };
  const line = (
    title: string,
    mine: HTMLElement | string,
    cell: (each: BesideVariant) => HTMLElement | string,
  ) => {
    const row = document.createElement('tr');
    // What fills a group of its own has the group's heading.
    const header = textElement(title === '' ? 'td' : 'th', title);
    if (title !== '') header.setAttribute('scope', 'row');
    row.append(header, ...(own ? [cellOf(mine)] : []), ...beside.map((each) => cellOf(cell(each))));
    body.append(row);
  };
  for (const kind of ['value', 'figure'] as const) {
    group(kind === 'value' ? words.values : `${words.figures}${own ? `, ${words.against}` : ''}`);
    for (const [index, column] of question.columns.entries()) {
      if (column.kind !== kind) continue;
      line(column.name, own?.texts[index] ?? '', ({ row }) => {
        const text = row?.texts[index] ?? '';
        const difference =
          kind === 'figure' && differenceText(row?.amounts[index], own?.amounts[index], column.unit);
        return difference ? withQuiet(unbroken(text), unbroken(difference)) : unbroken(text);
      });
    }
  }
  if (question.limits.length > 0) {
    group(words.limitStates);
    for (const [index, name] of question.limits.entries())
      line(name, '', ({ limits }) => {
        const state = limits[index];
        return state === 'met'
          ? words.met
          : state === 'failed'
            ? mark(words.failed)
            : state
              ? words.unknown
              : '';
      });
  }
  group(words.layout);
  line('', '', ({ number, layout }) => slotTable(layout, filled(words.slotTable, number)));
  group(words.waves);
  line('', '', ({ waves }) =>
    lines(
      waves.map(([harmonic, factor, share]) =>
        unbroken(`${harmonic}: ${factor}${share ? ` (${share})` : ''}`),
      ),
    ),
  );
  if (beside.some(({ missing }) => missing.length > 0)) line('', '', ({ missing }) => lines(missing));
  const acts = document.createElement('tr');
  acts.append(
    textElement('td', ''),
    ...(own ? [textElement('td', '')] : []),
    ...beside.map(({ number }) => {
      const cell = document.createElement('td');
      const of = filled(words.candidate, number);
      cell.append(
        actButton(words.open, of, () => open(number)),
        actButton(words.take, of, () => take(number)),
        actButton(words.takeAway, of, () => remove(number)),
      );
      return cell;
    }),
  );
  body.append(acts);
  return table;
}

function cellOf(content: HTMLElement | string): HTMLElement {
  const cell = document.createElement('td');
  cell.append(content);
  return cell;
}

function actButton(words: string, of: string, act: () => void): HTMLElement {
  const made = button(words, act);
  made.setAttribute('aria-label', `${words}: ${of}`);
  return made;
}

function quiet(text: string): HTMLElement {
  const element = textElement('span', text);
  element.className = 'variants-quiet';
  return element;
}

function withQuiet(text: string, more: string): HTMLElement {
  const element = textElement('span', `${text} `);
  element.append(quiet(more));
  return element;
}

function mark(text: string): HTMLElement {
  return textElement('strong', text);
}

function lines(texts: readonly string[]): HTMLElement {
  const list = document.createElement('ul');
  list.append(...texts.map((text) => textElement('li', text)));
  return list;
}

/** One repetition of a slot table; the letters say the phases, colors only repeat them. */
function slotTable(layout: BesideVariant['layout'], title: string): HTMLElement {
  const scroll = element('div', 'scroll');
  // Keys scroll a table that is wider than its room.
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'region');
  scroll.setAttribute('aria-label', title);
  const table = document.createElement('table');
  table.className = 'variants-slots picture';
  table.setAttribute('aria-label', title);
  const phases: string[] = [];
  const body = table.createTBody();
  for (const [letter = '', ...cells] of layout) {
    const row = document.createElement('tr');
    const header = textElement('th', letter);
    header.setAttribute('scope', 'row');
    row.append(
      header,
      ...cells.map((text) => {
        const cell = textElement('td', text);
        const phase = text.slice(1);
        if (phase !== '' && !phases.includes(phase)) phases.push(phase);
        const index = phases.indexOf(phase);
        if (index >= 0) cell.className = `variants-phase-${index % 7}`;
        return cell;
      }),
    );
    body.append(row);
  }
  scroll.append(table);
  return scroll;
}
