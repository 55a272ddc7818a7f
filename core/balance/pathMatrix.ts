import { gapOverlaps } from '../analysis/gap/gapField.ts';
import type { PathImpedances } from '../copper/pathImpedances.ts';
import { type Figure, known, missing } from '../figures/figure.ts';
import type { Path, Winding } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import type { PathLoad } from './pathCurrents.ts';

// How the paths of all phases oppose and drive each other's currents: one matrix for the currents that
// circulate between them and for how they share the load.

/** The parts of the matrix that follow from the text; what couples the paths in the gap is still to be scaled. */
export interface PathMatrixParts {
  readonly impedances: PathImpedances;
  /** Products of the paths' winding functions, entry i n + j; see `pathOverlaps`. */
  readonly overlaps: Float64Array;
  /** Leakage of the end windings, H, entry i n + j; null where sizes of the ends are missing: it counts zero. */
  readonly ends: Float64Array | null;
}

/** What is missing where a path's bars do not lie there and back in equal numbers. */
const evenPaths =
  'an even number of bars in each path (an odd path drives no gap field that closes on itself)';

/**
 * Integrals over the bore of the products of the paths' winding functions, mean over the stack, in radians
 * times turns squared: times the permeance of the gap in H per radian, the inductance of its field. A
 * path with an odd number of bars has no winding function.
 */
export function pathOverlaps(winding: Winding, paths: readonly Path[]): Figure<Float64Array> {
  if (paths.some(({ bars }) => bars.length % 2 !== 0)) return missing(evenPaths);
  const { slots, cells } = winding.table;
  const owners = new Int32Array(cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const { slot, layer } of path.bars) owners[layer * slots + slot - 1] = index;
  });
  return known(gapOverlaps(winding, owners, paths.length));
}

/**
 * The inductances of all paths, H: entry i n + j is the flux linkage of path i for one ampere in path j.
 * The leakage of the slots, of the end windings, and the field in the gap, `permeance` H per radian.
 */
export function pathInductances(
  { impedances, overlaps, ends }: PathMatrixParts,
  permeance: number,
): Float64Array {
  const parts = [impedances.inductance, overlaps.map((overlap) => permeance * overlap)];
  return sumOfParts(ends ? [...parts, ends] : parts);
}

function sumOfParts(parts: readonly Float64Array[]): Float64Array {
  const sum = new Float64Array(parts[0]!.length);
  for (const part of parts) for (let entry = 0; entry < sum.length; entry++) sum[entry]! += part[entry]!;
  return sum;
}

/**
 * Whether the paths of a phase, all with an equal share, see the same voltage from each part: then they
 * share the load equally whatever the gap, and nothing needs to be solved.
 */
export function sharesAreEqual({ impedances, overlaps, ends }: PathMatrixParts, load: PathLoad): boolean {
  const first = load.phases.map((phase) => load.phases.indexOf(phase));
  const alike = (values: readonly number[]) => {
    const largest = Math.max(...values.map(Math.abs));
    return values.every((value, path) => Math.abs(value - values[first[path]!]!) <= 1e-12 * largest);
  };
  return (
    alike(impedances.paths.map(({ resistance }) => resistance)) &&
    [impedances.inductance, overlaps, ...(ends ? [ends] : [])].every((matrix) => {
      const linkages = linkagesOf(matrix, load.shares);
      return alike(linkages.map(({ re }) => re)) && alike(linkages.map(({ im }) => im));
    })
  );
}

function linkagesOf(matrix: Float64Array, currents: readonly Complex[]): readonly Complex[] {
  return currents.map((_, row) => {
    let re = 0;
    let im = 0;
    for (let column = 0; column < currents.length; column++) {
      const value = matrix[row * currents.length + column]!;
      re += value * currents[column]!.re;
      im += value * currents[column]!.im;
    }
    return { re, im };
  });
}
