import type { Steps } from '../../figures/steps.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Winding } from '../../winding/model.ts';
import type { Criterion, RouteLimit, RouteMeasure, RouteRanking } from '../ranking.ts';
import { compareMeasures, excessOf, limitExcess, rankingOrder, tipsFit } from '../ranking.ts';
import type { Strand } from '../units/units.ts';
import { exhaust } from './exhaust.ts';
import type { OrderCounts } from './improve.ts';
import { improve, jointWeights } from './improve.ts';
import type { JointTable, SpecialsPlace } from './jointTable.ts';
import { jointTable } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { dealtOrder, isMade, orderOfStrands, strandsOfOrder } from './order.ts';
import type { PhaseBars } from './phaseBars.ts';
import { barsOfPhase } from './phaseBars.ts';
import { weightsOf } from './weights.ts';

/** A phase whose connection is to be improved, or found where there is none to begin with. */
export interface PolishRequest {
  readonly winding: Winding;
  readonly bends: Bends;
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Parallel paths of the phase. */
  readonly paths: number;
  readonly strict: boolean;
  readonly specials: SpecialsPlace;
  /** A balanced connection to begin with; null where bars are to be dealt out. */
  readonly start: readonly Strand[] | null;
  readonly ranking: RouteRanking;
  readonly measure: (strands: readonly Strand[]) => RouteMeasure;
  /** What that finds at least of everything, told more quickly. */
  readonly atLeast: (strands: readonly Strand[]) => RouteMeasure;
  /** How many phases are laid as this one. */
  readonly alike: number;
  /** Steps that may be taken. */
  readonly nodes: number;
  /** What it costs to measure a connection, in search nodes. */
  readonly measureNodes: number;
  /** Told of every connection that was measured. */
  readonly met?: (strands: readonly Strand[], measure: RouteMeasure) => void;
}

export interface PolishResult {
  /** The best connection with special spans where they may lie; null where none was found. */
  readonly best: { readonly strands: readonly Strand[]; readonly measure: RouteMeasure } | null;
  /** Steps that were taken. */
  readonly nodes: number;
  /** All connections were gone through: there is none better than the best. */
  readonly exhausted: boolean;
}

// The search keeps numbers for each bar and looks along whole paths: larger phases keep what they have.
const mostBars = 1200;
const mostTableEntries = 2_000_000;
/** How much dearer a connection may become at the start of each round: widely, then near the best. */
const heats = [20, 6] as const;
/** Most steps of the rounds together; further ones begin at the best by then, by other chances. */
const mostRoundNodes = [240_000, 160_000] as const;
const leastRoundNodes = 2000;
const hotFromDeal = 60;
const exchangeSeed = 20_260_501;
const dealSteps = 200_000;
/** Most steps of going through all connections of a small phase, before stretches are exchanged. */
const mostExhaustNodes = 30_000;

/** The best connection so far, as the search holds it. */
interface Known {
  readonly strands: readonly Strand[];
  readonly measure: RouteMeasure;
  readonly order: BarOrder;
  readonly counts: OrderCounts;
}

/** Whether a phase is small enough to be improved. */
export function canPolish({ slots, layers, table, phases }: Winding): boolean {
  const bars = table.cells.length / phases.names.length;
  return bars <= mostBars && 2 * layers * layers * slots <= mostTableEntries;
}

/** Improves a phase's connection in some rounds, each from the best so far. Yields to give way. */
export function* polish(request: PolishRequest): Steps<PolishResult> {
  const { winding, bends, ranking, specials, paths } = request;
  const bars = barsOfPhase(winding, request.phase, request.strict);
  const table = jointTable(winding, bends, specials);
  yield;
  const given = request.start && orderOfStrands(bars, table, request.start);
  const start = given ?? dealtOrder(bars, table, paths, request.strict, { steps: dealSteps });
  if (!start) return { best: null, nodes: 0, exhausted: false };
  yield;
  const weights = weightsOf(winding, bars, table, ranking);
  const joints = jointWeights(table, weights);
  const small = given && !request.met ? yield* goThrough(request, bars, table, given) : null;
  if (small?.best) return { ...small, exhausted: true };
  let nodes = small?.nodes ?? 0;
  let best: Known | null = null;
  const consider = (order: BarOrder, counts: OrderCounts): number => {
    const strands = strandsOfOrder(bars, table, order);
    // It costs the same steps whether it has to be measured or is worse at best, so that what is found stays the same.
    const worse = (measure: RouteMeasure) =>
      best !== null && compareMeasures(measure, best.measure, ranking) >= 0;
    if (!request.met && worse(request.atLeast(strands))) return request.measureNodes;
    const measure = request.measure(strands);
    request.met?.(strands, measure);
    if (worse(measure)) return request.measureNodes;
    const copy = { bars: order.bars.slice(), length: order.length };
    best = { strands, measure, order: copy, counts };
    return request.measureNodes;
  };
  const near: CountRanking = { limits: ranking.limits, criteria: rankingOrder(ranking) };
  const farFromLimits: CountRanking = { limits: ranking.limits, criteria: ['measured', ...near.criteria] };
  const promising = (counts: OrderCounts): boolean => {
    if (!best) return true;
    if (!tipsFit(best.measure, ranking)) {
      // Where pieces or leads collide, what is as good.
      const asGood = best.measure.colliding > 0;
      return !asGood || !isLess(best.counts, counts, near);
    }
    return isLess(counts, best.counts, limitExcess(best.measure, ranking.limits) > 0 ? farFromLimits : near);
  };
  for (const [turn, most] of mostRoundNodes.entries()) {
    const left = Math.min(most, Math.max(0, request.nodes - nodes));
    if (turn > 0 && left < leastRoundNodes) break;
    for (const heat of heats) {
      const known = best as Known | null;
      nodes += yield* improve({
        bars,
        table,
        weights,
        joints,
        start: known?.order ?? start,
        nodes: Math.floor(left / heats.length),
        seed: exchangeSeed + turn,
        farFree: specials !== 'joined',
        consider,
        promising,
        hot: given ? heat : hotFromDeal,
      });
    }
  }
  return { best, nodes, exhausted: false };
}

/** The best of all connections of a small phase; null where there are too many. */
function* goThrough(
  request: PolishRequest,
  bars: PhaseBars,
  table: JointTable,
  start: BarOrder,
): Steps<Pick<PolishResult, 'best' | 'nodes'> | null> {
  const { paths, ranking, alike, measureNodes } = request;
  if (!isMade(bars, table, start)) return null;
  const measure = (order: BarOrder) => request.measure(strandsOfOrder(bars, table, order));
  const known = { order: start, measure: measure(start) };
  const mostNodes = Math.min(mostExhaustNodes, request.nodes >> 3);
  const task = { bars, table, paths, known, ranking, alike, measure, measureNodes, mostNodes };
  const { all, best, nodes } = yield* exhaust(task);
  if (!all) return { best: null, nodes };
  return { best: { strands: strandsOfOrder(bars, table, best.order), measure: best.measure }, nodes };
}

/** How counts rank, as far as they go: they stand in for what has to be measured. */
interface CountRanking {
  readonly limits: RouteRanking['limits'];
  /** The most important first; while limits are far, that is what leads to those that have to be measured. */
  readonly criteria: readonly CountCriterion[];
}

type CountCriterion = Criterion | 'measured';

/** Whether counts are better by a ranking. */
function isLess(a: OrderCounts, b: OrderCounts, { limits, criteria }: CountRanking): boolean {
  const excess = excessOfCounts(a, limits) - excessOfCounts(b, limits);
  if (Math.abs(excess) > 1e-9) return excess < 0;
  for (const criterion of criteria) {
    const difference = amountOfCounts(a, criterion) - amountOfCounts(b, criterion);
    if (Math.abs(difference) > 1e-9) return difference < 0;
  }
  return false;
}

function excessOfCounts(counts: OrderCounts, limits: RouteRanking['limits']): number {
  return excessOf(limits, (quantity) => countOf(counts, quantity));
}

/** How much the counts have of a criterion. */
function amountOfCounts(counts: OrderCounts, criterion: CountCriterion): number {
  switch (criterion) {
    case 'pieces':
      return counts.pieces;
    case 'levels':
      return counts.pieceSlots;
    case 'shapes':
      return counts.shapes;
    case 'joints':
      return counts.joints;
    case 'legs-apart':
      return counts.legsApart;
    case 'copper':
      return counts.slots;
    case 'tips':
      return 0;
    default:
      return counts.whole;
  }
}

/** A limited quantity by the counts; null where it has to be measured. */
function countOf(counts: OrderCounts, quantity: RouteLimit['quantity']): number | null {
  switch (quantity) {
    case 'jumpers':
      return counts.pieces;
    case 'special-joints':
      return counts.joints;
    case 'joint-shapes':
      return counts.shapes;
    case 'legs-bent-apart':
      return counts.legsApart;
    default:
      return null;
  }
}
