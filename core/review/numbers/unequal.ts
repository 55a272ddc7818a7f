import { figuresByPath } from '../../figures/groups.ts';
import { withoutEnds } from '../../operation/inductance.ts';
import type { Wound } from '../reviewed.ts';
import { atPoint } from './figureNames.ts';

/** Figures of two texts of which one counts the leakage of the end windings and the other leaves it out. */
export interface UnequalFigures {
  /** Which text leaves it out, because its paths, or sizes of its bar ends, are not known. */
  readonly lacking: 'old' | 'new';
  /** By their places in the report, those of a point of the duty with its name. */
  readonly places: ReadonlySet<string>;
}

/**
 * The figures that differ by what is known of two texts, whether or not the machines do; null where there are none.
 */
export function unequalFigures(old: Wound | null, now: Wound | null): UnequalFigures | null {
  if (!old || !now) return null;
  const [before, after] = [countingEnds(old), countingEnds(now)];
  const places = [...before].flatMap(([place, counts]) =>
    after.has(place) && after.get(place) !== counts ? [place] : [],
  );
  const [first] = places;
  if (first === undefined) return null;
  return { lacking: before.get(first) ? 'new' : 'old', places: new Set(places) };
}

/** Of each known figure under load, whether the leakage of the end windings counts in what it rests on. */
function countingEnds({ facts }: Wound): ReadonlyMap<string, boolean> {
  const { points = [], cycle = {} } = facts.duty() ?? {};
  const counting = new Map<string, boolean>();
  const add = (part: string, group: object, at = '') => {
    for (const [path, figure] of Object.entries(figuresByPath(part, group)))
      if (figure.known) counting.set(path + at, !figure.assumptions.includes(withoutEnds));
  };
  add('operation', facts.operation());
  for (const point of points) add('duty.points', point, atPoint(point.name));
  add('duty.cycle', cycle);
  return counting;
}
