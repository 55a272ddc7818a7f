import type { Range } from '../finding.ts';
import { cursorPlace, takesCode } from '../text/cursorPlace.ts';
import type { Document } from '../text/document.ts';
import type { Token } from '../text/lexer.ts';
import { type Pattern, parsePattern, patternLiterals } from './pattern.ts';
import { type Dimension, unitNames, units } from './units.ts';
import {
  measuredEntries,
  measuredEntry,
  scopesOf,
  variedEntries,
  variedEntry,
  varyBlocks,
} from './varied.ts';
import { type BlockName, type VocabularyEntry, vocabulary, vocabularyEntry } from './vocabulary.ts';

/** A word that may stand at a place. */
export type Completion =
  | { readonly kind: 'word'; readonly word: string; readonly entry: VocabularyEntry }
  | { readonly kind: 'unit'; readonly word: string; readonly dimension: Dimension }
  /** The code of a warning; `reasonFollows` where the reason is written already. */
  | { readonly kind: 'code'; readonly word: string; readonly reasonFollows: boolean };

/** The words that may stand at a place, likeliest first, and the stretch they replace. */
export interface Completions {
  readonly range: Range;
  readonly items: readonly Completion[];
  /** The first of them go on with the statement before. */
  readonly goesOn: boolean;
}

/**
 * What may be written at an offset; null where no word of the language stands. `codes` are those of the
 * warnings that could be accepted.
 */
export function completions(
  { text, tokens, blocks, title }: Document,
  offset: number,
  codes: readonly string[],
): Completions | null {
  const place = cursorPlace(text, tokens, offset);
  if (place === null) return null;
  const { block, entry, before, written } = place;
  const given = new Set(
    block === 'file'
      ? [...blocks.map(({ name }) => name as string), ...(title ? ['winding'] : [])]
      : blocks
          .filter(({ name, range }) => name === block && range.start <= offset)
          .slice(-1)
          .flatMap(({ statements }) => statements)
          .filter(({ range }) => range.end < written.start || range.start > written.end)
          .map((statement) => statement.entry.word),
  );
  const begins = beginnings(block, given);
  if (entry === null) return { range: written, items: begins, goesOn: false };
  if (takesCode(entry) && before.length < 3) {
    const reasonFollows = tokens.find(({ start }) => start >= written.end)?.kind === 'string';
    const items = codes.map((word) => ({ kind: 'code', word, reasonFollows }) as const);
    return { range: written, items: before.length === 1 ? items : [], goesOn: true };
  }
  const inside =
    block === 'vary'
      ? variedItems(entry, before)
      : [...unitItems(entry, before), ...literalItems(entry, before)];
  // Behind complete values the next statement may begin on the same line.
  const goesOn = block === 'vary' && /^(with|opposite)$/.test(before.at(-1)!.text);
  const next = !goesOn && (before.length > 1 || entry.pattern === '') ? begins : [];
  return { range: written, items: [...inside, ...next], goesOn: inside.length > 0 };
}

const wordItem = (entry: VocabularyEntry): Completion => ({ kind: 'word', word: entry.word, entry });

/** What may stand in a row of `vary`, a `keep` or a `rank`. */
function variedItems(entry: VocabularyEntry, before: readonly Token[]): readonly Completion[] {
  const last = before.at(-1)!;
  const own = (words: readonly string[]) =>
    words.flatMap((word) => {
      const known = literalEntry('vary', word);
      return known ? [wordItem(known)] : [];
    });
  if (entry.word === 'hold') return literalItems(entry, before);
  if (entry.word === 'keep' || entry.word === 'rank') {
    const opens = entry.word === 'keep' ? before.length === 1 : /^(least|most)$/.test(last.text);
    if (opens) return [...own(entry.word === 'keep' ? ['limits'] : []), ...measuredEntries().map(wordItem)];
    const measured = measuredEntry(last.text);
    const more = entry.word === 'rank' ? ['least', 'most'] : [];
    if (measured) return own([...scopesOf(measured), ...more]);
    const limited = before[1] && entry.word === 'keep' ? measuredEntry(before[1].text) : undefined;
    return limited ? unitItems(limited, before) : own(more);
  }
  if (last.text === 'with') return [...own(['opposite']), ...[...varyBlocks].map(blockItem)];
  if (last.text === 'opposite') return [...varyBlocks].map(blockItem);
  // The word named last, and the block it is of.
  const from = before.reduce((found, { text }, at) => (/^(with|opposite)$/.test(text) ? at : found), -1);
  const opposite = before[from]?.text === 'opposite';
  const [block, ...rest] = before.slice(from + 1);
  const word = rest.find(({ text }) => text.length > 1);
  if (!block || !word) return block ? variedEntries(block.text).map(wordItem) : [];
  const varied = variedEntry(block.text, word.text);
  if (!varied || opposite) return [];
  if (last.kind === 'number') {
    const units = unitItems(varied, [word, last]);
    return units.length > 0 ? units : own(seriesWords(before));
  }
  const choices = literalItems(varied, rest.slice(rest.indexOf(word)));
  const nominal = word.text === 'span' && last.text !== 'nominal' ? own(['nominal']) : [];
  if (last.kind === 'unit' || last.text === 'nominal') return own(seriesWords(before));
  return [...choices, ...nominal];
}

function blockItem(word: string): Completion {
  return wordItem(vocabularyEntry('file', 'block', word)!);
}

/** The words that may follow a value of a row. */
function seriesWords(before: readonly Token[]): readonly string[] {
  const written = (word: string) => before.some(({ text }) => text === word);
  return [...(written('to') ? (written('by') ? [] : ['by']) : ['to']), 'with'];
}

/** Words that begin a statement or a block; those that are given already and stand only once are left out. */
function beginnings(block: BlockName, given: ReadonlySet<string>): readonly Completion[] {
  return vocabulary
    .filter((entry) => entry.block === block && entry.role !== 'keyword' && entry.role !== 'choice')
    .filter((entry) => entry.repeatable || entry.word === 'slot' || !given.has(entry.word))
    .map((entry) => ({ kind: 'word', word: entry.word, entry }));
}

/** Units of what the statement measures, directly behind a number without one. */
function unitItems(entry: VocabularyEntry, before: readonly Token[]): readonly Completion[] {
  if (before.at(-1)?.kind !== 'number') return [];
  const known = new Set<string>(units.map(({ dimension }) => dimension));
  const pattern = parsePattern(entry.pattern);
  const own = placeholderBehind(pattern, before.at(-2)?.text ?? '');
  const dimensions = own === null ? [...placeholders(pattern), entry.dimension ?? 'none'] : [own];
  return [...new Set(dimensions)]
    .filter((name): name is Dimension => known.has(name))
    .flatMap((dimension) => unitNames(dimension).map((word) => ({ kind: 'unit', word, dimension }) as const));
}

/** Keywords and choices of the statement that are not written yet. */
function literalItems(entry: VocabularyEntry, before: readonly Token[]): readonly Completion[] {
  const written = new Set(before.slice(1).map(({ text }) => text));
  const scope = before.length === 1 ? scopesOf(entry) : [];
  const words = [...scope, ...patternLiterals(parsePattern(entry.pattern))];
  return [...new Set(words)]
    .filter((word) => /^[a-z]/.test(word) && !written.has(word))
    .flatMap((word) => {
      const known = literalEntry(entry.block, word);
      return known ? [{ kind: 'word', word, entry: known } as const] : [];
    });
}

/** The vocabulary's entry of a keyword or choice. */
export function literalEntry(block: BlockName, word: string): VocabularyEntry | undefined {
  return vocabularyEntry(block, 'keyword', word) ?? vocabularyEntry(block, 'choice', word);
}

/** The placeholder that follows a literal of a pattern; null where none does. */
function placeholderBehind(pattern: Pattern, literal: string): string | null {
  if (pattern.kind === 'many') return placeholderBehind(pattern.part, literal);
  if (pattern.kind !== 'series' && pattern.kind !== 'choice') return null;
  for (const [index, part] of pattern.parts.entries()) {
    const next = pattern.parts[index + 1];
    const here = part.kind === 'literal' && part.text === literal && pattern.kind === 'series';
    if (here && next?.kind === 'placeholder') return next.name;
    const inside = placeholderBehind(part, literal);
    if (inside !== null) return inside;
  }
  return null;
}

function placeholders(pattern: Pattern): readonly string[] {
  switch (pattern.kind) {
    case 'placeholder':
      return [pattern.name];
    case 'series':
    case 'choice':
      return pattern.parts.flatMap(placeholders);
    case 'many':
      return placeholders(pattern.part);
    default:
      return [];
  }
}
