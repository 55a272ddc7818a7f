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

/** Bars of one voltage class, layer and sense that are not shared out yet. */
interface Heap {
  readonly voltage: number;
  readonly layer: number;
  readonly sense: number;
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
  const heaps = heapsOf(bars);
  // Bipartite, so its edges can be colored evenly: classes (or layers) told apart by sense, against the other.
  if (dividesAll(heaps, ({ voltage, sense }) => 2 * voltage + sense, paths)) return true;
  if (dividesAll(heaps, ({ layer, sense }) => 2 * layer + sense, paths)) return true;
  heaps.sort((a, b) => a.voltage - b.voltage || a.layer - b.layer);
  return dealShares(heaps, paths, effort, new Set(), []);
}

/** The shares themselves; null where the effort does not suffice to find any. Strict: each cell in equal parts. */
export function sharesOf(
  bars: readonly LikeBars[],
  paths: number,
  strict: boolean,
  effort: { steps: number },
): readonly Share[] | null {
  // Where every voltage is to agree layer by layer, each cell is a class of its own.
  const kinds = strict ? bars.map((bar, index) => ({ ...bar, voltage: index, layer: 0 })) : bars;
  const heaps = heapsOf(kinds);
  const held = heaps.map(({ left }) => left);
  const byName = heaps.map((_, index) => index);
  byName.sort((a, b) => heaps[a]!.voltage - heaps[b]!.voltage || heaps[a]!.layer - heaps[b]!.layer || a - b);
  const ordered = byName.map((index) => heaps[index]!);
  const dealt: number[][] = [];
  if (!dealShares(ordered, paths, effort, new Set(), dealt)) return null;
  const rest = held.map((count, index) => {
    const place = byName.indexOf(index);
    return count - dealt.reduce((sum, share) => sum + share[place]!, 0);
  });
  const shares = dealt.map((share) => held.map((_, index) => share[byName.indexOf(index)]!));
  return [...shares, rest].map((counts) =>
    bars.map((_, index) => ({ plus: counts[2 * index]!, minus: counts[2 * index + 1]! })),
  );
}

function heapsOf(bars: readonly LikeBars[]): Heap[] {
  return bars.flatMap(({ voltage, layer, plus, minus }): Heap[] => [
    { voltage, layer, sense: 0, left: plus },
    { voltage, layer, sense: 1, left: minus },
  ]);
}

function dividesAll(heaps: readonly Heap[], groupOf: (heap: Heap) => number, paths: number): boolean {
  return [...sumsOf(heaps, groupOf).values()].every((sum) => sum % paths === 0);
}

function sumsOf(heaps: readonly Heap[], groupOf: (heap: Heap) => number): Map<number, number> {
  const sums = new Map<number, number>();
  for (const heap of heaps) sums.set(groupOf(heap), (sums.get(groupOf(heap)) ?? 0) + heap.left);
  return sums;
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
  const needs = (groupOf: (heap: Heap) => number) =>
    new Map(
      [...sumsOf(heaps, groupOf)].map(([group, sum]): [number, Need] => [
        group,
        { left: sum / paths, ahead: sum },
      ]),
    );
  const groups = [
    needs(({ voltage }) => voltage),
    needs(({ layer }) => layer),
    needs(({ sense }) => sense),
  ] as const;
  const needsOf = ({ voltage, layer, sense }: Heap): readonly Need[] => [
    groups[0].get(voltage)!,
    groups[1].get(layer)!,
    groups[2].get(sense)!,
  ];
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
    const own = needsOf(heap);
    const held = heap.left;
    for (const need of own) need.ahead -= held;
    const least = Math.max(0, ...own.map(({ left, ahead }) => left - ahead));
    const most = Math.min(held, ...own.map(({ left }) => left));
    for (const count of fromTheMiddle(least, most, held / paths)) {
      heap.left = held - count;
      for (const need of own) need.left -= count;
      share[index] = count;
      const done = take(index + 1);
      for (const need of own) need.left += count;
      heap.left = held;
      if (done) return true;
    }
    for (const need of own) need.ahead += held;
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
