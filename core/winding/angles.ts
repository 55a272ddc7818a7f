import type { Angle } from '../language/specification/specification.ts';

/** Mechanical radians of a written angle: x edeg are x / polePairs deg, a slot is 360/slots deg. */
export function mechanicalRadians(angle: Angle, slots: number, polePairs: number): number {
  switch (angle.unit) {
    case 'deg':
      return (angle.amount * Math.PI) / 180;
    case 'edeg':
      return (angle.amount * Math.PI) / (180 * polePairs);
    case 'slot':
      return (angle.amount * 2 * Math.PI) / slots;
  }
}

/** Electrical degrees of a written angle. */
export function electricalDegrees(angle: Angle, slots: number, polePairs: number): number {
  switch (angle.unit) {
    case 'deg':
      return angle.amount * polePairs;
    case 'edeg':
      return angle.amount;
    case 'slot':
      return (angle.amount * 360 * polePairs) / slots;
  }
}
