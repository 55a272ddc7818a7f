import { type Complex, size, solveComplex, subtract, zero } from './complex.ts';

/** The load that the paths carry together. */
export interface PathLoad {
  /** Phase of each path. */
  readonly phases: readonly number[];
  /** What each path carries of an equal share. */
  readonly shares: readonly Complex[];
  /** Current that the paths of each phase carry together; 0 for a phase left out. */
  readonly phaseCurrents: ReadonlyMap<number, Complex>;
}

/** Parallel paths as circuits: what drives each, what it opposes, and the current each phase has to carry. */
export interface PathCircuit {
  /** Phase of each path. */
  readonly phases: readonly number[];
  /** Ohm, one a path. */
  readonly resistances: readonly number[];
  /** Henry, entry i n + j: flux linkage of path i for one ampere in path j. */
  readonly inductance: Float64Array;
  /** Rad/s. */
  readonly angularFrequency: number;
  /** Induced voltage of each path, V. */
  readonly voltages: readonly Complex[];
  /** Current that the paths of each phase carry together, A. */
  readonly phaseCurrents: ReadonlyMap<number, Complex>;
}

/**
 * Currents of all paths, A: R I + j omega L I + U = E in each path with one voltage U across the paths of
 * a phase, and their currents summing to the phase's. Null where they are not determined.
 */
export function pathCurrents(circuit: PathCircuit): readonly Complex[] | null {
  const { phases, resistances, inductance, angularFrequency, voltages } = circuit;
  const count = phases.length;
  const distinct = [...new Set(phases)];
  const matrix: Complex[][] = phases.map((phase, row) => [
    ...phases.map((_, column) => ({
      re: row === column ? resistances[row]! : 0,
      im: angularFrequency * inductance[row * count + column]!,
    })),
    ...distinct.map((other) => ({ re: other === phase ? 1 : 0, im: 0 })),
  ]);
  for (const phase of distinct) {
    matrix.push([
      ...phases.map((other) => ({ re: other === phase ? 1 : 0, im: 0 })),
      ...distinct.map(() => zero),
    ]);
  }
  const right = [...voltages, ...distinct.map((phase) => circuit.phaseCurrents.get(phase) ?? zero)];
  return solveComplex(matrix, right)?.slice(0, count) ?? null;
}

/** Largest current of the paths, relative to `reference`. */
export function largestShare(currents: readonly Complex[], reference: number): number {
  return Math.max(0, ...currents.map(size)) / reference;
}

/** Largest distance of a path's current from an equal share of its phase's, relative to that share. */
export function shareDeviation({ shares }: PathLoad, currents: readonly Complex[]): number {
  return shares.reduce((largest, share, path) => {
    if (size(share) === 0) return largest;
    return Math.max(largest, size(subtract(currents[path]!, share)) / size(share));
  }, 0);
}
