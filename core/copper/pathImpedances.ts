import type { Path, Winding } from '../winding/model.ts';
import { type PathConductor, pathResistance } from './resistance.ts';
import { type LeakageRow, pathLeakage } from './windingLeakage.ts';

/** One path as a circuit. */
export interface PathImpedance {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Of the path within its phase, from 1. */
  readonly number: number;
  /** DC resistance at the winding temperature, ohm. */
  readonly resistance: number;
  /** Slot leakage inductance of the path by itself, H. */
  readonly selfInductance: number;
}

/**
 * Impedances of all paths at a frequency in Hz. `inductance`, H, entry i n + j: slot leakage flux
 * linkage of path i for one ampere in path j (times j omega: the leakage reactance). No end winding,
 * no air-gap field.
 */
export interface PathImpedances {
  /** Electrical, Hz. */
  readonly frequency: number;
  readonly paths: readonly PathImpedance[];
  /** As above, H. */
  readonly inductance: Float64Array;
}

interface Inputs {
  readonly winding: Winding;
  readonly paths: readonly Path[];
  readonly conductors: readonly PathConductor[];
  readonly rows: readonly LeakageRow[];
  readonly frequency: number;
  readonly resistivity: number;
}

/** Resistance and slot leakage of every path, from the places its bars occupy. */
export function pathImpedances(inputs: Inputs): PathImpedances {
  const inductance = pathLeakage(inputs.winding, inputs.rows, inputs.paths);
  const paths = inputs.paths.map(({ phase, number }, index) => ({
    phase,
    number,
    resistance: pathResistance(inputs.conductors[index]!, inputs.resistivity),
    selfInductance: inductance[index * inputs.paths.length + index]!,
  }));
  return { frequency: inputs.frequency, paths, inductance };
}
