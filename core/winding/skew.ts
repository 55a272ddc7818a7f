import type { RotorSkew, Winding } from './model.ts';

/** sin x / x, and 1 at x = 0. */
export function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(x) / x;
}

/**
 * Skew factor of a layer, signed: the mean over the stack of exp(j order angle) between its bars and
 * the rotor. It is real, as lean and rotor skew are taken about mid-stack; 1 without any lean.
 *
 * @param order mechanical order (pole pairs round the bore)
 * @param lean lean of the layer's bars in mechanical radians over the stack
 * @param rotor the rotor's skew over the stack; in n steps, each of the n equal segments is turned
 *   angle/n against the last
 */
export function skewFactor(order: number, lean: number, rotor: RotorSkew): number {
  if (rotor.steps === null || rotor.angle === 0) return sinc((order * (lean - rotor.angle)) / 2);
  const steps = rotor.steps;
  if (!Number.isInteger(steps) || steps < 1) {
    throw new RangeError(`rotor skew steps must be an integer of at least 1, got ${steps}`);
  }
  const within = sinc((order * lean) / (2 * steps));
  return within * meanOfSteps((order * (lean - rotor.angle)) / steps, steps);
}

/** Mean of exp(j angle i) over n values i spaced by 1 about 0. */
function meanOfSteps(angle: number, n: number): number {
  const half = Math.sin(angle / 2);
  // The closed form loses digits where its denominator is small.
  if (n > 8 && Math.abs(half) > 0.01) return Math.sin((n * angle) / 2) / (n * half);
  let sum = n % 2 === 0 ? 0 : 1;
  for (let i = n % 2 === 0 ? 0.5 : 1; i < n / 2; i++) sum += 2 * Math.cos(angle * i);
  return sum / n;
}

/** Skew factor of each layer at a mechanical order. */
export function layerSkews({ lean, rotorSkew }: Winding, order: number): number[] {
  return lean.map((each) => skewFactor(order, each, rotorSkew));
}
