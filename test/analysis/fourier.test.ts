// Takes its time: compares long transforms.

import type { Complex } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { fourierTransform } from '../../core/analysis/fourier.ts';
import { unitCircle } from '../../core/analysis/unitCircle.ts';
import { complex, fft } from '../support/mathematics.ts';

/** A fixed irregular series in -1 .. 1. */
function irregular(n: number, seed: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: n }, () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 1073741824 - 1;
  });
}

describe('the Fourier transform', () => {
  const lengths = [
    1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 15, 16, 21, 27, 30, 48, 49, 53, 77, 96, 106, 120, 288, 297, 331, 480,
  ];
  it.each(lengths)('of length %d agrees with mathjs', (n) => {
    const re = irregular(n, 7 + n);
    const im = irregular(n, 99 + n);
    const own = fourierTransform(n)(re, im);
    // mathjs gives a single element back as it is.
    if (n === 1) {
      expect([own.re[0], own.im[0]]).toEqual([re[0], im[0]]);
      return;
    }
    const theirs = fft(Array.from(re, (value, s) => complex(value, im[s]!))) as Complex[];
    const far = theirs.map((each, k) => Math.hypot(own.re[k]! - each.re, own.im[k]! - each.im));
    expect(far).toHaveLength(n);
    expect(Math.max(...far)).toBeLessThan(1e-11 * n);
  });

  it('of length 2400, the most slots there are, is the sum that defines it', () => {
    const n = 2400;
    const [re, im] = [irregular(n, 7), irregular(n, 99)];
    const own = fourierTransform(n)(re, im);
    const turns = Array.from({ length: n }, (_, s) => (-2 * Math.PI * s) / n);
    const [cos, sin] = [turns.map(Math.cos), turns.map(Math.sin)];
    let far = 0;
    for (let k = 0; k < n; k++) {
      let [sumRe, sumIm] = [0, 0];
      for (let s = 0, at = 0; s < n; s++, at = (at + k) % n) {
        sumRe += re[s]! * cos[at]! - im[s]! * sin[at]!;
        sumIm += re[s]! * sin[at]! + im[s]! * cos[at]!;
      }
      far = Math.max(far, Math.hypot(own.re[k]! - sumRe, own.im[k]! - sumIm));
    }
    expect(far).toBeLessThan(1e-11 * n);
  });

  it('refuses a length that is no positive integer', () => {
    expect(() => fourierTransform(0)).toThrow(RangeError);
    expect(() => fourierTransform(2.5)).toThrow(RangeError);
  });
});

describe('the unit circle', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 36, 45, 100])('of %d points is the circle', (n) => {
    const { cos, sin } = unitCircle(n);
    for (let k = 0; k < n; k++) {
      expect(cos[k]).toBeCloseTo(Math.cos((2 * Math.PI * k) / n), 14);
      expect(sin[k]).toBeCloseTo(Math.sin((2 * Math.PI * k) / n), 14);
    }
    if (n % 4 === 0) expect([cos[n / 4], sin[n / 4]]).toEqual([0, 1]);
  });
});
