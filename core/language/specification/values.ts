import { type Finding, finding, type Range } from '../finding.ts';
import { nearestWord, replacement } from '../suggest.ts';
import type { RowPlace, Value, WalkStep } from '../text/document.ts';
import { stringValue, type Token } from '../text/lexer.ts';
import { readSequence } from '../text/sequence.ts';
import { derivedWithoutSource, meantLiteral } from '../text/statementChecks.ts';
import {
  badEscape,
  expectedValue,
  quoted,
  unclosedString,
  unitGlued,
  unitMissing,
  unitWrong,
} from '../textFindingKinds.ts';
import { type Pattern, parsePattern, patternLiterals } from '../vocabulary/pattern.ts';
import { describePattern, describePlaceholder, dimensionOf } from '../vocabulary/patternWords.ts';
import { numberNamed, tradeWordIn } from '../vocabulary/tradeWords.ts';
import { type Dimension, gluedUnit, unitCalled, unitNamed, unitNames } from '../vocabulary/units.ts';
import { statementWords, type VocabularyEntry } from '../vocabulary/vocabulary.ts';

/** What came of matching values: how far it read, and the finding where it failed. */
export interface Match {
  readonly values: readonly Value[];
  readonly next: number;
  readonly failure: Finding | null;
  /** Words that could stand where it ended, and did not. */
  readonly couldFollow: readonly string[];
}

interface Reader {
  readonly entry: VocabularyEntry;
  readonly tokens: readonly Token[];
  readonly limit: number;
  readonly values: Value[];
  readonly findings: Finding[];
  at: number;
  failure: Finding | null;
  /** The literals looked for at `triedAt` in vain. */
  tried: string[];
  triedAt: number;
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
  if (entry.role === 'quantity') matchLimit(reader);
  else match(reader, parsePattern(entry.pattern));
  return { values: reader.values, next: reader.at, failure: reader.failure, couldFollow: triedHere(reader) };
}

function triedHere(reader: Reader): readonly string[] {
  return reader.triedAt === reader.at ? reader.tried : [];
}

/** Whether the next token is this literal; one that is not is remembered as one that could stand here. */
function standsHere(reader: Reader, text: string): boolean {
  const token = peek(reader);
  if (token !== null && isLiteral(token, text)) return true;
  if (reader.triedAt !== reader.at) {
    reader.tried = [];
    reader.triedAt = reader.at;
  }
  reader.tried.push(text);
  return false;
}

function peek(reader: Reader): Token | null {
  return reader.at < reader.limit ? reader.tokens[reader.at]! : null;
}

/** Says what is missing; a misspelled literal, or a word of the trade for one, is answered with it. */
function fail(reader: Reader, expected: string): false {
  const { entry } = reader;
  const token = peek(reader);
  const whole = token?.kind === 'unknown' ? unbroken(reader, reader.at) : null;
  const glued = whole ? gluedUnit(whole.text) : null;
  if (whole && glued) {
    const { range } = whole;
    const text = `${glued.number} ${glued.unit}`;
    reader.failure = finding(unitGlued, range, glued, {
      fix: { title: `Write '${text}'`, edits: [{ range, text }] },
    });
    return false;
  }
  const sourceMissing = token && derivedWithoutSource(entry, reader.values, token);
  if (sourceMissing) {
    reader.failure = sourceMissing;
    // What follows belongs to this statement, though its word could begin another.
    reader.at++;
    return false;
  }
  const last = reader.tokens[reader.at - 1]!;
  const range = token ?? { start: last.end, end: last.end };
  const { start, end } = range.start === range.end ? last : range;
  const meant = token ? meantLiteral(entry, token, triedHere(reader)) : undefined;
  const named = token?.kind === 'number' ? numberNamed(entry.block, entry.word) : undefined;
  const word = reader.tokens[reader.at - 1]!;
  reader.failure = finding(
    expectedValue,
    { start, end },
    {
      word: entry.word,
      expected,
      found: token === null ? 'the end of the statement' : quoted(token.text),
      example: entry.example,
      suggestion: meant,
      named,
    },
    named === undefined ? replacement({ start, end }, meant) : replacement(word, named),
  );
  return false;
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

function isLiteral(token: Token, text: string): boolean {
  return token.text === text && (token.kind === 'word' || token.kind === 'punctuation');
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
      return token.kind === 'word';
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

function matchLiteral(reader: Reader, text: string): boolean {
  if (!standsHere(reader, text)) return fail(reader, quoted(text));
  reader.values.push({ kind: 'keyword', text, range: peek(reader)! });
  reader.at++;
  return true;
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
      reader.values.push({ kind: 'layer', layer: token.text.charCodeAt(0) - 97, range: token });
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
    default:
      return matchQuantity(reader, name, dimensionOf[name] ?? 'none', false);
  }
}

function matchText(reader: Reader, name: string): boolean {
  const token = peek(reader);
  if (token?.kind === 'unclosed-string') {
    reader.failure = finding(unclosedString, { start: token.start, end: token.end }, null);
    return false;
  }
  if (token?.kind !== 'string') return fail(reader, describePlaceholder(name));
  const { text, badEscapes } = stringValue(token);
  for (const range of badEscapes) reader.findings.push(finding(badEscape, range, null));
  reader.values.push({ kind: 'text', text, range: token });
  reader.at++;
  return true;
}

function matchQuantity(reader: Reader, name: string, dimension: Dimension, unitOptional: boolean): boolean {
  const token = peek(reader);
  if (token?.kind !== 'number') return fail(reader, describePlaceholder(name));
  const next = reader.tokens[reader.at + 1]!;
  const unitToken = next.kind === 'unit' && reader.at + 1 < reader.limit ? next : null;
  const unit = unitToken ? unitNamed(unitToken.text)! : null;
  const expected = unitNames(dimension);
  if (unit === null && dimension !== 'none' && !unitOptional) {
    if (unknownUnit(reader, dimension)) return false;
    reader.failure = finding(
      unitMissing,
      { start: token.start, end: token.end },
      { number: token.text, dimension, units: expected },
    );
    return false;
  }
  if (unitToken && unit && unit.dimension !== dimension) {
    reader.failure = finding(
      unitWrong,
      { start: unitToken.start, end: unitToken.end },
      { unit: unitToken.text, dimension, units: expected, suggestion: undefined },
    );
    return false;
  }
  const range = { start: token.start, end: (unitToken ?? token).end };
  const written = unit ? `${token.text} ${unit.name}` : token.text;
  const value = Number(token.text) * (unit?.factor ?? 1);
  reader.values.push({
    kind: 'quantity',
    placeholder: name,
    dimension,
    value,
    unit: unit?.name ?? null,
    written,
    range,
  });
  reader.at += unit ? 2 : 1;
  return true;
}

/** Reports what stands behind a number in the place of its unit, if anything does. */
function unknownUnit(reader: Reader, dimension: Dimension): boolean {
  const { entry, tokens } = reader;
  const first = reader.at + 1;
  const token = tokens[first]!;
  if (first >= reader.limit || token.startsLine) return false;
  if (token.kind !== 'word' && token.kind !== 'mark' && token.kind !== 'unknown') return false;
  const meant = [...patternLiterals(parsePattern(entry.pattern)), ...statementWords(entry.block)];
  if (meant.includes(token.text) || nearestWord(token.text, meant) !== undefined) return false;
  if (tradeWordIn(entry.block, token.text, (ours) => meant.includes(ours))) return false;
  const { text: written, range } = unbroken(reader, first);
  const names = unitNames(dimension);
  const spelled = spellings(written);
  const suggestion =
    names.find((name) => name !== written && spelled.includes(name.toLowerCase())) ??
    spelled.map(unitCalled).find((name) => name !== undefined && names.includes(name));
  const data = { unit: written, dimension, units: names, suggestion };
  reader.failure = finding(unitWrong, range, data, replacement(range, suggestion));
  return true;
}

/** What is written from a token on without a blank. */
function unbroken({ tokens, limit }: Reader, from: number): { readonly text: string; readonly range: Range } {
  let last = from;
  while (last + 1 < limit && tokens[last + 1]!.start === tokens[last]!.end) last++;
  const text = tokens
    .slice(from, last + 1)
    .map((token) => token.text)
    .join('');
  return { text, range: { start: tokens[from]!.start, end: tokens[last]!.end } };
}

/** Small-letter spellings that a unit may have meant: in another case, in the plural, with signs for words. */
function spellings(written: string): readonly string[] {
  const plain = written.replace(/[µμ]/, 'u').replace(/°/, 'deg').replace(/[ΩΩ]/, 'ohm').toLowerCase();
  return [plain, plain.replace(/s$/, '')];
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

function walkStep(token: Token): WalkStep | null {
  const layer = token.text.charCodeAt(token.text.length - 1) - 97;
  const slots = Number.parseInt(token.text, 10);
  if (token.kind === 'position') return { kind: 'position', slot: slots, layer, range: token };
  if (token.kind === 'hop') return { kind: 'hop', slots, layer, range: token };
  if (token.kind === 'punctuation' && token.text === '|') return { kind: 'piece', range: token };
  return null;
}

const relations = ['<=', '>='] as const;

/** `[harmonic n | order k | at "point"] (<= | >=) value [unit]`, after the dimension of the limit's quantity. */
function matchLimit(reader: Reader): void {
  const scopes = reader.entry.perOrder ? ['harmonic', 'order'] : reader.entry.perPoint ? ['at'] : [];
  const scope = scopes.find((word) => standsHere(reader, word));
  if (scope !== undefined) {
    matchLiteral(reader, scope);
    const read = () =>
      scope === 'at'
        ? matchText(reader, 'text')
        : matchQuantity(reader, scope === 'order' ? 'count' : 'number', 'none', false);
    if (!read()) return;
  }
  const relation = peek(reader);
  if (!relations.some((sign) => standsHere(reader, sign))) {
    const words =
      reader.values.length === 0 && scopes.length > 0 ? `${scopes.map(quoted).join(' or ')}, or ` : '';
    fail(reader, `${words}'<=' or '>='`);
    return;
  }
  reader.values.push({ kind: 'keyword', text: relation!.text, range: relation! });
  reader.at++;
  const dimension = reader.entry.dimension ?? 'none';
  matchQuantity(reader, 'limit', dimension, dimension === 'ratio');
}
