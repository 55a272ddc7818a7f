/** Something to be measured. */
export type Work = () => unknown;

/** The middle value; of an even number of values the upper one of the two. */
export function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

/** Median milliseconds of at least `least` runs and half a second, after a second of warming up: an editor types for hours. */
export async function medianTime(work: Work, least = 15): Promise<number> {
  await runFor(1000, 5, work);
  return middle(await runFor(500, least, work));
}

/** Times of the runs in so many milliseconds, at least `least` of them. */
async function runFor(duration: number, least: number, work: Work): Promise<readonly number[]> {
  const times: number[] = [];
  const end = performance.now() + duration;
  while (times.length < least || performance.now() < end) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times;
}

/**
 * Milliseconds of processor time a run of each work takes, medians of stretches that take turns. The processor's
 * time leaves out what other programs took, and taking turns lets a slow moment slow all works alike: so the
 * ratios hold on a busy machine too.
 */
export async function processorTimes(...works: readonly Work[]): Promise<readonly number[]> {
  const runs: number[] = [];
  for (const work of works) {
    const warm = await runFor(1000, 5, work);
    runs.push(Math.max(1, Math.ceil(20 / middle(warm))));
  }
  const times = works.map((): number[] => []);
  for (let stretch = 0; stretch < 25; stretch++)
    for (const [index, work] of works.entries()) times[index]!.push(await processorTime(work, runs[index]!));
  return times.map(middle);
}

async function processorTime(work: Work, runs: number): Promise<number> {
  const start = process.cpuUsage();
  for (let run = 0; run < runs; run++) await work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000 / runs;
}
