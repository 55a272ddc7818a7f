import { zeroBetween } from './capability.ts';
import { type AxisCurrent, axisCurrent, type PhaseMachine, voltageSize } from './phasors.ts';

/**
 * Highest electrical frequency in Hz at which a phase current fits a phase voltage: Infinity where none is
 * too high, null where even at standstill the resistance takes more.
 */
export function highestFrequency(
  machine: PhaseMachine,
  current: AxisCurrent,
  voltage: number,
): number | null {
  const linkage = Math.hypot(machine.fluxLinkage + machine.d * current.d, machine.q * current.q);
  const scale = Math.max(machine.fluxLinkage, machine.d * Math.hypot(current.d, current.q));
  const excess = (frequency: number) => voltageSize(machine, frequency, current) - voltage;
  if (linkage <= 1e-9 * scale) return excess(0) <= 0 ? Number.POSITIVE_INFINITY : null;
  // Without resistance; with it the voltage rises with the speed all the same, sooner or later.
  const ideal = voltage / (2 * Math.PI * linkage);
  let high = ideal;
  for (let round = 0; excess(high) <= 0; round++) {
    if (round > 60) return Number.POSITIVE_INFINITY;
    high *= 1.5;
  }
  let low = high;
  for (let round = 0; excess(low) > 0; round++) {
    if (round > 200) return null;
    high = low;
    low /= 1.1;
  }
  return zeroBetween(excess, low, high);
}

/**
 * Highest frequency in Hz with full field weakening, all of the current against the rotor's field, so that
 * no torque is left there. Infinity where that current cancels the field, E/(w Ld) <= I; for R = 0 and
 * Ld = Lq else V/(psi - L I)/(2 pi). Null where the resistance takes the voltage.
 */
export function topFrequency(machine: PhaseMachine, current: number, voltage: number): number | null {
  if (machine.fluxLinkage <= machine.d * current) return Number.POSITIVE_INFINITY;
  return highestFrequency(machine, axisCurrent(current, Math.PI / 2), voltage);
}
