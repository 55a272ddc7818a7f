import type { Measurer, Work } from '../../core/figures/work.ts';
import type { Surroundings } from './surroundings.ts';

/** Milliseconds of work at once. */
const slice = 8;
/** Results kept, so that undo and edits elsewhere in the text do not compute again. */
const mostKept = 32;
/** Of each kind of what is quick to compute: the present text's, and a few of those before it. */
const mostQuick = 6;

interface Job {
  readonly key: string;
  readonly steps: Generator<undefined, unknown>;
}

/**
 * Does what takes its time in slices between keystrokes, never within one: an answer is there only once
 * `found` has been called for it. Asking for other work of a kind drops that at hand. What work throws is thrown at
 * who asks, so that nobody waits for it. Quick work is done at once, and kept like all other.
 */
export function createBackgroundMeasurer({ now, later }: Surroundings, found: () => void): Measurer {
  const kept = new Map<string, () => unknown>();
  const jobs = new Map<string, Job>();

  const goOn = (kind: string, at: Job) => {
    later(() => {
      if (jobs.get(kind) !== at) return;
      const end = now() + slice;
      do {
        const answer = answerAfter(at);
        if (answer === null) continue;
        jobs.delete(kind);
        keep(at.key, answer);
        return found();
      } while (now() < end);
      goOn(kind, at);
    });
  };
  const quickly = new Map<string, Map<string, () => unknown>>();
  const quickOf = (kind: string) => {
    const found = quickly.get(kind) ?? new Map<string, () => unknown>();
    quickly.set(kind, found);
    return found;
  };
  const keep = (name: string, answer: () => unknown, at = kept, most = mostKept) => {
    at.set(name, answer);
    if (at.size > most) at.delete(at.keys().next().value as string);
  };
  return <T>({ kind, key, steps, quick }: Work<T>): T | null => {
    const name = `${kind} ${key()}`;
    const answer = (quick ? quickOf(kind) : kept).get(name);
    if (answer) return answer() as T;
    if (quick) {
      const made = answerAfter({ key: name, steps: steps() });
      if (made === null) throw new RangeError(`Quick work (${kind}) takes more than one step`);
      keep(name, made, quickOf(kind), mostQuick);
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
