import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  followVariants,
  type ShownVariant,
  type ShownVariants,
  variantsChange,
} from '../../extension/protocol/shownVariants.ts';
import { axisOf } from '../../extension/webview/variants/axis.ts';
import { axesOf, readLook } from '../../extension/webview/variants/look.ts';
import { differenceText, sortedVariants } from '../../extension/webview/variants/rows.ts';

const column = (name: string, kind: 'value' | 'figure', better: 'least' | 'most' | null = null) =>
  ({ name, unit: '', kind, better }) as const;
const question = {
  columns: [
    column('machine slots', 'value'),
    column('cogging-periods', 'figure'),
    column('copper-loss', 'figure', 'least'),
    column('torque', 'figure', 'most'),
  ],
  held: 'current',
  unsettled: [],
  kept: [],
  ranked: ['least copper-loss', 'most torque'],
  limits: [],
};
const row = (
  number: number,
  amounts: readonly (number | null)[],
  texts = amounts.map(String),
): ShownVariant => ({
  number,
  front: false,
  texts,
  amounts,
  limits: '',
});
const shown = (rows: readonly ShownVariant[], more: Partial<ShownVariants> = {}): ShownVariants => ({
  kind: 'variants',
  question,
  standing: {
    status: 'running',
    candidates: 9,
    judged: rows.length,
    kept: rows.length,
    leftOut: 0,
    refused: [['the span is below 1', 2]],
    front: null,
    stale: false,
    inText: 0,
    missing: [],
    trouble: '',
  },
  own: null,
  rows,
  others: [],
  beside: [],
  ...more,
});

describe('variants as they travel', () => {
  const rows = fc
    .uniqueArray(fc.integer({ min: 1, max: 9 }), { maxLength: 9 })
    .chain((numbers) =>
      fc.tuple(...numbers.map((number) => fc.nat(2).map((size) => row(number, [size, null])))),
    );
  const content = fc
    .tuple(rows, fc.constantFrom(null, row(0, [1, 2])), fc.uniqueArray(fc.nat(9), { maxLength: 4 }))
    .map(([list, own, others]) => shown(list, { own, others: others.map((number) => [number, 0.5, null]) }));

  test('follow from what was there, by what has changed alone', () => {
    fc.assert(
      fc.property(content, content, (before, after) => {
        const change = variantsChange(before, after);
        const sent = change === null ? before : followVariants(before, JSON.parse(JSON.stringify(change)));
        expect(sent).toEqual(after);
        expect(variantsChange(after, { ...after })).toBeNull();
        expect(followVariants(null, JSON.parse(JSON.stringify(variantsChange(null, after))))).toEqual(after);
      }),
      { seed: 16, numRuns: 60 },
    );
    // One row more is one row sent.
    const [first, second] = [row(1, [1]), row(2, [2])];
    expect(variantsChange(shown([first]), shown([first, second]))!.rows).toEqual([1, second]);
  });

  test('are refused where they are none', () => {
    const change = JSON.parse(JSON.stringify(variantsChange(null, shown([row(1, [1])]))));
    const spoilt = [
      { standing: { ...change.standing, judged: '1' } },
      { standing: { ...change.standing, refused: [['why']] } },
      { standing: { ...change.standing, missing: 'copper-loss' } },
      { question: { ...question, columns: [{ name: 'x' }] } },
      { rows: [{ number: 1 }] },
      { rows: [-1] },
      { others: [['1']] },
      { beside: [{ number: 1 }] },
      { own: 4 },
    ];
    for (const one of spoilt) expect(followVariants(null, { ...change, ...one })).toBeNull();
    expect(followVariants(null, { kind: 'variants', rows: [] })).toBeNull();
  });
});

test('axes show what ranks first, else figures, and keep to what was chosen', () => {
  const none = { rows: [] };
  // A figure that no candidate has is no axis at first.
  expect(axesOf(question, readLook(null), { rows: [row(1, [48, 5, null, 3])] })).toEqual({ x: 3, y: 1 });
  expect(axesOf(question, readLook(null), none)).toEqual({ x: 2, y: 3 });
  expect(axesOf({ ...question, columns: question.columns.slice(0, 2) }, readLook(null), none)).toEqual({
    x: 1,
    y: 0,
  });
  expect(axesOf(question, readLook({ across: 'machine slots', upwards: 'gone' }), none)).toEqual({
    x: 0,
    y: 2,
  });
  for (const spoilt of [4, { hidden: 4, order: 'x', differences: 1 }, { order: { column: 3 } }])
    expect(readLook(spoilt)).toMatchObject({ hidden: [], order: null, differences: false });
});

test('an axis has round ticks round all values', () => {
  const axis = axisOf([0.512, 0.997], 0, 100, 5)!;
  expect(axis.ticks.map(({ text }) => text)).toEqual(['0.5', '0.6', '0.7', '0.8', '0.9', '1.0']);
  expect([axis.at(0.5), axis.at(1)].map(Math.round)).toEqual([0, 100]);
  expect(axisOf([-3, 4], 100, 0, 4)!.ticks.map(({ text }) => text)).toEqual([
    '\u22124',
    '\u22122',
    '0',
    '2',
    '4',
  ]);
  // All alike, and none.
  expect(axisOf([5, 5], 0, 100, 4)!.at(5)).toBeCloseTo(50, 6);
  expect(axisOf([], 0, 100, 4)).toBeNull();
  fc.assert(
    fc.property(fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1 }), (values) => {
      const { at, ticks } = axisOf(values, 0, 100, 6)!;
      for (const value of values)
        expect(at(value)).toSatisfy((place: number) => place > -1e-6 && place < 100 + 1e-6);
      expect(ticks.length).toBeLessThan(12);
      expect(new Set(ticks.map(({ text }) => text)).size).toBe(ticks.length);
    }),
    { seed: 3, numRuns: 60 },
  );
});

test('rows are sorted by amounts, missing ones last either way', () => {
  const rows = [row(1, [24, 2]), row(2, [12, null]), row(3, [36, 1])];
  const numbers = (order: Parameters<typeof sortedVariants>[1]) =>
    sortedVariants({ question, rows }, order).map(({ number }) => number);
  expect(numbers(null)).toEqual([1, 2, 3]);
  expect(numbers({ column: 'machine slots', backwards: false })).toEqual([2, 1, 3]);
  expect(numbers({ column: 'cogging-periods', backwards: false })).toEqual([3, 1, 2]);
  expect(numbers({ column: 'cogging-periods', backwards: true })).toEqual([1, 3, 2]);
  expect(numbers({ column: '', backwards: true })).toEqual([3, 2, 1]);
  expect(numbers({ column: 'gone', backwards: true })).toEqual([1, 2, 3]);
});

test('differences have a sign, and none below what is shown', () => {
  expect(differenceText(1.2346, 1, 'W')).toBe('+0.235 W');
  expect(differenceText(0.9, 1, '')).toBe('\u22120.1');
  expect(differenceText(1, 1 + 1e-9, 'W')).toBe('\u00B10');
  expect(differenceText(null, 1, 'W')).toBeNull();
});
