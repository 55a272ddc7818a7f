import { modulo } from '../winding/integers.ts';
import type { Connections, WindingJoint } from '../winding/joints/joints.ts';
import type { Winding } from '../winding/model.ts';
import { arcOf } from './pieceArc.ts';

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
