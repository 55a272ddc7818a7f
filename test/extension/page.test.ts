import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { firstWish } from '../../extension/protocol/wish.ts';
import { readWanted } from '../../extension/webview/goTo.ts';
import { sortedRows } from '../../extension/webview/tables/sortRows.ts';
import { roomOf } from '../../extension/webview/viewport/openings.ts';
import { boxView, clampView, fitView, viewWith } from '../../extension/webview/viewport/viewport.ts';
import { readZooms, zoomKey } from '../../extension/webview/viewport/zooms.ts';

describe('a place that is searched', () => {
  test('is a bar, a slot, or slots in a row', () => {
    expect(readWanted(' 7B ')).toEqual({ kind: 'bar', bar: '7b' });
    expect(readWanted('007b')).toEqual({ kind: 'bar', bar: '7b' });
    expect(readWanted('7')).toEqual({ kind: 'slots', first: 7, last: 7 });
    expect(readWanted('12-7')).toEqual({ kind: 'slots', first: 7, last: 12 });
    expect(readWanted('7 to 12')).toEqual({ kind: 'slots', first: 7, last: 12 });
  });

  test('is nothing else', () => {
    for (const text of ['', 'b', '7bb', '-7', '7-', '99999', '7"] *', '7a-9b'])
      expect(readWanted(text)).toBeNull();
  });
});

describe('sorted tables', () => {
  const column = (cells: readonly string[], backwards = false) =>
    sortedRows(
      cells.map((cell) => [cell]),
      { column: 0, backwards },
    ).map(([cell]) => cell);

  test('numbers by size, positions by slot and layer, empty cells last either way', () => {
    expect(column(['10', '9', '', '-1.5', '100 %'])).toEqual(['-1.5', '9', '10', '100 %', '']);
    expect(column(['10a', '9b', '9a'], true)).toEqual(['10a', '9b', '9a']);
    expect(column(['', 'b', 'a'], true)).toEqual(['b', 'a', '']);
  });

  test('no row is lost, equal rows keep their order, no order keeps all', () => {
    const row = fc.tuple(fc.constantFrom('1a', '2', 'x', '', '-3.5'), fc.string());
    fc.assert(
      fc.property(fc.array(row), fc.boolean(), (rows, backwards) => {
        const sorted = sortedRows(rows, { column: 0, backwards });
        expect([...sorted].sort()).toEqual([...rows].sort());
        for (const key of new Set(rows.map(([first]) => first)))
          expect(sorted.filter(([first]) => first === key)).toEqual(rows.filter(([first]) => first === key));
        expect(sortedRows(rows, null)).toBe(rows);
      }),
      { seed: 11 },
    );
  });
});

describe('the view of a part of the picture', () => {
  const picture = { width: 600, height: 200 };
  const area = { width: 500, height: 300 };
  const place = fc.record({
    x: fc.double({ min: 0, max: 590, noNaN: true }),
    y: fc.double({ min: 0, max: 190, noNaN: true }),
    width: fc.double({ min: 0, max: 10, noNaN: true }),
    height: fc.double({ min: 0, max: 10, noNaN: true }),
  });

  test('has it in its middle, no smaller than in the whole picture', () => {
    fc.assert(
      fc.property(place, (box) => {
        const view = boxView(box, picture, area);
        // In its middle, or as near to it as the picture's edges let it.
        const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        const wanted = clampView({ ...view, ...middle }, picture, area);
        expect(view.x).toBeCloseTo(wanted.x, 9);
        expect(view.y).toBeCloseTo(wanted.y, 9);
        const [halfWidth, halfHeight] = [area.width / 2 / view.scale, area.height / 2 / view.scale];
        expect(Math.abs(middle.x - view.x)).toBeLessThanOrEqual(halfWidth);
        expect(Math.abs(middle.y - view.y)).toBeLessThanOrEqual(halfHeight);
        expect(view.scale).toBeGreaterThanOrEqual(fitView(picture, area).scale);
      }),
      { seed: 13 },
    );
  });

  test('is moved no further than it takes to see it', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        const before = boxView(from, picture, area);
        const after = viewWith(to, before, picture, area);
        expect(after.scale).toBe(before.scale);
        expect(Math.abs(to.x + to.width / 2 - after.x) * after.scale).toBeLessThanOrEqual(area.width / 2);
        expect(Math.abs(to.y + to.height / 2 - after.y) * after.scale).toBeLessThanOrEqual(area.height / 2);
        expect(viewWith(to, after, picture, area)).toBe(after);
        // What is in sight already moves nothing.
        expect(viewWith(from, before, picture, area)).toBe(before);
      }),
      { seed: 17 },
    );
  });
});

test('the room of the drawing is told in steps, and never more than there is', () => {
  expect(roomOf({ width: 466, height: 391 })).toEqual({ width: 100, height: 88 });
  expect(roomOf({ width: 467, height: 392 })).toEqual({ width: 100, height: 88 });
  expect(roomOf({ width: 5, height: 5 })).toEqual({ width: 4, height: 4 });
  const before = { width: 100, height: 88 };
  // Two lines more above the drawing, or as many fewer.
  expect(roomOf({ width: 466, height: 391 - 38 }, before)).toBe(before);
  expect(roomOf({ width: 466, height: 391 + 38 }, before)).toBe(before);
  expect(roomOf({ width: 466, height: 391 - 60 }, before)).toEqual({ width: 100, height: 72 });
  expect(roomOf({ width: 500, height: 391 }, before)).toEqual({ width: 108, height: 88 });
});

test('zooms are kept apart by view, and spoilt ones are left out', () => {
  const circle = { ...firstWish, view: 'section' as const, wholeCircle: true };
  expect(zoomKey(circle)).not.toBe(zoomKey({ ...circle, wholeCircle: false }));
  const view = { x: 1, y: 2, scale: 3 };
  expect(readZooms({ layout: view, field: { x: 1 }, copper: null })).toEqual({ layout: view });
  for (const value of [undefined, null, 4]) expect(readZooms(value)).toEqual({});
});
