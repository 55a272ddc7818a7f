import type { Winding } from '../../core/winding/model.ts';
import type { FlatJoint, RefereeLayout } from './checkRouting.ts';
import { classOf } from './checkRouting.ts';

/**
 * Exhaustive answers for small machines, straight from the slot table: can the first phase be split into
 * equal paths of coils at all, and with how few special joints, or jumpers. Written apart from the router.
 */
export interface SubsetAnswer {
  readonly special: number;
  readonly jumpers: number;
}

interface Coil {
  readonly goSlot: number;
  readonly goLayer: number;
  readonly backSlot: number;
  readonly backLayer: number;
}

/** Least counts for equal paths (each count on its own), or null where no equal split exists. */
export function subsetAnswer(winding: Winding, layout: RefereeLayout, paths: number): SubsetAnswer | null {
  const coils = coilsOfFirstPhase(winding, layout.span);
  const count = coils.length;
  if (count % paths !== 0) return null;
  const full = (1 << count) - 1;
  const goal = contents(winding, coils, full, paths);
  if (!goal) return null;
  const shares: number[] = [];
  for (let set = 1; set <= full; set++) {
    if (bitCount(set) === count / paths && contents(winding, coils, set, 1) === goal) shares.push(set);
  }
  const special = leastCover(
    count,
    shares,
    orderCosts(winding, layout, coils, (letter) => letter !== 'A'),
  );
  const jumpers = leastCover(
    count,
    shares,
    orderCosts(winding, layout, coils, (letter) => letter === 'D' || letter === 'E' || letter === 'F'),
  );
  return special === null || jumpers === null ? null : { special, jumpers };
}

function coilsOfFirstPhase(winding: Winding, span: number): Coil[] {
  const { slots, layers, table } = winding;
  const coils: Coil[] = [];
  for (let layer = 0; layer < layers; layer++) {
    for (let slot = 1; slot <= slots; slot++) {
      if (table.cells[layer * slots + slot - 1] !== 1) continue;
      const back = layer % 2 === 0 ? slot + span : slot - span;
      coils.push({
        goSlot: slot,
        goLayer: layer,
        backSlot: ((back - 1 + slots) % slots) + 1,
        backLayer: layer % 2 === 0 ? layer + 1 : layer - 1,
      });
    }
  }
  return coils;
}

/** What a set of coils holds, each count divided by `parts`; null where that leaves a rest. */
function contents(winding: Winding, coils: readonly Coil[], set: number, parts: number): string | null {
  const { slots, layers, polePairs, table } = winding;
  const mixed = Array.from({ length: slots }, (_, slot) => {
    const phases = Array.from({ length: layers }, (_, layer) => Math.abs(table.cells[layer * slots + slot]!));
    return new Set(phases.filter((phase) => phase > 0)).size;
  }).some((phases) => phases > 1);
  const counts = new Map<string, number>();
  const put = (key: string) => counts.set(key, (counts.get(key) ?? 0) + 1);
  coils.forEach((coil, index) => {
    if ((set & (1 << index)) === 0) return;
    const go = (2 * polePairs * coil.goSlot) % (2 * slots);
    const back = (2 * polePairs * coil.backSlot + slots) % (2 * slots);
    if (mixed) {
      put(`${go}@${coil.goLayer}`);
      put(`${back}@${coil.backLayer}`);
      return;
    }
    put(`angle ${go}`);
    put(`angle ${back}`);
    put(`layer ${coil.goLayer}`);
    put(`layer ${coil.backLayer}`);
  });
  if ([...counts.values()].some((value) => value % parts !== 0)) return null;
  return [...counts]
    .map(([key, value]) => `${key}:${value / parts}`)
    .sort()
    .join();
}

function bitCount(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** Least cost of walking each set of coils in the best order. */
function orderCosts(
  winding: Winding,
  layout: RefereeLayout,
  coils: readonly Coil[],
  counts: (letter: string) => boolean,
): Int32Array {
  const count = coils.length;
  const link = coils.map((from) => coils.map((to) => (anyFree(winding, layout, from, to, counts) ? 0 : 1)));
  const size = 1 << count;
  const cost = new Int32Array(size * count).fill(1_000_000);
  const best = new Int32Array(size).fill(1_000_000);
  for (let set = 1; set < size; set++) {
    for (let last = 0; last < count; last++) {
      if ((set & (1 << last)) === 0) continue;
      const rest = set ^ (1 << last);
      let least = rest === 0 ? 0 : 1_000_000;
      for (let prior = 0; prior < count; prior++) {
        if ((rest & (1 << prior)) === 0) continue;
        least = Math.min(least, cost[rest * count + prior]! + link[prior]![last]!);
      }
      cost[set * count + last] = least;
      best[set] = Math.min(best[set]!, least);
    }
  }
  return best;
}

/** Whether one of the two ways round the bore needs nothing that is counted. */
function anyFree(
  winding: Winding,
  layout: RefereeLayout,
  from: Coil,
  to: Coil,
  counts: (letter: string) => boolean,
): boolean {
  const { slots } = winding;
  const forward = (((to.goSlot - from.backSlot) % slots) + slots) % slots;
  return [forward, forward - slots].some((span) => {
    const joint: FlatJoint = {
      side: 'C',
      fromSlot: from.backSlot,
      fromLayer: from.backLayer,
      toSlot: to.goSlot,
      toLayer: to.goLayer,
      span,
      path: 0,
    };
    return Math.abs(span) < slots && !counts(classOf(winding, layout, joint));
  });
}

function leastCover(count: number, shares: readonly number[], cost: Int32Array): number | null {
  const known = new Map<number, number>([[0, 0]]);
  const solve = (left: number): number => {
    const cached = known.get(left);
    if (cached !== undefined) return cached;
    const lowest = left & -left;
    let least = 1_000_000;
    for (const share of shares) {
      if ((share & lowest) === 0 || (share & left) !== share) continue;
      least = Math.min(least, cost[share]! + solve(left ^ share));
    }
    known.set(left, least);
    return least;
  };
  const least = solve((1 << count) - 1);
  return least >= 1_000_000 ? null : least;
}
