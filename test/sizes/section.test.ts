import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundedArea, roundedSecondMoment } from '../../core/sizes/section.ts';
import { examine, ferryDrive, withLine } from '../copper/machines.ts';

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
      { seed: 4121, numRuns: 40 },
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
    const [room] = examine(ferryDrive).copper.section.spareRoom;
    expect(room!.width).toBeCloseTo(4.6e-3 - 0.5e-3 - 3.78e-3, 12);
    expect(room!.height).toBeCloseTo(15.2e-3 - 1e-3 - 0.25e-3 - 4 * 3.18e-3, 12);
  });
});
