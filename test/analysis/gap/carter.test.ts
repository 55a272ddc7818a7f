// Takes its time: integrates fields.

import { describe, expect, it } from 'vitest';
import { carterFactor } from '../../../core/analysis/gap/carter.ts';
import { examine, ferryDrive, withLine } from '../../copper/machines.ts';
import { lusolve } from '../../support/mathematics.ts';

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
  for (let round = 0; round < 1000; round++) {
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

/** A gap with magnets, lengths in one unit: the magnets lie on smooth rotor iron and face the slots. */
interface MagnetGap {
  readonly pitch: number;
  readonly opening: number;
  readonly air: number;
  readonly magnets: number;
  readonly permeability: number;
}

/**
 * The factor by which slots lengthen a gap with magnets, from the field itself: a row of equal, deep
 * slots. Potential 1 on the rotor iron, 0 on the stator's; Fourier terms of the slot pitch in magnets and
 * air, of the opening in the slots, matched where slots and gap meet. No conformal mapping in it.
 */
function matchedFactor({ pitch, opening, air, magnets, permeability }: MagnetGap, terms = 30): number {
  const smooth = air + magnets / permeability;
  const inSlot = Array.from({ length: terms }, (_, n) => ((2 * n + 1) * Math.PI) / opening);
  const count = Math.round((2 * terms * pitch) / opening);
  const inGap = Array.from({ length: count }, (_, k) => (2 * (k + 1) * Math.PI) / pitch);
  const sinOver = (k: number) => (Math.abs(k) < 1e-9 ? opening / 2 : Math.sin((k * opening) / 2) / k);
  const mean = inSlot.map((n) => (2 * sinOver(n)) / pitch);
  const overlap = inGap.map((k) => inSlot.map((n) => (2 / pitch) * (sinOver(n + k) + sinOver(n - k))));
  const stiffness = inGap.map((k) => {
    const [inMagnets, inAir] = [Math.tanh(k * magnets), Math.tanh(k * air)];
    return (k * (inMagnets * inAir + permeability)) / (inMagnets + permeability * inAir);
  });
  const matrix = inSlot.map((n, row) =>
    inSlot.map((_, column) => {
      const own = row === column ? (n * opening) / 2 : 0;
      const even = (mean[row]! * mean[column]! * pitch) / smooth;
      return overlap.reduce(
        (sum, products, k) => sum + (pitch / 2) * stiffness[k]! * products[row]! * products[column]!,
        own + even,
      );
    }),
  );
  const solution = lusolve(
    matrix,
    mean.map((value) => (value * pitch) / smooth),
  ) as number[][];
  const lost = solution.reduce((sum, [value], n) => sum + mean[n]! * value!, 0);
  return 1 / (1 - lost);
}

// From memory; recomputed here by Carter's conformal mapping and by the matched field: openings over the
// gap, and kappa in kC = pitch/(pitch - kappa opening) (Pyrhonen, Jokinen, Hrabovcova, ch. 3; Carter 1901).
const kappas: readonly (readonly [number, number])[] = [
  [0.5, 0.0788],
  [1, 0.1531],
  [2, 0.2794],
  [3, 0.3755],
  [4, 0.4487],
  [5, 0.5055],
  [6, 0.5509],
  [8, 0.6186],
  [10, 0.6669],
  [12, 0.7033],
];

describe('gaps with magnets', () => {
  // The opening up to 4/7 of the pitch, magnets of 0 to 6 times the air.
  const gaps: readonly MagnetGap[] = [
    { pitch: 10, opening: 3, air: 0.8, magnets: 0, permeability: 1 },
    { pitch: 10, opening: 3, air: 1, magnets: 4.2, permeability: 1.05 },
    { pitch: 10, opening: 3, air: 0.8, magnets: 5, permeability: 1.05 },
    { pitch: 10.6, opening: 1.2, air: 0.8, magnets: 5, permeability: 1.05 },
    { pitch: 10, opening: 5, air: 1, magnets: 4, permeability: 1.05 },
    { pitch: 10.5, opening: 6, air: 0.5, magnets: 3, permeability: 1.05 },
    { pitch: 10, opening: 3, air: 1, magnets: 4, permeability: 1.2 },
    { pitch: 16, opening: 3, air: 1, magnets: 6, permeability: 1.05 },
  ];

  const fields = new Map<MagnetGap, number>();
  /** The matched field of one of these gaps, computed once. */
  const ofField = (gap: MagnetGap): number => {
    const factor = fields.get(gap) ?? matchedFactor(gap);
    fields.set(gap, factor);
    return factor;
  };

  it.each(gaps)('$pitch/$opening, gap $air, magnets $magnets: kC of the whole gap, within 0.2 %%', (gap) => {
    const smooth = gap.air + gap.magnets / gap.permeability;
    expect(Math.abs(carterFactor(gap.pitch, gap.opening, smooth) / ofField(gap) - 1)).toBeLessThan(2e-3);
  });

  it('where kC of the air alone is up to 5 % off', () => {
    const off = gaps.map((gap) => {
      const { pitch, opening, air, magnets, permeability } = gap;
      const smooth = air + magnets / permeability;
      const ofAir = carterFactor(pitch, opening, air) * air + magnets / permeability;
      return Math.abs(ofAir / (ofField(gap) * smooth) - 1);
    });
    expect(Math.max(...off)).toBeGreaterThan(0.04);
  });

  it('the matched field has converged', () => {
    for (const gap of gaps) expect(Math.abs(ofField(gap) / matchedFactor(gap, 45) - 1)).toBeLessThan(1e-4);
  });

  it('magnetizing inductance: D/(kC G) by the matched field, magnets and all', () => {
    // The slot pitch at the bore of 162 mm, wide openings so that the slots matter.
    const wide = examine(withLine(ferryDrive, 'opening 1.2', '  opening 4.6 mm')).emf;
    const closed = examine(withLine(ferryDrive, 'carter', '  carter off')).emf;
    const factor = matchedFactor({
      pitch: (Math.PI * 162) / 48,
      opening: 4.6,
      air: 0.9,
      magnets: 4,
      permeability: 1.06,
    });
    const ratio = closed.magnetizingInductance! / wide.magnetizingInductance!;
    expect(Math.abs(ratio / factor - 1)).toBeLessThan(2e-3);
    // Of the air gap alone it would be 3 % less.
    expect(factor).toBeGreaterThan(1.06);
  });
});

describe("Carter's factor", () => {
  it.each(kappas)('opening over gap %d: kappa %d', (ratio, kappa) => {
    const computed = (1 - 1 / carterFactor(20, ratio, 1)) * (20 / ratio);
    expect(computed).toBeCloseTo(kappa, 4);
    // The row of slots of the matched field stands so far apart that each is alone.
    const matched = matchedFactor({ pitch: 40, opening: ratio, air: 1, magnets: 0, permeability: 1 });
    expect(Math.abs((1 - 1 / matched) * (40 / ratio) - kappa)).toBeLessThan(1e-3);
  });

  it('pitch 10, opening 3, gap 0.8 mm: 0.92 mm (Pyrhonen ch. 3, from memory, with its approximation)', () => {
    expect(0.8 * carterFactor(10, 3, 0.8)).toBeCloseTo(0.91917, 5);
    expect(0.8 * carterFactor(10, 3, 0.8)).toBeCloseTo(0.92, 2);
  });

  it('of a gap with magnets, not of its air (Zhu, Howe, IEEE Trans. Magnetics 29(1), 1993, from memory)', () => {
    expect(carterFactor(10, 3, 1 + 4.2 / 1.05)).toBeCloseTo(1.02905, 5);
    expect(carterFactor(10, 3, 1)).toBeCloseTo(1.12697, 5);
  });

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
