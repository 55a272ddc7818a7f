import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, unbroken } from '../parts.ts';
import { button, element } from './controls.ts';
import type { Seen, VariantsPart } from './look.ts';

/** The candidate that is looked at, in words, with what can be done with it. */
export interface CandidatePart extends VariantsPart {
  /** Says this in its place, until there is more to show. */
  readonly tell: (text: string) => void;
}

export function createCandidate(
  words: VariantsWords,
  act: (what: 'beside' | 'open' | 'take') => void,
): CandidatePart {
  const line = element('p', 'variants-line');
  line.setAttribute('role', 'status');
  const put = button(words.putBeside, () => act('beside'));
  const acts = [put, button(words.open, () => act('open')), button(words.take, () => act('take'))];
  const all = element('div', 'variants-acts');
  all.append(line, ...acts);
  const tell = (text: string) => {
    if (line.textContent !== text) line.textContent = text;
  };
  return {
    element: all,
    show: (variants, seen) => {
      const isBeside = seen.beside.includes(seen.current);
      for (const each of acts) each.disabled = seen.current === 0;
      put.textContent = isBeside ? words.takeAway : words.putBeside;
      put.setAttribute('aria-pressed', String(isBeside));
      // The chart that has the focus says it itself.
      line.setAttribute('aria-live', document.activeElement instanceof SVGElement ? 'off' : 'polite');
      tell(candidateWords(variants, seen, words));
    },
    tell,
  };
}

/** A candidate with what it has in all columns. */
export function candidateWords(
  { rows, question }: ShownVariants,
  { current }: Seen,
  words: VariantsWords,
): string {
  if (current === 0) return words.nothingChosen;
  const name = filled(words.candidate, current);
  const row = rows.find(({ number }) => number === current);
  if (!row || !question) return name;
  // The name of a figure may end with a number, `harmonic 5`: its value does not stand right behind it.
  const texts = question.columns.map(({ kind, name: of }, index) =>
    unbroken(`${of} ${kind === 'value' ? '' : '= '}${row.texts[index]}`),
  );
  return `${name}: ${texts.join(', ')}${row.front ? `, ${words.front}` : ''}`;
}
