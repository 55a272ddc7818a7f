import { ratedTorque } from '../analysis/emf/emf.ts';
import { fluxLinkage } from '../analysis/emf/fluxLinkage.ts';
import {
  currentAngle,
  electricalFrequency,
  machineValue,
  phaseCurrent,
  phaseCurrentShare,
  saliency,
} from '../analysis/machineInputs.ts';
import { derive, deriveFigure, type Figure, knownIf } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { type AxisInductances, axisInductances, type InductanceParts } from './inductance.ts';
import { type LineFactors, lineFactorsOf, phaseVoltageLimit } from './lineVoltage.ts';
import {
  axisCurrent,
  type LoadPoint,
  loadPoint,
  type PhaseMachine,
  powerFactorOf,
  shortCircuitCurrent,
} from './phasors.ts';
import { highestFrequency, topFrequency } from './speeds.ts';

/** What the load point needs beside the text. */
export interface OperationInput {
  readonly specification: Specification;
  readonly winding: Winding;
  /** Winding factor at the fundamental, skew included; null where it is undefined. */
  readonly windingFactor: number | null;
  readonly parts: InductanceParts;
  /** Resistance of a phase at a frequency in Hz, ohm. */
  readonly resistance: Figure<(frequency: number) => number>;
}

/** Figures that load point, curve, checks and duty share. */
export interface OperationBasis {
  /** Flux linkage of the rotor's field with a phase, Vs rms. */
  readonly linkage: Figure<number>;
  readonly axes: Figure<AxisInductances>;
  readonly machine: Figure<PhaseMachine>;
  /** The same for its torque alone: it knows the difference of the inductances, and no resistance. */
  readonly torqueMachine: Figure<PhaseMachine>;
  /** Resistance of a phase at a frequency in Hz, ohm. */
  readonly resistance: Figure<(frequency: number) => number>;
  /** Electrical, Hz. */
  readonly frequency: Figure<number>;
  /** Rated phase current, A rms, and its share of the terminal current. */
  readonly current: Figure<number>;
  /** Phase current over terminal current. */
  readonly share: Figure<number>;
  /** Rad. */
  readonly angle: Figure<number>;
  readonly factors: Figure<LineFactors>;
  /** Most of a phase, V rms. */
  readonly voltage: Figure<number>;
  readonly rated: Figure<LoadPoint>;
}

/** The same function; a value that is asked for again and again is computed once. */
function keepingLast(of: (frequency: number) => number): (frequency: number) => number {
  let [last, value] = [Number.NaN, Number.NaN];
  return (frequency) => {
    if (frequency !== last) [last, value] = [frequency, of(frequency)];
    return value;
  };
}

/** Puts together what all of the operation rests on. */
export function operationBasis({
  specification,
  winding,
  windingFactor,
  parts,
  resistance,
}: OperationInput): OperationBasis {
  const axes = axisInductances(specification, parts);
  const linkage = derive(
    { peak: fluxLinkage(specification, winding, windingFactor) },
    ({ peak }) => peak / Math.SQRT2,
  );
  const machine = derive(
    { axes, linkage, resistance },
    (given): PhaseMachine => ({
      phases: winding.phases.names.length,
      polePairs: winding.polePairs,
      fluxLinkage: given.linkage,
      ...given.axes,
      resistance: keepingLast(given.resistance),
    }),
  );
  const frequency = electricalFrequency(specification, winding);
  const current = phaseCurrent(specification, winding);
  const angle = currentAngle(specification, winding);
  return {
    linkage,
    axes,
    machine,
    torqueMachine: derive(
      { linkage, excess: saliency(specification) },
      (given): PhaseMachine => ({
        phases: winding.phases.names.length,
        polePairs: winding.polePairs,
        fluxLinkage: given.linkage,
        d: given.excess,
        q: 0,
        resistance: () => 0,
      }),
    ),
    resistance,
    frequency,
    current,
    share: phaseCurrentShare(specification, winding),
    angle,
    factors: lineFactorsOf(specification, winding),
    voltage: phaseVoltageLimit(specification, winding),
    rated: derive({ machine, frequency, current, angle }, (given) =>
      loadPoint(given.machine, given.frequency, axisCurrent(given.current, given.angle)),
    ),
  };
}

/** The rated load point and what bounds the machine. SI units, currents and voltages rms. */
export interface OperationResult {
  /** Synchronous inductances of a phase and their parts, H. */
  readonly inductance: {
    /** Along the axis of the rotor flux. */
    readonly d: Figure<number>;
    /** Along the axis of the EMF. */
    readonly q: Figure<number>;
    /** Of the working wave in the gap. */
    readonly magnetizing: Figure<number>;
    /** Differential leakage. */
    readonly differential: Figure<number>;
    /** Slot leakage. */
    readonly slot: Figure<number>;
    /** Leakage of the end windings; null while it is being computed. */
    readonly end: Figure<number> | null;
  };
  /** At a terminal, A. */
  readonly current: Figure<number>;
  /** Electrical degrees by which it leads the EMF. */
  readonly angle: Figure<number>;
  /** Between adjacent line terminals, V. */
  readonly terminalVoltage: Figure<number>;
  /** As a motor: negative where it generates. */
  readonly powerFactor: Figure<number>;
  /** At the terminals, VA. */
  readonly apparentPower: Figure<number>;
  /** W; without iron loss and friction. */
  readonly shaftPower: Figure<number>;
  /** Nm. */
  readonly torque: Figure<number>;
  /** Revolutions per second; Infinity where the voltage sets no limit. */
  readonly baseSpeed: Figure<number>;
  /** The same. */
  readonly topSpeed: Figure<number>;
  /** At a terminal, A. */
  readonly characteristicCurrent: Figure<number>;
  /** At a terminal, A. */
  readonly shortCircuitCurrent: Figure<number>;
}

/** What is missing where the resistance alone takes more than the voltage. */
const moreVoltage = 'machine voltage above what the resistance takes at standstill';

/** Load point, speeds and currents, from the basis. */
export function operation(input: OperationInput, basis: OperationBasis): OperationResult {
  const { specification, winding, parts } = input;
  const { axes, machine, frequency, current, share, angle, voltage, rated } = basis;
  const torque = ratedTorque(specification, winding, input.windingFactor);
  const revolutions = (hertz: number | null) => hertz && hertz / winding.polePairs;
  const terminalCurrent = machineValue(specification, 'current');
  return {
    inductance: {
      d: derive({ axes }, (given) => given.axes.d),
      q: derive({ axes }, (given) => given.axes.q),
      magnetizing: parts.magnetizing,
      differential: parts.differential,
      slot: parts.slot,
      end: parts.end.known || parts.end.needs.length > 0 ? parts.end : null,
    },
    current: terminalCurrent,
    angle: derive({ current: terminalCurrent, angle }, (given) => (given.angle * 180) / Math.PI),
    terminalVoltage: derive(
      { rated, factors: basis.factors },
      (given) => given.rated.voltage * given.factors.adjacent,
    ),
    powerFactor: deriveFigure({ rated }, (given) => powerFactorOf(given.rated)),
    apparentPower: derive({ rated }, (given) => given.rated.apparentPower),
    shaftPower: derive(
      { torque, frequency },
      (given) => (given.torque * 2 * Math.PI * given.frequency) / winding.polePairs,
    ),
    torque,
    baseSpeed: deriveFigure({ machine, current, angle, voltage }, (given) =>
      knownIf(
        revolutions(highestFrequency(given.machine, axisCurrent(given.current, given.angle), given.voltage)),
        moreVoltage,
      ),
    ),
    topSpeed: deriveFigure({ machine, current, voltage }, (given) =>
      knownIf(revolutions(topFrequency(given.machine, given.current, given.voltage)), moreVoltage),
    ),
    characteristicCurrent: derive(
      { axes, linkage: basis.linkage, share },
      (given) => given.linkage / given.axes.d / given.share,
    ),
    shortCircuitCurrent: deriveFigure({ machine, frequency, share }, (given) => {
      const short = shortCircuitCurrent(given.machine, given.frequency);
      return knownIf(short && short / given.share, 'machine speed or frequency');
    }),
  };
}
