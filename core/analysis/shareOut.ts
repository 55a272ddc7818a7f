/** Bars that are alike for balance; paths pass `plus` of them away from the connection side, `minus` back. */
export interface LikeBars {
  /** Number of their voltage class, and of their layer. */
  readonly voltage: number;
  /** From 0. */
  readonly layer: number;
  /** How many a path passes away from the connection side. */
  readonly plus: number;
  /** How many it passes back. */
  readonly minus: number;
}

/** Things that are alike and not shared out yet, and what each of them holds of what shares must hold equally. */
export interface Heap {
  /** Each group once, with how much of it one thing holds. */
  readonly holds: readonly { readonly group: number; readonly each: number }[];
  left: number;
}

/** What one share still needs, and what the heaps not yet looked at could give. */
interface Need {
  left: number;
  ahead: number;
}

/** How many of each kind of `LikeBars` a share holds, in the order of the list. */
export type Share = readonly { readonly plus: number; readonly minus: number }[];

/**
 * Whether bars can be dealt to `paths` equal shares: as many of each voltage class, of each layer and
 * of each sense in each. `paths` divides all these sums. `effort.steps` counts down; where it is used
 * up the answer is no.
 */
export function canShareOut(bars: readonly LikeBars[], paths: number, effort: { steps: number }): boolean {
  // Bipartite, so its edges can be colored evenly: classes (or layers) told apart by sense, against the other.
  const byVoltage = sumsBySense(bars, ({ voltage }) => voltage);
  const byLayer = sumsBySense(bars, ({ layer }) => layer);
  if ([byVoltage, byLayer].some((sums) => sums.every((sum) => sum % paths === 0))) return true;
  return sharesOf(bars, paths, effort) !== null;
}

/** The same bars where every voltage is to agree layer by layer (strict): each cell is a class of its own. */
export function cellByCell(bars: readonly LikeBars[]): readonly LikeBars[] {
  return bars.map((bar, index) => ({ ...bar, voltage: index, layer: 0 }));
}

/** The shares themselves; null where the effort does not suffice to find any. */
export function sharesOf(
  bars: readonly LikeBars[],
  paths: number,
  effort: { steps: number },
): readonly Share[] | null {
  const byName = bars.map((_, index) => index);
  byName.sort((a, b) => bars[a]!.voltage - bars[b]!.voltage || bars[a]!.layer - bars[b]!.layer || a - b);
  const shares = shareHeaps(
    byName.flatMap((index) => heapsOf(bars[index]!)),
    paths,
    effort,
  );
  return (
    shares?.map((share) =>
      bars.map((_, index) => {
        const place = 2 * byName.indexOf(index);
        return { plus: share[place]!, minus: share[place + 1]! };
      }),
    ) ?? null
  );
}

/**
 * So many equal shares of some heaps: how much each has of every heap. Null where there are none, or where the effort
 * does not suffice to find any: `effort.steps` counts down.
 */
export function shareHeaps(
  heaps: readonly Heap[],
  paths: number,
  effort: { steps: number },
): readonly (readonly number[])[] | null {
  const held = heaps.map(({ left }) => left);
  const dealt: number[][] = [];
  if (
    !dealShares(
      heaps.map((heap) => ({ ...heap })),
      paths,
      effort,
      new Set(),
      dealt,
    )
  )
    return null;
  const rest = held.map((count, index) => count - dealt.reduce((sum, share) => sum + share[index]!, 0));
  return [...dealt, rest];
}

/** The bars that are passed away, and those that are passed back. */
function heapsOf({ voltage, layer, plus, minus }: LikeBars): Heap[] {
  const holds = (sense: number) =>
    [3 * voltage, 3 * layer + 1, 3 * sense + 2].map((group) => ({ group, each: 1 }));
  return [
    { holds: holds(0), left: plus },
    { holds: holds(1), left: minus },
  ];
}

/** Bars of each group and sense. */
function sumsBySense(bars: readonly LikeBars[], groupOf: (bar: LikeBars) => number): number[] {
  const sums = new Map<number, number>();
  const add = (key: number, count: number) => sums.set(key, (sums.get(key) ?? 0) + count);
  for (const bar of bars) {
    add(2 * groupOf(bar), bar.plus);
    add(2 * groupOf(bar) + 1, bar.minus);
  }
  return [...sums.values()];
}

/** Deals one share after the other but the last into `dealt`, taking back where the rest cannot be dealt. */
function dealShares(
  heaps: readonly Heap[],
  paths: number,
  effort: { steps: number },
  failed: Set<string>,
  dealt: number[][],
): boolean {
  if (paths === 1) return true;
  const key = heaps.map(({ left }) => left).join(' ');
  if (failed.has(key)) return false;
  const needs = new Map<number, Need>();
  for (const { holds, left } of heaps)
    for (const { group, each } of holds) {
      const need = needs.get(group) ?? { left: 0, ahead: 0 };
      need.ahead += each * left;
      needs.set(group, need);
    }
  for (const need of needs.values()) need.left = need.ahead / paths;
  if ([...needs.values()].some(({ left }) => !Number.isInteger(left))) return false;
  const share = heaps.map(() => 0);
  const take = (index: number): boolean => {
    if (--effort.steps < 0) return false;
    const heap = heaps[index];
    if (!heap) {
      dealt.push([...share]);
      if (dealShares(heaps, paths - 1, effort, failed, dealt)) return true;
      dealt.pop();
      return false;
    }
    const own = heap.holds.map(({ group, each }) => ({ need: needs.get(group)!, each }));
    const held = heap.left;
    for (const { need, each } of own) need.ahead -= each * held;
    const least = Math.max(0, ...own.map(({ need, each }) => Math.ceil((need.left - need.ahead) / each)));
    const most = Math.min(held, ...own.map(({ need, each }) => Math.floor(need.left / each)));
    for (const count of fromTheMiddle(least, most, held / paths)) {
      heap.left = held - count;
      for (const { need, each } of own) need.left -= each * count;
      share[index] = count;
      const done = take(index + 1);
      for (const { need, each } of own) need.left += each * count;
      heap.left = held;
      if (done) return true;
    }
    for (const { need, each } of own) need.ahead += each * held;
    return false;
  };
  if (take(0)) return true;
  if (effort.steps >= 0) failed.add(key);
  return false;
}

/** The whole numbers from `least` to `most`, the nearest to `middle` first. */
function fromTheMiddle(least: number, most: number, middle: number): readonly number[] {
  return Array.from({ length: Math.max(0, most - least + 1) }, (_, index) => least + index).sort(
    (a, b) => Math.abs(a - middle) - Math.abs(b - middle) || a - b,
  );
}
