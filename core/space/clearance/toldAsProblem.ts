import { barName } from '../../winding/model.ts';
import type { Space } from '../space.ts';
import type { SpaceProblem } from '../spaceProblems.ts';
import type { ClearancePlace } from './clearance.ts';

/**
 * Whether what lies in each other at a place follows from a problem that is told as itself: crowns of one layer
 * that cross, and connecting pieces without room. Nothing about clearances frees those.
 */
export function toldAsProblem(
  { bars, links }: Pick<Space, 'bars' | 'links'>,
  problems: readonly SpaceProblem[],
): (place: Pick<ClearancePlace, 'side' | 'bars'>) => boolean {
  const crossed = new Set<number>();
  const crowded = new Set<string>();
  for (const problem of problems) {
    if (problem.kind === 'crowns-cross')
      for (const { joint, other } of problem.joints) crossed.add(joint).add(other);
    if (problem.kind === 'pieces-without-room')
      for (const joint of problem.joints) crowded.add(`${problem.side} ${joint}`);
  }
  if (crossed.size + crowded.size === 0) return () => false;
  const crowns = new Set(
    bars.flatMap((bar) => (bar && crossed.has(bar.farNumber) ? [barName(bar.bar)] : [])),
  );
  const pieces = new Set(
    links.flatMap(({ side, joint, from, to }) =>
      crowded.has(`${side} ${joint}`) ? [`${side} ${barName(from)}–${barName(to)}`] : [],
    ),
  );
  return ({ side, bars: names }) =>
    (side === 'far' && names.every((name) => crowns.has(name))) ||
    names.some((name) => pieces.has(`${side} ${name}`));
}
