import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldWeight, phi, psi } from '../../../core/copper/acLoss/skinEffect.ts';
import { tries } from '../../support/tries.ts';
import { type Complex, solvedLossRatio } from './slotFieldSolver.ts';

const one: Complex = { re: 1, im: 0 };

function ratio(xi: number, own: Complex, below: Complex, strands = 1): number {
  const size = own.re ** 2 + own.im ** 2;
  return phi(xi) + (psi(xi) * fieldWeight(below, own, strands)) / size;
}

describe('phi and psi against the field solved numerically', () => {
  it.each([1e-4, 1e-3, 0.01, 0.1, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 5, 8, 12, 20, 30, 50])('xi = %d', (xi) => {
    const currents: readonly [Complex, Complex][] = [
      [one, { re: 0, im: 0 }],
      [one, { re: 3, im: 0 }],
      [one, { re: -0.5, im: Math.sqrt(3) / 2 }],
      [
        { re: 0.3, im: -1.1 },
        { re: 2.5, im: 0.7 },
      ],
      [one, { re: -0.5, im: 0 }],
    ];
    for (const [own, below] of currents) {
      expect(ratio(xi, own, below) / solvedLossRatio(xi, own, below)).toBeCloseTo(1, 6);
      expect(Math.abs(ratio(xi, own, below) / solvedLossRatio(xi, own, below) - 1)).toBeLessThan(1e-6);
    }
  });

  it('holds for any complex currents and heights', () => {
    const part = fc.double({ min: -4, max: 4, noNaN: true });
    const complex = fc.record({ re: part, im: part });
    fc.assert(
      fc.property(
        fc.double({ min: -4, max: Math.log10(50), noNaN: true }),
        complex,
        complex,
        (power, own, below) => {
          fc.pre(Math.hypot(own.re, own.im) > 0.2);
          const xi = 10 ** power;
          expect(Math.abs(ratio(xi, own, below) / solvedLossRatio(xi, own, below) - 1)).toBeLessThan(1e-6);
        },
      ),
      { seed: 4101, numRuns: tries(40) },
    );
  });
});

describe('limits', () => {
  it('small heights: phi - 1 -> 4 xi^4/45, psi -> xi^4/3', () => {
    for (const xi of [0.02, 0.05, 0.1]) {
      expect((phi(xi) - 1) / ((4 / 45) * xi ** 4)).toBeCloseTo(1, 4);
      expect(psi(xi) / (xi ** 4 / 3)).toBeCloseTo(1, 4);
    }
    for (const xi of [1e-12, 1e-6, 1e-4]) expect(psi(xi) / (xi ** 4 / 3)).toBeCloseTo(1, 9);
    expect(phi(0)).toBe(1);
    expect(psi(0)).toBe(0);
  });

  it('large heights: phi -> xi, psi -> 2 xi, without overflow', () => {
    for (const xi of [50, 400, 1e4, 1e200]) {
      expect(phi(xi) / xi).toBeCloseTo(1, 12);
      expect(psi(xi) / (2 * xi)).toBeCloseTo(1, 12);
    }
  });

  it('the branches meet: no step where the formula changes', () => {
    for (const xi of [1e-3, 1]) {
      expect(phi(xi * (1 - 1e-12)) / phi(xi * (1 + 1e-12))).toBeCloseTo(1, 11);
      expect(psi(xi * (1 - 1e-12)) / psi(xi * (1 + 1e-12))).toBeCloseTo(1, 10);
    }
  });

  it('refuses what is no height', () => {
    for (const bad of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => phi(bad)).toThrow(RangeError);
      expect(() => psi(bad)).toThrow(RangeError);
    }
  });
});

describe('strands', () => {
  it('n transposed strands lose the mean of n bars stacked in the height of one', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (strands, xi, re, im) => {
          let sum = 0;
          for (let j = 0; j < strands; j++) {
            sum += ratio(xi, one, { re: strands * re + j, im: strands * im });
          }
          expect(ratio(xi, one, { re, im }, strands) / (sum / strands)).toBeCloseTo(1, 10);
        },
      ),
      { seed: 4102, numRuns: tries(100) },
    );
  });
});
