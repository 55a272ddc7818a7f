import type { EndsToMeasure, MeasuredEnds, Measurer } from '../core/facts/ends.ts';
import type { Surroundings } from './backgroundConnector.ts';

/** Milliseconds of work at once. */
const slice = 8;
/** Measurements kept, so that undo and edits elsewhere in the text do not measure again. */
const mostKept = 16;

interface Job {
  readonly key: string;
  readonly steps: Generator<undefined, MeasuredEnds>;
}

/**
 * Measures clearances in slices between keystrokes, never within one: an answer is there only once `found`
 * has been called for it. Asking for other bar ends drops the work at hand.
 */
export function createBackgroundMeasurer({ now, later }: Surroundings, found: () => void): Measurer {
  const kept = new Map<string, MeasuredEnds>();
  let job: Job | null = null;

  const keep = (key: string, measured: MeasuredEnds) => {
    kept.set(key, measured);
    if (kept.size > mostKept) kept.delete(kept.keys().next().value as string);
  };
  const goOn = (at: Job) => {
    later(() => {
      if (job !== at) return;
      const end = now() + slice;
      do {
        const step = at.steps.next();
        if (!step.done) continue;
        job = null;
        keep(at.key, step.value);
        return found();
      } while (now() < end);
      goOn(at);
    });
  };
  return ({ key, steps }: EndsToMeasure) => {
    const name = key();
    const known = kept.get(name);
    if (known) return known;
    if (job?.key !== name) {
      job = { key: name, steps: steps() };
      goOn(job);
    }
    return null;
  };
}
