import { decimal, fixed } from '../language/numbers.ts';

/**
 * A number as every drawing writes it: at most `digits` decimals, trailing zeros dropped, no exponent, no
 * negative zero, no locale. Throws RangeError where it is not finite or beyond 1e15.
 */
export function numberText(value: number, digits = 3): string {
  return decimal(drawable(value), digits);
}

/** A number with exactly `digits` decimals; otherwise as `numberText`. */
export function fixedText(value: number, digits: number): string {
  return fixed(drawable(value), digits);
}

function drawable(value: number): number {
  if (Math.abs(value) < 1e15) return value;
  throw new RangeError(`A drawing cannot hold the number ${value} (limit 1e15)`);
}
