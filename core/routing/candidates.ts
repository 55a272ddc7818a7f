import type { Steps } from '../figures/steps.ts';
import type { Path, Winding } from '../winding/model.ts';
import { canPolish, polish } from './bars/polish.ts';
import {
  firstStrands,
  laidPaths,
  leastMeasure,
  measureNodes,
  measureStrands,
  measuringOf,
} from './measure.ts';
import { closestShifts } from './phases.ts';
import type { FoundRoute, RouteOptions } from './question.ts';
import type { RouteMeasure, RouteRanking, RouteWish } from './ranking.ts';
import { amountOf, compareMeasures, rankingOf, routeWishes, tipsFit } from './ranking.ts';
import type { Strand } from './units/units.ts';

/** Another connection of the same winding, with what it has of everything that may be wished for. */
export interface RouteCandidate {
  readonly paths: readonly Path[];
  /** Counts of one phase; levels of all. */
  readonly measure: RouteMeasure;
}

/** Most candidates, the chosen connection among them. */
export const mostCandidates = 12;

/** What each further search looks for first. */
const searches: readonly (readonly RouteWish[])[] = [
  ['pieces', 'shapes'],
  ['joints'],
  ['pieces', 'legs-apart'],
  ['pieces', 'voltage'],
  ['pieces', 'bar-shapes'],
  ['pieces', 'copper'],
  ['pieces', 'window'],
];

const nodesPerSearch = 12_000;

/** All that counts is measured, whatever is wished for. */
const allWishes = [...routeWishes];

interface Met {
  readonly strands: readonly Strand[];
  readonly measure: RouteMeasure;
}

/**
 * The chosen connection and others of the same kind that are better than it in something, none of them
 * worse in all than another: at most `mostCandidates`, the chosen one first. Only the chosen one where the
 * phases are not all connected alike or the phase is too large to search. Deterministic; yields to give way.
 */
export function* candidateSteps(
  winding: Winding,
  options: RouteOptions,
  chosen: FoundRoute,
): Steps<readonly RouteCandidate[]> {
  const { explanation, bends } = chosen;
  const shifts = closestShifts(winding);
  const turns = shifts.filter((shift) => shift !== null);
  const counted = { wishes: allWishes, limits: options.limits ?? [] };
  const measuring = measuringOf(winding, bends, options, turns, counted);
  const strands = firstStrands(chosen.paths);
  const first: Met = { strands, measure: measureStrands(measuring, strands) };
  if (turns.length < shifts.length || !canPolish(winding))
    return [{ paths: chosen.paths, measure: first.measure }];
  const { strict, specials } = explanation;
  const wanted = rankingOf(options);
  const front: Met[] = [first];
  for (const wishes of searches) {
    const ranking: RouteRanking = { ...wanted, wishes, limits: [] };
    yield* polish({
      winding,
      bends,
      phase: 0,
      paths: options.paths,
      strict,
      specials,
      start: strands,
      ranking,
      measure: (others) => measureStrands(measuring, others),
      atLeast: (others) => leastMeasure(measuring, others),
      alike: turns.length,
      nodes: nodesPerSearch,
      measureNodes: measureNodes(measuring),
      met: (others, measure) => {
        if (tipsFit(measure, wanted)) addToFront(front, { strands: others, measure });
      },
    });
  }
  const others = front.filter((met) => met !== first);
  const kept = spread(others, wanted).sort((a, b) => compareMeasures(a.measure, b.measure, wanted));
  const clear: RouteCandidate[] = [];
  for (const met of kept) {
    const paths = laidPaths(measuring, met.strands);
    // What runs into each other is no choice.
    const contacts = options.contacts && (yield* options.contacts.of(paths));
    yield;
    if (!contacts || contacts.colliding === 0) clear.push({ paths, measure: met.measure });
  }
  return [{ paths: chosen.paths, measure: first.measure }, ...clear];
}

/** Whether the first has nothing more than the second of what may be wished for. */
function coversAll(first: RouteMeasure, second: RouteMeasure): boolean {
  return routeWishes.every((wish) => amountOf(first, wish) <= amountOf(second, wish) + 1e-3);
}

/** Adds a connection unless one of the front has nothing more; drops those that have nothing less. */
function addToFront(front: Met[], met: Met): void {
  if (front.some(({ measure }) => coversAll(measure, met.measure))) return;
  // The chosen connection, the first, always stays.
  for (let index = front.length - 1; index > 0; index--)
    if (coversAll(met.measure, front[index]!.measure)) front.splice(index, 1);
  front.push(met);
}

/** At most as many as are shown: the best of each wish, then the best by the ranking. */
function spread(met: readonly Met[], ranking: RouteRanking): Met[] {
  const most = mostCandidates - 1;
  const kept = new Set<Met>();
  const bestBy = (compare: (a: Met, b: Met) => number) =>
    met.filter((each) => !kept.has(each)).sort(compare)[0];
  for (const wish of routeWishes) {
    const best = bestBy((a, b) => compareMeasures(a.measure, b.measure, { ...ranking, wishes: [wish] }));
    if (best && kept.size < most) kept.add(best);
  }
  while (kept.size < Math.min(most, met.length)) {
    const best = bestBy((a, b) => compareMeasures(a.measure, b.measure, ranking));
    if (best) kept.add(best);
  }
  return [...kept];
}
