import type { Facts } from '../facts/facts.ts';
import { type Measurer, measureNow, type Work } from '../figures/work.ts';

/** Work that something computed needs first: what was computed by then is kept, and it goes on from there. */
interface WorkFirst extends Error {
  readonly work: Work<unknown>;
}

/** Whether a problem is none, but work that is to be done first. */
export function isWorkFirst(problem: unknown): problem is WorkFirst {
  return problem instanceof Error && 'work' in problem;
}

/** The facts of a whole candidate, read while what takes its time is done in steps. */
export interface Whole {
  readonly read: <T>(of: (facts: Facts) => T) => Generator<undefined, T>;
}

/**
 * Reads facts that ask a measurer for work: where it is still to be done, reading stops, the work is done, giving way
 * between its steps, and reading goes on with all facts that were there already.
 */
export function createWhole(gather: (measurer: Measurer) => Facts): Whole {
  const done = new Map<string, unknown>();
  const keyOf = (work: Work<unknown>) => `${work.kind} ${work.key()}`;
  const facts = gather(<T>(work: Work<T>): T => {
    // Measured at once it is there.
    if (work.quick) return measureNow(work) as T;
    const key = keyOf(work);
    if (done.has(key)) return done.get(key) as T;
    throw Object.assign(new Error('work is to be done first'), { work, key });
  });
  return {
    *read(of) {
      for (;;) {
        yield;
        try {
          return of(facts);
        } catch (problem) {
          if (!isWorkFirst(problem)) throw problem;
          done.set(keyOf(problem.work), yield* problem.work.steps());
        }
      }
    },
  };
}
