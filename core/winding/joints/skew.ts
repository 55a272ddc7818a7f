import type { Winding } from '../model.ts';

/**
 * Skew factor of each layer at a mechanical order: the bars' lean against the rotor's skew, about
 * mid-stack. Real, 1 without any lean; may be negative at high orders.
 */
export function layerSkews(winding: Winding, order: number): number[] {
  return winding.lean.map((lean) => skewOf(order, lean, winding.rotorSkew.angle, winding.rotorSkew.steps));
}

function skewOf(order: number, lean: number, rotor: number, steps: number | null): number {
  if (rotor === 0 || steps === null) return sinc((order * (lean - rotor)) / 2);
  let sum = 0;
  for (let step = 1; step <= steps; step++) {
    // Segment centers lie symmetrically about mid-stack, so the sines of their angles cancel.
    sum += Math.cos((order * (lean - rotor) * (step - (steps + 1) / 2)) / steps);
  }
  return (sum / steps) * sinc((order * lean) / (2 * steps));
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(x) / x;
}
