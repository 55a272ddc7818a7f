import type { PhaseConnection } from '../language/specification/statements.ts';
import type { BarLengths } from '../space/lengths.ts';
import type { Path, Winding } from '../winding/model.ts';

/** Conductor of one path: its length over area, 1/m, times the resistivity, and its joints are its resistance. */
export interface PathConductor {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Of the path within its phase, from 1. */
  readonly number: number;
  /** Sum over its bars and pieces, 1/m. */
  readonly lengthOverArea: number;
  /** Of its joints, whatever their temperature, ohm. */
  readonly joints: number;
}

/** Resistance of a path for a resistivity in ohm m. */
export function pathResistance({ lengthOverArea, joints }: PathConductor, rho: number): number {
  return rho * lengthOverArea + joints;
}

/** Length over area of every path, its bars and the connecting pieces within it, and its joints, ohm a path. */
export function pathConductors(
  winding: Winding,
  paths: readonly Path[],
  lengths: BarLengths,
  areas: readonly number[],
  joints: readonly number[],
): readonly PathConductor[] {
  const { slots } = winding.table;
  const sums = paths.map(({ bars }) =>
    bars.reduce(
      (sum, { slot, layer }) => sum + lengths.byPlace[layer * slots + slot - 1]! / areas[layer]!,
      0,
    ),
  );
  for (const { path, length, area } of lengths.pieces) sums[path]! += length / area;
  return paths.map(({ phase, number }, index) => ({
    phase,
    number,
    lengthOverArea: sums[index]!,
    joints: joints[index]!,
  }));
}

/** Mean path and phase resistance, ohm; a phase is its paths in parallel. */
export interface Resistances {
  /** Mean of all paths. */
  readonly path: number;
  /** Mean of all phases. */
  readonly phase: number;
  /** Every phase. */
  readonly phases: readonly number[];
}

/** Resistances for a resistivity in ohm m. */
export function resistances(conductors: readonly PathConductor[], rho: number): Resistances {
  const conductance = new Map<number, number>();
  for (const path of conductors) {
    conductance.set(path.phase, (conductance.get(path.phase) ?? 0) + 1 / pathResistance(path, rho));
  }
  const phases = [...conductance.values()].map((siemens) => 1 / siemens);
  const sum = conductors.reduce((total, path) => total + pathResistance(path, rho), 0);
  return { path: sum / conductors.length, phase: mean(phases), phases };
}

/**
 * Resistance between adjacent line terminals of one set, ohm: two phases in series in a star; in a
 * ring of m phases, one in parallel with the m - 1 others. Null for open phases.
 */
export function lineResistance(
  connection: PhaseConnection,
  phaseResistance: number,
  phasesOfSet: number,
): number | null {
  if (connection === 'open') return null;
  if (connection === 'delta') return (phaseResistance * (phasesOfSet - 1)) / phasesOfSet;
  return 2 * phaseResistance;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
