// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import { finished } from '../../core/figures/steps.ts';
import { mostNoteCharacters, notesLong } from '../../core/findings/sheetRules.ts';
import { mostStatements } from '../../core/language/text/parser.ts';
import { longestString } from '../../core/language/text/statementChecks.ts';
import { type Block, drawPart, flow } from '../../core/sheets/page/flow.ts';
import { mostSheetBars, noSheetsWords } from '../../core/sheets/sheets.ts';
import { study } from '../support/study.ts';
import { allItems, allTexts, sheetSet, sheetTroubles, tableRows } from './sheetSets.ts';

const winding = (limits = '') =>
  `winding "Sluice"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\nrequire {\n${limits}}\n`;
const notes = (count: number, length: number) =>
  Array.from({ length: count }, (_, i) => `\nnote "${`Step ${i + 1} `.padEnd(length, 'and so on ')}"`).join(
    '',
  );

/** Notes with their numbers, as they stand on the sheets. */
const printed = (set: ReturnType<typeof sheetSet>) =>
  allTexts(set).filter(({ id }) => /^notes-\d+-mark$/.test(id));

describe('notes on the sheets', () => {
  const fit = mostNoteCharacters / 1000;

  test('are all printed as far as they have room', () => {
    const set = sheetSet(winding(), notes(fit, 1000));
    expect(printed(set)).toHaveLength(fit);
    expect(set.study.findings.map(({ code }) => code)).not.toContain(notesLong.code);
    expect(sheetTroubles(set)).toEqual([]);
  });

  test('say how many are left, and so does a finding at the first of these', () => {
    const set = sheetSet(winding(), notes(fit + 3, 1000));
    expect(printed(set)).toHaveLength(fit + 1);
    const words = allTexts(set)
      .filter(({ id }) => id.startsWith('notes-'))
      .map(({ text }) => text)
      .join(' ');
    expect(words).toContain('NOT PRINTED: 3 more notes; the winding file has all of them.');
    const found = set.study.findings.filter(({ code }) => code === notesLong.code);
    expect(found.map(({ message }) => message)).toEqual([notesLong.message({ printed: fit, left: 3 })]);
    expect(set.study.text.slice(found[0]!.range.start)).toMatch(new RegExp(`^(?:note )?"Step ${fit + 1} `));
  });

  test('cost a bounded number of sheets, however many the file has', () => {
    const some = sheetSet(winding(), notes(fit, 1000));
    const most = sheetSet(winding(), notes(mostStatements('sheet'), 1000));
    expect(most.pages.length).toBeLessThanOrEqual(some.pages.length + 1);
    expect(allItems(most).length).toBeLessThanOrEqual(allItems(some).length + 60);
    const short = sheetSet(winding(), notes(mostStatements('sheet'), 30));
    expect(short.pages.length).toBeLessThanOrEqual(some.pages.length + 6);
  });
});

test('the longest texts of title block and title add few lines to the sheets', () => {
  const plain = sheetSet(winding(), 'owner "x" note "x"');
  for (const letter of ['x', 'ab ', '😀', '\u0007']) {
    const words = letter.repeat(longestString / letter.length);
    const fields = ['owner', 'title', 'number', 'revision', 'drawn-by', 'approved-by', 'status'];
    const given = fields.map((field) => `${field} "${words}"`).join(' ');
    const set = sheetSet(winding().replace('Sluice', words), `${given} note "${words}"`);
    expect(set.study.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(allItems(set).length).toBeLessThan(allItems(plain).length + 1000);
    expect(set.pages.length).toBeLessThan(plain.pages.length + 8);
    expect(sheetTroubles(set)).toEqual([]);
  }
});

test('as many limits as a file can have are all tabled', () => {
  const most = mostStatements('require');
  const limits = Array.from({ length: most }, (_, i) => `winding-factor order ${i + 1} >= 0\n`).join('');
  const set = sheetSet(winding(limits));
  expect(tableRows(set, 'limits')).toHaveLength(most);
  expect(allItems(set).length).toBeLessThan(12 * most);
});

test('a winding of more bars than sheets can show has none, and says so', () => {
  const text = (layers: number) =>
    `winding "Barrage"\nmachine { slots 2400 poles 400 phases 3 }\nlayout { layers ${layers} span 6 }\n`;
  expect(noSheetsWords(study(text(8)).facts!)).toBeNull();
  const words = noSheetsWords(study(text(10)).facts!)!;
  expect(words).toContain(`at most ${mostSheetBars} bars; this winding has 24000.`);
  expect(() => sheetSet(text(10))).toThrow(words);
});

describe('a block that is larger than its sheet', () => {
  const area = { left: 20, top: 10, right: 200, bottom: 208 };
  const blocks: readonly (readonly [string, Block])[] = [
    ['too high', { section: 'Bar shapes', width: 100, take: () => null }],
    ['too wide', { section: 'Bar shapes', width: 300, take: () => null }],
  ];
  test.each(blocks)('%s: words stand in its place', (_, block) => {
    const [sheet] = flow([{ kind: 'block', block }], area);
    const drawn = sheet!.flatMap((placed) => finished(drawPart(placed, new Map())));
    expect(drawn).toMatchObject([
      { kind: 'text', text: 'Bar shapes: a figure is larger than this sheet; a larger sheet-size shows it.' },
    ]);
  });
});
