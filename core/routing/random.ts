/** Repeatable pseudo-random numbers in [0, 1) (mulberry32): the same seed gives the same sequence. */
export function seededRandom(seed: number): () => number {
  // With a sign, in which all 32 bits fit a small integer of the runtime.
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** The list in random order. */
export function shuffled<Item>(list: readonly Item[], random: () => number): Item[] {
  const copy = [...list];
  for (let last = copy.length - 1; last > 0; last--) {
    const other = Math.floor(random() * (last + 1));
    [copy[last], copy[other]] = [copy[other]!, copy[last]!];
  }
  return copy;
}
