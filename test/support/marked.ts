import { expect } from 'vitest';
import type { Finding, Range } from '../../core/language/finding.ts';

/** A text whose «marked» stretches are known by their place. */
export interface MarkedText {
  readonly text: string;
  /** The marked stretches in the order of their opening marks. */
  readonly ranges: readonly Range[];
}

/** Takes the marks « and » out of a text; marks may nest. */
export function marked(source: string): MarkedText {
  const ranges: { start: number; end: number }[] = [];
  const open: { start: number; end: number }[] = [];
  let text = '';
  for (const c of source) {
    if (c === '«') {
      const range = { start: text.length, end: -1 };
      ranges.push(range);
      open.push(range);
    } else if (c === '»') {
      const range = open.pop();
      if (!range) throw new RangeError(`» without « in ${source}`);
      range.end = text.length;
    } else text += c;
  }
  if (open.length > 0) throw new RangeError(`« without » in ${source}`);
  return { text, ranges };
}

/** A finding as code and the stretch of text it stands at. */
export function placed(text: string, { code, range }: Finding): string {
  return `${code} at ${range.start}: ${text.slice(range.start, range.end)}`;
}

/** Expects exactly these codes, one at each mark, in text order. */
export function expectFindings(
  source: string,
  codes: readonly string[],
  findingsOf: (text: string) => readonly Finding[],
): readonly Finding[] {
  const { text, ranges } = marked(source);
  expect(ranges.length, 'as many marks as codes').toBe(codes.length);
  const findings = [...findingsOf(text)].sort(
    (a, b) => a.range.start - b.range.start || b.range.end - a.range.end,
  );
  const expected = codes.map(
    (code, i) => `${code} at ${ranges[i]!.start}: ${text.slice(ranges[i]!.start, ranges[i]!.end)}`,
  );
  expect(findings.map((finding) => placed(text, finding))).toEqual(expected);
  return findings;
}

/** Expects every range of every finding, its related places and its edits to lie within the text. */
export function expectWithin(text: string, findings: readonly Finding[]): void {
  const wrong = findings.flatMap((finding) =>
    [
      finding.range,
      ...finding.related.map(({ range }) => range),
      ...(finding.fix?.edits ?? []).map(({ range }) => range),
    ]
      .filter(({ start, end }) => !(start >= 0 && start <= end && end <= text.length))
      .map(({ start, end }) => `${finding.code} ${start}..${end} of ${text.length}`),
  );
  expect(wrong).toEqual([]);
}
