/** Whole numbers that follow each other, from the first to the last of them. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The runs of rising whole numbers. */
export function runsOf(numbers: readonly number[]): readonly Run[] {
  const runs: { from: number; to: number }[] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && number === last.to + 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  return runs;
}
