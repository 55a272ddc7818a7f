// Takes its time: goes through many cases.

import { expect, test } from 'vitest';
import { draws, mutant, tableCorpus, tableTroubles, textCorpus, textTroubles } from './texts.ts';

// A short run with each test; longRun.ts beside this file makes long ones.

const runs = Number(process.env.SLOTWRIGHT_TEXTS ?? 150);
const seed = Number(process.env.SLOTWRIGHT_FUZZ_SEED ?? 2026);

test('whatever a text is, it is read, formatted and checked', () => {
  const [corpus, draw] = [textCorpus(seed), draws(seed)];
  const faults: { readonly trouble: string; readonly text: string }[] = [];
  for (let run = 0; run < runs && faults.length < 20; run++) {
    const text = mutant(corpus, draw);
    for (const trouble of textTroubles(text)) faults.push({ trouble, text });
  }
  expect(faults).toEqual([]);
});

test('whatever a table is, it is imported or refused with a reason', () => {
  const [corpus, draw] = [tableCorpus(), draws(seed)];
  const faults: { readonly trouble: string; readonly csv: string }[] = [];
  const kinds = { good: 0 };
  for (let run = 0; run < 2 * runs && faults.length < 20; run++) {
    const csv = mutant(corpus, draw);
    const troubles = tableTroubles(csv);
    kinds.good += Number(troubles.length === 0);
    for (const trouble of troubles) faults.push({ trouble, csv });
  }
  expect(faults).toEqual([]);
  expect(kinds.good).toBe(2 * runs);
});

test.each([
  'winding "T"\nvary { layout skew a 0 slot 1 slot with opposite ',
  'winding "T"\nvary { layout skew a 0 slot 1 slot with }\n',
  'winding "T"\nvary { bar height 2 mm 3 mm with width 3 mm }\n',
  'winding "T"\nvary {\n  layout span nominal -1e999 to nominal\n}\n',
])('what long runs found stays mended: %j', (text) => {
  expect(textTroubles(text)).toEqual([]);
});

test('a path beyond those that the language numbers is refused', () => {
  expect(tableTroubles('phase,path,bars\nU,2401,1a 4b | 2a\nV,1,3a 6b\nW,1,5a 2b\n')).toEqual([]);
});
