import type { Steps } from '../../figures/steps.ts';
import type { CoverTask, GraphPath, Link } from './links.ts';
import { linkCost, linksFrom } from './links.ts';

/** Total cost of some paths: jumpers x 10000 + special joints. */
export function coverCost(paths: readonly GraphPath[]): number {
  return paths.reduce((sum, path) => sum + path.links.reduce((cost, link) => cost + linkCost(link), 0), 0);
}

/**
 * The cheapest cover of at most 16 units by balanced paths: the cheapest order of every subset that is
 * a path's fair share (dynamic programming over subsets and last units), then the cheapest exact cover
 * of all units by such subsets. Null where no cover exists, or where paths have to be chained over
 * repeats (the closing joint is not part of this search). Yields every few thousand subsets.
 */
export function* exactCover(task: CoverTask): Steps<GraphPath[] | null> {
  const { graph } = task;
  const count = graph.units.length;
  if (count === 0 || task.chained > 1) return null;
  const full = 2 ** count - 1;
  const best = bestLinks(task);
  const cost = new Int32Array((full + 1) * count).fill(-1);
  const before = new Int8Array((full + 1) * count).fill(-1);
  const shares: number[] = [];
  for (let set = 1; set <= full; set++) {
    if (set % 1024 === 0) yield;
    const share = shareOf(task, set);
    if (share === 'too-much') continue;
    for (let last = 0; last < count; last++) {
      if ((set & (1 << last)) === 0) continue;
      const rest = set & ~(1 << last);
      if (rest === 0) {
        cost[set * count + last] = 0;
        continue;
      }
      for (let prior = 0; prior < count; prior++) {
        const known = cost[rest * count + prior]!;
        const link = best[prior]![last];
        if (known < 0 || !link) continue;
        const total = known + linkCost(link);
        const old = cost[set * count + last]!;
        if (old >= 0 && old <= total) continue;
        cost[set * count + last] = total;
        before[set * count + last] = prior;
      }
    }
    if (share === 'exact') shares.push(set);
  }
  const cover = cheapestCover(full, shares, (set) => cheapestLast(cost, set, count).cost);
  return cover?.map((set) => traceBack(best, cost, before, set, count)) ?? null;
}

/** The cheapest link from each unit to each other. */
function bestLinks({ graph }: CoverTask): (Link | undefined)[][] {
  return graph.units.map((_, unit) => {
    const row: (Link | undefined)[] = graph.units.map(() => undefined);
    for (const link of linksFrom(graph, unit)) {
      const known = row[link.to];
      if (!known || linkCost(link) < linkCost(known)) row[link.to] = link;
    }
    return row;
  });
}

function shareOf(task: CoverTask, set: number): 'too-much' | 'part' | 'exact' {
  const classes = task.classQuota.map((quota) => quota);
  const pairs = task.pairQuota.map((quota) => quota);
  for (let unit = 0; 1 << unit <= set; unit++) {
    if ((set & (1 << unit)) === 0) continue;
    classes[task.graph.classes[unit]!]!--;
    pairs[task.graph.units[unit]!.pair]!--;
  }
  if ([...classes, ...pairs].some((left) => left < 0)) return 'too-much';
  return classes.every((left) => left === 0) && pairs.every((left) => left === 0) ? 'exact' : 'part';
}

function cheapestLast(cost: Int32Array, set: number, count: number): { cost: number; last: number } {
  let best = { cost: -1, last: -1 };
  for (let last = 0; last < count; last++) {
    const value = cost[set * count + last]!;
    if (value >= 0 && (best.cost < 0 || value < best.cost)) best = { cost: value, last };
  }
  return best;
}

function cheapestCover(
  full: number,
  shares: readonly number[],
  costOf: (set: number) => number,
): number[] | null {
  const byLowest = new Map<number, { set: number; cost: number }[]>();
  for (const set of shares) {
    const cost = costOf(set);
    if (cost < 0) continue;
    const lowest = set & -set;
    byLowest.set(lowest, [...(byLowest.get(lowest) ?? []), { set, cost }]);
  }
  const known = new Map<number, { cost: number; first: number } | null>();
  const solve = (left: number): { cost: number; first: number } | null => {
    if (left === 0) return { cost: 0, first: 0 };
    const cached = known.get(left);
    if (cached !== undefined) return cached;
    let best: { cost: number; first: number } | null = null;
    for (const { set, cost } of byLowest.get(left & -left) ?? []) {
      if ((set & left) !== set) continue;
      const rest = solve(left & ~set);
      if (rest && (!best || cost + rest.cost < best.cost)) best = { cost: cost + rest.cost, first: set };
    }
    known.set(left, best);
    return best;
  };
  if (!solve(full)) return null;
  const chosen: number[] = [];
  for (let left = full; left !== 0; ) {
    const { first } = solve(left)!;
    chosen.push(first);
    left &= ~first;
  }
  return chosen;
}

function traceBack(
  best: readonly (readonly (Link | undefined)[])[],
  cost: Int32Array,
  before: Int8Array,
  set: number,
  count: number,
): GraphPath {
  const units: number[] = [];
  const links: Link[] = [];
  let left = set;
  let last = cheapestLast(cost, set, count).last;
  while (last >= 0) {
    units.unshift(last);
    const prior = before[left * count + last]!;
    if (prior >= 0) links.unshift(best[prior]![last]!);
    left &= ~(1 << last);
    last = prior;
  }
  return { units, links, closing: null };
}
