import type { Steps } from '../figures/steps.ts';
import { type Measurer, measureNow, type Work } from '../figures/work.ts';
import type { Facts } from './facts.ts';

/** Work that something computed needs first: what was computed by then is kept, and it goes on from there. */
interface WorkFirst extends Error {
  readonly work: Work<unknown>;
  /** Of the work. */
  readonly key: string;
}

/** Whether a problem is none, but work that is to be done first. */
export function isWorkFirst(problem: unknown): problem is WorkFirst {
  return problem instanceof Error && 'work' in problem;
}

/** Without the stack of calls, which nobody reads and which takes its time. */
function workFirst(work: Work<unknown>, key: string): WorkFirst {
  return Object.assign(Object.create(Error.prototype) as Error, {
    message: 'work is to be done first',
    work,
    key,
  });
}

type Kind = Work<unknown>['kind'];

/** What came of work. */
interface Done {
  readonly result: unknown;
}

/** What came of work, by its kind and key. */
export interface WorkStore {
  readonly isEmpty: () => boolean;
  readonly find: (kind: Kind, key: string) => Done | undefined;
  readonly keep: (kind: Kind, key: string, result: unknown) => void;
}

/** By kind, so that a long key is looked up as it is: a text that is put together anew is read anew, too. */
type ByKind = Map<Kind, Map<string, Done>>;

/**
 * A store that keeps the latest so many results, and up to as many before them. None is taken out by itself: V8 ties the
 * table of a map to the next one that it makes of it, so that one that is old keeps all that later ones held.
 */
export function workStore(most: number): WorkStore {
  let latest: ByKind = new Map();
  let before: ByKind = new Map();
  let count = 0;
  return {
    isEmpty: () => count === 0,
    find: (kind, key) => latest.get(kind)?.get(key) ?? before.get(kind)?.get(key),
    keep: (kind, key, result) => {
      if (count === most) {
        before = latest;
        latest = new Map();
        count = 0;
      }
      const known = latest.get(kind) ?? new Map<string, Done>();
      latest.set(kind, known);
      if (!known.has(key)) count++;
      known.set(key, { result });
    },
  };
}

/** Whether stores keep such work: what takes its time, where bars stand, and all figures of a connected winding. */
const isStored = ({ kind, quick }: Work<unknown>) => !quick || kind === 'bars-in-space' || kind === 'machine';

/** Measures at once what nobody has measured who shares the store; what it measures itself nobody asks for again. */
export function measureBeside(store: WorkStore): Measurer {
  return <T>(work: Work<T>): T => {
    // Keys take their time.
    const found = store.isEmpty() || !isStored(work) ? undefined : store.find(work.kind, work.key());
    return (found ? found.result : measureNow(work)) as T;
  };
}

/** Facts of a whole winding, read while what takes its time is done in steps. */
export interface Whole {
  readonly read: <T>(of: (facts: Facts) => T) => Steps<T>;
}

/**
 * Reads facts that ask a measurer for work: where it is still to be done, reading stops, the work is done, giving way
 * between its steps, and reading goes on with all facts that were there already. Work that others did who share the
 * store is not done again.
 */
export function createWhole(gather: (measurer: Measurer) => Facts, store?: WorkStore): Whole {
  // A store may forget what this still reads.
  const own = workStore(Number.POSITIVE_INFINITY);
  const keep = (kind: Kind, key: string, result: unknown) => {
    own.keep(kind, key, result);
    store?.keep(kind, key, result);
  };
  const facts = gather(<T>(work: Work<T>): T => {
    const { kind, quick } = work;
    // Measured at once it is there.
    if (quick && !(store && isStored(work))) return measureNow(work) as T;
    const key = work.key();
    const known = own.find(kind, key);
    if (known) return known.result as T;
    const shared = store?.find(kind, key);
    if (shared) {
      own.keep(kind, key, shared.result);
      return shared.result as T;
    }
    // Figures are made when they are asked for: there is nothing to do first.
    if (kind === 'machine') {
      const result = measureNow(work);
      store?.keep(kind, key, result);
      return result as T;
    }
    throw workFirst(work, key);
  });
  return { read: (of) => readFacts(facts, of, keep) };
}

function* readFacts<T>(facts: Facts, of: (facts: Facts) => T, keep: WorkStore['keep']): Steps<T> {
  for (;;) {
    yield;
    try {
      return of(facts);
    } catch (problem) {
      if (!isWorkFirst(problem)) throw problem;
      const { work, key } = problem;
      keep(work.kind, key, yield* work.steps());
    }
  }
}
