import { plainSlot, slotLeakageSplit } from '../balance/slotLeakage.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { requireInteger } from '../winding/integers.ts';
import { type TipSizes, withoutSizes } from '../winding/joints/tips.ts';
import type { EndSide, Winding } from '../winding/model.ts';
import { layersDiffer, needsStrictBalance } from '../winding/strictBalance.ts';
import { type RankedSearch, routeBalanced, type Seen } from './balanced.ts';
import { keepApart } from './keepApart.ts';
import { type MeasuredTips, measuringOf } from './measure.ts';
import { closestShifts } from './phases.ts';
import type { RouteExplanation, RouteOptions, RouteResult } from './question.ts';
import {
  compareMeasures,
  exceededLimits,
  isSmaller,
  limitExcess,
  measuredFor,
  type RouteWish,
  rankingOf,
  wishFor,
} from './ranking.ts';
import { withinLimits } from './withinLimits.ts';

export type { SpecialsPlace } from './bars/jointTable.ts';
export type { PhaseConnection } from './phases.ts';
export type { EndContacts, LimitJudge, RouteExplanation, RouteOptions, RouteResult } from './question.ts';
export type { ExceededLimit, RouteLimit, RouteMeasure, RouteWish } from './ranking.ts';
export { limitedQuantities, routeWishes } from './ranking.ts';
export type { RouteRefusal } from './refusal.ts';
export { possibleParallelPaths } from './refusal.ts';
export type { DivisorCondition } from './units/units.ts';
export type { RouteTrial } from './wave/search.ts';

/** Runs `routeSteps` to its end. */
export function route(winding: Winding, options: RouteOptions): RouteResult {
  return finished(routeSteps(winding, options));
}

/**
 * Finds balanced parallel paths for every phase of a winding's slot table. A generator, so that the
 * caller decides when to give way or to stop: it yields after each slice of at most some milliseconds.
 * Where the best connection exceeds limits it searches once more for one that meets them all. Where the
 * sizes of the bar ends are not given, a connection whose legs would have to pass above joints is taken if
 * it has fewer pieces, joints or shapes than one that keeps them beside.
 * Deterministic: the same winding and options give the same paths. Throws RangeError for counts that
 * are no positive integers.
 */
export function* routeSteps(winding: Winding, options: RouteOptions): Steps<RouteResult> {
  return yield* settleSteps(winding, options, yield* searchSteps(winding, options));
}

/** The first half of `routeSteps`: the best connection as far as counts and joint tips go; tells what tips it measured. */
export function* searchSteps(
  winding: Winding,
  options: RouteOptions,
  tips: MeasuredTips[] = [],
): Steps<RouteResult> {
  requireInteger('paths', options.paths, 1);
  requireInteger('nodeBudget', options.nodeBudget ?? 1, 0);
  return yield* routeSmallest(winding, options, { crossing: false, tips });
}

/** The second half: the same connection or another, by what depends on all sizes and on the whole winding. */
export function* settleSteps(
  winding: Winding,
  options: RouteOptions,
  found: RouteResult,
): Steps<RouteResult> {
  if (!found.ok) return found;
  const ranking = rankingOf(options);
  const turns = closestShifts(winding).filter((shift) => shift !== null);
  const measuring = measuringOf(winding, found.bends, options, turns, measuredFor(ranking));
  const apart = yield* keepApart(options, ranking, measuring, found);
  return yield* withinLimits(winding, options, apart);
}

/** The best connection as far as counts and joint tips go. */
function* routeSmallest(winding: Winding, options: RouteOptions, seen: Seen): Steps<RouteResult> {
  const found = yield* routeLimited(winding, options, seen);
  if (endsKnown(options) || !found.ok || isBest(found.explanation) || !seen.crossing) return found;
  // Whether legs cross depends on heights that nobody has given: what can be built with high joints counts too.
  const high = { ...options, tipSizes: legsPassing(winding, options) };
  const passing = yield* routeLimited(winding, high, { crossing: false, tips: [] });
  if (!passing.ok) return found;
  return isSmaller(passing.explanation.measure, found.explanation.measure, rankingOf(options))
    ? passing
    : found;
}

/** Whether the sizes of bar ends are known, and with them which legs pass above which joints. */
export function endsKnown({ tipSizes }: RouteOptions): boolean {
  return tipSizes !== undefined && tipSizes.connection.between !== null;
}

/** Joints so low that legs pass above all of them. */
function legsPassing(winding: Winding, { tipSizes }: RouteOptions): Readonly<Record<EndSide, TipSizes>> {
  const heights = Array.from({ length: winding.layers }, () => ({ rise: 1, straight: 0 }));
  const { connection, far } = tipSizes ?? { connection: withoutSizes, far: withoutSizes };
  return { connection: { ...connection, heights }, far: { ...far, heights } };
}

/** Whether nothing can have fewer pieces, special joints or shapes, and nothing else is wished for. */
function isBest({ wishes, tipsFit: fits, measure, proved }: RouteExplanation): boolean {
  if (wishes.some((wish) => !countedWishes.includes(wish))) return false;
  const least = (count: number, name: RouteExplanation['proved'][number]) =>
    count === 0 || proved.includes(name);
  return (
    fits &&
    least(measure.jumpers, 'jumpers') &&
    least(measure.specialJoints, 'special-joints') &&
    least(measure.jointShapes, 'joint-shapes')
  );
}

/** Wishes that are met by the fewest of what is proved. */
const countedWishes: readonly RouteWish[] = ['pieces', 'joints', 'shapes'];

/** The best connection, and where it exceeds limits the best that meets them, if one is found. */
function* routeLimited(winding: Winding, options: RouteOptions, seen: Seen): Steps<RouteResult> {
  const limits = options.limits ?? [];
  const ranking = rankingOf(options);
  const asked = { winding, options, seen };
  const free = yield* routeRanked({ ...asked, ranking: { ...ranking, limits: [] } });
  if (!free.ok) return free;
  const exceeded = exceededLimits(free.explanation.measure, limits);
  if (exceeded.length === 0) return free;
  const leading = exceeded.flatMap((limit) => wishFor(limit) ?? []);
  const steered = yield* routeRanked({ ...asked, ranking: { ...ranking, leading } });
  if (!steered.ok || limitExcess(steered.explanation.measure, limits) > 0) return free;
  if (free.explanation.tipsFit && !steered.explanation.tipsFit) return free;
  return { ...steered, explanation: { ...steered.explanation, limitsDecided: exceeded } };
}

/** The best by a ranking. */
function* routeRanked(search: RankedSearch): Steps<RouteResult> {
  const { winding, options, ranking } = search;
  const strict = needsStrictBalance(winding);
  const most = options.deviation ?? null;
  if (!strict || most === null || layersDiffer(winding)) return yield* routeBalanced({ ...search, strict });
  const even = yield* routeBalanced({ ...search, strict: true });
  const uneven = yield* routeBalanced({ ...search, strict: false });
  if (!uneven.ok) return even;
  const deviation =
    slotLeakageSplit(winding, uneven.paths, plainSlot(winding, options.gap ?? 'inner'))?.deviation ??
    Number.POSITIVE_INFINITY;
  if (deviation > most) return even;
  const better =
    !even.ok || compareMeasures(uneven.explanation.measure, even.explanation.measure, ranking) < 0;
  return better ? { ...uneven, explanation: { ...uneven.explanation, deviation } } : even;
}
