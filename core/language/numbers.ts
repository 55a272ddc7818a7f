/** The largest of some numbers of any count, but at least `least`. */
export function largest(values: Iterable<number>, least = 0): number {
  let most = least;
  for (const value of values) if (value > most) most = value;
  return most;
}

/**
 * A number as text with at most `digits` significant digits, without trailing zeros, locale or negative
 * zero; exponents only outside 1e-6 .. 1e15. Not-a-number and infinities throw RangeError.
 */
export function significant(value: number, digits = 5): string {
  if (!Number.isFinite(value)) throw new RangeError(`a finite number expected, got ${value}`);
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  return rounded === 0 ? '0' : String(rounded);
}

/** A number with exactly `digits` decimals, without negative zero; null is a dash. */
export function fixed(value: number | null, digits: number): string {
  if (value === null) return '–';
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** A figure of size 1 or so (an angle, a relative difference) without the noise of rounding: below 1e-12 it is 0. */
export function withoutNoise(value: number): number {
  return Math.abs(value) < 1e-12 ? 0 : value;
}

/** A ratio in percent, with at most `digits` significant digits. */
export function percent(ratio: number, digits = 4): string {
  return `${significant(ratio * 100, digits)} %`;
}
