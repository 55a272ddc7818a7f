import { seededRandom } from '../random.ts';
import type { JointTable } from './jointTable.ts';
import { rankOf } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { placeBetween } from './order.ts';
import type { PhaseBars } from './phaseBars.ts';

/** What a connection costs while it is being improved; weights of one of each. */
export interface ImproveWeights {
  readonly piece: number;
  /** For each slot that a piece reaches over. */
  readonly pieceSlot: number;
  readonly shape: number;
  readonly joint: number;
  readonly legApart: number;
  /** For each slot that any joint reaches over. */
  readonly slot: number;
  /** What else counts, of the whole order; null where nothing does. */
  readonly whole: ((order: BarOrder) => number) | null;
}

export interface ImproveTask {
  readonly bars: PhaseBars;
  readonly table: JointTable;
  readonly start: BarOrder;
  readonly weights: ImproveWeights;
  /** Steps: about as many exchanges are tried. */
  readonly nodes: number;
  readonly seed: number;
  /** Far-side joints may change too. */
  readonly farFree: boolean;
  /**
   * Told of every connection that may be better than those told before; answers what its judgment
   * cost, in steps. The order is the search's own: what is kept has to be copied.
   */
  readonly consider: (order: BarOrder, counts: OrderCounts) => number;
  /** Whether a connection of these counts may be worth its judgment. */
  readonly promising: (counts: OrderCounts) => boolean;
  /** How much dearer a connection may become for a while, at the start. */
  readonly hot: number;
}

/** Sums over the joints of a phase. */
export interface OrderCounts {
  readonly refused: number;
  readonly pieces: number;
  readonly pieceSlots: number;
  readonly shapes: number;
  readonly joints: number;
  readonly legsApart: number;
  readonly slots: number;
  /** What the weights' `whole` says of it. */
  readonly whole: number;
}

const cold = 0.15;
const nodesBetweenYields = 4000;
const refusedWeight = 60;
/** Stands for no position: no joint lies before the first bar. */
const none = 0;

/**
 * Improves a connection by exchanging stretches of bars that hold the same: between two paths, or within
 * one. It cools from `hot` to freezing over its steps, so that it can leave a valley. Balance is kept by every
 * exchange. Deterministic by its seed.
 */
export function* improve(task: ImproveTask): Generator<undefined, number> {
  const { bars, table, weights, start, farFree } = task;
  const { length } = start;
  const count = start.bars.length;
  const order = Int32Array.from(start.bars);
  const random = seededRandom(task.seed);
  const paths = count / length;
  const below = (limit: number) => Math.floor(random() * limit);
  const places = placesOf(bars, table);
  const sums = new Float64Array(count + paths);
  const uses = new Int32Array(table.shapes);
  const held = new Int32Array(length);
  const tally = {
    refused: 0,
    pieces: 0,
    pieceSlots: 0,
    shapes: 0,
    joints: 0,
    legsApart: 0,
    slots: 0,
    whole: 0,
  };

  const sumPath = (path: number) => {
    const base = path * length;
    let sum = 0;
    sums[base + path] = 0;
    for (let index = 0; index < length; index++) {
      sum += bars.content[order[base + index]!]!;
      sums[base + path + index + 1] = sum;
    }
  };
  const holds = (from: number, size: number, path: number) => sums[from + size + path]! - sums[from + path]!;
  /** Counts the joint before a position in (change 1) or out (-1); `at` tells the bar of a position. */
  const tell = (position: number, before: number, here: number, change: 1 | -1) => {
    const place = places
      ? places[((position & 1) * bars.count + before) * bars.count + here]!
      : placeBetween(bars, table, position % 2 === 1 ? 0 : 1, before, here);
    const rank = table.rank[place]!;
    const reach = Math.abs(table.span[place]!);
    tally.slots += change * reach;
    if (rank === rankOf.regular) return;
    if (rank === rankOf.refused) tally.refused += change;
    tally.joints += change;
    if (rank === rankOf.piece) {
      tally.pieces += change;
      tally.pieceSlots += change * reach;
    } else tally.legsApart += change * table.apart[place]!;
    const shape = table.shape[place]!;
    uses[shape]! += change;
    if (change === 1 ? uses[shape] === 1 : uses[shape] === 0) tally.shapes += change;
  };
  const tellAt = (position: number, change: 1 | -1) => {
    if (position % length !== 0 && position < count)
      tell(position, order[position - 1]!, order[position]!, change);
  };
  const energyNow = () =>
    refusedWeight * tally.refused +
    weights.piece * tally.pieces +
    weights.pieceSlot * tally.pieceSlots +
    weights.shape * tally.shapes +
    weights.joint * tally.joints +
    weights.legApart * tally.legsApart +
    weights.slot * tally.slots +
    tally.whole;

  for (let path = 0; path < paths; path++) sumPath(path);
  for (let position = 0; position < count; position++) tellAt(position, 1);
  const view: BarOrder = { bars: order, length };
  const wholeCost = weights.whole ? 1 + Math.ceil(count / 16) : 0;
  tally.whole = weights.whole?.(view) ?? 0;
  let energy = energyNow();
  let nodes = 0;
  let sinceYield = 0;
  const look = () => {
    if (tally.refused > 0 || !task.promising(tally)) return;
    nodes += task.consider(view, { ...tally });
  };
  look();

  /** Exchanges the stretches of `size` bars at two positions. */
  const exchange = (first: number, second: number, size: number) => {
    for (let index = 0; index < size; index++) {
      const bar = order[first + index]!;
      order[first + index] = order[second + index]!;
      order[second + index] = bar;
    }
  };
  /** Puts the stretch from `middle` to `end` before that from `begin` to `middle`. */
  const turn = (begin: number, middle: number, end: number) => {
    const size = middle - begin;
    for (let index = 0; index < size; index++) held[index] = order[begin + index]!;
    order.copyWithin(begin, middle, end);
    for (let index = 0; index < size; index++) order[end - size + index] = held[index]!;
  };
  // Positions whose joint goes, and whose joint comes: the same but where stretches change places.
  const gone = new Int32Array(4);
  const come = new Int32Array(4);
  const set = (list: Int32Array, first: number, second: number, third: number, fourth: number) => {
    list[0] = first;
    list[1] = second;
    list[2] = third;
    list[3] = fourth;
  };
  const tellAll = (positions: Int32Array, change: 1 | -1) => {
    for (let index = 0; index < 4; index++) tellAt(positions[index]!, change);
  };
  const grain = farFree ? 1 : 2;

  while (nodes < task.nodes) {
    if (++sinceYield >= nodesBetweenYields) {
      sinceYield = 0;
      yield;
    }
    nodes++;
    const progress = nodes / task.nodes;
    const path = below(paths);
    const base = path * length;
    const turning = length > 2 && random() < 0.35;
    let other = path;
    let [first, second, size, end] = [0, 0, 0, 0];
    if (turning) {
      // Two stretches of one path that follow each other, with an even number of bars each.
      first = base + grain * below((length - 2) / grain);
      const room = (base + length - first) >> 1;
      if (room < 2) continue;
      const short = random() < 0.5 ? Math.min(room - 1, 4) : room - 1;
      size = 2 * (1 + below(short));
      second = first + 2 * (1 + below(room - size / 2));
      end = second + size;
      set(gone, first, first + size, end, none);
      set(come, first, second, end, none);
      tellAll(gone, -1);
      turn(first, first + size, end);
    } else {
      const kind = random();
      const from = grain * below(length / grain);
      const most = length - from;
      size =
        kind < 0.3
          ? most
          : kind < 0.7
            ? Math.min(most, grain * (1 + below(4)))
            : grain * (1 + below(most / grain));
      other = below(paths);
      second = matching(from, size, path, other);
      if (second < 0) continue;
      first = base + from;
      // Stretches that touch share a joint, which counts once.
      set(
        gone,
        first,
        first + size === second ? none : first + size,
        second,
        second + size === first ? none : second + size,
      );
      come.set(gone);
      tellAll(gone, -1);
      exchange(first, second, size);
    }
    tellAll(come, 1);
    const wholeBefore = tally.whole;
    if (weights.whole) {
      tally.whole = weights.whole(view);
      nodes += wholeCost;
    }
    const next = energyNow();
    const rise = next - energy;
    if (rise <= 0 || random() < Math.exp(-rise / (task.hot * (cold / task.hot) ** progress))) {
      energy = next;
      sumPath(path);
      if (other !== path) sumPath(other);
      look();
      continue;
    }
    tellAll(come, -1);
    if (turning) turn(first, second, end);
    else exchange(first, second, size);
    tally.whole = wholeBefore;
    tellAll(gone, 1);
  }
  return nodes;

  /** Where in a path a stretch stands that holds the same as one of another (or the same) path; -1: nowhere. */
  function matching(from: number, size: number, path: number, other: number): number {
    const places = Math.floor((length - size - (from % 2)) / 2) + 1;
    if (places <= 0) return -1;
    const offset = below(places);
    const wanted = holds(path * length + from, size, path);
    for (let index = 0; index < places; index++) {
      const at = (from % 2) + 2 * ((index + offset) % places);
      if (other === path) {
        if (at < from + size && from < at + size) continue;
        return other * length + at;
      }
      if (holds(other * length + at, size, other) !== wanted) continue;
      nodes += index >> 4;
      return other * length + at;
    }
    nodes += places >> 4;
    return -1;
  }
}

/** Bars of phases whose joints are looked up by their bars. */
const mostLookedUp = 128;

/** The place in the table of the joint from any bar to any other, at even positions and at odd ones; null for large phases. */
function placesOf(bars: PhaseBars, table: JointTable): Int32Array | null {
  const { count } = bars;
  if (count > mostLookedUp) return null;
  const places = new Int32Array(2 * count * count);
  for (const odd of [0, 1] as const)
    for (let from = 0; from < count; from++)
      for (let to = 0; to < count; to++)
        places[(odd * count + from) * count + to] = placeBetween(bars, table, odd === 1 ? 0 : 1, from, to);
  return places;
}
