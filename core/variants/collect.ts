import { rounded } from '../language/numbers.ts';

/** A candidate that is kept. */
export interface Kept {
  /** The candidate's, from 1. */
  readonly number: number;
  /** Of the question's measures, SI units, ratios as fractions; null where missing. */
  readonly figures: readonly (number | null)[];
}

/** Candidates that were refused, by reason. */
export type Refusals = ReadonlyMap<string, number>;

/** The best of what has been seen so far, in bounded memory. */
export interface Collection {
  /** So many candidates, one unless told, were refused for a reason. */
  readonly refused: (reason: string, count?: number) => void;
  /** So many candidates, one unless told, miss a `keep`. */
  readonly leftOut: (count?: number) => void;
  readonly kept: (candidate: Kept) => void;
  readonly counts: () => Counts;
  /** The best, in their order. */
  readonly best: () => readonly Kept[];
  /** Those that none beats in everything ranked by, in their order; null where one quantity ranks, or none. */
  readonly front: () => readonly Kept[] | null;
  /** More than `mostOfFront` belong to the front: those that come last in the order are left out. */
  readonly frontCut: () => boolean;
}

/** Candidates; those judged are kept, left out or refused. */
export interface Counts {
  /** Kept, left out and refused together. */
  readonly judged: number;
  /** They meet every `keep`. */
  readonly kept: number;
  /** They miss a `keep`. */
  readonly leftOut: number;
  readonly refused: Refusals;
}

/** Most rows of the front; further ones are left out, and that is told. */
const mostOfFront = 10_000;

interface Ranked extends Kept {
  /** What ranks, the less the better; digits that rounding makes are left out. */
  readonly keys: readonly number[];
}

/** Rows of the front with equal keys. */
interface Group {
  readonly keys: readonly number[];
  readonly members: Ranked[];
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
  // Those of equal keys together, in the order.
  let front: Group[] = [];
  let members = 0;
  // Front rows at or behind this one in the order are not all known any more.
  let bound: Ranked | null = null;

  const keysOf = ({ figures }: Kept) =>
    order.map(({ better, figure }) => {
      const value = figures[figure] ?? null;
      if (value === null) return Number.POSITIVE_INFINITY;
      return (better === 'least' ? 1 : -1) * rounded(value, comparedDigits);
    });

  let last: Omit<Ranked, 'number'> = { figures: [], keys: [] };

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
    const here = front[at];
    if (here && compareKeys(here.keys, candidate.keys) === 0) insert(here.members, candidate);
    else {
      for (let i = 0; i < at; i++) if (beats(front[i]!, candidate)) return;
      const behind = front.slice(at).filter((other) => !beats(candidate, other));
      for (const other of front.slice(at)) if (beats(candidate, other)) members -= other.members.length;
      front = [...front.slice(0, at), { keys: candidate.keys, members: [candidate] }, ...behind];
    }
    members++;
    while (members > room) {
      const last = front.at(-1)!;
      bound = last.members.pop()!;
      members--;
      if (last.members.length === 0) front.pop();
    }
  };
  return {
    refused: (reason, count = 1) => {
      refused.set(reason, (refused.get(reason) ?? 0) + count);
    },
    leftOut: (count = 1) => {
      leftOut += count;
    },
    kept: (candidate) => {
      kept++;
      // Candidates that share a layout often share their figures, too.
      if (candidate.figures !== last.figures) last = { figures: candidate.figures, keys: keysOf(candidate) };
      const ranked = { number: candidate.number, figures: candidate.figures, keys: last.keys };
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
    front: () => (order.length > 1 ? front.flatMap((group) => group.members) : null),
    frontCut: () => bound !== null,
  };
}

/** The order of rows: the first quantity that differs decides, then the number. */
function compare(a: Ranked, b: Ranked): number {
  return compareKeys(a.keys, b.keys) || a.number - b.number;
}

function compareKeys(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [a[i]!, b[i]!];
    if (x !== y) return x < y ? -1 : 1;
  }
  return 0;
}

type Keyed = Pick<Ranked, 'keys'>;

/** Whether a is as good as b in everything and better in something. */
function beats(a: Keyed, b: Keyed): boolean {
  let better = false;
  for (let i = 0; i < a.keys.length; i++) {
    if (a.keys[i]! > b.keys[i]!) return false;
    if (a.keys[i]! < b.keys[i]!) better = true;
  }
  return better;
}

/** The first of the groups in order that does not come before a row. */
function placeIn(groups: readonly Group[], { keys }: Keyed): number {
  let [low, high] = [0, groups.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compareKeys(groups[middle]!.keys, keys) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Puts a row among others of equal keys, in the order of their numbers. */
function insert(rows: Ranked[], row: Ranked): void {
  let at = rows.length;
  while (at > 0 && rows[at - 1]!.number > row.number) at--;
  rows.splice(at, 0, row);
}
