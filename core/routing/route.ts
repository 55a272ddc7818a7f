import { plainSlot, slotLeakageSplit } from '../balance/slotLeakage.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { defaultOf } from '../language/specification/defaults.ts';
import { connectStatements } from '../language/vocabulary/blocks/winding.ts';
import { requireInteger } from '../winding/integers.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { regularBends } from '../winding/joints/bends.ts';
import { type TipSizes, withoutSizes } from '../winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../winding/model.ts';
import { layersDiffer, needsStrictBalance } from '../winding/strictBalance.ts';
import { keepApart } from './keepApart.ts';
import { leastMeasure, type Measuring, measureNodes, measureStrands, measuringOf } from './measure.ts';
import { type PhaseRoute, routePhase } from './phaseSearch.ts';
import { closestShifts, pathsOfPhase, terminalWindow } from './phases.ts';
import type { RouteExplanation, RouteOptions, RouteResult } from './question.ts';
import type { RouteLimit, RouteMeasure, RouteRanking, RouteWish } from './ranking.ts';
import {
  amountOf,
  compareMeasures,
  limitExcess,
  limitedAmount,
  meetsLimit,
  rankingOf,
  rankingOrder,
  searchedFor,
  tipsFit,
  wishFor,
} from './ranking.ts';
import type { PhaseTask, RouteRefusal } from './refusal.ts';
import { anyCrownsRefusal, dividesRefusal, layoutRefusal, phaseTask } from './refusal.ts';
import type { Strand } from './units/units.ts';
import { withinLimits } from './withinLimits.ts';

export type { SpecialsPlace } from './bars/jointTable.ts';
export type { PhaseConnection } from './phases.ts';
export type {
  EndContacts,
  ExceededLimit,
  LimitJudge,
  RouteExplanation,
  RouteOptions,
  RouteResult,
} from './question.ts';
export type { RouteLimit, RouteMeasure, RouteWish } from './ranking.ts';
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
  requireInteger('paths', options.paths, 1);
  requireInteger('nodeBudget', options.nodeBudget ?? 1, 0);
  const found = yield* routeSmallest(winding, options);
  if (!found.ok) return found;
  const ranking = rankingOf(options);
  const turns = closestShifts(winding).filter((shift) => shift !== null);
  const measuring = measuringOf(winding, found.bends, options, turns, countedBy(ranking));
  const apart = yield* keepApart(options, ranking, measuring, found);
  return yield* withinLimits(winding, options, apart);
}

/** What a search has met: whether legs crossed in any connection, without which heights rule nothing out. */
interface Seen {
  crossing: boolean;
}

/** The best connection as far as counts and joint tips go. */
function* routeSmallest(winding: Winding, options: RouteOptions): Steps<RouteResult> {
  const seen: Seen = { crossing: false };
  const found = yield* routeLimited(winding, options, seen);
  if (endsKnown(options) || !found.ok || isBest(found.explanation) || !seen.crossing) return found;
  // Whether legs cross depends on heights that nobody has given: what can be built with high joints counts too.
  const high = { ...options, tipSizes: legsPassing(winding, options) };
  const passing = yield* routeLimited(winding, high, { crossing: false });
  if (!passing.ok) return found;
  return isSmaller(passing.explanation.measure, found.explanation.measure, rankingOf(options))
    ? passing
    : found;
}

/** Whether a routing is the better one by limits, wishes and counts, whatever their tips, copper and starts. */
function isSmaller(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): boolean {
  const excess = limitExcess(a, ranking.limits) - limitExcess(b, ranking.limits);
  if (Math.abs(excess) > rounding) return excess < 0;
  const left = ['tips', 'copper', 'window'].filter((each) => !ranking.wishes.some((wish) => wish === each));
  for (const criterion of rankingOrder(ranking)) {
    const difference = left.includes(criterion) ? 0 : amountOf(a, criterion) - amountOf(b, criterion);
    if (Math.abs(difference) > rounding) return difference < 0;
  }
  return false;
}

const rounding = 1e-6;

/** Whether the sizes of bar ends are known, and with them which legs pass above which joints. */
function endsKnown({ tipSizes }: RouteOptions): boolean {
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
  const asked = { winding, options, limits, seen };
  const free = yield* routeRanked({ ...asked, ranking: { ...ranking, limits: [] } });
  if (!free.ok) return free;
  const exceeded = limits.filter((limit) => !meetsLimit(free.explanation.measure, limit));
  if (exceeded.length === 0) return free;
  const leading = exceeded.flatMap((limit) => wishFor(limit) ?? []);
  const steered = yield* routeRanked({ ...asked, ranking: { ...ranking, leading } });
  if (!steered.ok || limitExcess(steered.explanation.measure, limits) > 0) return free;
  if (free.explanation.tipsFit && !steered.explanation.tipsFit) return free;
  const limitsDecided = exceeded.map(({ quantity }) => ({
    quantity,
    otherwise: limitedAmount(free.explanation.measure, quantity),
  }));
  return { ...steered, explanation: { ...steered.explanation, limitsDecided } };
}

/** What the best by a ranking is sought for. */
interface RankedSearch {
  readonly winding: Winding;
  readonly options: RouteOptions;
  readonly ranking: RouteRanking;
  /** Measured, whether they rank or not. */
  readonly limits: readonly RouteLimit[];
  readonly seen: Seen;
}

/** The best by a ranking. */
function* routeRanked(search: RankedSearch): Steps<RouteResult> {
  const { winding, options, ranking } = search;
  const strict = needsStrictBalance(winding);
  if (!strict || options.deviation === undefined || layersDiffer(winding))
    return yield* routeBalanced({ ...search, strict });
  const even = yield* routeBalanced({ ...search, strict: true });
  const uneven = yield* routeBalanced({ ...search, strict: false });
  if (!uneven.ok) return even;
  const deviation =
    slotLeakageSplit(winding, uneven.paths, plainSlot(winding, options.gap ?? 'inner'))?.deviation ??
    Number.POSITIVE_INFINITY;
  if (deviation > options.deviation) return even;
  const better =
    !even.ok || compareMeasures(uneven.explanation.measure, even.explanation.measure, ranking) < 0;
  return better ? { ...uneven, explanation: { ...uneven.explanation, deviation } } : even;
}

/** Paths that agree in every cell where `strict`, else in angles and in layers. */
function* routeBalanced({
  winding,
  options,
  ranking,
  limits,
  seen,
  strict,
}: RankedSearch & { readonly strict: boolean }): Steps<RouteResult> {
  const bends = regularBends(winding);
  const tasks = yield* regularTasks(winding, bends, options.paths, strict);
  const plan = classOf(winding, bends, options, tasks);
  if ('kind' in plan) return { ok: false, reason: plan };

  const shifts = closestShifts(winding);
  const connection = options.connection ?? 'star';
  const routed: PhaseRoute[] = [];
  const paths: Path[] = [];
  for (let phase = 0; phase < shifts.length; phase++) {
    const shift = shifts[phase];
    const own = phase === 0 || shift == null;
    if (own) {
      const together = phase === 0 ? shifts.filter((other) => other !== null) : [0];
      const measuring = measuringOf(winding, bends, options, together, countedBy(ranking));
      const found = yield* routePhase({
        winding,
        bends,
        phase,
        strict,
        specials: plan.specials,
        task: 'kind' in tasks ? null : tasks[phase]!,
        ranking,
        measure: (strands: readonly Strand[]) => {
          const measure = measureStrands(measuring, strands);
          seen.crossing ||= measure.crossings > 0;
          return measure;
        },
        atLeast: (strands: readonly Strand[]) => leastMeasure(measuring, strands),
        alike: together.length,
        measureNodes: measureNodes(measuring),
        paths: options.paths,
        nodeBudget: options.nodeBudget ?? 400_000,
      });
      if (!found) return { ok: false, reason: { kind: 'none-met', specials: plan.specials } };
      const measure =
        limits.length === 0 ? found.measure : measureStrands({ ...measuring, limits }, found.strands);
      routed.push({ ...found, measure });
    }
    yield;
    const { strands } = own ? routed.at(-1)! : routed[0]!;
    paths.push(...pathsOfPhase(winding, bends, phase, strands, own ? 0 : shift, connection));
  }
  const explanation: RouteExplanation = {
    wishes: ranking.wishes,
    ...plan,
    strict,
    deviation: null,
    limitsDecided: [],
    terminalWindow: terminalWindow(winding, paths),
    ...worstOf(routed, ranking),
  };
  return { ok: true, paths, bends, explanation };
}

/** What is searched for and ranked by counts where it has to be measured. */
function countedBy(ranking: RouteRanking): Pick<Measuring, 'wishes' | 'limits'> {
  return { wishes: searchedFor(ranking), limits: ranking.limits };
}

/** What is told of the worst of the phases that were routed. */
function worstOf(
  routed: readonly PhaseRoute[],
  ranking: RouteRanking,
): Pick<RouteExplanation, 'measure' | 'tipsFit' | 'bounds' | 'proved' | 'tried'> {
  const worst = routed.reduce((a, b) => (compareMeasures(b.measure, a.measure, ranking) > 0 ? b : a));
  return {
    measure: worst.measure,
    tipsFit: tipsFit(worst.measure, ranking),
    bounds: worst.bounds,
    proved: provedCounts(worst),
    tried: worst.trials,
  };
}

/** All phases as units of regular crowns, or why balanced paths cannot be made of them. */
function* regularTasks(
  winding: Winding,
  bends: Bends,
  paths: number,
  strict: boolean,
): Steps<readonly PhaseTask[] | RouteRefusal> {
  const refusal = layoutRefusal(winding, bends);
  if (refusal) return refusal;
  const tasks: PhaseTask[] = [];
  for (let phase = 0; phase < winding.phases.names.length; phase++) {
    yield;
    const task = phaseTask(winding, bends, phase, strict);
    if ('kind' in task) return task;
    tasks.push(task);
  }
  return dividesRefusal(tasks, paths, strict) ?? tasks;
}

/** Where special spans lie: as asked for, else in the joined legs, else, where that is impossible, on either side. */
function classOf(
  winding: Winding,
  bends: Bends,
  { paths, specials }: RouteOptions,
  tasks: readonly PhaseTask[] | RouteRefusal,
): Pick<RouteExplanation, 'specials' | 'crownsNeeded'> | RouteRefusal {
  if (!('kind' in tasks))
    return { specials: specials ?? defaultOf(connectStatements.specials), crownsNeeded: false };
  if (specials === 'joined' || tasks.kind === 'phase-without-bars') return tasks;
  // Without a nominal span nothing tells which spans are special.
  if (layoutRefusal(winding, bends)) return tasks;
  const refusal = anyCrownsRefusal(winding, paths);
  if (refusal) return specials ? refusal : tasks;
  return { specials: specials ?? 'either', crownsNeeded: specials === undefined };
}

function provedCounts({ measure, bounds, least }: PhaseRoute): RouteExplanation['proved'] {
  const proved: ('jumpers' | 'special-joints' | 'joint-shapes')[] = [];
  const jumpers = bounds?.jumpers ?? least?.jumpers ?? 0;
  const joints = bounds?.specialJoints ?? least?.specialJoints ?? 0;
  if (measure.jumpers === jumpers) proved.push('jumpers');
  if (measure.specialJoints === joints) proved.push('special-joints');
  if (measure.jumpers === jumpers && measure.jointShapes === (bounds?.jointShapes ?? 0))
    proved.push('joint-shapes');
  return proved;
}
