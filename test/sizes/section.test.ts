import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangleTorsion, roundedArea, roundedSecondMoment } from '../../core/sizes/section.ts';
import { examine, ferryDrive, withLine } from '../copper/machines.ts';
import { tries } from '../support/tries.ts';

/** Width of the rounded bar at a height above its middle, for sums over thin strips. */
function widthAt(width: number, height: number, corner: number, y: number): number {
  const above = Math.abs(y) - (height / 2 - corner);
  return above <= 0 ? width : width - 2 * (corner - Math.sqrt(Math.max(0, corner ** 2 - above ** 2)));
}

describe('rounded bars against strips', () => {
  const sizes = fc
    .record({
      width: fc.double({ min: 1, max: 10, noNaN: true }),
      height: fc.double({ min: 1, max: 10, noNaN: true }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    .map(({ width, height, share }) => ({ width, height, corner: (share * Math.min(width, height)) / 2 }));

  it('area and second moment', () => {
    fc.assert(
      fc.property(sizes, ({ width, height, corner }) => {
        const strips = 20_000;
        let area = 0;
        let moment = 0;
        for (let i = 0; i < strips; i++) {
          const y = height * ((i + 0.5) / strips - 0.5);
          const w = widthAt(width, height, corner, y);
          area += (w * height) / strips;
          moment += ((w ** 3 / 12) * height) / strips;
        }
        expect(roundedArea(width, height, corner) / area).toBeCloseTo(1, 5);
        expect(roundedSecondMoment(width, height, corner) / moment).toBeCloseTo(1, 5);
      }),
      { seed: 4121, numRuns: tries(40) },
    );
  });

  it('a full round: pi r^2 and pi r^4/4', () => {
    expect(roundedArea(2, 2, 1)).toBeCloseTo(Math.PI, 12);
    expect(roundedSecondMoment(2, 2, 1)).toBeCloseTo(Math.PI / 4, 12);
  });

  it('refuses a corner beyond half the thinner side', () => {
    expect(() => roundedArea(3, 2, 1.01)).toThrow(RangeError);
    expect(() => roundedArea(3, 2, -0.1)).toThrow(RangeError);
  });
});

describe('slot fill', () => {
  it('copper over slot area, per-layer heights, fullest slot', () => {
    const text = withLine(ferryDrive, 'height', 'height a b 3.4 mm  height c d 2.2 mm');
    const area = (h: number) => 3.6 * h - (4 - Math.PI) * 0.25;
    expect(examine(text).copper.section.slotFill).toBeCloseTo(
      (2 * area(3.4) + 2 * area(2.2)) / (4.6 * 15.2),
      12,
    );
  });

  it('current density is that of the smallest bar', () => {
    const text = withLine(ferryDrive, 'height', 'height a b 3.4 mm  height c d 2.2 mm');
    const area = (3.6 * 2.2 - (4 - Math.PI) * 0.25) * 1e-6;
    expect(examine(text).copper.currentDensity).toBeCloseTo(210 / 2 / area, 3);
  });

  it('spare room: window less coated bars', () => {
    const [room] = examine(ferryDrive).copper.section.spareRoom!;
    expect(room!.width).toBeCloseTo(4.6e-3 - 0.5e-3 - 3.78e-3, 12);
    expect(room!.height).toBeCloseTo(15.2e-3 - 1e-3 - 0.25e-3 - 4 * 3.18e-3, 12);
  });
});

// Timoshenko and Goodier, Theory of Elasticity, table for rectangular bars (from memory); recomputed below.
const torsionTable: readonly (readonly [ratio: number, printed: number])[] = [
  [1, 0.1406],
  [1.2, 0.1661],
  [1.5, 0.1958],
  [2, 0.229],
  [2.5, 0.249],
  [3, 0.263],
  [4, 0.281],
  [5, 0.291],
  [10, 0.312],
];

/** J/(w h^3) of a rectangle w by h, by the series of Saint-Venant's torsion. */
function torsionSeries(ratio: number): number {
  let sum = 0;
  for (let n = 1; n < 200; n += 2) sum += Math.tanh((n * Math.PI * ratio) / 2) / n ** 5;
  return (1 - ((192 / Math.PI ** 5) * sum) / ratio) / 3;
}

describe('torsion constant of a bar', () => {
  it.each(torsionTable)('sides %d to 1: %d within half a percent', (ratio, printed) => {
    expect(torsionSeries(ratio)).toBeCloseTo(printed, 3);
    expect(Math.abs(rectangleTorsion(ratio, 1) / ratio / torsionSeries(ratio) - 1)).toBeLessThan(0.005);
    expect(rectangleTorsion(1, ratio)).toBe(rectangleTorsion(ratio, 1));
  });

  it('of 5 x 3.6 and 5 x 4 mm, in mm4 (own, against the series)', () => {
    expect(rectangleTorsion(5, 3.6)).toBeCloseTo(43.278, 3);
    expect(rectangleTorsion(5, 4)).toBeCloseTo(54.7417, 4);
  });
});
