import type { Bends } from '../../winding/joints/bends.ts';
import type { Winding } from '../../winding/model.ts';
import type { RouteLimit, RouteMeasure, RouteRanking } from '../measure.ts';
import { compareMeasures, excessOf, limitExcess, rankingOrder, tipsFit } from '../measure.ts';
import type { Strand } from '../units/units.ts';
import type { OrderCounts } from './improve.ts';
import { improve } from './improve.ts';
import type { SpecialsPlace } from './jointTable.ts';
import { jointTable } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { dealtOrder, orderOfStrands, strandsOfOrder } from './order.ts';
import { barsOfPhase } from './phaseBars.ts';
import { weightsOf } from './weights.ts';

/** A phase whose connection is to be improved, or found where there is none to begin with. */
export interface PolishRequest {
  readonly winding: Winding;
  readonly bends: Bends;
  readonly phase: number;
  readonly paths: number;
  readonly strict: boolean;
  readonly specials: SpecialsPlace;
  /** A balanced connection to begin with; null where bars are to be dealt out. */
  readonly start: readonly Strand[] | null;
  readonly ranking: RouteRanking;
  readonly measure: (strands: readonly Strand[]) => RouteMeasure;
  readonly nodes: number;
  /** What it costs to measure a connection, in search nodes. */
  readonly measureNodes: number;
  /** Told of every connection that was measured. */
  readonly met?: (strands: readonly Strand[], measure: RouteMeasure) => void;
}

export interface PolishResult {
  /** The best connection with special spans where they may lie; null where none was found. */
  readonly best: { readonly strands: readonly Strand[]; readonly measure: RouteMeasure } | null;
  readonly nodes: number;
}

// The search keeps numbers for each bar and looks along whole paths: larger phases keep what they have.
const mostBars = 1200;
const mostTableEntries = 2_000_000;
/** How much dearer a connection may become at the start of each round: widely, then near the best. */
const heats = [20, 6] as const;
const hotFromDeal = 60;
const dealSteps = 200_000;

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
export function* polish(request: PolishRequest): Generator<undefined, PolishResult> {
  const { winding, bends, ranking, specials, paths } = request;
  const bars = barsOfPhase(winding, request.phase, request.strict);
  const table = jointTable(winding, bends, specials);
  yield;
  const given = request.start && orderOfStrands(bars, table, request.start);
  const start = given ?? dealtOrder(bars, table, paths, request.strict, { steps: dealSteps });
  if (!start) return { best: null, nodes: 0 };
  yield;
  const weights = weightsOf(winding, bars, table, ranking);
  let nodes = 0;
  let best: Known | null = null;
  const consider = (order: BarOrder, counts: OrderCounts): number => {
    const strands = strandsOfOrder(bars, table, order);
    const measure = request.measure(strands);
    request.met?.(strands, measure);
    if (best && compareMeasures(measure, best.measure, ranking) >= 0) return request.measureNodes;
    const copy = { bars: order.bars.slice(), length: order.length };
    best = { strands, measure, order: copy, counts };
    return request.measureNodes;
  };
  const promising = (counts: OrderCounts): boolean => {
    if (!best || !tipsFit(best.measure, ranking)) return true;
    const farFromLimits = limitExcess(best.measure, ranking.limits) > 0;
    const rank = (of: OrderCounts) => rankOfCounts(of, ranking, farFromLimits);
    return isLess(rank(counts), rank(best.counts));
  };
  for (const [round, heat] of heats.entries()) {
    const known = best as Known | null;
    nodes += yield* improve({
      bars,
      table,
      weights,
      start: known?.order ?? start,
      nodes: Math.floor(request.nodes / heats.length),
      seed: 20_260_501 + round,
      farFree: specials !== 'joined',
      consider,
      promising,
      hot: given || round > 0 ? heat : hotFromDeal,
    });
  }
  return { best, nodes };
}

/**
 * What the counts tell of the ranking, as far as they go: a stand-in for what has to be measured. While
 * limits are far, what leads to those that have to be measured comes right behind those that are counted.
 */
function rankOfCounts(counts: OrderCounts, ranking: RouteRanking, farFromLimits: boolean): number[] {
  const excess = excessOf(ranking.limits, (quantity) => countOf(counts, quantity));
  const order = rankingOrder(ranking).map((criterion) => {
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
  });
  return [excess, farFromLimits ? counts.whole : 0, ...order];
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

function isLess(a: readonly number[], b: readonly number[]): boolean {
  for (let index = 0; index < a.length; index++) {
    const difference = a[index]! - b[index]!;
    if (Math.abs(difference) > 1e-9) return difference < 0;
  }
  return false;
}
