import { type Finding, finding, type Range } from '../finding.ts';
import { layerLetter } from '../layerLetters.ts';
import { anyNumber } from '../specification/rules.ts';
import { nearestWord, replacement } from '../suggest.ts';
import {
  layerSourceMissing,
  outOfRange,
  reasonMissing,
  stringTooLong,
  textTooLong,
  unexpectedText,
  unitWrong,
  wordRepeated,
} from '../textFindingKinds.ts';
import { parsePattern, patternLiterals } from '../vocabulary/pattern.ts';
import { tradeWordIn } from '../vocabulary/tradeWords.ts';
import { statementBlocks, statementWords, type VocabularyEntry } from '../vocabulary/vocabulary.ts';
import type { Statement, Value } from './document.ts';
import type { Token } from './lexer.ts';
import { varyStatementFindings } from './varyChecks.ts';

/** The literal that a token was meant to be, of those that could stand in its place. */
export function meantLiteral(
  { block }: VocabularyEntry,
  token: Token,
  literals: readonly string[],
): string | undefined {
  const ours = tradeWordIn(block, token.text, (word) => literals.includes(word))?.ours;
  const likeWord = token.kind === 'word' || token.kind === 'unknown';
  return ours ?? (likeWord ? nearestWord(token.text, literals) : undefined);
}

/**
 * What is wrong with the token behind a complete statement; null where it is a word that begins the next
 * statement, misspelled or of another block, which will be reported as such. `couldFollow` are the literals
 * that could stand there.
 */
export function trailingText(
  { entry, values }: Pick<Statement, 'entry' | 'values'>,
  token: Token,
  couldFollow: readonly string[],
): Finding | null {
  const place = { start: token.start, end: token.end };
  if (token.kind === 'unit')
    return finding(unitWrong, place, {
      unit: token.text,
      dimension: 'none',
      units: [],
      suggestion: undefined,
    });
  const literal = meantLiteral(entry, token, couldFollow);
  if (literal === undefined && meantStatement(entry, token)) return null;
  const isPlace = values.at(-1)?.kind === 'row' && /^[+-]\d?[a-z]$/.test(token.text);
  const suggestion = literal ?? (isPlace ? token.text.toUpperCase() : undefined);
  const choices = soleChoices(entry);
  const data = { text: token.text, word: entry.word, example: entry.example, choices, suggestion };
  return finding(unexpectedText, place, data, replacement(place, suggestion));
}

/** The words of a statement that takes one of them and nothing else. */
function soleChoices({ pattern }: VocabularyEntry): readonly string[] | undefined {
  const parsed = parsePattern(pattern);
  const sole = parsed.kind === 'choice' && parsed.parts.every(({ kind }) => kind === 'literal');
  return sole ? patternLiterals(parsed) : undefined;
}

/** Whether a token was meant to begin a statement. */
function meantStatement({ block }: VocabularyEntry, { kind, text }: Token): boolean {
  const words = statementWords(block);
  if (kind !== 'word' && kind !== 'unknown') return false;
  return (
    nearestWord(text, words) !== undefined ||
    tradeWordIn(block, text, (ours) => words.includes(ours.split(' ')[0]!)) !== undefined ||
    statementBlocks(text).length > 0
  );
}

/** Most UTF-16 units of a text in quotes. */
export const longestString = 10_000;

const behindSource = new Set(['layer', 'moved', 'negated']);

/** What is missing where a layer is `moved` or `negated` without `= layer`, or derived without `=`. */
export function derivedWithoutSource(
  entry: VocabularyEntry,
  values: readonly Value[],
  { kind, text: word, start, end }: Token,
): Finding | null {
  const [layer] = values;
  if (entry.block !== 'layout' || entry.word !== 'layer' || kind !== 'word' || !behindSource.has(word))
    return null;
  if (layer?.kind !== 'layer' || values.length !== 1) return null;
  const source = layer.layer === 0 ? 'b' : 'a';
  const insert = word === 'layer' ? '=' : `= layer ${source}`;
  const data = { word, layer: layerLetter(layer.layer), source };
  const edits = [{ range: { start, end: start }, text: `${insert} ` }];
  return finding(layerSourceMissing, { start, end }, data, { fix: { title: `Insert '${insert}'`, edits } });
}

/** Findings about the values of a statement, after the rules of its vocabulary entry. */
export function valueFindings(statement: Statement): Finding[] {
  const { entry, values } = statement;
  const findings = [...repeatedWords(statement), ...varyStatementFindings(statement)];
  for (const value of values) {
    if (value.kind === 'quantity') {
      const rule = entry.rules[value.placeholder];
      const { schema, words: expected, name, advice } = rule ?? anyNumber;
      const judged = rule ? value.value : Number.parseFloat(value.written);
      if (!schema.safeParse(judged).success) {
        const { written } = value;
        findings.push(
          finding(outOfRange, value.range, { word: entry.word, name, written, expected, advice }),
        );
      }
    } else if (value.kind === 'text') {
      findings.push(...textFindings(entry, value.text, value.range));
    } else if (value.kind === 'mark' && value.role === 'sheet-size' && !/^A[0-4]$/.test(value.text)) {
      findings.push(
        finding(outOfRange, value.range, {
          word: entry.word,
          written: value.text,
          expected: 'A4, A3, A2, A1 or A0',
        }),
      );
    }
  }
  return findings;
}

/** Keywords that stand a second time in a statement where they stand once. */
function repeatedWords({ entry, values }: Statement): Finding[] {
  const { recurring, word } = entry;
  if (!recurring) return [];
  const first = new Map<string, Range>();
  return values.flatMap((value) => {
    if (value.kind !== 'keyword' || recurring.includes(value.text)) return [];
    const { text, range } = value;
    const earlier = first.get(text);
    if (!earlier) first.set(text, range);
    const related = earlier ? [{ message: 'first given here', range: earlier }] : [];
    return earlier ? [finding(wordRepeated, range, { text, word }, { related })] : [];
  });
}

function textFindings(entry: VocabularyEntry, text: string, range: Range): Finding[] {
  if (text.length > longestString) {
    const data = { word: entry.word, length: text.length, most: longestString };
    return [finding(stringTooLong, range, data)];
  }
  if (entry.pattern === 'date' && !isDate(text)) {
    return [
      finding(outOfRange, range, {
        word: entry.word,
        written: text,
        expected: 'a date as year-month-day, as in "2026-05-01"',
      }),
    ];
  }
  if (/\breason$/.test(entry.pattern) && !/[\p{L}\p{N}]/u.test(text))
    return [finding(reasonMissing, range, { word: entry.word })];
  const most = entry.recommendedLength;
  const length = [...text].length;
  return most !== undefined && length > most
    ? [finding(textTooLong, range, { word: entry.word, length, most })]
    : [];
}

function isDate(text: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day && year >= 1900;
}
