import { finding } from '../finding.ts';
import { layerOfLetter } from '../layerLetters.ts';
import { nearestWord, replacement } from '../suggest.ts';
import type { SeriesItem } from '../text/document.ts';
import { quoted } from '../text/quoted.ts';
import { unknownWord } from '../textFindingKinds.ts';
import type { Pattern } from '../vocabulary/pattern.ts';
import { describePlaceholder, dimensionOf } from '../vocabulary/patternWords.ts';
import { tradeWordIn } from '../vocabulary/tradeWords.ts';
import {
  measuredEntries,
  measuredEntry,
  variedEntries,
  variedEntry,
  variedPart,
} from '../vocabulary/varied.ts';
import { type BlockName, statementBlocks, type VocabularyEntry } from '../vocabulary/vocabulary.ts';
import { fail, matchLimit, matchQuantity, matchScope, peek, type Reader, standsHere } from './reader.ts';

/** Most slots by which a span can differ from the nominal one. */
const mostOffset = 2399;

type MatchPattern = (reader: Reader, pattern: Pattern) => boolean;

/** The word of the row's block, with what stands before its values. */
export function matchWord(reader: Reader, match: MatchPattern): boolean {
  return matchWordOf(reader, reader.entry.word, match);
}

/** A block and a word of it, behind `with`. */
export function matchTarget(reader: Reader, match: MatchPattern): boolean {
  const block = peek(reader);
  if (block === null || block.kind !== 'word' || variedEntries(block.text).length === 0)
    return fail(reader, describePlaceholder('target'));
  reader.at++;
  return matchWordOf(reader, block.text, match);
}

function matchWordOf(reader: Reader, block: string, match: MatchPattern): boolean {
  const slotLayers: number[] = [];
  const first = reader.at;
  while (block === 'slot' && peek(reader)?.kind === 'word' && peek(reader)!.text.length === 1) {
    slotLayers.push(layerOfLetter(peek(reader)!.text));
    reader.at++;
  }
  const token = peek(reader);
  if (token === null || (token.kind !== 'word' && token.kind !== 'unknown'))
    return fail(reader, `a word of ${block}`);
  const entry = variedEntry(block, token.text);
  if (!entry) return failWord(reader, block, variedEntries(block));
  reader.at++;
  const before = reader.values.length;
  for (const part of variedPart(entry)!.qualifiers) if (!match(reader, part)) return false;
  const qualifiers = reader.values.splice(before);
  const range = { start: reader.tokens[first]!.start, end: reader.tokens[reader.at - 1]!.end };
  reader.values.push({ kind: 'target', entry, slotLayers, qualifiers, range });
  return true;
}

/** Says that a word is none of those that may stand here. */
function failWord(reader: Reader, block: string, entries: readonly VocabularyEntry[]): false {
  const token = peek(reader)!;
  const words = entries.map(({ word }) => word);
  const text = token.text;
  const trade = tradeWordIn(block as BlockName, text, (ours) => words.includes(ours));
  const suggestion = trade?.ours ?? nearestWord(text, words);
  if (suggestion === undefined && (statementBlocks(text) as readonly string[]).includes(block))
    return fail(reader, `a word of ${block} with one value to vary, such as ${quoted(words[0]!)},`);
  const elsewhere =
    suggestion === undefined ? statementBlocks(text).filter((other) => variedEntry(other, text)) : [];
  const data = { text, block, suggestion, elsewhere };
  reader.failure = finding(unknownWord, token, data, replacement(token, suggestion));
  // What follows belongs to this statement, though its word could begin another.
  reader.at++;
  return false;
}

/** The values of the word named last: a list, or the first, `to` the last `by` a step. */
export function matchSeries(reader: Reader): boolean {
  const target = [...reader.values].reverse().find(({ kind }) => kind === 'target');
  if (target?.kind !== 'target') throw new RangeError('values without the word they are for');
  const start = reader.at;
  const items: SeriesItem[] = [];
  let to: SeriesItem | null = null;
  let by: SeriesItem | null = null;
  do {
    const item = matchItem(reader, target.entry);
    if (!item) return false;
    items.push(item);
  } while (startsItem(reader, target.entry));
  const last = items.at(-1)!;
  if (items.length === 1 && last.kind !== 'choice' && standsHere(reader, 'to')) {
    reader.at++;
    to = matchItem(reader, target.entry);
    if (!to) return false;
    if (standsHere(reader, 'by')) {
      reader.at++;
      by = matchItem(reader, target.entry);
      if (!by) return false;
    }
  }
  const range = { start: reader.tokens[start]!.start, end: reader.tokens[reader.at - 1]!.end };
  reader.values.push({ kind: 'series', items, to, by, range });
  return true;
}

function startsItem(reader: Reader, entry: VocabularyEntry): boolean {
  const token = peek(reader);
  if (token === null) return false;
  const { value } = variedPart(entry)!;
  if (value.kind === 'choice') return token.kind === 'word' && value.words.includes(token.text);
  return token.kind === 'number' || standsHere(reader, 'nominal');
}

function matchItem(reader: Reader, entry: VocabularyEntry): SeriesItem | null {
  const { value } = variedPart(entry)!;
  const token = peek(reader);
  if (value.kind === 'choice') {
    const word = value.words.find((one) => standsHere(reader, one));
    if (word === undefined) {
      fail(reader, value.words.map(quoted).join(' or '));
      return null;
    }
    reader.at++;
    return { kind: 'choice', text: word, range: token! };
  }
  if (entry.block === 'layout' && entry.word === 'span' && standsHere(reader, 'nominal')) {
    reader.at++;
    const next = peek(reader);
    const offset = next?.kind === 'number' && /^[+-]/.test(next.text) ? next : null;
    if (offset && !(Math.abs(Number(offset.text)) <= mostOffset)) {
      fail(reader, `a number of slots from -${mostOffset} to ${mostOffset} behind nominal`);
      return null;
    }
    if (offset) reader.at++;
    const range = { start: token!.start, end: (offset ?? token)!.end };
    return { kind: 'nominal', offset: Number(offset?.text ?? 0), range };
  }
  if (token?.kind !== 'number') {
    fail(reader, describePlaceholder(value.placeholder));
    return null;
  }
  if (!matchQuantity(reader, value.placeholder, dimensionOf[value.placeholder]!)) return null;
  const quantity = reader.values.pop();
  if (quantity?.kind !== 'quantity') throw new RangeError('a quantity was read');
  return { kind: 'number', text: token.text, unit: quantity.unit, range: quantity.range };
}

/** A quantity, with its order or point. */
export function matchMeasure(reader: Reader): boolean {
  const entry = quantityHere(reader);
  return entry !== null && matchScope(reader, entry);
}

/** A limit: a quantity, a relation, a value. */
export function matchRequirement(reader: Reader): boolean {
  const entry = quantityHere(reader);
  if (entry === null) return false;
  matchLimit(reader, entry);
  return reader.failure === null;
}

function quantityHere(reader: Reader): VocabularyEntry | null {
  const token = peek(reader);
  if (token === null || (token.kind !== 'word' && token.kind !== 'unknown')) {
    fail(reader, describePlaceholder('measure'));
    return null;
  }
  const entry = measuredEntry(token.text);
  if (!entry) {
    const words = measuredEntries().map(({ word }) => word);
    const suggestion = nearestWord(token.text, reader.entry.word === 'keep' ? [...words, 'limits'] : words);
    const data = { text: token.text, block: 'require', suggestion, elsewhere: [] };
    reader.failure = finding(unknownWord, token, data, replacement(token, suggestion));
    reader.at++;
    return null;
  }
  reader.values.push({ kind: 'measure', entry, range: token });
  reader.at++;
  return entry;
}
