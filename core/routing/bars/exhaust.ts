import { coveringArc } from '../../winding/coveringArc.ts';
import type { RouteMeasure, RouteRanking } from '../measure.ts';
import { compareMeasures } from '../measure.ts';
import type { JointTable } from './jointTable.ts';
import { rankOf } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { placeBetween } from './order.ts';
import type { PhaseBars } from './phaseBars.ts';

/** A phase so small that all its connections may be gone through. */
export interface ExhaustTask {
  readonly bars: PhaseBars;
  readonly table: JointTable;
  readonly paths: number;
  /** A balanced connection that can be made: others are sought that are better. */
  readonly known: MeasuredOrder;
  readonly ranking: RouteRanking;
  /** How many phases are laid alike. */
  readonly alike: number;
  readonly measure: (order: BarOrder) => RouteMeasure;
  /** What it costs to measure a connection of an ordinary phase, in steps. */
  readonly measureNodes: number;
  /** Steps that may be taken. */
  readonly mostNodes: number;
}

export interface MeasuredOrder {
  readonly order: BarOrder;
  readonly measure: RouteMeasure;
}

export interface Exhausted {
  /** All were gone through. */
  readonly all: boolean;
  /** The best of those met, the known one among them. */
  readonly best: MeasuredOrder;
  /** Steps that were taken. */
  readonly nodes: number;
}

/** More bars have more connections than can be gone through. */
const mostBars = 16;
const nodesBetweenYields = 4000;
/** Bars of the phases whose measuring costs what it is said to cost. */
const ordinaryBars = 64;

/**
 * Goes through all balanced connections of a phase, leaving out those that begin in a way that cannot become better
 * than what is known, as long as that does not take too long. Paths are interchangeable: each set of them is met once.
 */
export function* exhaust(task: ExhaustTask): Generator<undefined, Exhausted> {
  const { bars, table, paths, known, ranking } = task;
  const { count } = bars;
  if (count > mostBars) return { all: false, best: known, nodes: 0 };
  const { length } = known.order;
  const order = new Int32Array(count).fill(-1);
  const used = new Uint8Array(count);
  const uses = new Int32Array(table.shapes);
  const sums = new Float64Array(count + 1);
  let share = 0;
  for (let index = 0; index < length; index++) share += bars.content[known.order.bars[index]!]!;
  const least = leastSpans(bars, table);
  const counts = { pieces: 0, shapes: 0, joints: 0, apart: 0, slots: 0 };
  let best = known;
  let nodes = 0;
  let sinceYield = 0;

  // Slots that pieces reach over each layer; those over one slot and layer lie at levels of their own.
  const over = new Float64Array(table.layers);
  const levelsAtLeast = (): number => {
    let most = 0;
    for (let layer = 0; layer < table.layers; layer++) most = Math.max(most, over[layer]!);
    return Math.ceil((most * task.alike) / table.slots - 1e-9);
  };
  // The arc that holds the starts of so many paths.
  const windows = new Float64Array(paths + 1);
  const starts: number[] = [];

  /** What a connection that begins with `filled` bars has at least of everything. */
  const atLeast = (filled: number): RouteMeasure => {
    const [whole, rest] = [Math.floor(filled / length), filled % length];
    const farLeft = (paths - whole) * farJoints(length) - farJoints(rest);
    const nearLeft = (paths - whole) * nearJoints(length) - nearJoints(rest);
    return {
      jumpers: counts.pieces,
      specialJoints: counts.joints,
      jointShapes: counts.shapes,
      legsBentApart: counts.apart,
      reach: counts.slots + farLeft * least.far + nearLeft * least.near,
      levels: levelsAtLeast(),
      tipGap: table.slots,
      crossings: 0,
      lostEnds: 0,
      colliding: 0,
      close: 0,
      startWindow: windows[Math.ceil(filled / length)]!,
      barShapes: 0,
      voltageInSlot: 0,
      voltageBetweenSlots: 0,
    };
  };
  const tell = (position: number, change: 1 | -1) => {
    const place = joint[position]!;
    if (place < 0) return;
    const rank = table.rank[place]!;
    counts.slots += change * Math.abs(table.span[place]!);
    if (rank === rankOf.regular) return;
    counts.joints += change;
    if (rank === rankOf.piece) {
      counts.pieces += change;
      const [from, to] = [bars.layer[order[position - 1]!]!, bars.layer[order[position]!]!];
      for (let layer = Math.min(from, to); layer <= Math.max(from, to); layer++)
        over[layer]! += change * Math.abs(table.span[place]!);
    } else counts.apart += change * table.apart[place]!;
    const shape = table.shape[place]!;
    uses[shape]! += change;
    if (change === 1 ? uses[shape] === 1 : uses[shape] === 0) counts.shapes += change;
  };
  // The joint to each bar of the order, -1 where none leads to it.
  const joint = new Int32Array(count).fill(-1);
  const take = (position: number): void => {
    tell(position, -1);
    used[order[position]!] = 0;
    order[position] = -1;
  };

  // Depth first: `order[position]` is the bar tried last, from which the next one is looked for.
  let position = 0;
  for (;;) {
    if (nodes > task.mostNodes) return { all: false, best, nodes };
    if (++sinceYield >= nodesBetweenYields) {
      sinceYield = 0;
      yield;
    }
    const first = position % length === 0;
    const from = order[position]! + 1;
    if (order[position]! >= 0) take(position);
    let found = -1;
    // Paths follow each other by their first bars.
    const lowest = first && position > 0 ? Math.max(from, order[position - length]! + 1) : from;
    for (let bar = lowest; bar < count; bar++) {
      nodes++;
      if (used[bar] || (bars.away[bar] === 1) !== (position % length) % 2 < 1) continue;
      const sum = (first ? 0 : sums[position]!) + bars.content[bar]!;
      if ((position + 1) % length === 0 ? sum !== share : sum > share) continue;
      const place = first
        ? -1
        : placeBetween(bars, table, (position % length) % 2 === 1 ? 0 : 1, order[position - 1]!, bar);
      if (place >= 0 && table.rank[place] === rankOf.refused) continue;
      joint[position] = place;
      sums[position + 1] = sum;
      order[position] = bar;
      if (first) {
        starts.length = position / length;
        starts.push(bars.slot[bar]!);
        windows[starts.length] = coveringArc(starts, table.slots);
      }
      tell(position, 1);
      if (compareMeasures(atLeast(position + 1), best.measure, ranking) < 0) {
        found = bar;
        break;
      }
      tell(position, -1);
    }
    if (found < 0) {
      order[position] = -1;
      if (position === 0) return { all: true, best, nodes };
      position--;
      continue;
    }
    used[found] = 1;
    if (position < count - 1) {
      position++;
      continue;
    }
    nodes += Math.ceil((task.measureNodes * count) / ordinaryBars);
    const met: BarOrder = { bars: order.slice(), length };
    const measure = task.measure(met);
    if (compareMeasures(measure, best.measure, ranking) < 0) best = { order: met, measure };
  }
}

/** Joints on the far side among so many bars of a path, and on the connection side. */
function farJoints(bars: number): number {
  return Math.floor(bars / 2);
}

function nearJoints(bars: number): number {
  return Math.max(0, Math.ceil(bars / 2) - 1);
}

/** The least that a joint of either side reaches over. */
function leastSpans(bars: PhaseBars, table: JointTable): { readonly far: number; readonly near: number } {
  const least = (side: 0 | 1) => {
    let span = table.slots;
    for (let from = 0; from < bars.count; from++)
      for (let to = 0; to < bars.count; to++) {
        if ((bars.away[from] === 1) === (bars.away[to] === 1)) continue;
        const place = placeBetween(bars, table, side, from, to);
        if (table.rank[place] !== rankOf.refused) span = Math.min(span, Math.abs(table.span[place]!));
      }
    return span;
  };
  return { far: least(0), near: least(1) };
}
