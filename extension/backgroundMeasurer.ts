import type { Measurer, Work } from '../core/facts/ends.ts';
import type { Surroundings } from './backgroundConnector.ts';

/** Milliseconds of work at once. */
const slice = 8;
/** Results kept, so that undo and edits elsewhere in the text do not compute again. */
const mostKept = 32;

interface Job {
  readonly key: string;
  readonly steps: Generator<undefined, unknown>;
}

/**
 * Does what takes its time in slices between keystrokes, never within one: an answer is there only once
 * `found` has been called for it. Asking for other work of a kind drops that at hand.
 */
export function createBackgroundMeasurer({ now, later }: Surroundings, found: () => void): Measurer {
  const kept = new Map<string, unknown>();
  const jobs = new Map<string, Job>();

  const goOn = (kind: string, at: Job) => {
    later(() => {
      if (jobs.get(kind) !== at) return;
      const end = now() + slice;
      do {
        const step = at.steps.next();
        if (!step.done) continue;
        jobs.delete(kind);
        kept.set(at.key, step.value);
        if (kept.size > mostKept) kept.delete(kept.keys().next().value as string);
        return found();
      } while (now() < end);
      goOn(kind, at);
    });
  };
  return <T>({ kind, key, steps }: Work<T>): T | null => {
    const name = `${kind} ${key()}`;
    if (kept.has(name)) return kept.get(name) as T;
    if (jobs.get(kind)?.key !== name) {
      const job = { key: name, steps: steps() };
      jobs.set(kind, job);
      goOn(kind, job);
    }
    return null;
  };
}
