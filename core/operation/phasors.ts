import { type Figure, known, undetermined } from '../figures/figure.ts';

/**
 * A synchronous machine of one phase's quantities, steady state, fundamental, linear iron. All rms; SI.
 * The d axis is that of the rotor's flux, the q axis that of its EMF.
 */
export interface PhaseMachine {
  /** Of all sets. */
  readonly phases: number;
  /** So that the electrical frequency is p times the speed. */
  readonly polePairs: number;
  /** Flux linkage of the rotor's field with a phase, Vs rms: E = omega psi. */
  readonly fluxLinkage: number;
  /** Synchronous inductances, H. */
  readonly d: number;
  /** The same along the other axis, H. */
  readonly q: number;
  /** Resistance of a phase at an electrical frequency in Hz, ohm. */
  readonly resistance: (frequency: number) => number;
}

/** Current of a phase along the two axes, A rms; positive q drives, positive d strengthens the field. */
export interface AxisCurrent {
  /** Along the axis of the rotor's flux; negative weakens the field. */
  readonly d: number;
  /** Along the axis of its EMF; negative brakes. */
  readonly q: number;
}

/** A current that leads the EMF by `angle` rad as a motor; a generator's is the mirror image, so that it brakes. */
export function axisCurrent(current: number, angle: number, motor = true): AxisCurrent {
  return { d: -current * Math.sin(angle), q: (motor ? 1 : -1) * current * Math.cos(angle) };
}

/** What a phase current makes at an electrical frequency. SI, rms. */
export interface LoadPoint {
  /** Of a phase. */
  readonly voltage: number;
  /** All phases: power taken at the terminals, negative where the machine generates. */
  readonly electricalPower: number;
  /** All phases, VA. */
  readonly apparentPower: number;
  /** Electrical over apparent power; 0 without either. */
  readonly powerFactor: number;
  /** W; negative where it brakes. */
  readonly shaftPower: number;
  /** Nm; negative where it brakes. */
  readonly torque: number;
}

/** Of a load point; undetermined without current, which takes no apparent power. */
export function powerFactorOf({ apparentPower, powerFactor }: LoadPoint): Figure<number> {
  return apparentPower === 0 ? undetermined(noPowerFactor) : known(powerFactor);
}

const noPowerFactor = 'without current there is no power factor';

/**
 * The load point of a current at an electrical frequency in Hz: Vq = E + R Iq + w Ld Id, Vd = R Id -
 * w Lq Iq; shaft power m (E Iq + w (Ld - Lq) Id Iq). Two-axis theory of the synchronous machine
 * (Fitzgerald, Kingsley, Umans, Electric Machinery, 6th ed., ch. 5).
 */
export function loadPoint(machine: PhaseMachine, frequency: number, current: AxisCurrent): LoadPoint {
  const { d, q } = phaseVoltage(machine, frequency, current);
  const voltage = Math.hypot(d, q);
  const electricalPower = machine.phases * (d * current.d + q * current.q);
  const apparentPower = machine.phases * voltage * Math.hypot(current.d, current.q);
  const torque = torqueOf(machine, current);
  return {
    voltage,
    electricalPower,
    apparentPower,
    powerFactor: apparentPower === 0 ? 0 : electricalPower / apparentPower,
    shaftPower: (torque * 2 * Math.PI * frequency) / machine.polePairs,
    torque,
  };
}

/** Voltage of a phase along the axes, V. */
function phaseVoltage(machine: PhaseMachine, frequency: number, { d, q }: AxisCurrent): AxisCurrent {
  const omega = 2 * Math.PI * frequency;
  const resistance = machine.resistance(frequency);
  return {
    d: resistance * d - omega * machine.q * q,
    q: omega * (machine.fluxLinkage + machine.d * d) + resistance * q,
  };
}

/** Size of the phase voltage, V. */
export function voltageSize(machine: PhaseMachine, frequency: number, current: AxisCurrent): number {
  const { d, q } = phaseVoltage(machine, frequency, current);
  return Math.hypot(d, q);
}

/** Torque of a current at any speed, m p (psi + (Ld - Lq) Id) Iq, Nm. */
export function torqueOf(
  { phases, polePairs, fluxLinkage, d, q }: PhaseMachine,
  current: AxisCurrent,
): number {
  return phases * polePairs * (fluxLinkage + (d - q) * current.d) * current.q;
}

/** The current that a voltage drives; null where neither resistance nor reactance limits it. */
export function currentOf(
  machine: PhaseMachine,
  frequency: number,
  voltage: AxisCurrent,
): AxisCurrent | null {
  const omega = 2 * Math.PI * frequency;
  const resistance = machine.resistance(frequency);
  const [xd, xq] = [omega * machine.d, omega * machine.q];
  const determinant = resistance ** 2 + xd * xq;
  if (!(determinant > 0)) return null;
  const driven = voltage.q - omega * machine.fluxLinkage;
  return {
    d: (resistance * voltage.d + xq * driven) / determinant,
    q: (resistance * driven - xd * voltage.d) / determinant,
  };
}

/** Steady current into a short circuit of all terminals at a frequency, A; null where nothing limits it. */
export function shortCircuitCurrent(machine: PhaseMachine, frequency: number): number | null {
  const current = currentOf(machine, frequency, { d: 0, q: 0 });
  return current && Math.hypot(current.d, current.q);
}

/** Angle by which a current leads the EMF as a motor's does, rad, from -pi/2 to pi/2. */
export function leadOf({ d, q }: AxisCurrent): number {
  return Math.atan2(-d, Math.abs(q));
}
