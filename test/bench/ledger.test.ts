import { expect, test } from 'vitest';
import { type Figure, figureLine, missed, verdict } from './ledger.ts';

const within: Figure = { what: 'growth', kind: 'ratio', value: 3.2, budget: 4 };
const over: readonly Figure[] = [
  { what: 'against the reference', kind: 'ratio', value: 2.01, budget: 2 },
  { what: 'dist/extension/host.js', kind: 'size', value: 301, budget: 300 },
  { what: 'messages a keystroke', kind: 'count', value: 2, budget: 1 },
];
const slow: Figure = { what: 'keystroke', kind: 'time', value: 72, budget: 3 };
const told: Figure = { what: 'reading', kind: 'time', value: 12, budget: null };

test('ratios, sizes and counts over their budget are missed; times never are', () => {
  expect(missed([within, slow, told])).toEqual([]);
  expect(missed([within, ...over, slow])).toEqual(over);
  expect(missed([{ ...within, value: null }])).toHaveLength(1);
  expect(missed([{ ...within, value: Number.NaN }])).toHaveLength(1);
});

test('the last lines name what was missed, and say that slow times are only told', () => {
  expect(verdict([within])).toBe('All ratios, sizes and counts are within their budgets.');
  expect(verdict([within, slow])).toContain('1 time is over');
  const text = verdict([...over, slow]);
  for (const { what } of over) expect(text).toContain(what);
  expect(text).not.toContain('  keystroke\n');
});

test('a line holds name, value, budget and verdict', () => {
  expect(figureLine(within)).toMatch(/^growth +3\.20 x {3}<= 4\.00 x +within$/);
  expect(figureLine(over[1]!)).toMatch(/^dist\/extension\/host\.js +301 kB {3}<= 300 kB +OVER$/);
  expect(figureLine(told)).toMatch(/^reading +12 ms$/);
  expect(figureLine({ ...told, value: null, note: 'needs a Chromium' })).toMatch(
    /not measured +needs a Chromium$/,
  );
});
