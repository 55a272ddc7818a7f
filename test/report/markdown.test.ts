import { describe, expect, it } from 'vitest';
import { visible } from '../../core/language/text/visible.ts';
import { code, sentence } from '../../core/report/markdown/guard.ts';
import { markdownTable } from '../../core/report/markdown/table.ts';
import { study } from '../../core/study.ts';
import { examples, soundExamples } from '../support/files.ts';
import { buildCommands, hostileTexts, inQuotes } from '../support/hostile.ts';
import { forgeActions, headings, html, htmlElements, shownText, tableRows } from '../support/markdown.ts';
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

/** Nothing of the text acts: no markup but ours, no link, mention, reference or command. */
function expectPlain(markdown: string): void {
  expect([...htmlElements(markdown)].filter((name) => !expected.has(name))).toEqual([]);
  expect(forgeActions(markdown)).toEqual([]);
  expect(buildCommands(markdown)).toEqual([]);
  expect(markdown).not.toMatch(/[^\P{C}\n\u200b]|[\u2028\u2029]/u);
}

/** The parts of a report in which the user is quoted: without the tables, which take long to read. */
function wordyParts(markdown: string): string {
  return markdown.replace(/## (?:Slot table|Winding factors|Paths and joints)[\s\S]*?(?=\n## )/g, '');
}

describe('the report as Markdown', () => {
  it.each(examples.map(({ name, text }) => [name, text] as const))('is plain: %s', (_, text) => {
    const markdown = study(text).markdown();
    expectPlain(markdown);
    expect(headings(markdown, 1)).toHaveLength(1);
    expect(headings(markdown, 2)).toContain('Findings');
    expect(headings(markdown, 2)).toContain('Cautions');
    expect(markdown.endsWith('\n')).toBe(true);
  });

  it.each(hostileTexts)('takes nothing in a title for markup: %.40j', (title) => {
    const text = windingText({}).replace('"Sluice gate drive"', () => inQuotes(title));
    const markdown = wordyParts(study(text).markdown());
    expectPlain(markdown);
    const [heading, ...others] = headings(markdown, 1);
    expect(others).toEqual([]);
    // Every visible character of the title is there, as it was written.
    expect(shownText(heading!).trim()).toBe(study(text).title.trim());
  });

  it.each(hostileTexts)('takes nothing in a mistake for markup: %.40j', (mistake) => {
    for (const text of [
      `${windingText({ rest: `sheet { date ${inQuotes(mistake)} title ${inQuotes(mistake)} }` })}${mistake}\n`,
      windingText({ machine: `slots 12 poles 2 phases 3 ${mistake}` }),
    ])
      expectPlain(wordyParts(study(text).markdown()));
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

describe('text of the user in Markdown', () => {
  it.each(hostileTexts)('is shown as it is and acts nowhere, as a sentence or as code: %.40j', (text) => {
    const read = visible(text.replace(/\s+/g, ' ').trim());
    for (const guarded of [sentence(text), code(text, 10_000)]) {
      const places = [guarded, `- ${guarded}`, `**${guarded}**`, `# ${guarded}`, `Said: ${guarded}`];
      for (const place of places) {
        expectPlain(place);
        expect(shownText(html(place)).replace('Said: ', '').trim()).toBe(read);
      }
      const table = markdownTable(['name', 'other'], ['left', 'left'], [[guarded, guarded]]);
      expectPlain(table);
      expect(tableRows(table)[1]!.map((cell) => shownText(cell).replaceAll('\u200b', ''))).toEqual([
        read,
        read,
      ]);
    }
  });

  it('is left alone where it is plain, and put in code where a forge would act', () => {
    expect(sentence("'spam' is no word of layout; did you mean 'span'?")).toBe(
      "'spam' is no word of layout; did you mean 'span'?",
    );
    expect(sentence("'#12' and (GH-3), as in IEC 60034-8.")).toBe("'`#12`' and (`GH-3`), as in IEC 60034-8.");
    expect(sentence('/close 1. x')).toBe('`/close` 1. x');
    expect(code('x'.repeat(200), 20)).toHaveLength(22);
    expect(code('\u0007')).toBe('`\ufffd`');
    expect([code(' '), sentence(' ')]).toEqual(['', '']);
  });
});
