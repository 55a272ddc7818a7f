/** Greatest common divisor of two integers; 0 only for (0, 0). */
export function greatestCommonDivisor(a: number, b: number): number {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}

/** Least common multiple of two positive integers. */
export function leastCommonMultiple(a: number, b: number): number {
  return (a / greatestCommonDivisor(a, b)) * b;
}

/** n modulo m in 0 .. m - 1, also for negative n; never a negative zero. */
export function modulo(n: number, m: number): number {
  const rest = n % m;
  return rest < 0 ? rest + m : rest + 0;
}

/** A quotient of integers as reduced text: `5/4`, `2`. The denominator must be positive. */
export function fractionText(numerator: number, denominator: number): string {
  const common = greatestCommonDivisor(numerator, denominator);
  const below = denominator / common;
  return below === 1 ? String(numerator / common) : `${numerator / common}/${below}`;
}

/** Refuses anything but an integer of at least `least`; for misuse by code, not for user text. */
export function requireInteger(name: string, value: number, least: number): void {
  if (!Number.isInteger(value) || value < least) {
    throw new RangeError(`${name} must be an integer of at least ${least}, got ${value}`);
  }
}
