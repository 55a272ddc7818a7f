import { modulo } from '../winding/integers.ts';
import type { Connections, WindingJoint } from '../winding/joints/joints.ts';
import { lowerBar, offsetOf, upperBar } from '../winding/joints/joints.ts';
import type { Winding } from '../winding/model.ts';

/** At which height above the end winding each jumper runs. */
export interface JumperLevels {
  /** Level from 1, by joint number. */
  readonly levels: ReadonlyMap<number, number>;
  /** Of the levels; 0 without jumpers. */
  readonly highest: number;
  /** Most jumpers over one place: no arrangement has fewer levels. */
  readonly overlap: number;
}

/** A connecting piece, as far as its level depends on it. */
export type Piece = Pick<WindingJoint, 'number' | 'side' | 'from' | 'to' | 'span'>;

interface Arc {
  readonly joint: Piece;
  readonly start: number;
  readonly length: number;
  readonly lower: number;
  readonly upper: number;
}

/** Levels of the jumpers of both sides; jumpers of one side that share layers and slots lie one above another. */
export function jumperLevels({ slots }: Winding, connections: Connections): JumperLevels {
  return pieceLevels(
    slots,
    connections.joints.filter((joint) => joint.kind === 'jumper'),
  );
}

/** Levels of connecting pieces, each with a number of its own. */
export function pieceLevels(slots: number, pieces: readonly Piece[]): JumperLevels {
  const arcs = pieces.map(arcOf);
  arcs.sort((a, b) => a.start - b.start || a.length - b.length || a.joint.number - b.joint.number);
  const near = nearbyArcs(slots, arcs);
  const levels = new Map<number, number>();
  let highest = 0;
  let overlap = 0;
  for (const arc of arcs) {
    const taken = new Set<number>();
    let covering = 0;
    for (const other of near(arc)) {
      if (collide(slots, arc, other)) taken.add(levels.get(other.joint.number) ?? 0);
      if (collideAt(slots, arc, other)) covering++;
    }
    let level = 1;
    while (taken.has(level)) level++;
    levels.set(arc.joint.number, level);
    highest = Math.max(highest, level);
    overlap = Math.max(overlap, covering);
  }
  return { levels, highest, overlap };
}

/**
 * For an arc all those of its side that may overlap it, itself included: they start under it, or before
 * it no farther than arcs reach. `arcs` rise by their start.
 */
function nearbyArcs(slots: number, arcs: readonly Arc[]): (arc: Arc) => ReadonlySet<Arc> {
  const sides = { connection: [] as Arc[], far: [] as Arc[] };
  const places = new Map<Arc, number>();
  let reach = 0;
  for (const arc of arcs) {
    places.set(arc, sides[arc.joint.side].push(arc) - 1);
    reach = Math.max(reach, arc.length);
  }
  return (arc) => {
    const all = sides[arc.joint.side];
    const near = new Set<Arc>();
    for (let i = 0; i < all.length; i++) {
      const other = all[(places.get(arc)! + i) % all.length]!;
      if (!covers(slots, arc, other.start)) break;
      near.add(other);
    }
    for (let i = 0; i < all.length; i++) {
      const other = all[(places.get(arc)! - i + all.length) % all.length]!;
      if (modulo(arc.start - other.start, slots) > reach) break;
      near.add(other);
    }
    return near;
  };
}

function arcOf(joint: Piece): Arc {
  const lower = lowerBar(joint);
  const start = offsetOf(joint) >= 0 ? lower.slot : upperBar(joint).slot;
  return {
    joint,
    start,
    length: Math.abs(joint.span),
    lower: lower.layer,
    upper: upperBar(joint).layer,
  };
}

function collide(slots: number, a: Arc, b: Arc): boolean {
  if (a.joint.side !== b.joint.side || a.upper < b.lower || b.upper < a.lower) return false;
  return covers(slots, a, b.start) || covers(slots, b, a.start);
}

/** Whether `other` runs over the place where `arc` starts (itself included). */
function collideAt(slots: number, arc: Arc, other: Arc): boolean {
  if (arc.joint.side !== other.joint.side || arc.upper < other.lower || other.upper < arc.lower) return false;
  return covers(slots, other, arc.start);
}

function covers(slots: number, arc: Arc, slot: number): boolean {
  return modulo(slot - arc.start, slots) <= arc.length;
}

/** In which order joints can be set, or a ring of joints each of which hides the next. */
export interface AccessOrder {
  /** Joint numbers in an order in which none is hidden by an earlier one; joints in a ring are missing. */
  readonly order: readonly number[];
  /** Joint numbers; null where there is no such ring. */
  readonly ring: readonly number[] | null;
}

/**
 * The order in which joints can be set. A jumper that reaches over layers hides the joints of the layers
 * between its ends, one within an inner layer those of its own layer, so it comes after them; pieces at
 * the free radius hide nothing. Otherwise joint numbers decide: connection side first, bent joints before
 * jumpers, inner radius before outer, which suits tools that enter from outside.
 */
export function accessOrder(winding: Winding, connections: Connections): AccessOrder {
  const waits = new Map<number, Set<number>>();
  for (const joint of connections.joints) {
    if (joint.kind !== 'jumper') continue;
    const hidden = hiddenBy(winding, connections, joint);
    if (hidden.size > 0) waits.set(joint.number, hidden);
  }
  const order: number[] = [];
  for (const { number } of connections.joints) {
    if (!waits.has(number)) order.push(number);
  }
  const done = new Set(waits.size > 0 ? order : []);
  let left = [...waits.keys()];
  while (left.length > 0) {
    const next = left.filter((number) => allIn(done, waits.get(number)!));
    if (next.length === 0) return { order, ring: ringIn(left, waits) };
    for (const number of next) {
      done.add(number);
      order.push(number);
    }
    left = left.filter((number) => !done.has(number));
  }
  return { order, ring: null };
}

function allIn(whole: ReadonlySet<number>, part: ReadonlySet<number>): boolean {
  for (const item of part) {
    if (!whole.has(item)) return false;
  }
  return true;
}

function hiddenBy(winding: Winding, connections: Connections, jumper: WindingJoint): Set<number> {
  const arc = arcOf(jumper);
  const hidden = new Set<number>();
  if (jumper.reason === 'turn-outer' || jumper.reason === 'unpaired' || jumper.reason === 'between-coils') {
    return hidden;
  }
  const within = (layer: number) =>
    arc.lower === arc.upper ? layer === arc.lower : layer > arc.lower && layer < arc.upper;
  for (const joint of connections.joints) {
    if (joint.side !== jumper.side || joint.number === jumper.number) continue;
    for (const bar of [joint.from, joint.to]) {
      const along = modulo(bar.slot - arc.start, winding.slots);
      if (within(bar.layer) && along > 0 && along < arc.length) hidden.add(joint.number);
    }
  }
  return hidden;
}

/** A closed chain among joints that all wait for some other of them. */
function ringIn(left: readonly number[], waits: ReadonlyMap<number, ReadonlySet<number>>): number[] {
  const stuck = new Set(left);
  const chain: number[] = [];
  let current = left.find((number) => [...(waits.get(number) ?? [])].some((before) => stuck.has(before)))!;
  while (!chain.includes(current)) {
    chain.push(current);
    current = [...(waits.get(current) ?? [])].find((before) => stuck.has(before))!;
  }
  return chain.slice(chain.indexOf(current));
}
