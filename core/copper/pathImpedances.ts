import type { Path, Winding } from '../winding/model.ts';
import { type FieldWeights, type LayerSection, reducedHeight } from './acLoss.ts';
import type { PathConductor } from './resistance.ts';
import { phi, psi } from './skinEffect.ts';
import { type LeakageRow, pathLeakage } from './windingLeakage.ts';

/** One path for the circulating current. */
export interface PathImpedance {
  readonly phase: number;
  readonly number: number;
  /** DC resistance at the winding temperature, ohm. */
  readonly resistance: number;
  /** With the eddies of balanced currents in its bars, ohm. */
  readonly acResistance: number;
}

/**
 * Impedances of all paths at a frequency in Hz. `inductance`, H, entry i n + j: slot leakage flux
 * linkage of path i for one ampere in path j (times j omega: the leakage reactance). No end winding,
 * no air-gap field.
 */
export interface PathImpedances {
  readonly frequency: number;
  readonly paths: readonly PathImpedance[];
  readonly inductance: Float64Array;
}

interface Inputs {
  readonly winding: Winding;
  readonly paths: readonly Path[];
  readonly conductors: readonly PathConductor[];
  readonly rows: readonly LeakageRow[];
  readonly active: readonly number[];
  readonly areas: readonly number[];
  readonly weights: FieldWeights;
  readonly sections: readonly LayerSection[];
  readonly frequency: number;
  readonly resistivity: number;
}

/** Resistance and slot leakage of every path, from the places its bars occupy. */
export function pathImpedances(inputs: Inputs): PathImpedances {
  const { winding, resistivity: rho, frequency } = inputs;
  const { slots } = winding.table;
  const eddies = inputs.sections.map((section) => {
    const xi = reducedHeight(section, frequency, rho);
    return { phi: phi(xi), psi: psi(xi) };
  });
  const paths = inputs.paths.map((path, index) => {
    const conductor = inputs.conductors[index]!;
    const resistance = rho * conductor.lengthOverArea;
    const added = path.bars.reduce((sum, { slot, layer }) => {
      const weight = inputs.weights.byPlace[layer * slots + slot - 1]!;
      const ratio = eddies[layer]!.phi + weight * eddies[layer]!.psi;
      return sum + (inputs.active[layer]! / inputs.areas[layer]!) * (ratio - 1);
    }, 0);
    return { phase: path.phase, number: path.number, resistance, acResistance: resistance + rho * added };
  });
  return { frequency, paths, inductance: pathLeakage(winding, inputs.rows, inputs.paths) };
}
