import type { Angle } from '../language/specification/statements.ts';
import { modulo } from './integers.ts';
import type { Bar, Winding } from './model.ts';

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

/**
 * Angle of the EMF of a bar, as a whole number of parts of which `2 slots` are an electrical turn, from 0: that of
 * sense x exp(-j p theta), theta from slot 1. Bars of equal angle have equal EMF, up to the lean of their layers.
 */
export function emfParts(
  { slots, polePairs }: Pick<Winding, 'slots' | 'polePairs'>,
  { slot }: Pick<Bar, 'slot'>,
  sense: number,
): number {
  return modulo(-2 * polePairs * (slot - 1) + (sense < 0 ? slots : 0), 2 * slots);
}

/** The same in electrical degrees, 0 <= angle < 360. */
export function emfAngle(
  winding: Pick<Winding, 'slots' | 'polePairs'>,
  bar: Pick<Bar, 'slot'>,
  sense: number,
): number {
  return (360 * emfParts(winding, bar, sense)) / (2 * winding.slots);
}

/** The angle of a slot about the axis from slot 1, radians. */
export function slotAngle(slots: number, slot: number): number {
  return ((slot - 1) * 2 * Math.PI) / slots;
}
