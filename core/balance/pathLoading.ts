import { type CarriedCurrents, equalCurrents } from '../copper/carriedCurrents.ts';
import type { PathImpedances } from '../copper/pathImpedances.ts';
import { assuming, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import type { Path, Winding } from '../winding/model.ts';
import { inducedVoltages } from './circulating.ts';
import { add, type Complex, multiply, scale, size, unit, zero } from './complex.ts';
import { largestShare, type PathCircuit, pathCurrents, shareDeviation } from './pathCurrents.ts';
import { type PhaseBalance, pathSum } from './voltages.ts';

/** What the parallel paths carry beside their equal shares. */
export interface PathLoading {
  /** Largest circulating current without load, relative to an equal share of the rated phase current. */
  readonly circulating: Figure<number>;
  /** Largest deviation at load from an equal share by resistance and slot leakage, relative to it. */
  readonly deviation: Figure<number>;
  /** Both together, for the losses. */
  readonly carried: Figure<CarriedCurrents>;
}

/** What the loading of paths is computed from. */
export interface LoadingInput {
  readonly winding: Winding;
  readonly paths: readonly Path[];
  readonly balances: () => readonly PhaseBalance[];
  /** Whether paths of a phase lie in the layers (or cells) unequally. */
  readonly unequalLayers: () => boolean;
  /** Asked for only where paths are parallel. */
  readonly impedances: () => Figure<PathImpedances>;
  /** Fundamental flux of a pole, Wb, and rms current of a phase, A. */
  readonly flux: Figure<number>;
  readonly current: Figure<number>;
}

const takenAsEqual =
  'copper loss, current density and heat: the paths, equal in the angles and layers of their bars, are taken to carry equal currents';
const solved =
  "copper loss, current density and heat: each path's own current from its EMF, its DC resistance and slot leakage at the winding temperature (no end winding, no gap field), the phase current in phase with the EMF; the larger of motor and generator";
const undetermined = 'paths whose impedances determine their currents';

/**
 * Circulating currents, the split of the load current, and both together. Resistances are those for
 * direct current: what eddies add for equal currents is mostly a proximity loss and does not oppose the
 * currents between paths, so that the split is an upper estimate.
 */
export function pathLoading(input: LoadingInput): PathLoading {
  if (!anyParallel(input.paths)) {
    return { circulating: known(0), deviation: known(0), carried: equalCurrents };
  }
  const circuit = derive({ impedances: input.impedances() }, (given) => circuitOf(input, given.impedances));
  const split = deriveFigure({ circuit }, (given) => solve(given.circuit));
  const driven = circulatingShares(input, circuit);
  const deviation = derive({ circuit, split }, (given) => tidy(shareDeviation(given.circuit, given.split)));
  const circulating = derive({ driven }, (given) => tidy(largestShare(given.driven, 1)));
  return { circulating, deviation, carried: carriedOf(input, { split, driven, deviation, circulating }) };
}

/** Whether some phase has several paths. */
function anyParallel(paths: readonly Path[]): boolean {
  return new Set(paths.map(({ phase }) => phase)).size < paths.length;
}

function solve(circuit: PathCircuit): Figure<readonly Complex[]> {
  const currents = pathCurrents(circuit);
  return currents ? known(currents) : missing(undetermined);
}

/** Rounding of the solution is no current. */
function tidy(share: number): number {
  return share < 1e-9 ? 0 : share;
}

/** The paths as circuits under equal shares of unit size, in phase with the EMF of the first phase. */
function circuitOf({ winding, paths }: LoadingInput, impedances: PathImpedances): PathCircuit {
  const phases = paths.map(({ phase }) => phase);
  const sums = paths.map((path) => pathSum(winding, path, winding.polePairs));
  const load = loadPhasors(winding, phases, sums);
  return {
    phases,
    resistances: impedances.paths.map(({ resistance }) => resistance),
    inductance: impedances.inductance,
    angularFrequency: 2 * Math.PI * impedances.frequency,
    voltages: paths.map(() => zero),
    phaseCurrents: new Map(
      load.map((current, phase) => [phase, scale(current, phases.filter((other) => other === phase).length)]),
    ),
  };
}

/** Balanced unit currents on the axes, in phase with the EMF; the table may run either way round. */
function loadPhasors(winding: Winding, phases: readonly number[], sums: readonly Complex[]): Complex[] {
  const along = (sense: 1 | -1) =>
    sums.reduce(
      (sum, own, path) => add(sum, multiply(own, unit(sense * winding.phases.axes[phases[path]!]!))),
      zero,
    );
  const sense = size(along(1)) >= size(along(-1)) ? 1 : -1;
  const total = along(sense);
  const start = size(total) > 0 ? scale(total, 1 / size(total)) : unit(0);
  return winding.phases.axes.map((axis) => multiply(start, unit(-sense * axis)));
}

/** Circulating currents in units of an equal share; none where the paths' voltages are equal. */
function circulatingShares(
  { winding, paths, balances, flux, current, impedances }: LoadingInput,
  circuit: Figure<PathCircuit>,
): Figure<readonly Complex[]> {
  if (balances().every(({ difference, sameAngles }) => sameAngles || (difference ?? 1) < 1e-9))
    return known(paths.map(() => zero));
  const frequency = derive({ all: impedances() }, ({ all }) => all.frequency);
  return deriveFigure({ circuit, flux, current, frequency }, (given) => {
    const sums = paths.map((path) => pathSum(winding, path, winding.polePairs));
    // Divided by the equal share first: very small currents stay numbers.
    const share = given.current / winding.parallelPaths;
    const voltages = inducedVoltages(sums, given.frequency, given.flux / share);
    return solve({ ...given.circuit, voltages, phaseCurrents: new Map() });
  });
}

interface Solved {
  readonly split: Figure<readonly Complex[]>;
  readonly driven: Figure<readonly Complex[]>;
  readonly deviation: Figure<number>;
  readonly circulating: Figure<number>;
}

function carriedOf(input: LoadingInput, figures: Solved): Figure<CarriedCurrents> {
  const { split, driven, deviation, circulating } = figures;
  const together = deriveFigure({ split, driven, deviation, circulating }, (given) => {
    if (given.deviation === 0 && given.circulating === 0) return equalCurrents;
    const as = (sense: 1 | -1) => given.split.map((own, path) => add(scale(own, sense), given.driven[path]!));
    return known({ runs: given.circulating === 0 ? [as(1)] : [as(1), as(-1)] });
  });
  if (together.known) return assuming(together, solved);
  const alike = driven.known && circulating.known && circulating.value === 0 && !input.unequalLayers();
  return alike ? assuming(equalCurrents, takenAsEqual) : together;
}
