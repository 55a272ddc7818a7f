import type { Steps } from '../../figures/steps.ts';
import { nextRandom, type RandomSequence, randomSequence } from '../random.ts';
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
  /** `jointWeights` of them. */
  readonly joints: Float64Array;
  /** Steps: about as many exchanges are tried. */
  readonly nodes: number;
  /** Of the random numbers: the same seed gives the same search. */
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
  /** Joints that cannot be made, or not where special spans may lie. */
  readonly refused: number;
  /** Joints made by pieces. */
  readonly pieces: number;
  /** Slots that pieces reach over, in all. */
  readonly pieceSlots: number;
  /** Shapes of special joints. */
  readonly shapes: number;
  /** Special joints, pieces among them. */
  readonly joints: number;
  /** Legs bent by another amount than their ring. */
  readonly legsApart: number;
  /** Slots that all joints reach over, in all. */
  readonly slots: number;
  /** What the weights' `whole` says of it. */
  readonly whole: number;
}

const cold = 0.15;
const movesBetweenYields = 4000;
const refusedWeight = 60;

/**
 * Improves a connection by exchanging stretches of bars that hold the same: between two paths, or within
 * one. It cools from `hot` to freezing over its steps, so that it can leave a valley. Balance is kept by every
 * exchange. Deterministic by its seed.
 */
export function* improve(task: ImproveTask): Steps<number> {
  const search = searchFrom(task);
  look(search);
  while (search.nodes < task.nodes) {
    tryMoves(search, movesBetweenYields);
    yield;
  }
  return search.nodes;
}

/** Sums over the joints, as they change. */
type Tally = { -readonly [Count in keyof OrderCounts]: OrderCounts[Count] };

/** A connection that is being improved. */
interface Search {
  readonly task: ImproveTask;
  readonly order: Int32Array;
  readonly view: BarOrder;
  readonly paths: number;
  /** Bars of a path. */
  readonly length: number;
  /** Stretches begin where so many bars go before them, or a multiple of that, and hold a multiple too. */
  readonly grain: 1 | 2;
  readonly random: RandomSequence;
  /** What the bars of each path hold up to each of its positions, one more than it has bars. */
  readonly sums: Float64Array;
  /** The joint that leads to each position, by its place in the table. */
  readonly standing: Int32Array;
  readonly joints: JointLookUp;
  readonly tally: Tally;
  /** How often each shape of special joints is in use. */
  readonly uses: Int32Array;
  /** What a move puts aside. */
  readonly held: Int32Array;
  readonly move: Move;
  nodes: number;
}

function searchFrom(task: ImproveTask): Search {
  const { bars, table, weights, start } = task;
  const { length } = start;
  const order = Int32Array.from(start.bars);
  const view: BarOrder = { bars: order, length };
  const search: Search = {
    task,
    order,
    view,
    paths: order.length / length,
    length,
    grain: task.farFree ? 1 : 2,
    random: randomSequence(task.seed),
    sums: new Float64Array(order.length + order.length / length),
    standing: new Int32Array(order.length),
    joints: lookUpOf(bars, table),
    tally: {
      refused: 0,
      pieces: 0,
      pieceSlots: 0,
      shapes: 0,
      joints: 0,
      legsApart: 0,
      slots: 0,
      whole: weights.whole?.(view) ?? 0,
    },
    uses: new Int32Array(table.shapes),
    held: new Int32Array(length),
    move: noMove(),
    nodes: 0,
  };
  for (let path = 0; path < search.paths; path++) followPath(search, path);
  for (let position = 0; position < order.length; position++)
    if (position % length !== 0) tell(search, search.standing[position]!, 1);
  return search;
}

/** Notes what a path holds and how it is joined. */
function followPath({ task: { bars }, order, length, sums, standing, joints }: Search, path: number): void {
  const base = path * length;
  let sum = 0;
  sums[base + path] = 0;
  for (let index = 0; index < length; index++) {
    const position = base + index;
    const bar = order[position]!;
    if (index > 0) standing[position] = jointAt(joints, position, order[position - 1]!, bar);
    sum += bars.content[bar]!;
    sums[position + path + 1] = sum;
  }
}

/** Shows the connection to those who asked for the search, if it may be worth their judgment. */
function look(search: Search): void {
  const { task, tally, view } = search;
  if (tally.refused > 0 || !task.promising(tally)) return;
  search.nodes += task.consider(view, { ...tally });
}

/** Counts a joint, by its place in the table, in (change 1) or out (-1). */
function tell({ task: { table }, tally, uses }: Search, place: number, change: 1 | -1): void {
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
}

/** What joints weigh, by their places in the table, their shapes aside. */
export function jointWeights({ rank, span, apart }: JointTable, weights: ImproveWeights): Float64Array {
  const found = new Float64Array(rank.length);
  for (let place = 0; place < found.length; place++) {
    const reach = Math.abs(span[place]!);
    found[place] = weights.slot * reach;
    if (rank[place] === rankOf.regular) continue;
    const isPiece = rank[place] === rankOf.piece;
    const made = isPiece ? weights.piece + weights.pieceSlot * reach : weights.legApart * apart[place]!;
    const refused = rank[place] === rankOf.refused ? refusedWeight : 0;
    found[place] = made + weights.joint + weights.slot * reach + refused;
  }
  return found;
}

function energyOf(weights: ImproveWeights, tally: Tally): number {
  return (
    refusedWeight * tally.refused +
    weights.piece * tally.pieces +
    weights.pieceSlot * tally.pieceSlots +
    weights.shape * tally.shapes +
    weights.joint * tally.joints +
    weights.legApart * tally.legsApart +
    weights.slot * tally.slots +
    tally.whole
  );
}

/** The move that is tried: two stretches of bars that change places, or follow each other the other way round. */
interface Move {
  /** Whether the second stretch, right behind the first one, comes before it. */
  turning: boolean;
  /** The path of the first stretch, and of the second one. */
  path: number;
  other: number;
  /** Where the first stretch begins. */
  first: number;
  /** Where the second stretch begins. */
  second: number;
  /** One behind the last bar of the second stretch. */
  end: number;
  /** Joints that go, and as many that come for them. */
  readonly gone: Int32Array;
  readonly come: Int32Array;
  changed: number;
}

/** Most joints that one move changes. */
const mostChanged = 4;

function noMove(): Move {
  const joints = { gone: new Int32Array(mostChanged), come: new Int32Array(mostChanged), changed: 0 };
  return { turning: false, path: 0, other: 0, first: 0, second: 0, end: 0, ...joints };
}

/** A joint goes, and another one comes for it. */
function changeJoint(move: Move, gone: number, come: number): void {
  move.gone[move.changed] = gone;
  move.come[move.changed] = come;
  move.changed++;
}

/**
 * Tries so many moves, or fewer where the steps end. A move is judged by the joints that it changes before any bar is
 * moved, because most are turned down; only what is judged by the whole order needs the bars in their places.
 */
function tryMoves(search: Search, moves: number): void {
  const { task, view, random, tally, move, paths, length } = search;
  const { weights, hot } = task;
  const wholeCost = weights.whole ? 1 + Math.ceil(view.bars.length / 16) : 0;
  let energy = energyOf(weights, tally);
  // It cools: while these moves are tried it is no hotter than now, and dearer ones are accepted no more often.
  const hottest = heatAt(hot, search.nodes / task.nodes);
  for (let tried = 0; tried < moves && search.nodes < task.nodes; tried++) {
    search.nodes++;
    const { nodes } = search;
    move.path = below(random, paths);
    move.turning = length > 2 && nextRandom(random) < 0.35;
    if (!(move.turning ? chooseTurn(search) : chooseExchange(search))) continue;
    // A move that is dearer for certain takes a chance: mostly that turns it down before anything is counted.
    const least = weights.whole ? 0 : leastRise(search);
    const chance = least > certain ? nextRandom(random) : null;
    if (chance !== null && isSurelyBelow(chance, least / hottest)) continue;
    tellMove(search, 1);
    const wholeBefore = tally.whole;
    if (weights.whole) {
      moveBars(search);
      tally.whole = weights.whole(view);
      search.nodes += wholeCost;
    }
    const next = energyOf(weights, tally);
    const rise = next - energy;
    if (rise <= 0 || isAccepted(chance ?? nextRandom(random), rise, hottest, hot, nodes / task.nodes)) {
      if (!weights.whole) moveBars(search);
      energy = next;
      followPath(search, move.path);
      if (move.other !== move.path) followPath(search, move.other);
      look(search);
      continue;
    }
    if (weights.whole) moveBack(search);
    tally.whole = wholeBefore;
    tellMove(search, -1);
  }
}

/** Share by which a bound has to be passed before it is trusted: far above rounding. */
const doubt = 1e-9;
/** Differences of weights above this are no rounding. */
const certain = 1e-6;

/** Whether exp(-x) is below a chance for certain. */
function isSurelyBelow(chance: number, x: number): boolean {
  return chance * (1 + x + (x * x) / 2) > 1 + doubt;
}

/** How much dearer a move makes the connection at least: shapes that may go are taken to go. */
function leastRise({ move, task: { table, weights, joints }, uses }: Search): number {
  let rise = 0;
  let newShape = 0;
  for (let index = 0; index < move.changed; index++) {
    const gone = move.gone[index]!;
    const comes = move.come[index]!;
    const old = table.shape[gone]!;
    const other = table.shape[comes]!;
    rise -= joints[gone]!;
    if (old >= 0 && uses[old]! <= move.changed) rise -= weights.shape;
    rise += joints[comes]!;
    if (other >= 0 && uses[other] === 0) newShape = weights.shape;
  }
  return rise + newShape;
}

/**
 * Whether a move that is dearer by `rise` is accepted by a chance from 0 to 1: below exp(-rise/heat). Mostly that is
 * told by 1/(1 + x + x^2/2), which is more than exp(-x), for a heat that is no less than the present one.
 */
function isAccepted(chance: number, rise: number, hottest: number, hot: number, progress: number): boolean {
  if (isSurelyBelow(chance, rise / hottest)) return false;
  return chance < Math.exp(-rise / heatAt(hot, progress));
}

/** How much dearer a connection may become when so much of the steps is done, 0 to 1. */
function heatAt(hot: number, progress: number): number {
  return hot * (cold / hot) ** progress;
}

/** Counts the joints of the move in for those that go (change 1), or back (-1). */
function tellMove(search: Search, change: 1 | -1): void {
  const { gone, come, changed } = search.move;
  const [out, into] = change === 1 ? [gone, come] : [come, gone];
  for (let index = 0; index < changed; index++) tell(search, out[index]!, -1);
  for (let index = 0; index < changed; index++) tell(search, into[index]!, 1);
}

/** A whole number from 0 to below the limit. */
function below(random: RandomSequence, limit: number): number {
  return (nextRandom(random) * limit) | 0;
}

/** Chooses two stretches of one path that follow each other, with an even number of bars each; false for none. */
function chooseTurn(search: Search): boolean {
  const { order, length, grain, random, joints, standing, move } = search;
  const base = move.path * length;
  const first = base + grain * below(random, (length - 2) / grain);
  const room = (base + length - first) >> 1;
  if (room < 2) return false;
  const short = nextRandom(random) < 0.5 ? Math.min(room - 1, 4) : room - 1;
  const size = 2 * (1 + below(random, short));
  // Behind the turn the first stretch begins where as many bars as the second one has are before it.
  const joined = first + 2 * (1 + below(random, room - size / 2));
  const middle = first + size;
  const end = joined + size;
  move.other = move.path;
  move.first = first;
  move.second = middle;
  move.end = end;
  move.changed = 0;
  if (first !== base) {
    changeJoint(move, standing[first]!, jointAt(joints, first, order[first - 1]!, order[middle]!));
  }
  changeJoint(move, standing[middle]!, jointAt(joints, joined, order[end - 1]!, order[first]!));
  if (end !== base + length) {
    changeJoint(move, standing[end]!, jointAt(joints, end, order[middle - 1]!, order[end]!));
  }
  return true;
}

/** Chooses two stretches that hold the same, of two paths or of one; false where there is no second one. */
function chooseExchange(search: Search): boolean {
  const { random, move, paths, length, grain } = search;
  const kind = nextRandom(random);
  const from = grain * below(random, length / grain);
  const most = length - from;
  const size =
    kind < 0.3
      ? most
      : kind < 0.7
        ? Math.min(most, grain * (1 + below(random, 4)))
        : grain * (1 + below(random, most / grain));
  move.other = below(random, paths);
  const at = matching(search, from, size);
  if (at < 0) return false;
  const first = move.path * length + from;
  const second = move.other * length + at;
  move.first = first;
  move.second = second;
  move.end = second + size;
  move.changed = 0;
  changeEnds(search, from, first, second, size);
  changeEnds(search, at, second, first, size);
  return true;
}

/**
 * The joints at both ends of a stretch, before which so many bars of its path go (`at`), and for which another one comes.
 * A joint that both share goes once.
 */
function changeEnds(
  { order, length, joints, standing, move }: Search,
  at: number,
  own: number,
  other: number,
  size: number,
): void {
  if (at > 0) {
    const before = own === other + size ? order[own + size - 1]! : order[own - 1]!;
    changeJoint(move, standing[own]!, jointAt(joints, own, before, order[other]!));
  }
  const end = own + size;
  if (at + size === length || end === other) return;
  changeJoint(move, standing[end]!, jointAt(joints, end, order[other + size - 1]!, order[end]!));
}

/** How many bars of the move's other path go before a stretch that holds the same as the first one; -1: there is none. */
function matching(search: Search, from: number, size: number): number {
  const { random, sums, move, length } = search;
  const { path, other } = move;
  const odd = from & 1;
  const places = ((length - size - odd) >> 1) + 1;
  if (places <= 0) return -1;
  let at = odd + 2 * below(random, places);
  const begins = path * length + from + path;
  const wanted = sums[begins + size]! - sums[begins]!;
  const base = other * (length + 1);
  for (let index = 0; index < places; index++) {
    if (other === path) {
      if (at >= from + size || from >= at + size) return at;
    } else if (sums[base + at + size]! - sums[base + at]! === wanted) {
      search.nodes += index >> 4;
      return at;
    }
    at += 2;
    if (at > length - size) at = odd;
  }
  search.nodes += places >> 4;
  return -1;
}

/** Moves the bars. */
function moveBars({ order, held, move: { turning, first, second, end } }: Search): void {
  if (turning) turn(order, held, first, second, end);
  else exchange(order, first, second, end - second);
}

/** Moves the bars back. */
function moveBack({ order, held, move: { turning, first, second, end } }: Search): void {
  if (turning) turn(order, held, first, first + end - second, end);
  else exchange(order, first, second, end - second);
}

/** Exchanges the stretches of `size` bars at two positions. */
function exchange(order: Int32Array, first: number, second: number, size: number): void {
  for (let index = 0; index < size; index++) {
    const bar = order[first + index]!;
    order[first + index] = order[second + index]!;
    order[second + index] = bar;
  }
}

/** Puts the stretch from `middle` to `end` before that from `begin` to `middle`. */
function turn(order: Int32Array, held: Int32Array, begin: number, middle: number, end: number): void {
  const size = middle - begin;
  for (let index = 0; index < size; index++) held[index] = order[begin + index]!;
  order.copyWithin(begin, middle, end);
  for (let index = 0; index < size; index++) order[end - size + index] = held[index]!;
}

/** Bars of phases whose joints are looked up by their bars. */
const mostLookedUp = 128;

/** How the place of a joint in the table is found. */
interface JointLookUp {
  readonly bars: PhaseBars;
  readonly count: number;
  readonly table: JointTable;
  /** Of any bar to any other, at even positions and at odd ones; null for large phases. */
  readonly joints: Int32Array | null;
}

function lookUpOf(bars: PhaseBars, table: JointTable): JointLookUp {
  const { count } = bars;
  if (count > mostLookedUp) return { bars, count, table, joints: null };
  const joints = new Int32Array(2 * count * count);
  for (const odd of [0, 1] as const)
    for (let from = 0; from < count; from++)
      for (let to = 0; to < count; to++)
        joints[(odd * count + from) * count + to] = placeBetween(bars, table, odd === 1 ? 0 : 1, from, to);
  return { bars, count, table, joints };
}

/** The place of the joint that leads to the bar `here`, which stands at a position, from the one before. */
function jointAt(
  { bars, count, table, joints }: JointLookUp,
  position: number,
  before: number,
  here: number,
): number {
  return joints
    ? joints[((position & 1) * count + before) * count + here]!
    : placeBetween(bars, table, position % 2 === 1 ? 0 : 1, before, here);
}
