import type { Range } from '../finding.ts';
import { cursorPlace } from '../text/cursorPlace.ts';
import type { Document } from '../text/document.ts';
import { type Token, tokenIndexAt } from '../text/lexer.ts';
import { literalEntry } from './completions.ts';
import { measuredEntry, variedEntry, varyBlocks } from './varied.ts';
import { statementEntry, type VocabularyEntry, vocabularyEntry } from './vocabulary.ts';

/** A word of the text with its meaning. */
export interface ExplainedWord {
  readonly range: Range;
  readonly entry: VocabularyEntry;
}

/** The word at an offset, if it is one of the language: of a block, a statement, or inside one. */
export function explainedWord({ text, tokens }: Document, offset: number): ExplainedWord | null {
  const token = tokenAt(tokens, offset);
  if (token?.kind !== 'word') return null;
  const place = cursorPlace(text, tokens, token.end);
  if (place === null) return null;
  const { block, entry, before } = place;
  const begins = () => statementEntry(block, token.text) ?? vocabularyEntry('file', 'block', token.text);
  const inside = () =>
    (block === 'vary' && entry ? variedWordEntry(before, token.text) : undefined) ??
    literalEntry(block, token.text);
  const found = entry === null ? (begins() ?? inside()) : (inside() ?? begins());
  return found ? { range: { start: token.start, end: token.end }, entry: found } : null;
}

/** A word of another block inside a row of `vary`, a block behind `with`, or a quantity. */
function variedWordEntry(before: readonly Token[], word: string): VocabularyEntry | undefined {
  const last = before.at(-1)!.text;
  if (/^(keep|rank|least|most)$/.test(before[0]!.text) || /^(least|most)$/.test(last)) {
    const measured = measuredEntry(word);
    if (measured) return measured;
  }
  if (/^(with|opposite)$/.test(last)) return vocabularyEntry('file', 'block', word);
  const blocks = before.filter(({ kind, text }) => kind === 'word' && varyBlocks.has(text));
  const block = blocks.at(-1);
  return block && variedEntry(block.text, word);
}

/** The token at an offset; of two that meet there, the one behind it. */
export function tokenAt(tokens: Document['tokens'], offset: number): Document['tokens'][number] | null {
  const index = tokenIndexAt(tokens, offset);
  const here = tokens[index];
  if (here && here.start === offset && here.kind !== 'end') return here;
  const before = tokens[index - 1];
  return before && offset <= before.end ? before : null;
}

/** What the values of a word may be, in the words of the language reference. */
export function rangeWords({ rules, recommendedLength }: VocabularyEntry): readonly string[] {
  const words = Object.values(rules).map((rule) => rule.words);
  return recommendedLength === undefined ? words : [...words, `up to ${recommendedLength} characters`];
}
