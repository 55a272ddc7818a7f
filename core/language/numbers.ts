/** The largest of some numbers of any count, but at least `least`. */
export function largest(values: Iterable<number>, least = 0): number {
  let most = least;
  for (const value of values) if (value > most) most = value;
  return most;
}

/** The digits of a number, where a zero has no sign. Every number that people or programs read is made here. */
function unsignedZero(digits: string): string {
  return Number(digits) === 0 ? digits.replace('-', '') : digits;
}

/**
 * A number as text with at most `digits` significant digits, without trailing zeros, locale or negative
 * zero; exponents only outside 1e-6 .. 1e15. Not-a-number and infinities throw RangeError.
 */
export function significant(value: number, digits = 5): string {
  if (!Number.isFinite(value)) throw new RangeError(`a finite number expected, got ${value}`);
  return unsignedZero(String(Number(value.toPrecision(digits))));
}

/** A number with exactly `digits` decimals, without negative zero; null is a dash. */
export function fixed(value: number | null, digits: number): string {
  return value === null ? '–' : unsignedZero(value.toFixed(digits));
}

/** A number with at most `most` decimals, without trailing zeros, exponent below 1e15, or negative zero. */
export function decimal(value: number, most = 3): string {
  const scale = 10 ** most;
  const text = unsignedZero(String(Math.round(value * scale) / scale));
  return text.includes('e') ? unsignedZero(value.toFixed(most)).replace(/\.?0+$/, '') : text;
}

/** A figure of size 1 or so (an angle, a relative difference) without the noise of rounding: below 1e-12 it is 0. */
export function withoutNoise(value: number): number {
  return Math.abs(value) < 1e-12 ? 0 : value;
}

/** A ratio in percent, with at most `digits` significant digits. */
export function percent(ratio: number, digits = 4): string {
  return `${significant(ratio * 100, digits)} %`;
}
