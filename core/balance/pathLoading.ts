import { type CarriedCurrents, equalCurrents } from '../copper/carriedCurrents.ts';
import type { PathImpedances } from '../copper/pathImpedances.ts';
import { assuming, derive, deriveFigure, type Figure, known, missing, orNull } from '../figures/figure.ts';
import type { Path, Winding } from '../winding/model.ts';
import { add, type Complex, multiply, scale, size, subtract, unit, zero } from './complex.ts';
import {
  largestShare,
  type PathCircuit,
  type PathLoad,
  pathCurrents,
  shareDeviation,
} from './pathCurrents.ts';
import { type PathMatrixParts, pathInductances, pathOverlaps, sharesAreEqual } from './pathMatrix.ts';
import { inducedVoltages, orderVoltages, type PhaseBalance, sumAlong } from './voltages.ts';

/** What the parallel paths carry beside their equal shares. */
export interface PathLoading {
  /** Largest circulating current without load, relative to an equal share of the rated phase current. */
  readonly circulating: Figure<number>;
  /** Largest deviation at load from an equal share by resistance, slot leakage and gap field, relative to it. */
  readonly deviation: Figure<number>;
  /** Both together, for the losses. */
  readonly carried: Figure<CarriedCurrents>;
  /** Both together, as phasors of a motor. */
  readonly motoring: Figure<MotoringCurrents>;
}

/**
 * Currents of the paths of a motor whose phase current leads the EMF by an angle in radians, in their order, each
 * counted in the direction of its path from the line terminal, in units of an equal share. The EMF of the first
 * phase, as the voltage that opposes the current, is real.
 */
export type MotoringCurrents = (lead: number) => readonly Complex[];

/** What the loading of paths is computed from. */
export interface LoadingInput {
  readonly winding: Winding;
  readonly paths: readonly Path[];
  readonly balances: () => readonly PhaseBalance[];
  /** Whether paths of a phase lie in the layers (or cells) unequally. */
  readonly unequalLayers: () => boolean;
  /** Asked for only where paths are parallel. */
  readonly impedances: () => Figure<PathImpedances>;
  /** Leakage of the end windings; likewise. */
  readonly endInductances: () => Figure<Float64Array>;
  /** Of the gap, H per radian (emf/gaps.ts); no matter where the paths share equally whatever it is. */
  readonly gapPermeance: () => Figure<number>;
  /** Fundamental flux of a pole, Wb, and rms current of a phase, A. */
  readonly flux: Figure<number>;
  /** A rms. */
  readonly current: Figure<number>;
}

const takenAsEqual =
  'winding loss, current density and heat: the paths, equal in the angles and layers of their bars, are taken to carry equal currents';
const fieldsOf = (ends: boolean) =>
  ends
    ? 'slot leakage, leakage of the end windings and gap field'
    : 'slot leakage and gap field (no end winding, so that what differs is a larger estimate)';
const foundEqual = (ends: boolean) =>
  `winding loss, current density and heat: the paths of a phase carry equal currents, as their EMF, resistance, ${fieldsOf(ends)} are the same`;
const solved = (ends: boolean) =>
  `winding loss, current density and heat: each path's own current from its EMF, its DC resistance at the winding temperature, ${fieldsOf(ends)}, the phase current in phase with the EMF; the larger of motor and generator`;
const undetermined = 'paths whose impedances determine their currents';

/**
 * Circulating currents, the split of the load current, and both together, from one matrix of the paths.
 * Resistances are those for direct current: what eddies add for equal currents is mostly a proximity loss
 * and does not oppose the currents between paths, so that the split is an upper estimate.
 */
export function pathLoading(input: LoadingInput): PathLoading {
  const { winding, paths } = input;
  if (!anyParallel(paths)) {
    return {
      circulating: known(0),
      deviation: known(0),
      carried: equalCurrents,
      motoring: known(equalMotoring(winding, paths)),
    };
  }
  const voltages = orderVoltages(winding, winding.polePairs);
  const sums = paths.map((path) => sumAlong(voltages, path));
  const load = equalShares(winding, paths, sums);
  const ends = input.endInductances();
  const parts = deriveFigure({ impedances: input.impedances() }, ({ impedances }) =>
    derive(
      { overlaps: pathOverlaps(winding, paths) },
      ({ overlaps }): PathMatrixParts => ({
        impedances,
        overlaps,
        ends: orNull(ends),
      }),
    ),
  );
  const circuit = derive({ parts, permeance: input.gapPermeance() }, (given) =>
    circuitOf(load, given.parts, given.permeance),
  );
  const split = deriveFigure({ parts }, (given) =>
    sharesAreEqual(given.parts, load)
      ? known(load.shares)
      : orEqualInSlots(
          given.parts,
          load,
          deriveFigure({ circuit }, (found) => solve(found.circuit)),
        ),
  );
  const driven = circulatingShares(input, sums, circuit);
  const deviation = derive({ split }, (given) => tidy(shareDeviation(load, given.split)));
  const circulating = derive({ driven }, (given) => tidy(largestShare(given.driven, 1)));
  const solvedFor = { split, driven, deviation, circulating };
  return {
    circulating,
    deviation,
    carried: carriedOf(input, solvedFor),
    motoring: motoringOf(input, load, solvedFor),
  };
}

/** Whether some phase has several paths. */
function anyParallel(paths: readonly Path[]): boolean {
  return new Set(paths.map(({ phase }) => phase)).size < paths.length;
}

/** Where data for the whole circuit lack, the slots alone say whether paths share equally. */
function orEqualInSlots(
  parts: PathMatrixParts,
  load: PathLoad,
  found: Figure<readonly Complex[]>,
): Figure<readonly Complex[]> {
  return !found.known && sharesAreEqual({ ...parts, ends: null }, load) ? known(load.shares) : found;
}

function solve(circuit: PathCircuit): Figure<readonly Complex[]> {
  const currents = pathCurrents(circuit);
  return currents ? known(currents) : missing(undetermined);
}

/** Rounding of the solution is no current. */
function tidy(share: number): number {
  return share < 1e-9 ? 0 : share;
}

/** Equal shares of unit size, in phase with the EMF of the first phase. */
function equalShares(winding: Winding, paths: readonly Path[], sums: readonly Complex[]): PathLoad {
  const phases = paths.map(({ phase }) => phase);
  const phasors = loadPhasors(winding, phases, sums);
  return {
    phases,
    shares: phases.map((phase) => phasors[phase]!),
    phaseCurrents: new Map(
      phasors.map((current, phase) => [
        phase,
        scale(current, phases.filter((other) => other === phase).length),
      ]),
    ),
  };
}

/** The paths as circuits under a load, without EMF. */
function circuitOf(load: PathLoad, parts: PathMatrixParts, permeance: number): PathCircuit {
  return {
    phases: load.phases,
    resistances: parts.impedances.paths.map(({ resistance }) => resistance),
    inductance: pathInductances(parts, permeance),
    angularFrequency: 2 * Math.PI * parts.impedances.frequency,
    voltages: load.phases.map(() => zero),
    phaseCurrents: load.phaseCurrents,
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
  { winding, balances, flux, current }: LoadingInput,
  sums: readonly Complex[],
  circuit: Figure<PathCircuit>,
): Figure<readonly Complex[]> {
  if (balances().every(({ difference, sameAngles }) => sameAngles || (difference ?? 1) < 1e-9))
    return known(sums.map(() => zero));
  return deriveFigure({ circuit, flux, current }, (given) => {
    // Divided by the equal share first: very small currents stay numbers.
    const share = given.current / winding.parallelPaths;
    const frequency = given.circuit.angularFrequency / (2 * Math.PI);
    const voltages = inducedVoltages(sums, frequency, given.flux / share);
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
    if (given.deviation === 0 && given.circulating === 0)
      return assuming(equalCurrents, foundEqual(input.endInductances().known));
    const as = (sense: 1 | -1) => given.split.map((own, path) => add(scale(own, sense), given.driven[path]!));
    return known(
      { runs: given.circulating === 0 ? [as(1)] : [as(1), as(-1)] },
      solved(input.endInductances().known),
    );
  });
  return together.known || !isTakenAsEqual(input, figures) ? together : assuming(equalCurrents, takenAsEqual);
}

/** The same as phasors. A path's EMF drives its circulating current and opposes that of a motor. */
function motoringOf(
  input: LoadingInput,
  { shares, phases }: PathLoad,
  figures: Solved,
): Figure<MotoringCurrents> {
  const { split, driven } = figures;
  const first = shares[phases.indexOf(0)] ?? unit(0);
  const back = scale({ re: first.re, im: -first.im }, 1 / size(first));
  const found = derive(
    { split, driven },
    (given): MotoringCurrents =>
      (lead) =>
        given.split.map((own, path) =>
          multiply(subtract(multiply(own, radiansUnit(lead)), given.driven[path]!), back),
        ),
  );
  return found.known || !isTakenAsEqual(input, figures)
    ? found
    : assuming(known(equalMotoring(input.winding, input.paths)), takenAsEqual);
}

/** Whether currents that cannot be solved for are taken to be equal: nothing circulates, and layers are alike. */
function isTakenAsEqual({ unequalLayers }: LoadingInput, { driven, circulating }: Solved): boolean {
  return driven.known && circulating.known && circulating.value === 0 && !unequalLayers();
}

function equalMotoring(winding: Winding, paths: readonly Path[]): MotoringCurrents {
  return (lead) => paths.map(({ phase }) => multiply(radiansUnit(lead), unit(-winding.phases.axes[phase]!)));
}

function radiansUnit(angle: number): Complex {
  return { re: Math.cos(angle), im: Math.sin(angle) };
}
