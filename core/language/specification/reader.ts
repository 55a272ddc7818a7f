import { type Finding, finding, type Range } from '../finding.ts';
import { nearestWord, replacement } from '../suggest.ts';
import type { Value } from '../text/document.ts';
import { stringValue, type Token } from '../text/lexer.ts';
import { quoted } from '../text/quoted.ts';
import { derivedWithoutSource, meantLiteral } from '../text/statementChecks.ts';
import {
  badEscape,
  expectedValue,
  numberParted,
  unclosedString,
  unitGlued,
  unitMissing,
  unitWrong,
} from '../textFindingKinds.ts';
import { parsePattern, patternLiterals } from '../vocabulary/pattern.ts';
import { describePlaceholder } from '../vocabulary/patternWords.ts';
import { numberNamed, tradeWordIn } from '../vocabulary/tradeWords.ts';
import { type Dimension, gluedUnit, unitCalled, unitNamed, unitNames } from '../vocabulary/units.ts';
import { heldPairs, scopesOf } from '../vocabulary/varied.ts';
import {
  type BlockName,
  statementEntry,
  statementWords,
  type VocabularyEntry,
} from '../vocabulary/vocabulary.ts';

/** Whether a token begins a statement of the block; `slot`, also a unit, begins a row of vary. */
export function beginsStatement(block: BlockName, { kind, text }: Token): boolean {
  return (
    (kind === 'word' || (kind === 'unit' && block === 'vary')) && statementEntry(block, text) !== undefined
  );
}

/** The values of a statement while they are read. */
export interface Reader {
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

export function triedHere(reader: Reader): readonly string[] {
  if (reader.triedAt !== reader.at) return [];
  const { recurring } = reader.entry;
  if (!recurring) return reader.tried;
  const given = reader.values.flatMap((value) => (value.kind === 'keyword' ? [value.text] : []));
  const pairs = reader.entry.word === 'hold' ? heldPairs : [];
  const taken = (word: string) =>
    given.includes(word) ||
    pairs.some((pair) => pair.includes(word) && pair.some((one) => given.includes(one)));
  return reader.tried.filter((word) => recurring.includes(word) || !taken(word));
}

/** Whether the next token is this literal; one that is not is remembered as one that could stand here. */
export function standsHere(reader: Reader, text: string): boolean {
  const token = peek(reader);
  if (token !== null && isLiteral(token, text)) return true;
  if (reader.triedAt !== reader.at) {
    reader.tried = [];
    reader.triedAt = reader.at;
  }
  reader.tried.push(text);
  return false;
}

export function peek(reader: Reader): Token | null {
  return reader.at < reader.limit ? reader.tokens[reader.at]! : null;
}

/** Says what is missing; a misspelled literal, or a word of the trade for one, is answered with it. */
export function fail(reader: Reader, expected: string): false {
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

function isLiteral(token: Token, text: string): boolean {
  return token.text === text && (token.kind === 'word' || token.kind === 'punctuation');
}

export function matchLiteral(reader: Reader, text: string): boolean {
  if (!standsHere(reader, text)) return fail(reader, quoted(text));
  reader.values.push({ kind: 'keyword', text, range: peek(reader)! });
  reader.at++;
  return true;
}

export function matchText(reader: Reader, name: string): boolean {
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

/** Reads a number with a unit of this dimension, which may be left out where that is said. */
export function matchQuantity(
  reader: Reader,
  name: string,
  dimension: Dimension,
  { unitOptional = false }: { readonly unitOptional?: boolean } = {},
): boolean {
  const token = peek(reader);
  if (token?.kind !== 'number') return fail(reader, describePlaceholder(name));
  if (name !== 'count' && name !== 'integer' && partedNumber(reader, dimension)) return false;
  const next = reader.tokens[reader.at + 1]!;
  // `slot` behind a count begins a row of vary; elsewhere it is a unit.
  const beginsRow = dimension === 'none' && next.kind === 'unit' && beginsStatement(reader.entry.block, next);
  const unitToken = next.kind === 'unit' && reader.at + 1 < reader.limit && !beginsRow ? next : null;
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

/**
 * Reports a number with a comma within, for decimals or to part thousands, and one whose thousands are parted by a
 * blank, where only a unit could follow.
 */
function partedNumber(reader: Reader, dimension: Dimension): boolean {
  const { entry, tokens, limit, at } = reader;
  // Of values to try there are lists.
  if (entry.block === 'vary') return false;
  const [first, second, third] = [tokens[at]!, tokens[at + 1], tokens[at + 2]];
  if (!/^[+-]?\d+$/.test(first.text)) return false;
  const thousands = (text: string) => /^[+-]?[1-9]\d?\d?$/.test(first.text) && /^\d{3}$/.test(text);
  const digits = (token: Token | undefined): token is Token => !!token && /^\d+$/.test(token.text);
  const report = (last: Token, meant: readonly string[]) => {
    const range = { start: first.start, end: last.end };
    const written = `${first.text}${second === last ? ' ' : ','}${last.text}`;
    const only = meant.length === 1 ? meant[0] : undefined;
    reader.failure = finding(numberParted, range, { written, meant }, replacement(range, only));
    return true;
  };
  if (second?.text === ',' && second.start === first.end && digits(third) && third.start === second.end) {
    if (at + 2 >= limit) return false;
    const point = `${first.text}.${third.text}`;
    return report(third, thousands(third.text) ? [`${first.text}${third.text}`, point] : [point]);
  }
  const blank = dimension !== 'none' && at + 1 < limit && digits(second) && !second.startsLine;
  return blank && thousands(second.text) ? report(second, [`${first.text}${second.text}`]) : false;
}

/** Reports what stands behind a number in the place of its unit, if anything does. */
function unknownUnit(reader: Reader, dimension: Dimension): boolean {
  const { entry, tokens } = reader;
  const first = reader.at + 1;
  const token = tokens[first]!;
  if (first >= reader.limit || token.startsLine) return false;
  if (token.kind !== 'word' && token.kind !== 'mark' && token.kind !== 'unknown') return false;
  const inRow = entry.block === 'vary' ? ['to', 'by'] : [];
  const meant = [...patternLiterals(parsePattern(entry.pattern)), ...statementWords(entry.block), ...inRow];
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

/** `harmonic n`, `order k` or `at "point"`, where the quantity has such values and one is named. */
export function matchScope(reader: Reader, quantity: VocabularyEntry): boolean {
  const scope = scopesOf(quantity).find((word) => standsHere(reader, word));
  if (scope === undefined) return true;
  matchLiteral(reader, scope);
  return scope === 'at'
    ? matchText(reader, 'text')
    : matchQuantity(reader, scope === 'order' ? 'count' : 'number', 'none');
}

const relations = ['<=', '>='] as const;

/** `[harmonic n | order k | at "point"] (<= | >=) value [unit]`, after the dimension of the limit's quantity. */
export function matchLimit(reader: Reader, quantity: VocabularyEntry): void {
  const before = reader.values.length;
  if (!matchScope(reader, quantity)) return;
  const relation = peek(reader);
  const scopes = scopesOf(quantity);
  if (!relations.some((sign) => standsHere(reader, sign))) {
    const words =
      reader.values.length === before && scopes.length > 0 ? `${scopes.map(quoted).join(' or ')}, or ` : '';
    fail(reader, `${words}'<=' or '>='`);
    return;
  }
  reader.values.push({ kind: 'keyword', text: relation!.text, range: relation! });
  reader.at++;
  const dimension = quantity.dimension ?? 'none';
  matchQuantity(reader, 'limit', dimension, { unitOptional: dimension === 'ratio' });
}
