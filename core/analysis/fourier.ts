import { requireInteger } from '../winding/integers.ts';
import { type UnitCircle, unitCircle } from './unitCircle.ts';

/** A series of complex numbers, real and imaginary parts apart. */
export interface ComplexSeries {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Transforms the series re + j im into a new series, or into the one given; the input is left as it was. */
export type Transform = (re: Float64Array, im: Float64Array, into?: ComplexSeries) => ComplexSeries;

// Above this a prime factor costs more directly than three transforms of a padded power of two.
const largestDirectFactor = 50;

/**
 * The discrete Fourier transform of length n, X_k = sum over s of x_s exp(-2 pi j k s / n), made ready
 * once for any number of series. Time grows as n log n for every n: a Stockham transform of mixed
 * radix, or Bluestein's convolution where n has a large prime factor. Throws RangeError when n is no
 * positive integer.
 */
export function fourierTransform(n: number): Transform {
  requireInteger('length of a Fourier transform', n, 1);
  const radices = radicesOf(n);
  return radices === null ? bluesteinTransform(n) : mixedRadixTransform(n, radices);
}

/** n as a product of radices, fours first; null when a prime factor is too large to be worth it. */
function radicesOf(n: number): number[] | null {
  const radices: number[] = [];
  let rest = n;
  for (const radix of [4, 2, 3, 5]) {
    while (rest % radix === 0) {
      radices.push(radix);
      rest /= radix;
    }
  }
  for (let radix = 7; rest > 1; radix += 2) {
    if (radix > largestDirectFactor) return null;
    while (rest % radix === 0) {
      radices.push(radix);
      rest /= radix;
    }
  }
  return radices;
}

function mixedRadixTransform(n: number, radices: readonly number[]): Transform {
  const circle = unitCircle(n);
  const aside = { re: new Float64Array(n), im: new Float64Array(n) };
  return (re, im, result = { re: new Float64Array(n), im: new Float64Array(n) }) => {
    if (radices.length === 0) {
      result.re.set(re);
      result.im.set(im);
      return result;
    }
    let from: ComplexSeries = { re, im };
    // Stages write by turns, so that the last one writes the result.
    let to = radices.length % 2 === 1 ? result : aside;
    let stride = 1;
    let groups = n;
    for (const radix of radices) {
      groups /= radix;
      runStage(radix, from, to, circle, groups, stride);
      stride *= radix;
      from = to;
      to = to === result ? aside : result;
    }
    return result;
  };
}

/** One Stockham stage: `groups` x `stride` butterflies of the radix, results in natural order. */
function runStage(
  radix: number,
  from: ComplexSeries,
  to: ComplexSeries,
  circle: UnitCircle,
  groups: number,
  stride: number,
): void {
  if (radix === 2) radixTwo(from, to, circle, groups, stride);
  else if (radix === 3) radixThree(from, to, circle, groups, stride);
  else if (radix === 4) radixFour(from, to, circle, groups, stride);
  else if (radix === 5) radixFive(from, to, circle, groups, stride);
  else anyRadix(radix, from, to, circle, groups, stride);
}

function radixTwo(
  from: ComplexSeries,
  to: ComplexSeries,
  { cos, sin }: UnitCircle,
  groups: number,
  stride: number,
): void {
  const half = groups * stride;
  const { re: fromRe, im: fromIm } = from;
  const { re: toRe, im: toIm } = to;
  for (let group = 0; group < groups; group++) {
    const one = group * stride;
    const c = cos[one]!;
    const s = -sin[one]!;
    for (let i = 0; i < stride; i++) {
      const a = one + i;
      const b = a + half;
      const out = 2 * one + i;
      const re = fromRe[a]! - fromRe[b]!;
      const im = fromIm[a]! - fromIm[b]!;
      toRe[out] = fromRe[a]! + fromRe[b]!;
      toIm[out] = fromIm[a]! + fromIm[b]!;
      toRe[out + stride] = re * c - im * s;
      toIm[out + stride] = re * s + im * c;
    }
  }
}

const sixtyDegrees = Math.sqrt(3) / 2;

function radixThree(
  from: ComplexSeries,
  to: ComplexSeries,
  { cos, sin }: UnitCircle,
  groups: number,
  stride: number,
): void {
  const third = groups * stride;
  const { re: fromRe, im: fromIm } = from;
  const { re: toRe, im: toIm } = to;
  for (let group = 0; group < groups; group++) {
    const one = group * stride;
    const c1 = cos[one]!;
    const s1 = -sin[one]!;
    const c2 = cos[2 * one]!;
    const s2 = -sin[2 * one]!;
    for (let i = 0; i < stride; i++) {
      const a = one + i;
      const b = a + third;
      const c = b + third;
      const sumRe = fromRe[b]! + fromRe[c]!;
      const sumIm = fromIm[b]! + fromIm[c]!;
      const midRe = fromRe[a]! - 0.5 * sumRe;
      const midIm = fromIm[a]! - 0.5 * sumIm;
      const sideRe = sixtyDegrees * (fromIm[b]! - fromIm[c]!);
      const sideIm = -sixtyDegrees * (fromRe[b]! - fromRe[c]!);
      const out = 3 * one + i;
      toRe[out] = fromRe[a]! + sumRe;
      toIm[out] = fromIm[a]! + sumIm;
      const re1 = midRe + sideRe;
      const im1 = midIm + sideIm;
      toRe[out + stride] = re1 * c1 - im1 * s1;
      toIm[out + stride] = re1 * s1 + im1 * c1;
      const re2 = midRe - sideRe;
      const im2 = midIm - sideIm;
      toRe[out + 2 * stride] = re2 * c2 - im2 * s2;
      toIm[out + 2 * stride] = re2 * s2 + im2 * c2;
    }
  }
}

function radixFour(
  from: ComplexSeries,
  to: ComplexSeries,
  { cos, sin }: UnitCircle,
  groups: number,
  stride: number,
): void {
  const fourth = groups * stride;
  const { re: fromRe, im: fromIm } = from;
  const { re: toRe, im: toIm } = to;
  for (let group = 0; group < groups; group++) {
    const one = group * stride;
    const c1 = cos[one]!;
    const s1 = -sin[one]!;
    const c2 = cos[2 * one]!;
    const s2 = -sin[2 * one]!;
    const c3 = cos[3 * one]!;
    const s3 = -sin[3 * one]!;
    for (let i = 0; i < stride; i++) {
      const a = one + i;
      const b = a + fourth;
      const c = b + fourth;
      const d = c + fourth;
      const evenRe = fromRe[a]! + fromRe[c]!;
      const evenIm = fromIm[a]! + fromIm[c]!;
      const oddRe = fromRe[a]! - fromRe[c]!;
      const oddIm = fromIm[a]! - fromIm[c]!;
      const sumRe = fromRe[b]! + fromRe[d]!;
      const sumIm = fromIm[b]! + fromIm[d]!;
      // -j (b - d)
      const turnRe = fromIm[b]! - fromIm[d]!;
      const turnIm = fromRe[d]! - fromRe[b]!;
      const out = 4 * one + i;
      toRe[out] = evenRe + sumRe;
      toIm[out] = evenIm + sumIm;
      const re1 = oddRe + turnRe;
      const im1 = oddIm + turnIm;
      toRe[out + stride] = re1 * c1 - im1 * s1;
      toIm[out + stride] = re1 * s1 + im1 * c1;
      const re2 = evenRe - sumRe;
      const im2 = evenIm - sumIm;
      toRe[out + 2 * stride] = re2 * c2 - im2 * s2;
      toIm[out + 2 * stride] = re2 * s2 + im2 * c2;
      const re3 = oddRe - turnRe;
      const im3 = oddIm - turnIm;
      toRe[out + 3 * stride] = re3 * c3 - im3 * s3;
      toIm[out + 3 * stride] = re3 * s3 + im3 * c3;
    }
  }
}

const cos72 = Math.cos((2 * Math.PI) / 5);
const cos144 = Math.cos((4 * Math.PI) / 5);
const sin72 = Math.sin((2 * Math.PI) / 5);
const sin144 = Math.sin((4 * Math.PI) / 5);

function radixFive(
  from: ComplexSeries,
  to: ComplexSeries,
  { cos, sin }: UnitCircle,
  groups: number,
  stride: number,
): void {
  const fifth = groups * stride;
  const { re: fromRe, im: fromIm } = from;
  const { re: toRe, im: toIm } = to;
  for (let group = 0; group < groups; group++) {
    const one = group * stride;
    const c1 = cos[one]!;
    const s1 = -sin[one]!;
    const c2 = cos[2 * one]!;
    const s2 = -sin[2 * one]!;
    const c3 = cos[3 * one]!;
    const s3 = -sin[3 * one]!;
    const c4 = cos[4 * one]!;
    const s4 = -sin[4 * one]!;
    for (let i = 0; i < stride; i++) {
      const a = one + i;
      const b = a + fifth;
      const c = b + fifth;
      const d = c + fifth;
      const e = d + fifth;
      const aRe = fromRe[a]!;
      const aIm = fromIm[a]!;
      const outerRe = fromRe[b]! + fromRe[e]!;
      const outerIm = fromIm[b]! + fromIm[e]!;
      const innerRe = fromRe[c]! + fromRe[d]!;
      const innerIm = fromIm[c]! + fromIm[d]!;
      const outerSkewRe = fromRe[b]! - fromRe[e]!;
      const outerSkewIm = fromIm[b]! - fromIm[e]!;
      const innerSkewRe = fromRe[c]! - fromRe[d]!;
      const innerSkewIm = fromIm[c]! - fromIm[d]!;
      const evenRe1 = aRe + cos72 * outerRe + cos144 * innerRe;
      const evenIm1 = aIm + cos72 * outerIm + cos144 * innerIm;
      const evenRe2 = aRe + cos144 * outerRe + cos72 * innerRe;
      const evenIm2 = aIm + cos144 * outerIm + cos72 * innerIm;
      // -j times the odd part
      const oddRe1 = sin72 * outerSkewIm + sin144 * innerSkewIm;
      const oddIm1 = -sin72 * outerSkewRe - sin144 * innerSkewRe;
      const oddRe2 = sin144 * outerSkewIm - sin72 * innerSkewIm;
      const oddIm2 = -sin144 * outerSkewRe + sin72 * innerSkewRe;
      let out = 5 * one + i;
      toRe[out] = aRe + outerRe + innerRe;
      toIm[out] = aIm + outerIm + innerIm;
      let re = evenRe1 + oddRe1;
      let im = evenIm1 + oddIm1;
      out += stride;
      toRe[out] = re * c1 - im * s1;
      toIm[out] = re * s1 + im * c1;
      re = evenRe2 + oddRe2;
      im = evenIm2 + oddIm2;
      out += stride;
      toRe[out] = re * c2 - im * s2;
      toIm[out] = re * s2 + im * c2;
      re = evenRe2 - oddRe2;
      im = evenIm2 - oddIm2;
      out += stride;
      toRe[out] = re * c3 - im * s3;
      toIm[out] = re * s3 + im * c3;
      re = evenRe1 - oddRe1;
      im = evenIm1 - oddIm1;
      out += stride;
      toRe[out] = re * c4 - im * s4;
      toIm[out] = re * s4 + im * c4;
    }
  }
}

function anyRadix(
  radix: number,
  from: ComplexSeries,
  to: ComplexSeries,
  { cos, sin }: UnitCircle,
  groups: number,
  stride: number,
): void {
  const n = radix * groups * stride;
  const part = groups * stride;
  const { re: fromRe, im: fromIm } = from;
  for (let group = 0; group < groups; group++) {
    for (let k = 0; k < radix; k++) {
      const twist = (group * k * stride) % n;
      const c = cos[twist]!;
      const s = -sin[twist]!;
      for (let i = 0; i < stride; i++) {
        const first = group * stride + i;
        let re = fromRe[first]!;
        let im = fromIm[first]!;
        for (let j = 1, turn = k * part; j < radix; j++) {
          const at = first + j * part;
          const wc = cos[turn]!;
          const ws = -sin[turn]!;
          re += fromRe[at]! * wc - fromIm[at]! * ws;
          im += fromRe[at]! * ws + fromIm[at]! * wc;
          turn += k * part;
          if (turn >= n) turn -= n;
        }
        const out = (radix * group + k) * stride + i;
        to.re[out] = re * c - im * s;
        to.im[out] = re * s + im * c;
      }
    }
  }
}

/** Bluestein's way: k s = (k^2 + s^2 - (k - s)^2) / 2 turns the transform into a convolution. */
function bluesteinTransform(n: number): Transform {
  const circle = unitCircle(2 * n);
  const chirpRe = new Float64Array(n);
  const chirpIm = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const turn = (k * k) % (2 * n);
    chirpRe[k] = circle.cos[turn]!;
    chirpIm[k] = -circle.sin[turn]!;
  }
  const padded = smoothLength(2 * n - 1);
  const inner = fourierTransform(padded);
  const chirp = paddedKernel(chirpRe, chirpIm, padded);
  const kernel = inner(chirp.re, chirp.im);
  return (seriesRe, seriesIm, result = { re: new Float64Array(n), im: new Float64Array(n) }) => {
    const re = new Float64Array(padded);
    const im = new Float64Array(padded);
    for (let k = 0; k < n; k++) {
      re[k] = seriesRe[k]! * chirpRe[k]! - seriesIm[k]! * chirpIm[k]!;
      im[k] = seriesRe[k]! * chirpIm[k]! + seriesIm[k]! * chirpRe[k]!;
    }
    const product = conjugateProduct(inner(re, im), kernel);
    const convolved = inner(product.re, product.im);
    const { re: outRe, im: outIm } = result;
    for (let k = 0; k < n; k++) {
      // The inverse transform is taken as the conjugate of the transform of the conjugate.
      const cRe = convolved.re[k]! / padded;
      const cIm = -convolved.im[k]! / padded;
      outRe[k] = cRe * chirpRe[k]! - cIm * chirpIm[k]!;
      outIm[k] = cRe * chirpIm[k]! + cIm * chirpRe[k]!;
    }
    return result;
  };
}

/** The smallest length of at least `least` that has no prime factor above 5. */
function smoothLength(least: number): number {
  let best = 2 ** Math.ceil(Math.log2(least));
  for (let fives = 1; fives < best; fives *= 5) {
    for (let threes = fives; threes < best; threes *= 3) {
      let length = threes;
      while (length < least) length *= 2;
      if (length < best) best = length;
    }
  }
  return best;
}

function paddedKernel(chirpRe: Float64Array, chirpIm: Float64Array, padded: number): ComplexSeries {
  const re = new Float64Array(padded);
  const im = new Float64Array(padded);
  for (let k = 0; k < chirpRe.length; k++) {
    const mirrored = (padded - k) % padded;
    re[k] = chirpRe[k]!;
    im[k] = -chirpIm[k]!;
    re[mirrored] = chirpRe[k]!;
    im[mirrored] = -chirpIm[k]!;
  }
  return { re, im };
}

function conjugateProduct(a: ComplexSeries, b: ComplexSeries): ComplexSeries {
  const re = new Float64Array(a.re.length);
  const im = new Float64Array(a.re.length);
  for (let k = 0; k < re.length; k++) {
    re[k] = a.re[k]! * b.re[k]! - a.im[k]! * b.im[k]!;
    im[k] = -(a.re[k]! * b.im[k]! + a.im[k]! * b.re[k]!);
  }
  return { re, im };
}
