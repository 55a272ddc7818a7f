import { type EmfResult, emf } from '../analysis/emf.ts';
import { inducedVoltages } from '../balance/circulating.ts';
import { scale, unit } from '../balance/complex.ts';
import { largestShare, type PathCircuit, pathCurrents, shareDeviation } from '../balance/pathCurrents.ts';
import { pathSum } from '../balance/voltages.ts';
import { type CopperResult, copper } from '../copper/copper.ts';
import { copperBasis, problemsOfCopper } from '../copper/copperFigures.ts';
import type { CopperProblem } from '../copper/copperProblems.ts';
import { type CopperCurves, copperCurves } from '../copper/curves.ts';
import type { CopperInput } from '../copper/geometryFigures.ts';
import type { Specification } from '../language/specification.ts';
import type { Winding } from '../winding/model.ts';
import type { ConnectionState } from './connection.ts';
import { lazy } from './lazy.ts';

/** What the sizes, materials and operating point of the machine yield. */
export interface MachineFacts {
  readonly copper: () => CopperResult;
  /** What cannot be built as written. */
  readonly copperProblems: () => readonly CopperProblem[];
  readonly copperCurves: () => CopperCurves;
  readonly emf: () => EmfResult;
  /** Largest circulating current between parallel paths, relative to the current of a path; null without data. */
  readonly circulatingCurrent: () => number | null;
  /** Statements that would make the circulating current known. */
  readonly circulatingNeeds: () => readonly string[];
  /** Largest deviation of a path's current from an equal share at load, relative to it; null without data. */
  readonly currentDeviation: () => number | null;
}

/** What machine facts are computed from beside the text. */
export interface MachineInput {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connection: ConnectionState;
  /** Winding factor of a mechanical order. */
  readonly windingFactor: (order: number) => number;
  readonly differentialLeakage: () => number | null;
  /** Rms current of a phase, A; null where it is not known. */
  readonly phaseCurrent: number | null;
}

/** Copper, EMF and the currents of the paths. */
export function machineFacts(input: MachineInput): MachineFacts {
  const { specification, winding, connection } = input;
  const { polePairs } = winding;
  const connected = connection.kind === 'connected' ? connection.facts : null;
  const copperInput = lazy(
    (): CopperInput => ({
      winding,
      specification,
      paths: connected?.paths ?? null,
      joints: connected?.joints().joints ?? null,
      windingFactor: input.windingFactor(polePairs),
    }),
  );
  const basis = lazy(() => copperBasis(copperInput()));
  const copperResult = lazy(() => copper(copperInput(), basis()));
  const circuit = lazy(() => circuitOf(input, copperResult()));
  return {
    copper: copperResult,
    copperProblems: lazy(() => problemsOfCopper(copperInput(), basis())),
    copperCurves: lazy(() => copperCurves(copperInput())),
    emf: lazy(() =>
      emf({
        winding,
        specification,
        windingFactor: input.windingFactor(polePairs),
        differentialLeakage: input.differentialLeakage(),
        copperLoss: copperResult().totalLoss,
        harmonicFactor: (harmonic) => input.windingFactor(harmonic * polePairs),
      }),
    ),
    circulatingCurrent: lazy(() => {
      const loaded = circuit();
      if (!loaded || loaded.flux === null) return null;
      const voltages = inducedVoltages(loaded.sums, loaded.frequency, loaded.flux);
      const currents = pathCurrents({ ...loaded.circuit, voltages, phaseCurrents: new Map() });
      return currents && tidy(largestShare(currents, loaded.pathCurrent));
    }),
    circulatingNeeds: () => circulatingNeeds(input, copperResult()),
    currentDeviation: lazy(() => {
      const loaded = circuit();
      if (!loaded) return null;
      const currents = pathCurrents(loaded.circuit);
      return currents && tidy(shareDeviation(loaded.circuit, currents));
    }),
  };
}

/** Rounding of the solution is no current. */
function tidy(share: number): number {
  return share < 1e-9 ? 0 : share;
}

interface LoadedCircuit {
  readonly circuit: PathCircuit;
  readonly sums: Parameters<typeof inducedVoltages>[0];
  readonly frequency: number;
  readonly flux: number | null;
  readonly pathCurrent: number;
}

/** The paths as circuits at rated current; null where impedances or the current are not known. */
function circuitOf(input: MachineInput, result: CopperResult): LoadedCircuit | null {
  const { winding, connection, phaseCurrent, specification } = input;
  const impedances = result.leakage.pathImpedances;
  if (!impedances || phaseCurrent === null || connection.kind !== 'connected') return null;
  const { paths } = connection.facts;
  const phaseCurrents = new Map(
    winding.phases.axes.map((axis, phase) => [phase, scale(unit(-axis), phaseCurrent)] as const),
  );
  return {
    circuit: {
      phases: paths.map(({ phase }) => phase),
      resistances: impedances.paths.map(({ acResistance }) => acResistance),
      inductance: impedances.inductance,
      angularFrequency: 2 * Math.PI * impedances.frequency,
      voltages: paths.map(() => ({ re: 0, im: 0 })),
      phaseCurrents,
    },
    sums: paths.map((path) => pathSum(winding, path, winding.polePairs)),
    frequency: impedances.frequency,
    flux: specification.machine?.flux?.value ?? null,
    pathCurrent: phaseCurrent / winding.parallelPaths,
  };
}

function circulatingNeeds(input: MachineInput, result: CopperResult): readonly string[] {
  const impedances = result.missing.find(({ quantity }) => quantity === 'copper.leakage.pathImpedances');
  const needs = new Set(impedances?.needs ?? []);
  if (input.phaseCurrent === null && !input.specification.machine?.current) needs.add('machine current');
  if (!input.specification.machine?.flux) needs.add('machine flux');
  if (input.connection.kind !== 'connected') needs.add('connect route');
  return [...needs];
}
