import { describe, expect, it } from 'vitest';
import { markdownTable, plainText } from '../../core/report/markdown/table.ts';
import { study } from '../../core/study.ts';
import { examples, soundExamples } from '../support/files.ts';
import { headings, htmlElements, tableRows } from '../support/markdown.ts';
import { windingText } from '../support/windingText.ts';

const expected = new Set([
  'h1',
  'h2',
  'h3',
  'p',
  'table',
  'thead',
  'tbody',
  'tr',
  'th',
  'td',
  'ul',
  'li',
  'code',
  'strong',
]);

function expectPlain(markdown: string): void {
  expect([...htmlElements(markdown)].filter((name) => !expected.has(name))).toEqual([]);
  // GitHub makes a link of this, the library here does not.
  expect(markdown).not.toMatch(/www\./i);
}

const hostile = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '&lt;b&gt; &amp; &#60;b&#62;',
  '[a](javascript:alert(1)) ![b](http://x.example/y.png)',
  'https://x.example/ www.x.example mail@x.example',
  '# one | two | three',
  '*bold* _thin_ ~~gone~~ `code` **x**',
  '| a | b |',
  'a \\| b \\\\| c',
  '<!-- hidden -->',
  '1. first - second + third',
  '\u202eright to left\u202c \u200f \u061c',
  '\u0000\u0007\u001b[31mred\u001b[0m',
  'line\u2028separator\u2029s\u0085',
  '\ud800 alone',
  '😀'.repeat(100),
  'x'.repeat(10_000),
];

const quoted = (title: string) => `"${title.replace(/[\\"]/g, (c) => `\\${c}`)}"`;

describe('the report as Markdown', () => {
  it.each(examples.map(({ name, text }) => [name, text] as const))('is plain: %s', (_, text) => {
    const markdown = study(text).markdown();
    expectPlain(markdown);
    expect(headings(markdown, 1)).toHaveLength(1);
    expect(headings(markdown, 2)).toContain('Findings');
    expect(headings(markdown, 2)).toContain('Cautions');
    expect(markdown.endsWith('\n')).toBe(true);
  });

  it.each(hostile)('takes nothing in a title for markup: %.40j', (title) => {
    const text = windingText({}).replace('"Sluice gate drive"', quoted(title));
    const markdown = study(text).markdown();
    expectPlain(markdown);
    const [heading, ...others] = headings(markdown, 1);
    expect(others).toEqual([]);
    const read = heading!
      .replace(/&lt;/g, '<')
      .replace(/&gt;/g, '>')
      .replace(/&quot;/g, '"')
      .replace(/&amp;/g, '&');
    // Every visible character of the title is there, as it was written.
    expect(read.trim()).toBe(study(text).title.trim());
    expect(markdown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u2028\u2029\u202a-\u202e]/);
  });

  it.each(hostile)('takes nothing in a mistake for markup: %.40j', (mistake) => {
    for (const text of [
      `${windingText({})}${mistake}\n`,
      windingText({ machine: `slots 12 poles 2 phases 3 ${mistake}` }),
      windingText({ rest: `sheet { date ${quoted(mistake)} }` }),
      windingText({ rest: `sheet { title ${quoted(mistake)} }` }),
    ])
      expectPlain(study(text).markdown());
  });

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'has tables of full rows: %s',
    (_, text) => {
      const markdown = study(text).markdown();
      const tables = markdown.split(/\n\n/).filter((part) => part.startsWith('|'));
      expect(tables.length).toBeGreaterThan(3);
      for (const table of tables) {
        const widths = new Set(tableRows(table).map((row) => row.length));
        expect(widths.size, table.slice(0, 80)).toBe(1);
      }
    },
  );

  it('shows the slot table of the winding', () => {
    const { winding } = study(soundExamples[0]!.text);
    const rows = tableRows(study(soundExamples[0]!.text).markdown());
    const first = rows.find((row) => row[0] === '1' && row.length === winding!.layers + 1)!;
    expect(first.slice(1).every((place) => /^[+-][A-Z0-9]+$/.test(place))).toBe(true);
  });

  it('says what it does not know', () => {
    const markdown = study(windingText({})).markdown();
    expect(markdown).toContain('MMF in amperes: needs `machine current`');
    expect(study('').markdown()).toContain('The text yields no winding yet');
  });
});

describe('plain text in Markdown', () => {
  it('keeps a table whole', () => {
    const table = markdownTable(
      ['name'],
      ['left'],
      hostile.map((text) => [plainText(text.replace(/[\r\n]/g, ' '))]),
    );
    expect(tableRows(table).every((row) => row.length === 1)).toBe(true);
    expectPlain(table);
  });
});
