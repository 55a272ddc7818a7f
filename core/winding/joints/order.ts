/**
 * The items by rising key, items of equal key in the order in which they came. Counts instead of
 * comparing, so the time is that of items plus keys. Keys are integers 0 <= key < `keys`; others throw
 * RangeError.
 */
export function sortedByKey<Item>(
  items: readonly Item[],
  keys: number,
  keyOf: (item: Item) => number,
): Item[] {
  const next = new Int32Array(keys + 1);
  for (const item of items) {
    const key = keyOf(item);
    if (!(Number.isInteger(key) && key >= 0 && key < keys)) {
      throw new RangeError(`key ${key} is no integer from 0 to ${keys - 1}`);
    }
    next[key + 1]!++;
  }
  for (let key = 1; key <= keys; key++) next[key]! += next[key - 1]!;
  const sorted = items.slice();
  for (const item of items) {
    sorted[next[keyOf(item)]!++] = item;
  }
  return sorted;
}
