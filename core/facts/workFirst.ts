import { type Measurer, measureNow, type Work } from '../figures/work.ts';
import type { Facts } from './facts.ts';

/** Work that something computed needs first: what was computed by then is kept, and it goes on from there. */
interface WorkFirst extends Error {
  readonly work: Work<unknown>;
}

/** Whether a problem is none, but work that is to be done first. */
export function isWorkFirst(problem: unknown): problem is WorkFirst {
  return problem instanceof Error && 'work' in problem;
}

/** What came of work, by its key. */
export interface WorkStore {
  readonly isEmpty: () => boolean;
  readonly has: (key: string) => boolean;
  readonly get: (key: string) => unknown;
  readonly set: (key: string, result: unknown) => void;
}

/** A store that keeps the latest so many results. */
export function workStore(most: number): WorkStore {
  const kept = new Map<string, unknown>();
  return {
    isEmpty: () => kept.size === 0,
    has: (key) => kept.has(key),
    get: (key) => kept.get(key),
    set: (key, result) => {
      kept.set(key, result);
      if (kept.size > most) kept.delete(kept.keys().next().value as string);
    },
  };
}

/** Whether stores keep such work: what takes its time, where bars stand, and all figures of a connected winding. */
const isStored = ({ kind, quick }: Work<unknown>) => !quick || kind === 'bars-in-space' || kind === 'machine';

const keyOf = (work: Work<unknown>) => `${work.kind} ${work.key()}`;

/** Measures at once what nobody has measured who shares the store; what it measures itself nobody asks for again. */
export function measureBeside(store: WorkStore): Measurer {
  return <T>(work: Work<T>): T => {
    // Keys take their time.
    if (store.isEmpty() || !isStored(work)) return measureNow(work) as T;
    const key = keyOf(work);
    return store.has(key) ? (store.get(key) as T) : (measureNow(work) as T);
  };
}

/** Facts of a whole winding, read while what takes its time is done in steps. */
export interface Whole {
  readonly read: <T>(of: (facts: Facts) => T) => Generator<undefined, T>;
}

/**
 * Reads facts that ask a measurer for work: where it is still to be done, reading stops, the work is done, giving way
 * between its steps, and reading goes on with all facts that were there already. Work that others did who share the
 * store is not done again.
 */
export function createWhole(gather: (measurer: Measurer) => Facts, store?: WorkStore): Whole {
  const done = new Map<string, unknown>();
  const facts = gather(<T>(work: Work<T>): T => {
    // Measured at once it is there.
    if (work.quick && !(store && isStored(work))) return measureNow(work) as T;
    const key = keyOf(work);
    if (done.has(key)) return done.get(key) as T;
    if (store?.has(key)) {
      // The store may forget it while this reads on.
      const result = store.get(key);
      done.set(key, result);
      return result as T;
    }
    // Figures are made when they are asked for: there is nothing to do first.
    if (work.kind === 'machine') {
      const result = measureNow(work);
      store?.set(key, result);
      return result as T;
    }
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
          const result = yield* problem.work.steps();
          const key = keyOf(problem.work);
          done.set(key, result);
          store?.set(key, result);
        }
      }
    },
  };
}
