/**
 * How a list follows from the one before it, read along that one from its front: a positive number keeps so many
 * of its items, a negative one leaves so many out, and anything else is an item put in at this place, or what
 * changes of the next item. What is left of the list before at the end is left out.
 */
export type ListChange = readonly unknown[];

/** How items are told apart and sent. */
export interface ItemRule<Item> {
  /** Items of one key are the same thing in both lists. */
  readonly key: (item: Item) => string;
  /** All of an item; no number. */
  readonly pack: (item: Item) => unknown;
  /** What makes the item before into this one: null for nothing; undefined where it is sent as a whole. */
  readonly change: (before: Item, item: Item) => unknown;
}

/** An item read from a step of a change, and whether it takes the place of the next item. */
export interface ReadItem<Item> {
  readonly item: Item;
  readonly takesNext: boolean;
}

/** The change from one list to another; null where nothing changes. */
export function listChange<Item>(
  before: readonly Item[],
  items: readonly Item[],
  rule: ItemRule<Item>,
): ListChange | null {
  const steps: unknown[] = [];
  const places = keptPlaces(before, items, rule.key);
  let at = 0;
  let changed = items.length !== before.length;
  for (const [index, item] of items.entries()) {
    const place = places[index]!;
    if (place < 0) {
      steps.push(rule.pack(item));
      changed = true;
      continue;
    }
    if (place > at) {
      count(steps, at - place);
      changed = true;
    }
    at = place + 1;
    const change = rule.change(before[place]!, item);
    if (change === null) {
      count(steps, 1);
      continue;
    }
    changed = true;
    if (change === undefined) {
      count(steps, -1);
      steps.push(rule.pack(item));
    } else steps.push(change);
  }
  return changed ? steps : null;
}

/**
 * The list that follows from `before`; `read` takes up what is no number, beside the next item of the list before.
 * Null where the change does not fit: it is none, or it was made against another list.
 */
export function followList<Item>(
  before: readonly Item[],
  change: unknown,
  read: (step: unknown, next: Item | undefined) => ReadItem<Item> | null,
): readonly Item[] | null {
  if (!Array.isArray(change)) return null;
  const items: Item[] = [];
  let at = 0;
  for (const step of change as readonly unknown[]) {
    if (typeof step === 'number') {
      if (!Number.isInteger(step) || step === 0 || at + Math.abs(step) > before.length) return null;
      for (const end = at + Math.abs(step); at < end; at++) if (step > 0) items.push(before[at]!);
      continue;
    }
    const found = read(step, before[at]);
    if (found === null) return null;
    if (found.takesNext) at++;
    items.push(found.item);
  }
  return items;
}

/** Lengthens the last count of the same sign, or begins one. */
function count(steps: unknown[], by: number): void {
  const last = steps.at(-1);
  if (typeof last === 'number' && last > 0 === by > 0) steps[steps.length - 1] = last + by;
  else steps.push(by);
}

/** For each of `items` the place of its key in `before`, rising, as many as possible; -1 for one that is put in. */
function keptPlaces<Item>(
  before: readonly Item[],
  items: readonly Item[],
  key: (item: Item) => string,
): readonly number[] {
  // Most items stay where they were, seen from the front or the back: what is itself needs no key there.
  const isKept = (one: Item, other: Item) => one === other || key(one) === key(other);
  const most = Math.min(before.length, items.length);
  const places = new Array<number>(items.length).fill(-1);
  let start = 0;
  for (; start < most && isKept(before[start]!, items[start]!); start++) places[start] = start;
  const longer = before.length - items.length;
  let end = items.length;
  for (; end > start && end + longer > start && isKept(before[end + longer - 1]!, items[end - 1]!); end--)
    places[end - 1] = end + longer - 1;
  if (start === end) return places;
  const known = new Map<string, number[]>();
  for (let place = end + longer - 1; place >= start; place--) {
    const name = key(before[place]!);
    const others = known.get(name);
    if (others === undefined) known.set(name, [place]);
    else others.push(place);
  }
  const found = items.slice(start, end).map((item) => known.get(key(item))?.pop() ?? -1);
  for (const index of longestRise(found)) places[start + index] = found[index]!;
  return places;
}

/** Indices of a longest rising run of the values that are not negative. */
function longestRise(values: readonly number[]): readonly number[] {
  // ends[k]: index of the smallest value at which a run of k + 1 values can end.
  const ends: number[] = [];
  const previous = new Array<number>(values.length).fill(-1);
  for (const [index, value] of values.entries()) {
    if (value < 0) continue;
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[ends[middle]!]! < value) low = middle + 1;
      else high = middle;
    }
    previous[index] = low > 0 ? ends[low - 1]! : -1;
    ends[low] = index;
  }
  const run: number[] = [];
  for (let at = ends.at(-1) ?? -1; at >= 0; at = previous[at]!) run.push(at);
  return run.reverse();
}
