import { describe, expect, it } from 'vitest';
import { differentialLeakage } from '../../core/analysis/differentialLeakage.ts';
import { windingFactor } from '../../core/analysis/factors/factors.ts';
import { mmf } from '../../core/analysis/mmf.ts';
import { symmetryFigures } from '../../core/analysis/symmetry.ts';
import { asRows, generated } from '../analysis/windings.ts';

// Two-layer fractional-slot windings: kw = kd(numerator of q) x kp as in Pyrhonen, Jokinen, Hrabovcova, Design
// of Rotating Electrical Machines, 2nd ed., Wiley 2014, ch. 2, from memory; recomputed by an independent
// program as phasor star and closed form to 5 digits.
describe('fractional-slot windings', () => {
  it.each([
    // slots, poles, span, q, kw, identical groups, leakage, orders below p
    [9, 2, 4, '3/2', 0.94521, 1, 0.04559, []],
    [27, 6, 4, '3/2', 0.94521, 3, 0.04559, []],
    [36, 8, 4, '3/2', 0.94521, 4, 0.04559, []],
    [30, 4, 7, '5/2', 0.95144, 2, 0.0176, []],
    [45, 6, 7, '5/2', 0.95144, 3, 0.0176, []],
    [30, 4, 6, '5/2', 0.90985, 2, 0.01736, []],
    [30, 8, 3, '5/4', 0.90985, 2, 0.10214, [2]],
    [36, 10, 3, '6/5', 0.92356, 2, 0.11602, [1, 3]],
    [72, 20, 3, '6/5', 0.92356, 4, 0.11602, [2, 6]],
    [54, 8, 6, '9/4', 0.94095, 2, 0.03299, [2]],
    [48, 10, 4, '8/5', 0.92305, 2, 0.05267, [1, 3]],
  ] as const)('%d/%d, span %d', (slots, poles, span, q, factor, groups, leakage, below) => {
    const winding = generated(slots, poles, span);
    expect(windingFactor(winding, winding.polePairs)).toBeCloseTo(factor, 5);
    expect(Math.abs(differentialLeakage(winding)! - leakage)).toBeLessThan(5.1e-6);
    expect(symmetryFigures(winding)).toMatchObject({ slotsPerPolePerPhase: q, identicalGroups: groups });
    expect(symmetryFigures(asRows(winding)).identicalGroups).toBe(groups);
    const lower = Array.from({ length: winding.polePairs - 1 }, (_, i) => i + 1);
    expect(lower.filter((order) => windingFactor(winding, order) > 0)).toEqual(below);
    // Three phases cancel the orders of three times the basic winding's repeats in the MMF.
    const waves = mmf(winding, { orders: winding.polePairs - 1 || 1 }).waves.map((wave) => wave.order);
    const repeats = symmetryFigures(winding).commonDivisor;
    expect(waves.filter((order) => order < winding.polePairs)).toEqual(
      below.filter((order) => order % (3 * repeats) !== 0),
    );
  });
});

describe('integer-slot windings', () => {
  // Identical groups: two layers 2p, one layer p. Pyrhonen et al. as above, ch. 2, from memory.
  it.each([
    [2, 4],
    [3, 2],
    [1, 4],
    [2, 1],
  ])('q = %d, p = %d', (q, p) => {
    const double = generated(6 * q * p, 2 * p, 3 * q);
    const single = generated(6 * q * p, 2 * p, 3 * q, { layers: 1 });
    for (const read of [(w: typeof double) => w, asRows]) {
      expect(symmetryFigures(read(double)).identicalGroups).toBe(2 * p);
      expect(symmetryFigures(read(single)).identicalGroups).toBe(p);
      expect(symmetryFigures(read(single)).largestParallelPaths).toBe(p);
    }
  });

  it('a shift between layer pairs acts like a shorter pitch', () => {
    // kw cos(nu s alpha / 2) for a shift by s slots; recomputed on 48/8 and 72/8 with four layers.
    for (const [slots, span, factor, leakage] of [
      [48, 6, 0.93301, 0.023542],
      [72, 9, 0.94521, 0.011495],
    ] as const) {
      const winding = generated(slots, 8, span, { layers: 4, stagger: 1 });
      expect(windingFactor(winding, 4)).toBeCloseTo(factor, 5);
      expect(differentialLeakage(winding)).toBeCloseTo(leakage, 6);
      const plain = generated(slots, 8, span, { layers: 4 });
      for (const harmonic of [1, 5, 7, 11, 13]) {
        expect(windingFactor(winding, 4 * harmonic)).toBeCloseTo(
          windingFactor(plain, 4 * harmonic) * Math.abs(Math.cos((harmonic * 4 * Math.PI) / slots)),
          12,
        );
      }
    }
  });
});

describe('cogging and radial balance', () => {
  // Zhu & Howe, Influence of design parameters on cogging torque in PM machines, IEEE Trans. EC 15(4), 2000,
  // from memory: periods a turn lcm(Q, 2p), goodness 2p Q / lcm = gcd(Q, 2p).
  it.each([
    [12, 10, 1, 2, 60],
    [12, 14, 1, 2, 84],
    [9, 8, 1, 1, 72],
    [9, 6, 1, 3, 18],
    [48, 8, 6, 8, 48],
    [15, 14, 1, 1, 210],
    [27, 30, 1, 3, 270],
  ])('%d/%d', (slots, poles, span, symmetry, periods) => {
    const figures = symmetryFigures(generated(slots, poles, span));
    expect(figures.coggingPeriods).toBe(periods);
    expect(figures.radialSymmetry).toBe(symmetry);
    expect(figures.unbalancedPull).toBe(symmetry === 1);
  });
});
