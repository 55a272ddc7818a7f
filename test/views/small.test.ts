import fc from 'fast-check';
import { expect, test } from 'vitest';
import { textBox } from '../../core/picture/bounds.ts';
import { text } from '../../core/picture/make.ts';
import { fixedText, numberText } from '../../core/picture/numberText.ts';
import { distinctPhaseStyles, phaseStyle } from '../../core/picture/phaseStyle.ts';
import { arrangeCutNumbers } from '../../core/views/layout/cutNumbers.ts';
import { assignLevels, spread } from '../../core/views/layout/levels.ts';

test('numbers are written without exponent, negative zero or trailing zeros', () => {
  expect([0, -0, -0.0001, 1 / 3, 12.5, -7, 1e-9, 123456.7891].map((value) => numberText(value))).toEqual([
    '0',
    '0',
    '0',
    '0.333',
    '12.5',
    '-7',
    '0',
    '123456.789',
  ]);
  expect(fixedText(-0.001, 2)).toBe('0.00');
  for (const bad of [Number.NaN, Infinity, 1e16]) expect(() => numberText(bad)).toThrow(RangeError);
  fc.assert(
    fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
      const written = numberText(value);
      expect(written).toMatch(/^-?\d+(\.\d{1,3})?$/);
      expect(Math.abs(Number(written) - value)).toBeLessThanOrEqual(0.000500001);
    }),
    { seed: 4 },
  );
});

test('fifteen phases and more differ in color or pattern; the first seven in both', () => {
  const styles = Array.from({ length: distinctPhaseStyles }, (_, phase) => phaseStyle(phase));
  const keys = styles.map(({ color, dashes }) => `${color} ${dashes.join()}`);
  expect(new Set(keys).size).toBe(distinctPhaseStyles);
  expect(distinctPhaseStyles).toBeGreaterThanOrEqual(15);
  expect(new Set(styles.slice(0, 7).map(({ color }) => color)).size).toBe(7);
  expect(new Set(styles.slice(0, 7).map(({ dashes }) => dashes.join())).size).toBe(7);
  expect(() => phaseStyle(-1)).toThrow(RangeError);
  expect(() => phaseStyle(0.5)).toThrow(RangeError);
});

const stretch = fc
  .record({ from: fc.integer({ min: 0, max: 99 }), length: fc.integer({ min: 1, max: 60 }) })
  .map(({ from, length }) => ({ from, to: from + length }));

test('stretches on one level keep apart, on the ring too', () => {
  fc.assert(
    fc.property(fc.array(stretch, { maxLength: 30 }), (stretches) => {
      const levels = assignLevels(stretches, 100, 2);
      // Independent: cells of the ring, each stretch with its gap of 2 after it.
      const taken = new Set<string>();
      const twice: string[] = [];
      for (const [index, { from, to }] of stretches.entries())
        for (let at = from; at < to + 2 && at < from + 100; at++) {
          const cell = `${levels[index]} ${at % 100}`;
          if (taken.has(cell)) twice.push(cell);
          taken.add(cell);
        }
      expect(twice).toEqual([]);
    }),
    { seed: 7 },
  );
});

test('spread places ascend, keep the gap, stay within bounds and do not move where there is room', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 20 }), (wanted) => {
      wanted.sort((one, other) => one - other);
      const places = spread(wanted, 3, 0, 100);
      expect(places).toHaveLength(wanted.length);
      const apart = places.slice(1).map((place, index) => place - places[index]!);
      expect(places.filter((place) => !(place >= -1e-9 && place <= 100 + 1e-9))).toEqual([]);
      expect(apart.filter((gap) => !(gap >= 3 - 1e-9))).toEqual([]);
      const roomy = wanted.every((place, index) => index === 0 || place - wanted[index - 1]! >= 3);
      if (roomy) for (const [index, place] of places.entries()) expect(place).toBeCloseTo(wanted[index]!, 9);
    }),
    { seed: 11 },
  );
});

test('the box of a turned text lies where the turned corners lie', () => {
  const upright = text('a', 'note', 10, 20, 'abc');
  const box = textBox(upright);
  expect(box.right - box.left).toBeCloseTo(upright.width, 12);
  const turned = textBox({ ...upright, angle: 90 });
  expect(turned.top).toBeCloseTo(20, 9);
  expect(turned.bottom - turned.top).toBeCloseTo(upright.width, 9);
  expect(turned.right - turned.left).toBeCloseTo(box.bottom - box.top, 9);
});

test('cut numbers take one column, then up to four, then only every n-th stands', () => {
  const cuts = (count: number) =>
    Array.from({ length: count }, (_, index) => ({ y: (60 * index) / count, number: String(index + 1) }));
  for (const [count, columns, step] of [
    [1, 1, 1],
    [18, 1, 1],
    [30, 2, 1],
    [40, 4, 1],
    [48, 4, 1],
    [100, 4, 3],
  ] as const) {
    const arranged = arrangeCutNumbers(cuts(count), 0, 60);
    expect(arranged).toMatchObject({ columns, step });
    expect(arranged.numbered).toHaveLength(Math.ceil(count / step));
    for (const { shelf } of arranged.numbered) {
      expect(shelf).toBeGreaterThanOrEqual(3);
      expect(shelf).toBeLessThanOrEqual(60);
    }
  }
});
