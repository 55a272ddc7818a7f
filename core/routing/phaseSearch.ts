import { dividesUnits } from '../analysis/unitShares.ts';
import type { Steps } from '../figures/steps.ts';
import type { Bends } from '../winding/joints/bends.ts';
import type { Winding } from '../winding/model.ts';
import type { SpecialsPlace } from './bars/jointTable.ts';
import { canPolish, type PolishRequest, type PolishResult, polish } from './bars/polish.ts';
import type { RouteMeasure, RouteRanking, RouteWish } from './ranking.ts';
import { compareMeasures, jointsFirst, limitExcess, tipsFit } from './ranking.ts';
import type { PhaseTask } from './refusal.ts';
import { allottedStrands } from './units/allot.ts';
import { coverUnits } from './units/tooth.ts';
import type { Strand } from './units/units.ts';
import type { RouteBounds } from './wave/bounds.ts';
import { waveBounds } from './wave/bounds.ts';
import { crownHelix, crownRounds } from './wave/crownHelix.ts';
import { type RouteChoice, type RouteTrial, searchWave } from './wave/search.ts';
import { waveLoops } from './wave/wave.ts';

/** One phase to be routed, and how routings of it are judged. */
export interface PhaseRequest {
  readonly winding: Winding;
  readonly bends: Bends;
  /** Index of the phase, from 0. */
  readonly phase: number;
  readonly strict: boolean;
  readonly specials: SpecialsPlace;
  /** Its units of regular crowns; null where it has none that balance. */
  readonly task: PhaseTask | null;
  readonly ranking: RouteRanking;
  readonly measure: (strands: readonly Strand[]) => RouteMeasure;
  /** What that finds at least of everything, told more quickly. */
  readonly atLeast: (strands: readonly Strand[]) => RouteMeasure;
  /** How many phases are laid as this one. */
  readonly alike: number;
  /** What it costs to measure strands, in search nodes. */
  readonly measureNodes: number;
  /** Parallel paths of the phase. */
  readonly paths: number;
  /** Steps of all searches together. */
  readonly nodeBudget: number;
}

export interface PhaseRoute {
  readonly strands: readonly Strand[];
  readonly measure: RouteMeasure;
  /** Of routings with regular crowns; null where none are known or special spans lie elsewhere. */
  readonly bounds: RouteBounds | null;
  readonly trials: readonly RouteTrial[];
  /** Counts of a routing that exhaustive search proved to be the smallest; null without such a search. */
  readonly least: Pick<RouteMeasure, 'jumpers' | 'specialJoints'> | null;
}

/** Routes a phase; null where special crowns are needed and nothing was met within the budget. */
export function* routePhase(request: PhaseRequest): Steps<PhaseRoute | null> {
  const { task, specials, ranking } = request;
  // What limits need that are exceeded is mostly found by exchanging: half of the budget is kept for that.
  const nodeBudget = ranking.leading.length > 0 ? request.nodeBudget >> 1 : request.nodeBudget;
  const regular = task ? yield* routeUnits({ ...request, nodeBudget }, task) : null;
  const joined = specials === 'joined';
  if (joined && regular && !worthExchanging(regular, ranking, request.paths)) return regular;
  if (!canPolish(request.winding)) return joined ? regular : null;
  const spent = regular?.trials.reduce((sum, trial) => sum + trial.nodes, 0) ?? 0;
  const { best, nodes, exhausted } = yield* polishWithin({
    ...request,
    start: (specials === 'crowns' ? yield* crownStart(request) : null) ?? regular?.strands ?? null,
    nodes: Math.max(0, request.nodeBudget - spent),
  });
  const trial: RouteTrial = { method: 'exchange', nodes, found: best?.measure ?? null, exhausted };
  if (joined) {
    if (!regular) return null;
    const better = best && compareMeasures(best.measure, regular.measure, ranking) < 0;
    return { ...regular, ...(better ? best : {}), trials: [...regular.trials, trial] };
  }
  if (!best) return null;
  return { ...best, bounds: null, trials: [trial], least: null };
}

/**
 * Improves a connection. Where limits are exceeded, what they need is looked for once before all else and once
 * behind what is wished for, because either may miss the best that meets them.
 */
function* polishWithin(request: PolishRequest): Steps<PolishResult> {
  const { wishes, leading } = request.ranking;
  if (leading.length === 0) return yield* polish(request);
  const after = (first: readonly RouteWish[], then: readonly RouteWish[]) => [
    ...first,
    ...then.filter((wish) => !first.includes(wish)),
  ];
  const orders = [after(wishes.length > 0 ? wishes : ['pieces'], leading), after(leading, wishes)];
  const share = Math.floor(request.nodes / 3);
  const first = yield* polish({ ...request, nodes: share });
  if (first.exhausted) return first;
  let { best, nodes } = first;
  for (const order of orders) {
    const ranking: RouteRanking = { ...request.ranking, wishes: order, leading: [], limits: [] };
    const met = (strands: readonly Strand[], measure: RouteMeasure) => {
      if (!best || compareMeasures(measure, best.measure, request.ranking) < 0) best = { strands, measure };
    };
    nodes += (yield* polish({ ...request, ranking, nodes: Math.floor(1.2 * share), met })).nodes;
  }
  return { best, nodes, exhausted: false };
}

/** Bars in an order with few special crowns and all other joints regular; null where none is known. */
function* crownStart(request: PhaseRequest): Steps<readonly Strand[] | null> {
  const { winding, bends, task, paths, strict } = request;
  const wave = task && waveLoops(winding, bends, task.units, task.content.classes);
  return wave && ((yield* crownHelix(wave, paths)) ?? (strict ? null : yield* crownRounds(wave, paths)));
}

/**
 * Whether exchanging stretches may lead to a better routing than one with regular crowns. With an even number of
 * paths, no more pieces than there must be and all searches at their end it does not: in 216 of 216 machines tried
 * it found no fewer shapes or levels.
 */
function worthExchanging(
  { measure, bounds, least, trials }: PhaseRoute,
  ranking: RouteRanking,
  paths: number,
): boolean {
  if (!tipsFit(measure, ranking) || limitExcess(measure, ranking.limits) > 0) return true;
  const wished = ranking.wishes;
  const settled =
    paths % 2 === 0 && measure.jumpers === bounds?.jumpers && trials.every(({ exhausted }) => exhausted);
  const counts = jointsFirst(ranking)
    ? ['joints', 'pieces']
    : ['pieces', ...(settled ? [] : ['levels', 'shapes'])];
  return [...wished, ...counts].some((criterion) => {
    switch (criterion) {
      case 'pieces':
        return measure.jumpers > (bounds?.jumpers ?? least?.jumpers ?? 0);
      case 'levels':
        return measure.jumpers > 1 && measure.levels > 1;
      case 'shapes':
        return measure.jointShapes > (bounds?.jointShapes ?? 0);
      case 'joints':
        return measure.specialJoints > (bounds?.specialJoints ?? least?.specialJoints ?? 0);
      case 'legs-apart':
        return measure.legsBentApart > 0;
      default:
        return true;
    }
  });
}

/** Routes the units of regular crowns. */
function* routeUnits(request: PhaseRequest, task: PhaseTask): Steps<PhaseRoute> {
  const { winding, bends, ranking, measure, paths, nodeBudget } = request;
  const { units, content } = task;
  // Searches deal units class by class; where that does not go, units are allotted, and exchanged afterwards.
  const byClass = dividesUnits(content.like, paths, content.strict);
  const wave = byClass ? waveLoops(winding, bends, units, content.classes) : null;
  const bounds = wave && waveBounds(wave, content, paths);
  yield;
  const trials: RouteTrial[] = [];
  let choice: RouteChoice | null = null;
  let exact = false;
  if (wave) {
    const search = yield* searchWave({ wave, content, paths, bounds: bounds!, ranking, measure, nodeBudget });
    choice = search.best;
    trials.push(...search.trials);
  } else if (byClass) {
    const fits = (strands: readonly Strand[]) => tipsFit(measure(strands), ranking);
    const cover = yield* coverUnits({ winding, bends, units, content, paths, fits, nodeBudget });
    const { strands } = cover;
    if (strands) choice = { strands, measure: measure(strands) };
    exact = strands !== null && cover.exact;
    const found = choice?.measure ?? null;
    trials.push({ method: 'units', nodes: cover.nodes, found, exhausted: exact });
  }
  if (!choice) {
    const strands = yield* allottedStrands(winding, bends, units, content, paths);
    if (!strands) throw new RangeError(`no allotment of ${units.length} units to ${paths} paths`);
    choice = { strands, measure: measure(strands) };
    trials.push({ method: 'allotment', nodes: 0, found: choice.measure, exhausted: false });
  }
  return { ...choice, bounds, trials, least: exact ? choice.measure : null };
}
