import { describe, expect, it } from 'vitest';
import type { Fix } from '../../core/language/finding.ts';
import { format } from '../../core/language/format/formatter.ts';
import { mostOddPlaces, oddCharacters } from '../../core/language/text/oddCharacters.ts';
import { parse } from '../../core/language/text/parser.ts';
import { soundExamples } from '../support/files.ts';
import { expectFindings, expectWithin, marked } from '../support/marked.ts';
import { study } from '../support/study.ts';

const findingsOf = (text: string) => parse(text).findings;

/** The text after the edits of a fix. */
function mended(text: string, fix: Fix | undefined): string {
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.range.start - a.range.start)
    .reduce((now, { range, text: part }) => now.slice(0, range.start) + part + now.slice(range.end), text);
}

// Names as in the Unicode character database.
const blanks: readonly (readonly [string, string, string])[] = [
  ['\u00a0', 'U+00A0', 'no-break space'],
  ['\u1680', 'U+1680', 'ogham space mark'],
  ['\u2002', 'U+2002', 'en space'],
  ['\u2003', 'U+2003', 'em space'],
  ['\u2007', 'U+2007', 'figure space'],
  ['\u2009', 'U+2009', 'thin space'],
  ['\u200a', 'U+200A', 'hair space'],
  ['\u202f', 'U+202F', 'narrow no-break space'],
  ['\u205f', 'U+205F', 'medium mathematical space'],
  ['\u3000', 'U+3000', 'ideographic space'],
];
const invisible: readonly (readonly [string, string, string])[] = [
  ['\u00ad', 'U+00AD', 'soft hyphen'],
  ['\u200b', 'U+200B', 'zero width space'],
  ['\u200c', 'U+200C', 'zero width non-joiner'],
  ['\u200d', 'U+200D', 'zero width joiner'],
  ['\u200e', 'U+200E', 'left-to-right mark'],
  ['\u200f', 'U+200F', 'right-to-left mark'],
  ['\u202e', 'U+202E', 'right-to-left override'],
  ['\u2060', 'U+2060', 'word joiner'],
  ['\u2066', 'U+2066', 'left-to-right isolate'],
  ['\ufeff', 'U+FEFF', 'byte order mark'],
  ['\u{e0041}', 'U+E0041', 'invisible character'],
  ['\u0000', 'U+0000', 'control character'],
  ['\u001b', 'U+001B', 'control character'],
];

describe('a blank that is not plain', () => {
  it.each(blanks)('%j is named %s, %s, and read as a plain one', (c, point, name) => {
    const source = `machine { slots«${c}»48 bore 162«${c}»mm }\n`;
    const [finding] = expectFindings(source, ['character-odd', 'character-odd'], findingsOf);
    expect(finding!.message).toBe(oddCharacters.message({ odd: [{ point, name }], kind: 'blank', more: 0 }));
    expect(finding!.message).toContain(`${point} (${name})`);
    const { text } = marked(source);
    expect(mended(text, finding!.fix)).toBe(text.replace(c, ' '));
    expect(parse(text).blocks[0]!.statements.map(({ entry }) => entry.word)).toEqual(['slots', 'bore']);
  });

  it.each([
    ['\u2028', 'U+2028'],
    ['\u2029', 'U+2029'],
    ['\u0085', 'U+0085'],
  ])('%j looks like a line end and becomes one', (c, point) => {
    for (const end of ['\n', '\r\n']) {
      const source = `machine {${end}  slots 48«${c}»  poles 8${end}}${end}`;
      const [finding] = expectFindings(source, ['character-odd'], findingsOf);
      expect(finding!.message).toContain(point);
      const { text } = marked(source);
      expect(mended(text, finding!.fix)).toBe(text.replace(c, end));
    }
  });
});

describe('a character that cannot be seen', () => {
  it.each(invisible)('%j is named %s, %s, and read over', (c, point, name) => {
    const source = `machine { sl«${c}»ots 48 poles 8«${c}» }\n`;
    const [finding] = expectFindings(source, ['character-odd', 'character-odd'], findingsOf);
    expect(finding!.message).toContain(`${point} (${name})`);
    const { text } = marked(source);
    expect(mended(text, finding!.fix)).toBe(text.replace(c, ''));
    const [slots, poles] = parse(text).blocks[0]!.statements;
    expect([slots!.entry.word, poles!.entry.word]).toEqual(['slots', 'poles']);
    expect(text.slice(slots!.word.start, slots!.word.end)).toBe(`sl${c}ots`);
  });

  it('is no mark at the very beginning, where it may stand, but a second one is', () => {
    expect(findingsOf('\ufeffmachine { slots 48 }')).toEqual([]);
    expectFindings('\ufeff«\ufeff»machine { slots 48 }', ['character-odd'], findingsOf);
  });
});

describe('odd characters', () => {
  it('that follow one another are one place, plain blanks between them or not', () => {
    const source = 'machine {\n«\u00a0 \u200b\u00a0\t\u00a0»slots 48\n}\n';
    const [finding] = expectFindings(source, ['character-odd'], findingsOf);
    expect(finding!.message).toContain('U+00A0 (no-break space) and U+200B (zero width space)');
    expect(mended(marked(source).text, finding!.fix)).toBe('machine {\n   \t slots 48\n}\n');
  });

  it('in texts in quotes and in comments are left alone', () => {
    const odd = [...blanks, ...invisible].map(([c]) => c).join('');
    expect(findingsOf(`winding "a${odd}b" # ${odd}\nmachine { slots 48 }\n`)).toEqual([]);
    expectFindings(`winding "a${odd}b"«\u00a0»# ${odd}\n`, ['character-odd'], findingsOf);
  });

  it('change nothing of what a winding is', () => {
    const { text } = soundExamples[0]!;
    const plain = study(text);
    const odd = text.replace(/(?<=^\s*[a-z-]+) +(?=\d)/gm, '\u00a0').replace(/(\d)\n/g, '$1\u200b\n');
    const read = study(odd);
    expect(odd).not.toBe(text);
    expect(new Set(read.document.findings.map(({ code }) => code))).toEqual(new Set(['character-odd']));
    expect(read.report().factors).toEqual(plain.report().factors);
    expect(read.report().limits).toEqual(plain.report().limits);
    expectWithin(odd, read.findings);
  });

  it('keep their lines from being formatted, as every error does', () => {
    const text = 'machine {\n slots   48\n poles\u00a08\n}\n';
    expect(format(text)).toBe('machine {\n  slots 48\n poles\u00a08\n}\n');
  });

  it('do not come to the beginning of the text, where one of them may stand', () => {
    const text = '\n\ufeffslot { }\n';
    expect(format(text)).toBe(text);
  });

  it('of a great number are told up to a limit, the last for all that are left, with a fix for them', () => {
    const count = mostOddPlaces + 250;
    const text = `machine {\n${'# x\n\u00a0\n'.repeat(count)}slots 48 }\n`;
    const findings = findingsOf(text);
    expect(findings.map(({ code }) => code)).toEqual(Array(mostOddPlaces).fill('character-odd'));
    const last = findings[mostOddPlaces - 1]!;
    expect(last.message).toContain('250 more');
    expect(last.fix!.edits).toHaveLength(251);
    expect(text.slice(last.range.end)).not.toContain('\u00a0');
    const all = findings.flatMap(({ fix }) => fix!.edits);
    expect(mended(text, { title: '', edits: all })).not.toContain('\u00a0');
  });

  it('are shown by code point only, so that no message holds one', () => {
    const text = [...blanks, ...invisible].map(([c]) => `${c}x`).join('');
    for (const { message } of findingsOf(text))
      expect(message).not.toMatch(/[^\n -~\u00b1-\u1fff\u2018-\u201d\u2026\ufffd]/);
  });
});
