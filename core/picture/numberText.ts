/**
 * A number as every text output writes it: at most `digits` decimals, trailing zeros dropped, no
 * exponent, no negative zero, no locale. Throws RangeError where it is not finite or beyond 1e15.
 */
export function numberText(value: number, digits = 3): string {
  if (!(Math.abs(value) < 1e15))
    throw new RangeError(`A drawing cannot hold the number ${value} (limit 1e15)`);
  const scale = 10 ** digits;
  const rounded = Math.round(value * scale) / scale;
  if (rounded === 0) return '0';
  const text = String(rounded);
  return text.includes('e') ? trimmed(rounded.toFixed(digits)) : text;
}

/** A number with exactly `digits` decimals; otherwise as `numberText`. */
export function fixedText(value: number, digits: number): string {
  if (!(Math.abs(value) < 1e15))
    throw new RangeError(`A drawing cannot hold the number ${value} (limit 1e15)`);
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}

function trimmed(text: string): string {
  return text.replace(/\.?0+$/, '');
}
