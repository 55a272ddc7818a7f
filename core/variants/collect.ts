/** A candidate that is kept. */
export interface Kept {
  readonly number: number;
  /** Of the question's measures, SI units, ratios as fractions; null where missing. */
  readonly figures: readonly (number | null)[];
}

/** Candidates that were refused, by reason. */
export type Refusals = ReadonlyMap<string, number>;

/** The best of what has been seen so far, in bounded memory. */
export interface Collection {
  readonly refused: (reason: string, count?: number) => void;
  readonly leftOut: (count?: number) => void;
  readonly kept: (candidate: Kept, counted?: boolean) => void;
  readonly counts: () => Counts;
  /** The best, in their order. */
  readonly best: () => readonly Kept[];
  /** Those that none beats in everything ranked by, in their order; null where one quantity ranks, or none. */
  readonly front: () => readonly Kept[] | null;
  /** More than `mostOfFront` belong to the front: those that come last in the order are left out. */
  readonly frontCut: () => boolean;
}

export interface Counts {
  readonly judged: number;
  readonly kept: number;
  readonly leftOut: number;
  readonly refused: Refusals;
}

/** Most rows of the front; further ones are left out, and that is told. */
export const mostOfFront = 10_000;

interface Ranked extends Kept {
  /** What ranks, the less the better; digits that rounding makes are left out. */
  readonly keys: readonly number[];
}

/** Digits by which figures are compared: the last ones are rounding. */
const comparedDigits = 12;

/** A figure that ranks, and which way. */
export interface Order {
  readonly better: 'least' | 'most';
  /** Place among the figures. */
  readonly figure: number;
}

/** Collects candidates; the first of `order` counts most, `top` is how many of the best are kept, `room` of the front. */
export function collection(order: readonly Order[], top: number, room = mostOfFront): Collection {
  const refused = new Map<string, number>();
  let [kept, leftOut] = [0, 0];
  // A heap whose first is the worst of the best.
  const heap: Ranked[] = [];
  let front: Ranked[] = [];
  // Front rows at or behind this one in the order are not all known any more.
  let bound: Ranked | null = null;

  const keysOf = ({ figures }: Kept) =>
    order.map(({ better, figure }) => {
      const value = figures[figure] ?? null;
      if (value === null) return Number.POSITIVE_INFINITY;
      return (better === 'least' ? 1 : -1) * Number(value.toPrecision(comparedDigits));
    });

  const sink = () => {
    for (let at = 0; ; ) {
      const [left, right] = [2 * at + 1, 2 * at + 2];
      let worst = at;
      if (left < heap.length && compare(heap[left]!, heap[worst]!) > 0) worst = left;
      if (right < heap.length && compare(heap[right]!, heap[worst]!) > 0) worst = right;
      if (worst === at) return;
      [heap[at], heap[worst]] = [heap[worst]!, heap[at]!];
      at = worst;
    }
  };
  const rise = () => {
    for (let at = heap.length - 1; at > 0; ) {
      const parent = (at - 1) >> 1;
      if (compare(heap[at]!, heap[parent]!) <= 0) return;
      [heap[at], heap[parent]] = [heap[parent]!, heap[at]!];
      at = parent;
    }
  };
  const addBest = (candidate: Ranked) => {
    if (heap.length < top) {
      heap.push(candidate);
      rise();
    } else if (top > 0 && compare(candidate, heap[0]!) < 0) {
      heap[0] = candidate;
      sink();
    }
  };
  const addFront = (candidate: Ranked) => {
    if (bound && compare(candidate, bound) >= 0) return;
    // What beats it comes before it in the order; what it beats, behind.
    const at = placeIn(front, candidate);
    for (let i = 0; i < at; i++) if (beats(front[i]!, candidate)) return;
    const behind = front.slice(at).filter((other) => !beats(candidate, other));
    front = [...front.slice(0, at), candidate, ...behind];
    if (front.length > room) {
      bound = front[room]!;
      front = front.slice(0, room);
    }
  };
  return {
    refused: (reason, count = 1) => {
      refused.set(reason, (refused.get(reason) ?? 0) + count);
    },
    leftOut: (count = 1) => {
      leftOut += count;
    },
    kept: (candidate, counted = true) => {
      if (counted) kept++;
      const ranked = { ...candidate, keys: keysOf(candidate) };
      addBest(ranked);
      if (order.length > 1) addFront(ranked);
    },
    counts: () => ({
      judged: kept + leftOut + [...refused.values()].reduce((sum, count) => sum + count, 0),
      kept,
      leftOut,
      refused: new Map([...refused].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))),
    }),
    best: () => [...heap].sort(compare),
    front: () => (order.length > 1 ? front : null),
    frontCut: () => bound !== null,
  };
}

/** The order of rows: the first quantity that differs decides, then the number. */
function compare(a: Ranked, b: Ranked): number {
  for (let i = 0; i < a.keys.length; i++) {
    const [x, y] = [a.keys[i]!, b.keys[i]!];
    if (x !== y) return x < y ? -1 : 1;
  }
  return a.number - b.number;
}

/** Whether a is as good as b in everything and better in something. */
function beats(a: Ranked, b: Ranked): boolean {
  let better = false;
  for (let i = 0; i < a.keys.length; i++) {
    if (a.keys[i]! > b.keys[i]!) return false;
    if (a.keys[i]! < b.keys[i]!) better = true;
  }
  return better;
}

/** Where a row belongs among rows in order. */
function placeIn(rows: readonly Ranked[], row: Ranked): number {
  let [low, high] = [0, rows.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compare(rows[middle]!, row) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}
