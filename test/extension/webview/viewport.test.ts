import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wheelFactor } from '../../../extension/webview/viewport/gestures.ts';
import {
  clampView,
  fitView,
  legibleScale,
  moveView,
  openingView,
  readingScale,
  readView,
  scrolledView,
  scrollOf,
  seenWidth,
  sightOf,
  type View,
  zoomView,
} from '../../../extension/webview/viewport/viewport.ts';

const length = fc.double({ min: 5, max: 3000, noNaN: true });
const size = fc.record({ width: length, height: length });
const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Where a point of the area lies on the picture, in millimeters. */
function pictureX(view: View, areaWidth: number, x: number): number {
  return view.x + (x - areaWidth / 2) / view.scale;
}

describe('the view of the drawing', () => {
  test('fitted, all of the picture is inside the area', () => {
    fc.assert(
      fc.property(size, size, (picture, area) => {
        const { left, top, right, bottom } = sightOf(fitView(picture, area), area);
        expect(left).toBeLessThanOrEqual(1e-9);
        expect(top).toBeLessThanOrEqual(1e-9);
        expect(right).toBeGreaterThanOrEqual(picture.width - 1e-9);
        expect(bottom).toBeGreaterThanOrEqual(picture.height - 1e-9);
      }),
      { seed: 3 },
    );
  });

  test('zooming keeps the point under the pointer where it is, as long as the picture is there', () => {
    const picture = { width: 480, height: 160 };
    const area = { width: 600, height: 300 };
    fc.assert(
      fc.property(share, fc.double({ min: 1, max: 4, noNaN: true }), (at, factor) => {
        // As wide as the area, so that no edge comes into it.
        const before = clampView({ ...fitView(picture, area), scale: 300 / 160 }, picture, area);
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
          view = moveView(view, picture, area, by);
          view = zoomView(view, picture, area, { x: by.x / 20, y: by.y / 20 }, index % 2 === 0 ? 7 : 0.05);
        }
        // No more than its own edges and the room it leaves: it fills the area, or stands in its middle.
        for (const [at, long, room] of [
          [view.x, picture.width, area.width / view.scale],
          [view.y, picture.height, area.height / view.scale],
        ] as const) {
          if (long <= room) expect(at).toBeCloseTo(long / 2, 6);
          else {
            expect(at - room / 2).toBeGreaterThanOrEqual(-1e-6 * long);
            expect(at + room / 2).toBeLessThanOrEqual(long * (1 + 1e-6));
          }
        }
        expect(view.scale).toBeGreaterThan(0);
        expect(Number.isFinite(view.scale)).toBe(true);
      }),
      { seed: 11 },
    );
  });

  test('a drawing opens fitted to its height, to its width, or legible, from its left and top', () => {
    const area = { width: 466, height: 390 };
    const layout = openingView('height', { width: 591, height: 105 }, area);
    expect(layout.scale).toBeCloseTo(390 / 105, 9);
    expect(scrollOf(layout, area)).toEqual({ left: 0, top: 0 });
    // Hardly too high: legible, and scrolled a little. Much too high: all of its height.
    expect(openingView('height', { width: 867, height: 134 }, area).scale).toBe(legibleScale);
    expect(openingView('height', { width: 867, height: 300 }, area).scale).toBeCloseTo(1.3, 9);
    const chart = openingView('width', { width: 124, height: 400 }, area);
    expect(chart.scale).toBeCloseTo(466 / 124, 9);
    expect(scrollOf(chart, area)).toEqual({ left: 0, top: 0 });
    // A panel narrower than charts can be read in scrolls sideways.
    const narrow = openingView('width', { width: 100, height: 400 }, { width: 300, height: 391 });
    expect(narrow.scale).toBe(legibleScale);
    expect(scrollOf(narrow, { width: 300, height: 391 })).toEqual({ left: 0, top: 0 });
    const section = openingView('legible', { width: 319, height: 114 }, area);
    expect(section.scale).toBe(readingScale);
    expect(section.x).toBeCloseTo(319 / 2, 9);
    // No larger than it is read, because its legend is laid out for that width.
    expect(openingView('legible', { width: 319, height: 40 }, area).scale).toBe(readingScale);
    expect(openingView('legible', { width: 100, height: 40 }, area).scale).toBeCloseTo(4.66, 9);
    expect(openingView('whole', { width: 932, height: 100 }, area).scale).toBeCloseTo(0.5, 9);
  });

  test('scrolling and looking are the same, and the part that is seen follows', () => {
    const [picture, area] = [
      { width: 600, height: 100 },
      { width: 400, height: 300 },
    ];
    fc.assert(
      fc.property(share, (at) => {
        const view = clampView({ x: at * 600, y: 50, scale: 3 }, picture, area);
        const back = scrolledView(scrollOf(view, area), 3, picture, area);
        expect(back.x).toBeCloseTo(view.x, 9);
        expect(back.y).toBeCloseTo(view.y, 9);
        const { from, to } = seenWidth(view, picture, area);
        expect(to - from).toBeCloseTo(400 / 3 / 600, 9);
        expect((from + to) / 2).toBeCloseTo(view.x / 600, 9);
      }),
      { seed: 19 },
    );
    expect(seenWidth(fitView(picture, area), picture, area)).toEqual({ from: 0, to: 1 });
  });

  test('the wheel with Ctrl zooms no more than without, and pinches stay fine', () => {
    const turn = (deltaY: number, ctrlKey: boolean, deltaMode = 0) =>
      wheelFactor({ deltaY, deltaMode, ctrlKey });
    for (const delta of [-300, -120, -100, -53, 53, 100, 120, 300])
      expect(Math.abs(Math.log(turn(delta, true)))).toBeLessThanOrEqual(
        Math.abs(Math.log(turn(100, false))) + 1e-12,
      );
    expect(turn(-100, false)).toBeGreaterThan(1);
    expect(turn(-2, true)).toBeCloseTo(1.02, 2);
    expect(turn(3, false, 1)).toBeLessThan(1);
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
