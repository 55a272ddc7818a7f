import fc from 'fast-check';
import { expect, test } from 'vitest';
import { textBox } from '../../core/picture/bounds.ts';
import { text } from '../../core/picture/make.ts';
import { arrowHead, circlePart, hatchParts } from '../../core/picture/outlines.ts';
import type { Picture, Text } from '../../core/picture/picture.ts';
import { chart, chartAxis, chartNumber } from '../../core/views/chart/chart.ts';
import { boxesMeet, clearTexts, thinnedTexts } from '../../core/views/chart/labels.ts';
import { drawLines, drawMark } from '../../core/views/chart/lines.ts';
import { flat, troublesOf } from '../picture/checkPicture.ts';
import { tries } from '../support/tries.ts';

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('a linear axis has round ticks within its range', () => {
  const axis = chartAxis({ from: 0, to: 0.97 }, 100, 20, 9);
  expect(axis.ticks.map(({ name }) => name)).toEqual([
    '0',
    '0.1',
    '0.2',
    '0.3',
    '0.4',
    '0.5',
    '0.6',
    '0.7',
    '0.8',
    '0.9',
    '1',
  ]);
  expect(axis.at(0)).toBe(100);
  expect(axis.at(1)).toBe(20);
  expect(chartAxis({ from: -3, to: 3 }, 0, 60, 10).ticks.map(({ name }) => name)).toContain('\u22122');
});

test('on a logarithmic axis equal ratios are equally far apart', () => {
  const axis = chartAxis({ from: 5, to: 2000, logarithmic: true }, 10, 110, 16);
  expect(axis.at(20) - axis.at(5)).toBeCloseTo(axis.at(800) - axis.at(200), 9);
  expect(axis.ticks.map(({ name }) => name)).toEqual([
    '5',
    '10',
    '20',
    '50',
    '100',
    '200',
    '500',
    '1000',
    '2000',
  ]);
});

test('a range without extent is widened, one that is none refused', () => {
  expect(chartAxis({ from: 4, to: 4 }, 0, 50, 10).to).toBeGreaterThan(4);
  expect(chartAxis({ from: 0, to: 0 }, 0, 50, 10).to).toBeGreaterThan(0);
  // Equal but for rounding: a temperature that a cycle of one point keeps.
  const steady = chartAxis({ from: 70.123985697, to: 70.123985697 + 4e-13 }, 0, 50, 10);
  expect(steady.to).toBeGreaterThan(71);
  expect(new Set(steady.ticks.map(({ value }) => Math.round(value))).size).toBe(steady.ticks.length);
  const narrow = chartAxis({ from: 1000, to: 1000.0000000000001, logarithmic: true }, 0, 50, 10);
  expect([1000, narrow.to].map(narrow.at)).toEqual([0, 50]);
  // A millionth of the values is an extent.
  expect(chartAxis({ from: 1, to: 1.000001 }, 0, 50, 10).to).toBeLessThan(1.00001);
  for (const range of [
    { from: Number.NaN, to: 1 },
    { from: 0, to: Infinity },
    // Round numbers round it end at infinity.
    { from: 0, to: 1.7e308 },
    { from: -1e308, to: 0 },
    { from: 0, to: 10, logarithmic: true },
  ])
    expect(() => chartAxis(range, 0, 50, 10)).toThrow(RangeError);
});

test('numbers have a true minus and no negative zero', () => {
  expect([-1.5, -0, 0.1 + 0.2, 1e-7].map((value) => chartNumber(value))).toEqual([
    '\u22121.5',
    '0',
    '0.3',
    '1e\u22127',
  ]);
});

const words = fc
  .array(
    fc.record({ x: finite(0, 60), y: finite(0, 40), name: fc.constantFrom('7', '480', 'lean', '0.966') }),
    { maxLength: 60 },
  )
  .map((all) =>
    all.map(({ x, y, name }, index) => text(`t${index}`, 'value', x, y, name, { anchor: 'middle' })),
  );

test('texts that are kept are clear of each other; one that is dropped is not', () => {
  fc.assert(
    fc.property(words, (texts) => {
      const kept = clearTexts(texts, [], 0);
      const meets = (one: Text, other: Text) => boxesMeet(textBox(one), textBox(other));
      kept.forEach((one, index) => {
        for (const other of kept.slice(index + 1)) expect(meets(one, other)).toBe(false);
      });
      for (const one of texts)
        if (!kept.includes(one)) expect(kept.some((other) => meets(one, other))).toBe(true);
      const thinned = thinnedTexts(texts, 0);
      expect(clearTexts(thinned, [], 0)).toHaveLength(thinned.length);
      expect(thinned.length).toBeGreaterThanOrEqual(Math.min(1, texts.length));
    }),
    { seed: 7, numRuns: tries(60) },
  );
});

test('thinned texts are evenly spaced', () => {
  const row = Array.from({ length: 480 }, (_, index) =>
    text(`${index}`, 'value', 0.6 * index, 5, String(index + 1), { anchor: 'middle' }),
  );
  expect(
    thinnedTexts(row)
      .slice(0, 4)
      .map(({ text: name }) => name),
  ).toEqual(['1', '11', '21', '31']);
});

test('hatching stays within its box and covers it evenly', () => {
  fc.assert(
    fc.property(finite(0, 20), finite(0, 20), finite(0.5, 3), (width, height, pitch) => {
      const parts = hatchParts({ left: 10, top: 5, right: 10 + width, bottom: 5 + height }, pitch);
      for (const [x1, y1, x2, y2] of parts as [number, number, number, number][]) {
        for (const x of [x1, x2]) expect(Math.abs(x - 10 - width / 2)).toBeLessThanOrEqual(width / 2 + 1e-9);
        for (const y of [y1, y2]) expect(Math.abs(y - 5 - height / 2)).toBeLessThanOrEqual(height / 2 + 1e-9);
        expect(x2 - x1).toBeCloseTo(y1 - y2, 9);
      }
      if (width > 4 * pitch && height > 4 * pitch)
        expect(Math.abs(parts.length - (width + height) / pitch)).toBeLessThan(2);
    }),
    { seed: 8 },
  );
});

test('an arrow head ends at its tip and is no longer than its way', () => {
  const head = arrowHead(0, 0, 3, 4, 2)!;
  expect(head.slice(0, 2)).toEqual([3, 4]);
  expect((head[2]! + head[4]!) / 2).toBeCloseTo(3 * (1 - 2 / 5), 9);
  expect(arrowHead(1, 1, 1, 1, 2)).toBeNull();
  const points = circlePart(2, 3, 5, 16);
  for (let index = 0; index < points.length; index += 2)
    expect(Math.hypot(points[index]! - 2, points[index + 1]! - 3)).toBeCloseTo(5, 9);
});

function pictureOf(items: Picture['items']): Picture {
  return { width: 130, height: 90, title: 'chart', description: 'chart', items };
}

test('lines of any data are drawn within the box, names apart', () => {
  const series = fc.array(
    fc.array(fc.record({ x: finite(0.01, 1e5), y: finite(-1e6, 1e6) }), { maxLength: 20 }),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(series, fc.boolean(), (all, logarithmic) => {
      const { items, frame } = drawLines({
        id: 'any',
        left: 4,
        top: 4,
        width: 120,
        height: 80,
        x: { logarithmic },
        xName: 'x',
        yName: 'y',
        series: all.map((points, index) => ({
          id: `s${index}`,
          name: `line ${index}`,
          role: 'curve' as const,
          points: [...points].sort((one, other) => one.x - other.x),
        })),
        ...(all.every((points) => points.length === 0) ? { x: { from: 1, to: 2 } } : {}),
      });
      expect(
        troublesOf(pictureOf([...items, ...drawMark('any', frame, frame.x.to, 'as written')])).filter(
          (each) => !each.includes('any-mark'),
        ),
      ).toEqual([]);
    }),
    { seed: 9, numRuns: tries(50) },
  );
});

test('a chart keeps to its box', () => {
  const frame = chart({
    id: 'c',
    left: 5,
    top: 6,
    width: 100,
    height: 70,
    title: 'T',
    x: { from: 0, to: 9 },
    y: { from: -2e4, to: 3e4 },
    xName: 'x',
    yName: 'y',
  });
  expect(troublesOf(pictureOf(frame.items))).toEqual([]);
  for (const item of flat(frame.items))
    if (item.kind === 'text') {
      const box = textBox(item);
      expect(box.left).toBeGreaterThanOrEqual(5);
      expect(box.right).toBeLessThanOrEqual(105 + 1e-9);
      expect(box.top).toBeGreaterThanOrEqual(6 - 0.01);
      expect(box.bottom).toBeLessThanOrEqual(76);
    }
});
