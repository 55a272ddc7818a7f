import { assuming, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import type { Clearances } from '../space/clearance/clearance.ts';
import { bentAsWritten } from '../space/ends/bends.ts';
import type { PhaseEndInductance } from '../space/inductance/endInductance.ts';
import type { Space } from '../space/space.ts';

/** Figures of the bars in space, each when first asked for. */
export interface SpaceFigures {
  readonly space: Figure<Space>;
  readonly clearances: () => Figure<Clearances>;
  /** The smallest distance of coated bar ends, m; negative for penetration. */
  readonly smallest: () => Figure<number>;
  /** The same, where the text gives the bend radius that it depends on. */
  readonly clearanceLeft: () => Figure<number>;
  readonly endInductance: () => Figure<PhaseEndInductance>;
  /** What the faces of the stack leave open of it: flux lines or iron. */
  readonly endSpread: () => Figure<EndSpread>;
}

/** Leakage of the end windings of one phase, H: the least and the most with images in the faces of the stack. */
export interface EndSpread {
  readonly low: number;
  /** The most. */
  readonly high: number;
}

/** What the figures are computed from. */
export interface SpaceFiguresInput {
  readonly space: Figure<Space>;
  /** All, or with the nearest place of all. */
  readonly clearances: (looked: 'all' | 'nearest') => Figure<Clearances>;
  readonly phaseEnds: () => Figure<PhaseEndInductance>;
  /** The same of the ends with their images in the faces of the stack. */
  readonly phaseImages: () => Figure<PhaseEndInductance>;
}

/** The figures of the bars in space. */
export function spaceFigures({ space, clearances, phaseEnds, phaseImages }: SpaceFiguresInput): SpaceFigures {
  const smallest = lazy(() =>
    deriveFigure({ nearest: clearances('nearest') }, ({ nearest }) => {
      const distances = nearest.places.map(({ distance }) => distance);
      return distances.length > 0
        ? known(Math.min(...distances))
        : missing('bar ends that lie near each other');
    }),
  );
  const endInductance = () => assuming(phaseEnds(), ...endCautions);
  return {
    space,
    clearances: lazy(() => clearances('all')),
    smallest,
    clearanceLeft: () =>
      deriveFigure({ smallest: smallest() }, (given) =>
        derive({ space: bentAsWritten(space) }, () => given.smallest),
      ),
    endInductance,
    endSpread: lazy(() =>
      derive({ endInductance: endInductance(), images: phaseImages() }, (given): EndSpread => {
        const change = Math.abs(given.images.phase);
        return { low: given.endInductance.phase - change, high: given.endInductance.phase + change };
      }),
    ),
  };
}

/** What the leakage of the end windings leaves out. */
const endCautions = [
  'leakage of the end windings: uniform currents in bar ends and connecting pieces, in air; leads beyond the joints, rings, housing, the end of the rotor, eddies and the fringing at the gap are not modeled',
] as const;
