import { type Figure, known, missing } from '../../figures/figure.ts';
import { parse } from '../text/parser.ts';
import type { VocabularyEntry } from '../vocabulary/entry.ts';
import type { SaidBy, Word, Words } from '../vocabulary/word.ts';
import type { Given } from './statements.ts';

/** What a block says of a word that may stand once. */
type Said<W extends Words, K extends keyof W> = { readonly [P in K]?: Given<SaidBy<W[P]>> } | undefined;

const defaults = new Map<VocabularyEntry, unknown>();

/**
 * What a text without a word's statement says: the default of its row, read as if it were written, in SI
 * units. RangeError for a word without a default, or with one that cannot be read.
 */
export function defaultOf<T>(word: Word<T>): T {
  if (!defaults.has(word)) {
    const written = `${word.block} { ${word.word} ${word.default ?? ''} }`;
    const statement = word.default === undefined ? undefined : parse(written).blocks[0]?.statements[0];
    if (!statement) throw new RangeError(`${word.block} ${word.word} has no default that can be read`);
    defaults.set(word, word.read(statement));
  }
  return defaults.get(word) as T;
}

/** The line of a report that tells a default: `machine stack-factor: 0.95 (default)`; `what` where it depends on the text. */
export function defaultLine(word: VocabularyEntry, what = word.default): string {
  return `${word.block} ${word.word}: ${what} (default)`;
}

/** The line of `defaultLine` where a text does not say a word (or, where it is repeatable, never). */
export function defaultLines(
  word: VocabularyEntry,
  said: Given<unknown> | readonly Given<unknown>[] | undefined,
  what?: string,
): readonly string[] {
  const silent = said === undefined || (Array.isArray(said) && said.length === 0);
  return silent ? [defaultLine(word, what)] : [];
}

/** What a block says of a word, or its default. */
export function valueOrDefault<W extends Words, K extends keyof W>(
  words: W,
  block: Said<W, NoInfer<K>>,
  key: K,
): SaidBy<W[K]> {
  const given = block?.[key];
  return given ? given.value : defaultOf(words[key] as Word<SaidBy<W[K]>>);
}

/**
 * The same as a figure: known, where it is a default with a line that tells so; missing where the block does
 * not say it and there is none.
 */
export function stated<W extends Words, K extends keyof W>(
  words: W,
  block: Said<W, NoInfer<K>>,
  key: K,
): Figure<SaidBy<W[K]>> {
  const given = block?.[key];
  if (given) return known(given.value);
  const word = words[key] as Word<SaidBy<W[K]>>;
  return word.default === undefined
    ? missing(`${word.block} ${word.word}`)
    : known(defaultOf(word), defaultLine(word));
}
