// Takes its time: reads the longest texts there can be.

import { describe, expect, it } from 'vitest';
import { format } from '../../core/language/format/formatter.ts';
import { mostBlocks, mostFindings, mostStatements, parse } from '../../core/language/text/parser.ts';
import { longestString } from '../../core/language/text/statementChecks.ts';
import { blocksTooMany, statementsTooMany, stringTooLong } from '../../core/language/textFindingKinds.ts';
import { study } from '../support/study.ts';
import { cleanWinding } from '../support/windingText.ts';

const codes = (text: string) => parse(text).findings.map(({ code }) => code);
const lines = (count: number, line: (i: number) => string) =>
  Array.from({ length: count }, (_, i) => `  ${line(i)}\n`).join('');
const sheet = (words: string) => `${cleanWinding}\nsheet {\n${words}}\n`;

describe('a text in quotes', () => {
  it.each(['title', 'owner', 'note', 'number', 'status'])('as long as can be read, of %s', (word) => {
    const given = (length: number) => sheet(`  ${word} "${'x'.repeat(length)}"\n`);
    expect(codes(given(longestString))).not.toContain(stringTooLong.code);
    const text = given(longestString + 1);
    const { findings, blocks } = parse(text);
    expect(findings.map(({ message }) => message)).toEqual([
      stringTooLong.message({ word, length: longestString + 1, most: longestString }),
    ]);
    expect(text.slice(findings[0]!.range.start, findings[0]!.range.end)).toBe(
      `"${'x'.repeat(longestString + 1)}"`,
    );
    expect(blocks.at(-1)!.statements).toEqual([]);
    expect(format(text)).toContain(`"${'x'.repeat(longestString + 1)}"`);
  });

  it('of 200 000 characters is told in one finding, whatever it holds', () => {
    for (const words of ['ab ', '\u0007']) {
      const title = words.repeat(200_000 / words.length);
      const { title: shown, findings } = study(cleanWinding.replace('Sluice gate drive', () => title));
      expect(findings.map(({ code }) => code).filter((code) => code !== 'title-missing')).toEqual([
        stringTooLong.code,
      ]);
      expect(shown.length).toBeLessThan(100);
    }
    // Every wrong escape is told at its place, as far as findings go.
    const wrong = codes(cleanWinding.replace('Sluice gate drive', () => '\\a'.repeat(100_000)));
    expect(wrong.length).toBe(mostFindings + 1);
  });
});

describe('a block', () => {
  const notes = (count: number) => sheet(lines(count, (i) => `note "Step ${i}"`));

  it('is read as far as its statements go', () => {
    const most = mostStatements('sheet');
    expect(codes(notes(most))).toEqual([]);
    const text = `${notes(most + 3)}bar { width 3 mm }\n`;
    const { blocks, findings } = parse(text);
    expect(findings.map(({ message }) => message)).toEqual([
      statementsTooMany.message({ block: 'sheet', most }),
    ]);
    expect(text.slice(findings[0]!.range.start).startsWith(`note "Step ${most}"`)).toBe(true);
    expect(blocks.find(({ name }) => name === 'sheet')!.statements).toHaveLength(most);
    // What stands behind the block is read, and formatting keeps what was not.
    expect(blocks.at(-1)).toMatchObject({ name: 'bar', statements: [{}] });
    expect(format(text)).toContain(lines(3, (i) => `note "Step ${most + i}"`));
    expect(format(format(text))).toBe(format(text));
  });

  it('that is left unread ends at its own brace, the next block or the title', () => {
    const most = mostStatements('sheet');
    const behind = [
      ' note "{" { { } } note "x" }\nrequire { torque >= 1 Nm }',
      'require { torque >= 1 Nm }',
      'winding "Late"\nrequire { torque >= 1 Nm }',
    ];
    for (const rest of behind) {
      const text = `sheet {\n${lines(most + 1, () => 'note "x"')}${rest}`;
      expect(parse(text).blocks.at(-1)).toMatchObject({ name: 'require', statements: [{}] });
    }
  });

  it('named connect holds a path for every bar of the largest winding’s phase', () => {
    const text = (count: number) => `connect {\n${lines(count, () => 'path U 1 from U1 1a to N')}}\n`;
    expect(mostStatements('connect')).toBeGreaterThanOrEqual((2400 * 26) / 3);
    expect(codes(text(300))).toEqual([]);
    expect(codes(text(mostStatements('connect') + 1))).toEqual([statementsTooMany.code]);
  });
});

describe('a file', () => {
  it('is read as far as its blocks go', () => {
    const text = (count: number) => `${lines(count, () => 'slot a { width 3 mm }')}`;
    expect(codes(text(mostBlocks))).not.toContain(blocksTooMany.code);
    const { blocks, findings } = parse(text(10_000));
    expect(blocks).toHaveLength(mostBlocks);
    expect(findings.map(({ message }) => message)).toEqual([blocksTooMany.message({ most: mostBlocks })]);
    expect(format(text(mostBlocks + 20))).toContain(lines(19, () => 'slot a { width 3 mm }'));
  });

  it.each([
    ['quotes', '"\n'],
    ['zeros', '\0'],
    ['byte order marks', '\ufeff'],
    ['signs', '+'],
    ['braces', '{'],
    ['closing braces', '}\n'],
    ['blocks', 'machine {\n'],
    ['layers without a block', 'slot a '],
    ['brackets', 'layout { layer a ((('],
    ['paths', 'connect { path U 1 from U1 (('],
  ])('of many %s has few findings', (_, part) => {
    const text = part.repeat(50_000 / part.length);
    const { findings } = study(text);
    expect(findings.length).toBeGreaterThan(0);
    // The parser's, that there are too many, and those of the file as a whole.
    expect(findings.length).toBeLessThanOrEqual(mostFindings + 2);
    const related = findings.reduce((sum, each) => sum + each.related.length, 0);
    expect(related).toBeLessThanOrEqual(2 * mostFindings);
  });
});
