import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  fitView,
  moveView,
  readView,
  type View,
  viewBox,
  zoomView,
} from '../../extension/webview/viewport.ts';

const length = fc.double({ min: 5, max: 3000, noNaN: true });
const size = fc.record({ width: length, height: length });
const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Where a point of the area lies on the picture, in millimetres. */
function pictureX(view: View, areaWidth: number, x: number): number {
  return view.x + (x - areaWidth / 2) / view.scale;
}

describe('the view of the drawing', () => {
  test('fitted, all of the picture is inside the area', () => {
    fc.assert(
      fc.property(size, size, (picture, area) => {
        const [x = 0, y = 0, width = 0, height = 0] = viewBox(fitView(picture, area), area)
          .split(' ')
          .map(Number);
        expect(x).toBeLessThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(0);
        expect(x + width).toBeGreaterThanOrEqual(picture.width);
        expect(y + height).toBeGreaterThanOrEqual(picture.height);
      }),
      { seed: 3 },
    );
  });

  test('zooming keeps the point under the pointer where it is, as long as the picture is there', () => {
    const picture = { width: 480, height: 160 };
    const area = { width: 600, height: 300 };
    fc.assert(
      fc.property(share, fc.double({ min: 1, max: 4, noNaN: true }), (at, factor) => {
        const before = fitView(picture, area);
        const point = { x: 20 + at * 560, y: 150 };
        const after = zoomView(before, picture, area, point, factor);
        expect(after.scale).toBeCloseTo(before.scale * factor, 9);
        expect(pictureX(after, area.width, point.x)).toBeCloseTo(pictureX(before, area.width, point.x), 9);
      }),
      { seed: 5 },
    );
  });

  test('no zoom and no move loses the picture', () => {
    const step = fc.record({
      x: fc.integer({ min: -5000, max: 5000 }),
      y: fc.integer({ min: -5000, max: 5000 }),
    });
    fc.assert(
      fc.property(size, size, fc.array(step, { maxLength: 20 }), (picture, area, steps) => {
        let view = fitView(picture, area);
        for (const [index, by] of steps.entries()) {
          view = moveView(view, picture, by);
          view = zoomView(view, picture, area, { x: by.x / 20, y: by.y / 20 }, index % 2 === 0 ? 7 : 0.05);
        }
        expect(view.x).toBeGreaterThanOrEqual(0);
        expect(view.x).toBeLessThanOrEqual(picture.width);
        expect(view.y).toBeGreaterThanOrEqual(0);
        expect(view.y).toBeLessThanOrEqual(picture.height);
        expect(view.scale).toBeGreaterThan(0);
        expect(Number.isFinite(view.scale)).toBe(true);
      }),
      { seed: 11 },
    );
  });

  test('only a whole saved view is taken up', () => {
    expect(readView({ x: 1, y: 2, scale: 3 })).toEqual({ x: 1, y: 2, scale: 3 });
    for (const value of [
      null,
      {},
      { x: 1, y: 2, scale: 0 },
      { x: 1, y: Number.NaN, scale: 1 },
      { x: 1, y: '2', scale: 1 },
    ])
      expect(readView(value)).toBeNull();
  });
});
