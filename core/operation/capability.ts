import {
  type AxisCurrent,
  axisCurrent,
  currentOf,
  type PhaseMachine,
  torqueOf,
  voltageSize,
} from './phasors.ts';

// What a machine can do at a frequency within a current and a voltage: both sets of currents are convex,
// so that the largest torque lies where the current alone, the voltage alone, or both limit it.

/** Most of a phase: current and voltage, rms; null for no limit of the voltage. */
export interface PhaseLimits {
  /** A rms. */
  readonly current: number;
  /** V rms. */
  readonly voltage: number | null;
}

const samples = 180;
const rounding = 1e-9;

/** Lead of the current that makes most torque of it, rad; 0 for equal inductances. */
export function bestLead({ fluxLinkage, d, q }: PhaseMachine, current: number): number {
  const saliency = d - q;
  if (saliency === 0 || current === 0) return 0;
  // The root of 2 dL Id^2 + psi Id - dL I^2 = 0 next to zero, without cancellation.
  const root = Math.sqrt(fluxLinkage ** 2 + 8 * (saliency * current) ** 2);
  const direct = (2 * saliency * current ** 2) / (fluxLinkage + root);
  return Math.asin(Math.max(-1, Math.min(1, -direct / current)));
}

/** The current with most torque at a frequency in Hz; null where no current at all fits the voltage. */
export function mostTorque(
  machine: PhaseMachine,
  frequency: number,
  limits: PhaseLimits,
): AxisCurrent | null {
  const free = axisCurrent(limits.current, bestLead(machine, limits.current));
  if (limits.voltage === null || fits(machine, frequency, free, limits.voltage)) return free;
  const candidates = [
    atVoltage(machine, frequency, limits.voltage, 1),
    ...atBoth(machine, frequency, limits.current, limits.voltage),
  ].filter(
    (each): each is AxisCurrent =>
      each !== null && Math.hypot(each.d, each.q) <= limits.current * (1 + rounding),
  );
  return candidates.reduce<AxisCurrent | null>(
    (best, each) => (best === null || torqueOf(machine, each) > torqueOf(machine, best) ? each : best),
    null,
  );
}

function fits(machine: PhaseMachine, frequency: number, current: AxisCurrent, voltage: number): boolean {
  return voltageSize(machine, frequency, current) <= voltage * (1 + rounding);
}

/** The current that the voltage drives at an angle of it against the EMF, rad. */
function driven(
  machine: PhaseMachine,
  frequency: number,
  voltage: number,
  angle: number,
): AxisCurrent | null {
  return currentOf(machine, frequency, { d: -voltage * Math.sin(angle), q: voltage * Math.cos(angle) });
}

/** The current with most torque where the voltage alone limits it; that which brakes most for the sense -1. */
function atVoltage(
  machine: PhaseMachine,
  frequency: number,
  voltage: number,
  sense: 1 | -1,
): AxisCurrent | null {
  const torqueAt = (angle: number) => {
    const current = driven(machine, frequency, voltage, angle);
    return current ? sense * torqueOf(machine, current) : Number.NEGATIVE_INFINITY;
  };
  let best = 0;
  let most = torqueAt(best);
  for (let index = 1; index < samples; index++) {
    const angle = (2 * Math.PI * index) / samples;
    const torque = torqueAt(angle);
    if (torque > most) [best, most] = [angle, torque];
  }
  const step = (2 * Math.PI) / samples;
  return driven(machine, frequency, voltage, largestAt(torqueAt, best - step, best + step));
}

/** The currents of a size that take just a voltage. */
function atBoth(machine: PhaseMachine, frequency: number, size: number, voltage: number): AxisCurrent[] {
  const excess = (lead: number) => voltageSize(machine, frequency, around(size, lead)) - voltage;
  const found: AxisCurrent[] = [];
  let [from, before] = [0, excess(0)];
  for (let index = 1; index <= samples; index++) {
    const to = (2 * Math.PI * index) / samples;
    const after = excess(to);
    if (before * after <= 0) found.push(around(size, zeroBetween(excess, from, to)));
    [from, before] = [to, after];
  }
  return found;
}

function around(size: number, lead: number): AxisCurrent {
  return { d: -size * Math.sin(lead), q: size * Math.cos(lead) };
}

/**
 * The least lead from that of most torque on at which a current of a size fits a voltage, rad; null where
 * it fits at none up to a quarter turn.
 */
export function fittingLead(
  machine: PhaseMachine,
  frequency: number,
  size: number,
  voltage: number,
): number | null {
  const excess = (lead: number) => voltageSize(machine, frequency, axisCurrent(size, lead)) - voltage;
  const start = bestLead(machine, size);
  if (excess(start) <= rounding * voltage) return start;
  const step = (Math.PI / 2 - start) / samples;
  for (let index = 1; index <= samples; index++) {
    const lead = start + index * step;
    if (excess(lead) <= rounding * voltage) return zeroBetween(excess, lead - step, lead);
  }
  return null;
}

/**
 * The current of least size that makes a torque (negative: brakes) at a frequency, more d current where the
 * voltage asks for it; null where no current makes that torque within the voltage.
 */
export function leastCurrent(
  machine: PhaseMachine,
  frequency: number,
  torque: number,
  voltage: number | null,
): AxisCurrent | null {
  const free = unlimitedCurrent(machine, torque);
  if (free === null) return null;
  if (voltage === null || fits(machine, frequency, free, voltage)) return free;
  if (frequency === 0) return null;
  const sense = Math.sign(torque) || 1;
  const { phases, polePairs, fluxLinkage, d, q } = machine;
  const withDirect = (direct: number): AxisCurrent => ({
    d: direct,
    q: (Math.abs(torque) * sense) / (phases * polePairs * (fluxLinkage + (d - q) * direct)),
  });
  const excess = (direct: number) => voltageSize(machine, frequency, withDirect(direct)) - voltage;
  // Where the d current has used up the rotor's flux and twice the voltage's, weakening further is in vain.
  const flux = voltage / (2 * Math.PI * frequency);
  let reach = -(fluxLinkage + 2 * flux) / d - Math.abs(free.d) - Math.abs(free.q);
  // With Ld above Lq the torque of a q current changes its sense at some d current.
  if (d > q) reach = Math.max(reach, (-fluxLinkage / (d - q)) * (1 - 1e-6));
  const least = largestAt((direct) => -excess(direct), reach, free.d);
  if (excess(least) > rounding * voltage) return null;
  return withDirect(zeroBetween(excess, least, free.d));
}

/** The least current that makes a torque, without a limit of the voltage. */
function unlimitedCurrent(machine: PhaseMachine, torque: number): AxisCurrent | null {
  const sense = torque < 0 ? -1 : 1;
  const of = (size: number) => {
    const { d, q } = axisCurrent(size, bestLead(machine, size));
    return { d, q: sense * q };
  };
  if (torque === 0) return { d: 0, q: 0 };
  const size = Math.abs(torque);
  const torqueAt = (current: number) => Math.abs(torqueOf(machine, of(current)));
  let high = 1;
  for (let round = 0; torqueAt(high) < size; round++) {
    if (round > 60) return null;
    high *= 2;
  }
  return of(zeroBetween((current) => torqueAt(current) - size, 0, high));
}

/** Most torque (for the sense -1: braking torque, negative) that the voltage alone leaves, Nm; null where it sets no limit. */
export function torqueWithin(
  machine: PhaseMachine,
  frequency: number,
  voltage: number,
  sense: 1 | -1,
): number | null {
  const current = atVoltage(machine, frequency, voltage, sense);
  return current && torqueOf(machine, current);
}

/** A zero of a function that changes sign between two places, by halving. */
export function zeroBetween(of: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const start = of(low);
  if (start === 0) return low;
  for (
    let round = 0;
    round < 100 && Math.abs(high - low) > 1e-14 * Math.max(1e-300, Math.abs(low), Math.abs(high));
    round++
  ) {
    const middle = (low + high) / 2;
    if (of(middle) * start > 0) low = middle;
    else high = middle;
  }
  return high;
}

/** Where a function of one maximum is largest between two places, by golden sections. */
function largestAt(of: (x: number) => number, from: number, to: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [left, right] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [atLeft, atRight] = [of(left), of(right)];
  for (let round = 0; round < 90; round++) {
    if (atLeft < atRight) {
      [low, left, atLeft] = [left, right, atRight];
      right = low + ratio * (high - low);
      atRight = of(right);
    } else {
      [high, right, atRight] = [right, left, atLeft];
      left = high - ratio * (high - low);
      atLeft = of(left);
    }
  }
  return (low + high) / 2;
}
