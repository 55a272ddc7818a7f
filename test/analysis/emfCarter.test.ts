import { describe, expect, it } from 'vitest';
import { carterFactor } from '../../core/analysis/emf/carter.ts';

/**
 * Carter's factor from the field itself: Laplace's equation in half a slot pitch with a deep open slot,
 * on a square grid, relaxed. Rotor at 1, iron of the stator at 0; the factor is the flux without slot
 * over the flux with it.
 */
function relaxedFactor(pitch: number, opening: number, gap: number, cells: number): number {
  const step = gap / cells;
  const across = Math.round(pitch / 2 / step);
  const open = Math.round(opening / 2 / step);
  const depth = 3 * open;
  const height = cells + depth;
  const field: Float64Array[] = [];
  for (let j = 0; j <= height; j++) field.push(new Float64Array(across + 1));
  field[0]!.fill(1);
  const relax = 1.9;
  for (let round = 0; round < 3000; round++) {
    for (let j = 1; j < height; j++) {
      const right = j < cells ? across : open - 1;
      const row = field[j]!;
      for (let i = 0; i <= right; i++) {
        const west = i === 0 ? row[1]! : row[i - 1]!;
        const east = i === across ? row[across - 1]! : row[i + 1]!;
        const mean = (west + east + field[j - 1]![i]! + field[j + 1]![i]!) / 4;
        row[i]! += relax * (mean - row[i]!);
      }
    }
  }
  let flux = 0;
  for (let i = 0; i <= across; i++) {
    const weight = i === 0 || i === across ? 0.5 : 1;
    flux += weight * (field[0]![i]! - field[1]![i]!);
  }
  return across / cells / flux;
}

describe("Carter's factor", () => {
  it.each([
    [8, 3, 1],
    [10, 2, 1],
    [9, 4, 1],
  ])('pitch %d, opening %d, gap %d: the relaxed field within half a percent', (pitch, opening, gap) => {
    expect(
      Math.abs(relaxedFactor(pitch, opening, gap, 16) / carterFactor(pitch, opening, gap) - 1),
    ).toBeLessThan(5e-3);
  });

  it('stays near the handbook approximation b/(5 g + b) (Pyrhonen 3.1.1, from memory)', () => {
    for (const ratio of [0.5, 1, 2, 4, 8]) {
      const kappa = ratio / (5 + ratio);
      expect(Math.abs(carterFactor(20, ratio, 1) / (20 / (20 - kappa * ratio)) - 1)).toBeLessThan(0.02);
    }
  });

  it('closed slots: 1; small openings: 1 + b^2/(2 pi g pitch)', () => {
    expect(carterFactor(10, 0, 1)).toBe(1);
    expect((carterFactor(10, 0.01, 1) - 1) / (1e-4 / (20 * Math.PI))).toBeCloseTo(1, 4);
  });

  it('refuses what is no gap or no tooth', () => {
    expect(() => carterFactor(10, 10, 1)).toThrow(RangeError);
    expect(() => carterFactor(10, 2, 0)).toThrow(RangeError);
    expect(() => carterFactor(10, -1, 1)).toThrow(RangeError);
  });
});
