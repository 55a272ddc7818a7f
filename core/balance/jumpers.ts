import type { Connections, WindingJoint } from '../winding/joints.ts';
import { lowerBar, offsetOf, upperBar } from '../winding/joints.ts';
import type { Winding } from '../winding/model.ts';

/** At which height above the end winding each jumper runs. */
export interface JumperLevels {
  /** Level from 1, by joint number. */
  readonly levels: ReadonlyMap<number, number>;
  readonly highest: number;
  /** Most jumpers over one place: no arrangement has fewer levels. */
  readonly overlap: number;
}

interface Arc {
  readonly joint: WindingJoint;
  readonly start: number;
  readonly length: number;
  readonly lower: number;
  readonly upper: number;
}

/** Levels of the jumpers of both sides; jumpers of one side that share layers and slots lie one above another. */
export function jumperLevels(winding: Winding, connections: Connections): JumperLevels {
  const arcs = connections.joints.filter((joint) => joint.kind === 'jumper').map((joint) => arcOf(joint));
  arcs.sort((a, b) => a.start - b.start || a.length - b.length || a.joint.number - b.joint.number);
  const levels = new Map<number, number>();
  const placed: Arc[] = [];
  for (const arc of arcs) {
    const taken = new Set(
      placed
        .filter((other) => collide(winding.slots, arc, other))
        .map((other) => levels.get(other.joint.number)!),
    );
    let level = 1;
    while (taken.has(level)) level++;
    levels.set(arc.joint.number, level);
    placed.push(arc);
  }
  const overlap = Math.max(
    0,
    ...arcs.map((arc) => arcs.filter((other) => collideAt(winding.slots, arc, other)).length),
  );
  return { levels, highest: Math.max(0, ...levels.values()), overlap };
}

function arcOf(joint: WindingJoint): Arc {
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
  return (((slot - arc.start) % slots) + slots) % slots <= arc.length;
}

/** Jumpers of one path: their number and their total span in slots. */
export interface PathJumpers {
  readonly path: number;
  readonly count: number;
  readonly slots: number;
}

/** Jumpers of every path; where parallel paths differ, so do their resistance and leakage. */
export function jumpersByPath(connections: Connections, paths: number): PathJumpers[] {
  return Array.from({ length: paths }, (_, path) => {
    const own = connections.joints.filter((joint) => joint.path === path && joint.kind === 'jumper');
    return { path, count: own.length, slots: own.reduce((sum, joint) => sum + Math.abs(joint.trueSpan), 0) };
  });
}

/** In which order joints can be set, or a ring of joints each of which hides the next. */
export interface AccessOrder {
  /** Joint numbers in an order in which none is hidden by an earlier one; joints in a ring are missing. */
  readonly order: readonly number[];
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
    if (joint.kind === 'jumper') waits.set(joint.number, hiddenBy(winding, connections, joint));
  }
  const done = new Set<number>();
  const order: number[] = [];
  let left = connections.joints.map((joint) => joint.number);
  while (left.length > 0) {
    const next = left.filter((number) => [...(waits.get(number) ?? [])].every((before) => done.has(before)));
    if (next.length === 0) return { order, ring: ringIn(left, waits) };
    for (const number of next) done.add(number);
    order.push(...next);
    left = left.filter((number) => !done.has(number));
  }
  return { order, ring: null };
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
      const along = (((bar.slot - arc.start) % winding.slots) + winding.slots) % winding.slots;
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
