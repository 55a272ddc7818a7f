import { describe, expect, it } from 'vitest';
import { type Curve, stationAt } from '../../../core/space/curve.ts';
import { type Filament, filamentOf, filamentThrough } from '../../../core/space/inductance/filaments.ts';
import { rectangleMeanDistance } from '../../../core/space/inductance/meanDistance.ts';
import { mutualInductance } from '../../../core/space/inductance/mutualInductance.ts';
import { pieceOf } from '../../../core/space/piece.ts';
import { moved } from './moved.ts';

// Closed forms of Maxwell, Neumann, Rosa and Grover (from memory), each computed again by quadrature of
// Neumann's integral.

type Place = readonly [number, number, number];

const line = (...places: readonly Place[]): Filament => filamentThrough(places);
const mm = (...values: readonly number[]) => values.map((value) => value / 1e3) as unknown as Place;

function circle(radius: number, height: number, chords: number): Filament {
  // Chords of a polygon of equal area.
  const outer = radius * Math.sqrt((2 * Math.PI) / chords / Math.sin((2 * Math.PI) / chords));
  const at = (step: number): Place => {
    const angle = (2 * Math.PI * step) / chords;
    return [outer * Math.cos(angle), outer * Math.sin(angle), height];
  };
  return line(...Array.from({ length: chords + 1 }, (_, step) => at(step)));
}

describe('mutual inductance of filaments', () => {
  it.each([
    [1, 0.1, 4.186470776e-7],
    [0.2, 0.005, 1.362748159e-7],
    [0.05, 0.2, 1.243608359e-9],
    [0.1, 0.001, 86.165847e-9],
    [0.1, 0.01, 41.864708e-9],
    [0.1, 0.1, 9.3432e-9],
    [0.05, 0.0036, 23.949412e-9],
  ])('of equal parallel ones, %s m long and %s m apart', (length, apart, expected) => {
    const found = mutualInductance(
      line([0, 0, 0], [0, 0, length]),
      line([apart, 0, 0], [apart, 0, length]),
      0,
    );
    expect(found / expected).toBeCloseTo(1, length / apart > 50 ? 3 : 5);
  });

  it('of parallel ones of unequal length beside each other', () => {
    const found = mutualInductance(line(mm(0, 0, 0), mm(100, 0, 0)), line(mm(120, 10, 0), mm(170, 10, 0)), 0);
    expect(found * 1e9).toBeCloseTo(6.031024, 5);
  });

  it.each([
    [60, 100, 100, 10.986123],
    [30, 100, 100, 27.397582],
    [120, 100, 100, -7.676518],
    [90, 100, 100, 0],
    [45, 100, 50, 12.12888],
  ])('from one point under %s degrees', (degrees, one, other, expected) => {
    const angle = (degrees * Math.PI) / 180;
    const second = mm(other * Math.cos(angle), other * Math.sin(angle), 0);
    expect(
      mutualInductance(line(mm(0, 0, 0), mm(one, 0, 0)), line(mm(0, 0, 0), second), 0) * 1e9,
    ).toBeCloseTo(expected, 1);
  });

  it('of skew ones in space', () => {
    const found = mutualInductance(line(mm(0, 0, 0), mm(100, 0, 0)), line(mm(20, 30, 10), mm(80, 70, 50)), 0);
    expect(found * 1e9).toBeCloseTo(9.544711566769, 5);
  });

  it.each([
    [0.1, 0.1, 0.05, 1.112611e-7],
    [0.2, 0.1, 0.1, 6.987325e-8],
    [0.25, 0.2, 0.1, 2.487874e-7],
  ])('of coaxial circles of %s and %s m, %s m apart', (one, other, apart, expected) => {
    const found = mutualInductance(circle(one, 0, 144), circle(other, apart, 144), 0);
    expect(found / expected).toBeCloseTo(1, 3);
  });

  it('of a bar and of a ring with itself, by the mean distance of the section', () => {
    const bar = line([0, 0, 0], [0, 0, 0.1]);
    const own = mutualInductance(bar, bar, rectangleMeanDistance(3.6e-3, 3e-3));
    expect(Math.abs(own / 7.85322e-8 - 1)).toBeLessThan(1e-3);
    for (const [width, height, length, expected] of [
      [5, 4, 100, 72.453027],
      [10, 10, 100, 57.042536],
      [5, 3.6, 50, 29.960684],
      [5, 3.6, 200, 173.963732],
    ] as const) {
      const straight = line([0, 0, 0], mm(0, 0, length));
      const own = mutualInductance(straight, straight, rectangleMeanDistance(width / 1e3, height / 1e3));
      // The mean distance is good for long bars: of ten widths it is 0.25 % off.
      expect(Math.abs(own * 1e9 - expected) / expected, `${width} x ${height} x ${length}`).toBeLessThan(
        3e-3,
      );
    }
    const ring = circle(0.1, 0, 180);
    expect(mutualInductance(ring, ring, rectangleMeanDistance(5e-3, 3.6e-3)) / 5.065495e-7).toBeCloseTo(1, 2);
  });
});

describe('the mean distance of a rectangle', () => {
  it('is that of a unit square, and of the usual table', () => {
    expect(rectangleMeanDistance(1, 1)).toBeCloseTo(0.44705, 5);
    for (const [ratio, expected] of [
      [0.025, 0.223328],
      [0.1, 0.223599],
      [0.3, 0.223675],
      [0.5, 0.223601],
      [1, 0.223525],
    ] as const)
      expect(rectangleMeanDistance(1, ratio) / (1 + ratio)).toBeCloseTo(expected, 6);
  });
});

describe('nodes of curved center lines', () => {
  it('link as their chords do, however far apart, and with any rule', () => {
    // A bend and a leg of a bar end, and the same turned away by one slot and more: finer chords are the second method.
    const at = { side: 1, face: 0.05, radialSide: 'height' } as const;
    const path = { radius: 0.085, angle: 0, height: 0.01, direction: 0.9 };
    const bend: Curve = {
      ...at,
      path: { ...path, curvature: 120 },
      profile: { kind: 'level', radius: 0.085, extent: 0.009 },
    };
    const leg: Curve = {
      ...at,
      path: { ...path, curvature: 0 },
      profile: { kind: 'level', radius: 0.085, extent: 0.045 },
    };
    const pieces = [pieceOf('bend', bend), pieceOf('leg', leg)];
    const chords = pieces.map(({ curve }) =>
      filamentThrough(Array.from({ length: 201 }, (_, step) => stationAt(curve, step / 200).point)),
    );
    const nodes = filamentOf(pieces);
    for (const turn of [0.13, 0.3, 0.6, 1.2, 2, 3.1]) {
      const plain = chords.reduce(
        (sum, first) =>
          sum +
          chords.reduce((own, second) => own + mutualInductance(first, moved(second, turn, null), 0), 0),
        0,
      );
      const found = mutualInductance(nodes, moved(nodes, turn, null), 0);
      // Near each other it is by chords, which leave the line by up to 0.15 mm.
      expect(Math.abs(found / plain - 1), `turned by ${turn}`).toBeLessThan(turn > 0.3 ? 3e-4 : 1.5e-3);
    }
  });
});
