import { sinc } from '../../winding/skew.ts';

/** The factor by which a slot opening weakens a wave at the gap: sinc(order x opening / diameter). */
export function slotOpeningFactor(order: number, opening: number, diameter: number): number {
  if (!(diameter > 0) || !(opening >= 0)) {
    throw new RangeError(`slot opening ${opening} and gap diameter ${diameter} must be positive lengths`);
  }
  return sinc((order * opening) / diameter);
}
