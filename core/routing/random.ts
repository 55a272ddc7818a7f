/**
 * Repeatable pseudo-random numbers in [0, 1) (mulberry32): the same seed gives the same sequence. Plain data, which
 * loops that draw a number every few nanoseconds read faster than a function that hides it.
 */
export interface RandomSequence {
  state: number;
}

export function randomSequence(seed: number): RandomSequence {
  // With a sign, in which all 32 bits fit a small integer of the runtime.
  return { state: seed | 0 };
}

/** The next number of a sequence. */
export function nextRandom(sequence: RandomSequence): number {
  const state = (sequence.state + 0x6d2b79f5) | 0;
  sequence.state = state;
  let mixed = Math.imul(state ^ (state >>> 15), state | 1);
  mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
}

/** A function that gives the numbers of a sequence one after the other. */
export function seededRandom(seed: number): () => number {
  const sequence = randomSequence(seed);
  return () => nextRandom(sequence);
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
