// Takes its time: compares long transforms.

import { type Complex, complex, fft } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { fourierTransform } from '../../core/analysis/fourier.ts';
import { unitCircle } from '../../core/analysis/unitCircle.ts';

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
    1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 15, 16, 21, 27, 30, 48, 49, 53, 77, 96, 106, 120, 288, 297, 331, 2400,
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
    for (let k = 0; k < n; k++) {
      expect(Math.abs(own.re[k]! - theirs[k]!.re)).toBeLessThan(1e-11 * n);
      expect(Math.abs(own.im[k]! - theirs[k]!.im)).toBeLessThan(1e-11 * n);
    }
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
