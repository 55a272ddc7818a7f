import type { Steps } from '../../core/figures/steps.ts';
import type { Measurer, Work } from '../../core/figures/work.ts';
import type { Surroundings } from './surroundings.ts';

/** Milliseconds of work at once. */
const slice = 8;
/** Results kept of each kind, those asked for last, so that undo and edits elsewhere in the text do not compute again. */
const mostKept = 8;

interface Job {
  readonly key: string;
  readonly steps: Steps<unknown>;
}

/**
 * Does what takes its time in slices between keystrokes, never within one: an answer is there only once
 * `found` has been called for it. Asking for other work of a kind drops that at hand. What work throws is thrown at
 * who asks, so that nobody waits for it. Quick work is done at once, and kept like all other.
 */
export function createBackgroundMeasurer({ now, later }: Surroundings, found: () => void): Measurer {
  // By kind, so that a long key is looked up as it is: a text that is put together anew is read anew, too.
  const kept = new Map<string, Map<string, () => unknown>>();
  const jobs = new Map<string, Job>();

  const goOn = (kind: string, at: Job) => {
    later(() => {
      if (jobs.get(kind) !== at) return;
      const end = now() + slice;
      do {
        const answer = answerAfter(at);
        if (answer === null) continue;
        jobs.delete(kind);
        keep(kind, at.key, answer);
        return found();
      } while (now() < end);
      goOn(kind, at);
    });
  };
  const keep = (kind: string, name: string, answer: () => unknown) => {
    const held = kept.get(kind) ?? new Map<string, () => unknown>();
    kept.set(kind, held);
    // The last to be asked for is the last to go.
    held.delete(name);
    held.set(name, answer);
    if (held.size > mostKept) held.delete(held.keys().next().value as string);
  };
  return <T>({ kind, key, steps, quick }: Work<T>): T | null => {
    const name = key();
    const answer = kept.get(kind)?.get(name);
    if (answer) {
      keep(kind, name, answer);
      return answer() as T;
    }
    if (quick) {
      const made = answerAfter({ key: name, steps: steps() });
      if (made === null) throw new RangeError(`Quick work (${kind}) takes more than one step`);
      keep(kind, name, made);
      return made() as T;
    }
    if (jobs.get(kind)?.key !== name) {
      const job = { key: name, steps: steps() };
      jobs.set(kind, job);
      goOn(kind, job);
    }
    return null;
  };
}

/** What the next step leads to: null while there are more, else what gives the result, or throws what the work threw. */
function answerAfter({ steps }: Job): (() => unknown) | null {
  try {
    const step = steps.next();
    return step.done ? () => step.value : null;
  } catch (error) {
    return () => {
      throw error;
    };
  }
}
