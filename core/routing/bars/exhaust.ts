import type { Steps } from '../../figures/steps.ts';
import { coveringArc } from '../../winding/coveringArc.ts';
import type { RouteMeasure, RouteRanking } from '../ranking.ts';
import { compareMeasures } from '../ranking.ts';
import type { JointTable } from './jointTable.ts';
import { rankOf } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { placeBetween } from './order.ts';
import type { PhaseBars } from './phaseBars.ts';

/** A phase so small that all its connections may be gone through. */
export interface ExhaustTask {
  readonly bars: PhaseBars;
  readonly table: JointTable;
  /** Parallel paths of the phase. */
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
export function* exhaust(task: ExhaustTask): Steps<Exhausted> {
  const { bars, known, ranking } = task;
  const { count } = bars;
  if (count > mostBars) return { all: false, best: known, nodes: 0 };
  const beginning = noBeginning(task);
  const nodesOfMeasuring = Math.ceil((task.measureNodes * count) / ordinaryBars);
  let best = known;
  let nodes = 0;
  let sinceYield = 0;

  // Depth first: the bar at `position` was tried last, and the next one is looked for in its place.
  let position = 0;
  for (;;) {
    if (nodes > task.mostNodes) return { all: false, best, nodes };
    if (++sinceYield >= nodesBetweenYields) {
      sinceYield = 0;
      yield;
    }
    let bar = beginning.nextToTry(position);
    beginning.takeBack(position);
    for (; bar < count; bar++) {
      nodes++;
      if (!beginning.put(position, bar)) continue;
      if (compareMeasures(beginning.atLeast(position + 1), best.measure, ranking) < 0) break;
      beginning.takeBack(position);
    }
    if (bar === count) {
      if (position === 0) return { all: true, best, nodes };
      position--;
      continue;
    }
    if (position < count - 1) {
      position++;
      continue;
    }
    nodes += nodesOfMeasuring;
    const order = beginning.whole();
    const measure = task.measure(order);
    if (compareMeasures(measure, best.measure, ranking) < 0) best = { order, measure };
  }
}

/** The first bars of a connection, path after path, and what joins them. */
interface Beginning {
  /** The bar to try after the one at a position, so that paths follow each other by their first bars. */
  readonly nextToTry: (position: number) => number;
  /** Puts a bar behind those before it; false, and nothing is done, where it cannot follow them. */
  readonly put: (position: number, bar: number) => boolean;
  /** Takes the bar at a position back, if there is one. */
  readonly takeBack: (position: number) => void;
  /** What a connection that begins with the first `filled` bars has at least of everything. */
  readonly atLeast: (filled: number) => RouteMeasure;
  /** All bars, once they are put. */
  readonly whole: () => BarOrder;
}

function noBeginning(task: ExhaustTask): Beginning {
  const { bars, table, paths, known } = task;
  const { count } = bars;
  const { length } = known.order;
  const order = new Int32Array(count).fill(-1);
  const used = new Uint8Array(count);
  /** The joint to each bar of the order, -1 where none leads to it. */
  const joint = new Int32Array(count).fill(-1);
  /** What the bars of a path hold, up to each position; each path holds the same share. */
  const sums = new Float64Array(count + 1);
  const share = known.order.bars.subarray(0, length).reduce((sum, bar) => sum + bars.content[bar]!, 0);
  /** The arc that holds the starts of so many paths. */
  const windows = new Float64Array(paths + 1);
  const starts: number[] = [];
  const least = leastSpans(bars, table);
  const tally = noJoints(task);

  const tell = (position: number, change: 1 | -1) => {
    if (joint[position]! < 0) return;
    tally.change(joint[position]!, bars.layer[order[position - 1]!]!, bars.layer[order[position]!]!, change);
  };
  const start = (path: number, bar: number) => {
    starts.length = path;
    starts.push(bars.slot[bar]!);
    windows[starts.length] = coveringArc(starts, table.slots);
  };
  return {
    nextToTry: (position) => {
      const next = order[position]! + 1;
      const startsAgain = position > 0 && position % length === 0;
      return startsAgain ? Math.max(next, order[position - length]! + 1) : next;
    },
    put: (position, bar) => {
      const step = position % length;
      if (used[bar] || (bars.away[bar] === 1) !== step % 2 < 1) return false;
      const sum = (step === 0 ? 0 : sums[position]!) + bars.content[bar]!;
      if (step === length - 1 ? sum !== share : sum > share) return false;
      const place =
        step === 0 ? -1 : placeBetween(bars, table, step % 2 === 1 ? 0 : 1, order[position - 1]!, bar);
      if (place >= 0 && table.rank[place] === rankOf.refused) return false;
      joint[position] = place;
      sums[position + 1] = sum;
      order[position] = bar;
      used[bar] = 1;
      if (step === 0) start(position / length, bar);
      tell(position, 1);
      return true;
    },
    takeBack: (position) => {
      if (order[position]! < 0) return;
      tell(position, -1);
      used[order[position]!] = 0;
      order[position] = -1;
    },
    atLeast: (filled) => {
      const whole = Math.floor(filled / length);
      const rest = filled % length;
      const farLeft = (paths - whole) * farJoints(length) - farJoints(rest);
      const nearLeft = (paths - whole) * nearJoints(length) - nearJoints(rest);
      return tally.measure(farLeft * least.far + nearLeft * least.near, windows[Math.ceil(filled / length)]!);
    },
    whole: () => ({ bars: order.slice(), length }),
  };
}

/** What the joints of a beginning count. */
interface Tally {
  /** Counts a joint of the table between bars of these layers, or takes it off. */
  readonly change: (place: number, fromLayer: number, toLayer: number, change: 1 | -1) => void;
  /** The counts, with slots that joints to come reach over at least, and the arc that holds the starts by now. */
  readonly measure: (slotsToCome: number, startWindow: number) => RouteMeasure;
}

function noJoints({ table, alike }: ExhaustTask): Tally {
  const counts = { pieces: 0, shapes: 0, joints: 0, apart: 0, slots: 0 };
  const uses = new Int32Array(table.shapes);
  /** Slots that pieces reach over each layer; those over one slot and layer lie at levels of their own. */
  const over = new Float64Array(table.layers);
  const levelsAtLeast = (): number => {
    let most = 0;
    for (let layer = 0; layer < table.layers; layer++) most = Math.max(most, over[layer]!);
    return Math.ceil((most * alike) / table.slots - 1e-9);
  };
  return {
    change: (place, fromLayer, toLayer, change) => {
      const rank = table.rank[place]!;
      const span = change * Math.abs(table.span[place]!);
      counts.slots += span;
      if (rank === rankOf.regular) return;
      counts.joints += change;
      if (rank === rankOf.piece) {
        counts.pieces += change;
        const last = Math.max(fromLayer, toLayer);
        for (let layer = Math.min(fromLayer, toLayer); layer <= last; layer++) over[layer]! += span;
      } else counts.apart += change * table.apart[place]!;
      const shape = table.shape[place]!;
      uses[shape]! += change;
      if (change === 1 ? uses[shape] === 1 : uses[shape] === 0) counts.shapes += change;
    },
    measure: (slotsToCome, startWindow) => ({
      jumpers: counts.pieces,
      specialJoints: counts.joints,
      jointShapes: counts.shapes,
      legsBentApart: counts.apart,
      reach: counts.slots + slotsToCome,
      levels: levelsAtLeast(),
      tipGap: table.slots,
      crossings: 0,
      lostEnds: 0,
      colliding: 0,
      close: 0,
      startWindow,
      barShapes: 0,
      voltageInSlot: 0,
      voltageBetweenSlots: 0,
    }),
  };
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
