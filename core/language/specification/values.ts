import type { Finding } from '../finding.ts';
import { layerOfLetter } from '../layerLetters.ts';
import type { RowPlace, Value, WalkStep } from '../text/document.ts';
import type { Token } from '../text/lexer.ts';
import { readSequence } from '../text/sequence.ts';
import { type Pattern, parsePattern } from '../vocabulary/pattern.ts';
import { describePattern, describePlaceholder, dimensionOf } from '../vocabulary/patternWords.ts';
import { varyBlocks } from '../vocabulary/varied.ts';
import type { VocabularyEntry } from '../vocabulary/vocabulary.ts';
import {
  fail,
  matchLimit,
  matchLiteral,
  matchQuantity,
  matchText,
  peek,
  type Reader,
  standsHere,
  triedHere,
} from './reader.ts';
import { matchMeasure, matchRequirement, matchSeries, matchTarget, matchWord } from './variedValues.ts';

/** What came of matching values: how far it read, and the finding where it failed. */
export interface Match {
  readonly values: readonly Value[];
  readonly next: number;
  readonly failure: Finding | null;
  /** Words that could stand where it ended, and did not. */
  readonly couldFollow: readonly string[];
}

/**
 * Reads the values of a statement from `tokens[from]` up to `limit` after its entry's pattern, the
 * longest match. Side findings (a bad escape, a group not closed) go to `findings`.
 */
export function matchValues(
  entry: VocabularyEntry,
  tokens: readonly Token[],
  from: number,
  limit: number,
  findings: Finding[],
): Match {
  const reader: Reader = {
    entry,
    tokens,
    limit,
    values: [],
    findings,
    at: from,
    failure: null,
    tried: [],
    triedAt: from,
  };
  if (entry.role === 'quantity') matchLimit(reader, entry);
  else match(reader, parsePattern(entry.pattern));
  return { values: reader.values, next: reader.at, failure: reader.failure, couldFollow: triedHere(reader) };
}

/** True where the pattern matched; otherwise `failure` is set and `at` stands where it happened. */
function match(reader: Reader, pattern: Pattern): boolean {
  switch (pattern.kind) {
    case 'empty':
      return true;
    case 'literal':
      return matchLiteral(reader, pattern.text);
    case 'placeholder':
      return matchPlaceholder(reader, pattern.name);
    case 'series':
      return pattern.parts.every((part) => match(reader, part));
    case 'choice': {
      for (const part of pattern.parts) if (canStart(reader, part)) return match(reader, part);
      return fail(reader, pattern.parts.map(describePattern).join(' or '));
    }
    case 'many': {
      let count = 0;
      while ((pattern.most === null || count < pattern.most) && canStart(reader, pattern.part)) {
        if (!match(reader, pattern.part)) return false;
        count++;
      }
      return count >= pattern.least || match(reader, pattern.part);
    }
  }
}

/** Whether the next token can begin the pattern; one token decides in every pattern of the vocabulary. */
function canStart(reader: Reader, pattern: Pattern): boolean {
  const token = peek(reader);
  switch (pattern.kind) {
    case 'empty':
      return true;
    case 'literal':
      return standsHere(reader, pattern.text);
    case 'placeholder':
      return token !== null && placeholderStarts(pattern.name, token);
    case 'series':
      return canStart(reader, pattern.parts[0]!);
    case 'choice':
      return pattern.parts.some((part) => canStart(reader, part));
    case 'many':
      return canStart(reader, pattern.part);
  }
}

function placeholderStarts(name: string, token: Token): boolean {
  switch (name) {
    case 'layer':
      return token.kind === 'word' && token.text.length === 1;
    case 'code':
    case 'word':
    case 'measure':
    case 'requirement':
      return token.kind === 'word';
    case 'target':
      return token.kind === 'word' && varyBlocks.has(token.text);
    case 'values':
      return token.kind === 'number' || token.kind === 'word';
    case 'text':
    case 'date':
    case 'reason':
      return token.kind === 'string';
    case 'phase':
    case 'terminal':
    case 'sheet-size':
      return token.kind === 'mark';
    case 'row':
      return rowPlace(token) !== null || token.text === '(' || token.text === ')';
    case 'walk':
      return walkStep(token) !== null || token.text === '(' || token.text === ')';
    default:
      return token.kind === 'number';
  }
}

function matchPlaceholder(reader: Reader, name: string): boolean {
  const token = peek(reader);
  switch (name) {
    case 'text':
    case 'date':
    case 'reason':
      return matchText(reader, name);
    case 'code':
      if (token?.kind !== 'word') return fail(reader, describePlaceholder(name));
      reader.values.push({ kind: 'code', text: token.text, range: token });
      reader.at++;
      return true;
    case 'layer':
      if (token === null || !placeholderStarts('layer', token))
        return fail(reader, describePlaceholder(name));
      reader.values.push({ kind: 'layer', layer: layerOfLetter(token.text), range: token });
      reader.at++;
      return true;
    case 'phase':
    case 'terminal':
    case 'sheet-size':
      if (token?.kind !== 'mark') return fail(reader, describePlaceholder(name));
      reader.values.push({ kind: 'mark', role: name, text: token.text, range: token });
      reader.at++;
      return true;
    case 'row':
    case 'walk':
      return matchSequence(reader, name);
    case 'word':
      return matchWord(reader, match);
    case 'target':
      return matchTarget(reader, match);
    case 'values':
      return matchSeries(reader);
    case 'measure':
      return matchMeasure(reader);
    case 'requirement':
      return matchRequirement(reader);
    default:
      return matchQuantity(reader, name, dimensionOf[name] ?? 'none');
  }
}

function matchSequence(reader: Reader, name: 'row' | 'walk'): boolean {
  const from = reader.at;
  const token = peek(reader);
  if (token === null || !placeholderStarts(name, token)) return fail(reader, describePlaceholder(name));
  if (name === 'row') {
    const { items, next } = readSequence(reader.tokens, from, reader.limit, rowPlace, reader.findings);
    reader.at = next;
    reader.values.push({
      kind: 'row',
      places: items,
      range: { start: token.start, end: reader.tokens[next - 1]!.end },
    });
  } else {
    const { items, next } = readSequence(reader.tokens, from, reader.limit, walkStep, reader.findings);
    reader.at = next;
    reader.values.push({
      kind: 'walk',
      steps: items,
      range: { start: token.start, end: reader.tokens[next - 1]!.end },
    });
  }
  return true;
}

function rowPlace(token: Token): RowPlace | null {
  if (token.kind === 'signed-phase') {
    return { kind: 'place', phase: token.text.slice(1), sense: token.text[0] === '-' ? -1 : 1, range: token };
  }
  if (token.kind === 'punctuation' && token.text === '.')
    return { kind: 'place', phase: null, sense: 1, range: token };
  return null;
}

/** The step of a path that a token is; null where it is none. */
export function walkStep(token: Token): WalkStep | null {
  const layer = layerOfLetter(token.text.slice(-1));
  const slots = Number.parseInt(token.text, 10);
  if (token.kind === 'position') return { kind: 'position', slot: slots, layer, range: token };
  if (token.kind === 'hop') return { kind: 'hop', slots, layer, range: token };
  if (token.kind === 'punctuation' && token.text === '|') return { kind: 'piece', range: token };
  return null;
}
