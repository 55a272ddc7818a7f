import type { ShownAs } from '../figures/register.ts';

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
 * zero; exponents only outside 1e-6 .. 1e15. Not-a-number and infinities throw RangeError. With as many
 * more, up to 10, as tell it apart from the number `beside`, where it is said to be above or below that.
 */
export function significant(value: number, digits = 5, beside?: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a finite number expected, got ${value}`);
  const read = rounded(value, digits);
  return digits < 10 && beside !== undefined && read === rounded(beside, digits)
    ? significant(value, digits + 1, beside)
    : unsignedZero(String(read));
}

/** A number rounded to so many significant digits, to be compared or reckoned with; infinities stay. */
export function rounded(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}

/** A number with exactly `digits` decimals, without negative zero; null is a dash. */
export function fixed(value: number | null, digits: number): string {
  return value === null ? '–' : unsignedZero(value.toFixed(digits));
}

/** A number with at most `most` decimals, without trailing zeros, exponent below 1e15, or negative zero. */
export function decimal(value: number, most = 3): string {
  const scale = 10 ** most;
  const steps = Math.round(value * scale);
  // Drawings have thousands of lengths: made of two whole numbers they take a third of the time.
  if (most === 3 && steps > -2e9 && steps < 2e9) return thousandths(steps);
  const text = unsignedZero(String(steps / scale));
  return text.includes('e') ? unsignedZero(value.toFixed(most)).replace(/\.?0+$/, '') : text;
}

/** The decimals of so many thousandths, with their point. */
const decimals: string[] = [];

function thousandths(steps: number): string {
  const size = Math.abs(steps) | 0;
  const part = size % 1000;
  decimals[part] ??= part === 0 ? '' : String(part / 1000).slice(1);
  const text = ((size / 1000) | 0) + decimals[part];
  return steps < 0 ? `-${text}` : text;
}

/** A figure of size 1 or so (an angle, a relative difference) without the noise of rounding: below 1e-12 it is 0. */
export function withoutNoise(value: number): number {
  return Math.abs(value) < 1e-12 ? 0 : value;
}

/** The first of those whose size is the largest but for rounding, which differs from one engine of JavaScript to another. */
export function firstLargest<Item>(items: readonly Item[], size: (item: Item) => number): Item {
  const sizes = items.map(size);
  const least = Math.max(...sizes) * (1 - 1e-9);
  return items[sizes.findIndex((each) => each >= least)]!;
}

/** A ratio in percent, with at most `digits` significant digits, or as many as tell it apart from `beside`. */
export function percent(ratio: number, digits = 4, beside?: number): string {
  return `${significant(ratio * 100, digits, beside && beside * 100)} %`;
}

/** A share more or less, in percent with its sign and two digits: `+3.1 %`. */
export function signedPercent(share: number): string {
  return `${withSign(significant(100 * share, 2))} %`;
}

/** The words with a capital letter first, as headings and labels have it. */
export function capitalized(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

/** A figure of the given SI value as people read it, with its unit: `2.84 %`, `12.4 mΩ`; null is a dash. */
export function shownFigure(value: number | null, { unit, factor, decimals }: ShownAs): string {
  if (value === null) return '–';
  if (value === Number.POSITIVE_INFINITY) return 'no limit';
  const number = shownNumber(value / factor, decimals);
  return unit === '' ? number : `${number} ${unit}`;
}

/**
 * Whole numbers plainly, others with the given decimals; without them, and where these would be too
 * many or too few to tell the size, with significant digits. With `more` of either. A true minus sign.
 */
export function shownNumber(value: number, decimals?: number, more = 0): string {
  const size = Math.abs(value);
  const text = Number.isInteger(value)
    ? significant(value, 15)
    : decimals === undefined
      ? significant(value, 5 + more)
      : size >= 1e5 || size < 10 ** -decimals
        ? significant(value, 4 + more)
        : fixed(value, decimals + more);
  return withMinus(text);
}

/** A number with a true minus sign. */
export function withMinus(number: string): string {
  return number.replace('-', '\u2212');
}

/** A number with its sign, plus too, and a true minus; zero has none. */
export function withSign(number: string): string {
  return Number(number) > 0 ? `+${number}` : withMinus(number);
}
