/** A stretch of a ring or of a line: from < to; on a ring of circumference w it may reach beyond w. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Interval coloring: gives each stretch the lowest level on which it keeps `gap` from all others, short
 * ones first so that they lie lowest. `around` is the ring's circumference. Returns a level per stretch.
 */
export function assignLevels(stretches: readonly Stretch[], around: number, gap: number): readonly number[] {
  const order = stretches
    .map((stretch, index) => ({ stretch, index }))
    .sort(
      (one, other) =>
        one.stretch.to - one.stretch.from - (other.stretch.to - other.stretch.from) ||
        one.stretch.from - other.stretch.from,
    );
  const taken: Stretch[][] = [];
  const levels = new Array<number>(stretches.length).fill(0);
  for (const { stretch, index } of order) {
    let level = taken.findIndex((others) => !others.some((other) => meets(stretch, other, around, gap)));
    if (level < 0) level = taken.push([]) - 1;
    taken[level]!.push(stretch);
    levels[index] = level;
  }
  return levels;
}

function meets(one: Stretch, other: Stretch, around: number, gap: number): boolean {
  const meet = (turn: number) => one.from < other.to + turn + gap && other.from + turn < one.to + gap;
  return meet(0) || meet(around) || meet(-around);
}

/**
 * Moves places apart on a line so that neighbors keep `gap`, as little as a single pass needs, within
 * low..high where they fit. `wanted` ascends; so does the result.
 */
export function spread(wanted: readonly number[], gap: number, low: number, high: number): readonly number[] {
  const places: number[] = [];
  // Blocks of touching places, each centered on the mean of what its members want.
  const blocks: { sum: number; count: number }[] = [];
  const start = ({ sum, count }: { sum: number; count: number }): number => {
    const length = (count - 1) * gap;
    return Math.max(low, Math.min(sum / count - length / 2, high - length));
  };
  for (const place of wanted) {
    blocks.push({ sum: place, count: 1 });
    while (blocks.length > 1) {
      const last = blocks.at(-1)!;
      const previous = blocks.at(-2)!;
      if (start(previous) + previous.count * gap <= start(last)) break;
      blocks.pop();
      previous.sum += last.sum;
      previous.count += last.count;
    }
  }
  for (const block of blocks)
    for (let index = 0; index < block.count; index++) places.push(start(block) + index * gap);
  return places;
}
