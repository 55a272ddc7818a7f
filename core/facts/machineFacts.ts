import { type EmfResult, emf } from '../analysis/emf/emf.ts';
import type { MotoringCurrents } from '../balance/pathLoading.ts';
import type { CopperResult } from '../copper/copper.ts';
import type { CopperProblem } from '../copper/copperFigures.ts';
import type { CopperCurves } from '../copper/curves.ts';
import type { Figure } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { UnreachedPoint } from '../operation/duty.ts';
import type { IronProblem } from '../operation/iron.ts';
import type { VoltageProblem } from '../operation/voltageProblems.ts';
import { type BarFacts, barFacts } from './barFacts.ts';
import { type CopperFacts, copperFacts } from './copperFacts.ts';
import { type LoadFacts, type LoadInput, loadFacts } from './loadFacts.ts';

/** What the machine's text is blamed for: places of the present text. */
export interface MachineProblems {
  /** What cannot be built as written. */
  readonly copperProblems: () => readonly CopperProblem[];
  readonly unreachedPoints: () => readonly UnreachedPoint[];
  readonly ironProblems: () => readonly IronProblem[];
  /** What the stated voltage is too low for. */
  readonly voltageProblems: () => readonly VoltageProblem[];
}

/** What the sizes, materials and operating point of the machine yield. */
export interface MachineFacts
  extends Pick<BarFacts, 'space' | 'nearEnds' | 'spaceFigures' | 'tips'>,
    Pick<LoadFacts, 'operation' | 'duty' | 'dutyCycleHeat' | 'iron' | 'torqueSpeedCurve'> {
  readonly copper: () => CopperResult;
  readonly copperCurves: () => CopperCurves;
  readonly emf: () => EmfResult;
  /** Largest circulating current between parallel paths, relative to the current of a path. */
  readonly circulatingCurrent: () => Figure<number>;
  /** Largest deviation of a path's current from an equal share at load, relative to it. */
  readonly currentDeviation: () => Figure<number>;
  /** Currents of the paths as phasors. */
  readonly motoringCurrents: () => Figure<MotoringCurrents>;
  /** What a text that says the same is blamed for. */
  readonly problemsOf: (specification: Specification) => MachineProblems;
}

/** Copper, EMF and the currents of the paths, from the text and what follows from the winding. */
export function machineFacts(input: LoadInput): MachineFacts {
  const bars = barFacts(input);
  const copper = copperFacts(input, bars);
  const load = loadFacts(input, bars, copper);
  const { loading } = copper;
  return {
    copper: copper.copper,
    copperCurves: copper.curves,
    space: bars.space,
    nearEnds: bars.nearEnds,
    spaceFigures: bars.spaceFigures,
    tips: bars.tips,
    emf: lazy(() => emfOf(input, copper, load)),
    duty: load.duty,
    dutyCycleHeat: load.dutyCycleHeat,
    iron: load.iron,
    operation: load.operation,
    torqueSpeedCurve: load.torqueSpeedCurve,
    circulatingCurrent: () => loading().circulating,
    currentDeviation: () => loading().deviation,
    motoringCurrents: () => loading().motoring,
    problemsOf: (of) => ({
      copperProblems: lazy(() => copper.problemsOf(of)),
      unreachedPoints: lazy(() => load.unreachedPointsOf(of)),
      ironProblems: lazy(() => load.ironProblemsOf(of)),
      voltageProblems: lazy(() => load.voltageProblemsOf(of)),
    }),
  };
}

function emfOf(input: LoadInput, { copper }: CopperFacts, { stackLeakage }: LoadFacts): EmfResult {
  const { specification, winding, windingFactor } = input;
  return emf({
    winding,
    specification,
    windingFactor: windingFactor(winding.polePairs),
    meanSquareFactor: input.meanSquareFactor(),
    differentialLeakage: stackLeakage(),
    copperLoss: copper().fundamentalLoss,
    harmonicFactor: (harmonic) => windingFactor(harmonic * winding.polePairs),
  });
}
