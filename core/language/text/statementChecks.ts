import { type Finding, finding, type Range } from '../finding.ts';
import { nearestWord, replacement } from '../suggest.ts';
import { outOfRange, textTooLong, unexpectedText, unitWrong } from '../textFindingKinds.ts';
import { parsePattern, patternLiterals } from '../vocabulary/pattern.ts';
import { statementWords, type VocabularyEntry } from '../vocabulary/vocabulary.ts';
import type { Statement } from './document.ts';
import type { Token } from './lexer.ts';

/**
 * What is wrong with the token behind a complete statement; null where it is a misspelled word that
 * begins the next statement, which will be reported as such.
 */
export function trailingText(entry: VocabularyEntry, token: Token): Finding | null {
  const place = { start: token.start, end: token.end };
  if (token.kind === 'unit')
    return finding(unitWrong, place, {
      unit: token.text,
      dimension: 'none',
      units: [],
      suggestion: undefined,
    });
  const literals = patternLiterals(parsePattern(entry.pattern));
  const words = statementWords(entry.block);
  const likeWord = token.kind === 'word' || token.kind === 'unknown';
  const nearest = likeWord ? nearestWord(token.text, [...literals, ...words]) : undefined;
  if (nearest !== undefined && !literals.includes(nearest)) return null;
  const suggestion = nearest ?? (/^[+-]\d?[a-z]$/.test(token.text) ? token.text.toUpperCase() : undefined);
  const data = { text: token.text, word: entry.word, example: entry.example, suggestion };
  return finding(unexpectedText, place, data, replacement(place, suggestion));
}

/** Findings about the values of a statement, after the rules of its vocabulary entry. */
export function valueFindings(statement: Statement): Finding[] {
  const { entry, values } = statement;
  const findings: Finding[] = [];
  for (const value of values) {
    if (value.kind === 'quantity') {
      const rule = entry.rules[value.placeholder];
      const finite = Number.isFinite(value.value);
      if (!finite || (rule && !rule.schema.safeParse(value.value).success)) {
        const expected = rule?.words ?? 'a number within reach';
        findings.push(
          finding(outOfRange, value.range, {
            word: entry.word,
            name: rule?.name,
            written: value.written,
            expected,
            advice: rule?.advice,
          }),
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

function textFindings(entry: VocabularyEntry, text: string, range: Range): Finding[] {
  if (entry.pattern === 'date' && !isDate(text)) {
    return [
      finding(outOfRange, range, {
        word: entry.word,
        written: text,
        expected: 'a date as year-month-day, as in "2026-05-01"',
      }),
    ];
  }
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
