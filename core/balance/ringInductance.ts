import type { PathImpedances } from '../copper/pathImpedances.ts';
import { derive, type Figure, orNull } from '../figures/figure.ts';
import type { Path, Winding } from '../winding/model.ts';
import { pathInductances, pathOverlaps } from './pathMatrix.ts';

/** What the inductance of a ring of phases is computed from. */
export interface RingInductanceInput {
  readonly winding: Winding;
  readonly paths: readonly Path[];
  readonly impedances: Figure<PathImpedances>;
  /** Of the gap, H per radian. */
  readonly gapPermeance: Figure<number>;
  /** Of the ends of every two paths in air, H. */
  readonly endInductances: Figure<Float64Array>;
}

/**
 * Inductance of a phase while all phases of its ring carry the same current, H: the mean over the phases
 * of the flux linkage of their paths, each with an equal share, from the matrix of the paths. The leakage
 * of end windings whose sizes are missing counts zero.
 */
export function ringInductance({
  winding,
  paths,
  impedances,
  gapPermeance,
  endInductances,
}: RingInductanceInput): Figure<number> {
  return derive({ impedances, permeance: gapPermeance, overlaps: pathOverlaps(winding, paths) }, (given) => {
    const ends = orNull(endInductances);
    const matrix = pathInductances(
      { impedances: given.impedances, overlaps: given.overlaps, ends },
      given.permeance,
    );
    const phasesOfSet = winding.phases.names.length / winding.phases.sets;
    const ofSet = (set: number) =>
      paths.flatMap(({ phase }, index) => (Math.floor(phase / phasesOfSet) === set ? [index] : []));
    const first = ofSet(0);
    let linked = 0;
    for (const row of first) for (const column of first) linked += matrix[row * paths.length + column]!;
    // One ampere a phase is a share of it in each path; a phase links what one of its paths links.
    const pathsOfPhase = first.length / phasesOfSet;
    return linked / pathsOfPhase / first.length;
  });
}
