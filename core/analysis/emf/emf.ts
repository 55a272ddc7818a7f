import { derive, deriveFigure, type Figure, known, knownIf, missing } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import {
  currentAngle,
  electricalFrequency,
  machineValue,
  phaseConnection,
  phaseCurrent,
  phaseCurrentShare,
  phasesPerSet,
  saliency,
} from '../machineInputs.ts';
import { fluxLinkage } from './fluxLinkage.ts';
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
  /** Phases from one terminal to the other, from 1. */
  readonly apart: number;
  /** Between them, V rms. */
  readonly voltage: number;
}

/** EMF, torque and inductance of the fundamental. SI units, rms. */
export interface EmfResult {
  /** Electrical, Hz. */
  readonly frequency: Figure<number>;
  /** Fundamental EMF of one phase, V rms. */
  readonly phaseVoltage: Figure<number>;
  /** Fundamental EMF between adjacent line terminals (of one set), V rms. */
  readonly lineVoltage: Figure<number>;
  /** The same for every pair of line terminals that differs, adjacent first. */
  readonly lineVoltages: Figure<readonly LineVoltage[]>;
  /** Of the rated current at its angle, Nm. */
  readonly torque: Figure<number>;
  /** Mechanical, of that torque at the speed, W. */
  readonly power: Figure<number>;
  /** Torque per ampere of terminal current, rms, Nm/A. */
  readonly torquePerAmpere: Figure<number>;
  /** Torque per square root of copper loss, Nm/sqrt(W). */
  readonly motorConstant: Figure<number>;
  /** Of a phase, all phases acting, H. */
  readonly magnetizingInductance: Figure<number>;
  /** Of a phase, H. */
  readonly differentialLeakageInductance: Figure<number>;
  /** Peak of the fundamental at the gap, T. */
  readonly gapFluxDensity: Figure<number>;
  /** Each gap, inner first. */
  readonly gaps: Figure<readonly GapFigures[]>;
  /** Missing where the text states no rotor field. */
  readonly harmonics: Figure<HarmonicVoltages>;
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
    { torque, frequency },
    (given) => (given.torque * 2 * Math.PI * given.frequency) / winding.polePairs,
  );
  const { magnetizing, differential } = gapInductances(input);
  const gaps = gapFigures(specification, torque);
  const harmonics = harmonicVoltages(specification, winding, phaseVoltage, {
    fundamental: input.windingFactor,
    harmonic: input.harmonicFactor,
  });
  return {
    frequency,
    phaseVoltage,
    lineVoltage: derive({ lines }, (given) => given.lines[0]!.voltage),
    lineVoltages: lines,
    torque,
    power,
    torquePerAmpere: torquePerAmpere(specification, winding, input.windingFactor),
    motorConstant: derive(
      { torque, loss: input.copperLoss },
      (given) => given.torque / Math.sqrt(given.loss),
    ),
    magnetizingInductance: magnetizing,
    differentialLeakageInductance: differential,
    gapFluxDensity: gapFluxDensity(specification, winding),
    gaps,
    harmonics,
  };
}

/** Inductances of the field in the gap, H: of the working wave, and of all others. */
export function gapInductances({
  winding,
  specification,
  meanSquareFactor,
  differentialLeakage,
}: Pick<EmfInput, 'winding' | 'specification' | 'meanSquareFactor' | 'differentialLeakage'>): {
  readonly magnetizing: Figure<number>;
  readonly differential: Figure<number>;
} {
  const magnetizing = magnetizingInductance(specification, winding, knownIf(meanSquareFactor, 'layout'));
  return {
    magnetizing,
    differential: derive(
      { magnetizing, share: knownIf(differentialLeakage, 'layout') },
      (given) => given.share * given.magnetizing,
    ),
  };
}

/** Fundamental EMF of one phase, sqrt2 pi f N kw Phi, V rms (books round sqrt2 pi to 4.44). */
function phaseEmf(
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

/**
 * Torque at the stated current and its angle, m p (psi Iq + (Ld - Lq) Id Iq), Nm; in phase with the EMF m E
 * I/(2 pi n). It does not depend on the speed, as E is proportional to it.
 */
export function ratedTorque(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      linkage: fluxLinkage(specification, winding, windingFactor),
      current: phaseCurrent(specification, winding),
      ...unequalAxes(specification, winding),
    },
    ({ linkage, current, angle, saliency: excess }) =>
      winding.phases.names.length *
      winding.polePairs *
      (linkage / Math.SQRT2 - excess * current * Math.sin(angle)) *
      current *
      Math.cos(angle),
  );
}

/** The angle of the current, and what unequal axes add where it is not zero. */
function unequalAxes(specification: Specification, winding: Winding) {
  const angle = currentAngle(specification, winding);
  return { angle, saliency: angle.known && angle.value === 0 ? known(0) : saliency(specification) };
}

/** Without unequal axes it does not depend on the current. */
function torquePerAmpere(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  const { angle, saliency: excess } = unequalAxes(specification, winding);
  const share = phaseCurrentShare(specification, winding);
  if (excess.known && excess.value === 0)
    return derive(
      { linkage: fluxLinkage(specification, winding, windingFactor), angle, share },
      (given) =>
        (winding.phases.names.length *
          winding.polePairs *
          given.linkage *
          Math.cos(given.angle) *
          given.share) /
        Math.SQRT2,
    );
  return derive(
    {
      torque: ratedTorque(specification, winding, windingFactor),
      current: machineValue(specification, 'current'),
    },
    (given) => given.torque / given.current,
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
