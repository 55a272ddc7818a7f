import {
  derive,
  deriveFigure,
  type Figure,
  knownIf,
  type MissingQuantity,
  type ModelLine,
  missing,
  orNull,
  sortFigures,
} from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import {
  electricalFrequency,
  machineValue,
  phaseConnection,
  phaseCurrent,
  phaseCurrentShare,
  phasesPerSet,
  seriesTurns,
} from '../machineInputs.ts';
import { type GapFigures, gapFigures, gapFluxDensity, magnetizingInductance } from './gaps.ts';
import { type HarmonicVoltages, harmonicVoltages } from './harmonics.ts';

/** What the EMF needs beside the text. */
export interface EmfInput {
  readonly winding: Winding;
  readonly specification: Specification;
  /** Winding factor at the fundamental, skew included; null where it is undefined. */
  readonly windingFactor: number | null;
  /** Mean over the stack of its square, without the skew of the rotor. */
  readonly meanSquareFactor: number | null;
  /** Differential leakage relative to the magnetizing inductance, over the stack. */
  readonly differentialLeakage: number | null;
  /** Copper loss at the stated speed, W, from copper.ts. */
  readonly copperLoss: Figure<number>;
  /** Winding factor of harmonic n of the fundamental; used where the rotor field is given. */
  readonly harmonicFactor: (harmonic: number) => number | null;
}

/** EMF between two line terminals that lie `apart` phases from each other, V rms. */
export interface LineVoltage {
  readonly apart: number;
  readonly voltage: number;
}

/** EMF, torque and inductance of the fundamental. SI units; null where data lack. */
export interface EmfResult {
  readonly frequency: number | null;
  /** Fundamental EMF of one phase, rms. */
  readonly phaseVoltage: number | null;
  /** Fundamental EMF between adjacent line terminals (of one set), rms. */
  readonly lineVoltage: number | null;
  /** The same for every pair of line terminals that differs, adjacent first. */
  readonly lineVoltages: readonly LineVoltage[];
  /** With the current in phase with the EMF. */
  readonly torque: number | null;
  readonly power: number | null;
  /** Torque per ampere of terminal current, rms. */
  readonly torquePerAmpere: number | null;
  /** Torque per square root of copper loss, Nm/sqrt(W). */
  readonly motorConstant: number | null;
  readonly magnetizingInductance: number | null;
  readonly differentialLeakageInductance: number | null;
  /** Peak of the fundamental at the gap, T. */
  readonly gapFluxDensity: number | null;
  /** Each gap, inner first; empty where none can be computed. */
  readonly gaps: readonly GapFigures[];
  readonly harmonics: HarmonicVoltages | null;
  readonly missing: readonly MissingQuantity[];
  readonly assumptions: readonly string[];
  readonly models: readonly ModelLine[];
}

/**
 * EMF, line voltage, torque, power and inductances from the fundamental flux of a pole. Sources:
 * Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical Machines, 2nd ed., ch. 2 and 3.
 */
export function emf(input: EmfInput): EmfResult {
  const { winding, specification } = input;
  const frequency = electricalFrequency(specification, winding);
  const phaseVoltage = phaseEmf(specification, winding, input.windingFactor);
  const lines = lineEmfs(specification, winding, phaseVoltage);
  const torque = ratedTorque(specification, winding, input.windingFactor);
  const power = derive(
    { phaseVoltage, current: phaseCurrent(specification, winding) },
    (given) => winding.phases.names.length * given.phaseVoltage * given.current,
  );
  const inductance = magnetizingInductance(specification, winding, knownIf(input.meanSquareFactor, 'layout'));
  const gaps = gapFigures(specification, torque);
  const harmonics = harmonicVoltages(specification, winding, phaseVoltage, {
    fundamental: input.windingFactor,
    harmonic: input.harmonicFactor,
  });
  const figures = {
    'emf.frequency': frequency,
    'emf.phaseVoltage': phaseVoltage,
    'emf.lineVoltage': derive({ lines }, (given) => given.lines[0]!.voltage),
    'emf.torque': torque,
    'emf.power': power,
    'emf.torquePerAmpere': torquePerAmpere(specification, winding, input.windingFactor),
    'emf.motorConstant': derive(
      { torque, loss: input.copperLoss },
      (given) => given.torque / Math.sqrt(given.loss),
    ),
    'emf.magnetizingInductance': inductance,
    'emf.differentialLeakageInductance': derive(
      { inductance, share: knownIf(input.differentialLeakage, 'layout') },
      (given) => given.share * given.inductance,
    ),
    'emf.gapFluxDensity': gapFluxDensity(specification, winding),
    'emf.gaps': gaps,
    'emf.harmonics': harmonics,
  };
  return {
    frequency: orNull(figures['emf.frequency']),
    phaseVoltage: orNull(figures['emf.phaseVoltage']),
    lineVoltage: orNull(figures['emf.lineVoltage']),
    lineVoltages: orNull(lines) ?? [],
    torque: orNull(figures['emf.torque']),
    power: orNull(figures['emf.power']),
    torquePerAmpere: orNull(figures['emf.torquePerAmpere']),
    motorConstant: orNull(figures['emf.motorConstant']),
    magnetizingInductance: orNull(figures['emf.magnetizingInductance']),
    differentialLeakageInductance: orNull(figures['emf.differentialLeakageInductance']),
    gapFluxDensity: orNull(figures['emf.gapFluxDensity']),
    gaps: orNull(gaps) ?? [],
    harmonics: orNull(harmonics),
    ...sortFigures(figures),
  };
}

/** Flux linkage of one phase, N kw Phi, Wb. */
function fluxLinkage(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      turns: seriesTurns(specification, winding),
      factor: knownIf(windingFactor, 'layout'),
      flux: machineValue(specification, 'flux'),
    },
    ({ turns, factor, flux }) => turns * factor * flux,
  );
}

/** Fundamental EMF of one phase, sqrt2 pi f N kw Phi, V rms (books round sqrt2 pi to 4.44). */
export function phaseEmf(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      frequency: electricalFrequency(specification, winding),
      linkage: fluxLinkage(specification, winding, windingFactor),
    },
    ({ frequency, linkage }) => Math.SQRT2 * Math.PI * frequency * linkage,
  );
}

/** Torque per ampere of phase current in phase with the EMF, m p N kw Phi/sqrt2, at any speed. */
function torquePerPhaseAmpere(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    { linkage: fluxLinkage(specification, winding, windingFactor) },
    ({ linkage }) => (winding.phases.names.length * winding.polePairs * linkage) / Math.SQRT2,
  );
}

/**
 * Torque at the stated current, in phase with the EMF: m E I/(2 pi n), Nm. It does not depend on the
 * speed, as E is proportional to it.
 */
export function ratedTorque(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      perAmpere: torquePerPhaseAmpere(specification, winding, windingFactor),
      current: phaseCurrent(specification, winding),
    },
    ({ perAmpere, current }) => perAmpere * current,
  );
}

function torquePerAmpere(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      perAmpere: torquePerPhaseAmpere(specification, winding, windingFactor),
      share: phaseCurrentShare(specification, winding),
    },
    ({ perAmpere, share }) => perAmpere * share,
  );
}

function lineEmfs(
  specification: Specification,
  winding: Winding,
  phaseVoltage: Figure<number>,
): Figure<readonly LineVoltage[]> {
  const phases = phasesPerSet(winding);
  return deriveFigure({ connection: phaseConnection(specification), phaseVoltage }, (given) => {
    if (given.connection === 'open') return missing('connect star or delta');
    const scale = given.connection === 'delta' ? 1 / Math.sin(Math.PI / phases) : 2;
    return knownIf(
      Array.from({ length: Math.floor(phases / 2) }, (_, index) => ({
        apart: index + 1,
        voltage: scale * Math.sin((Math.PI * (index + 1)) / phases) * given.phaseVoltage,
      })),
    );
  });
}
