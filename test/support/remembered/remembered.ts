import type { Steps } from '../../../core/figures/steps.ts';

interface Known {
  readonly yields: number;
  readonly result: unknown;
}

/** What is kept of each kind; the oldest goes first. */
const mostKept = 400;

/**
 * Runs the steps that `make` begins, or gives those of an equal `key` again: as many yields, then the same result.
 * To whoever walks them there is no difference but the time they take.
 */
export function* remembered<T>(kept: Map<string, unknown>, key: string, make: () => Steps<T>): Steps<T> {
  const known = kept.get(key) as Known | undefined;
  if (known) {
    kept.delete(key);
    kept.set(key, known);
    for (let count = 0; count < known.yields; count++) yield;
    return known.result as T;
  }
  const steps = make();
  let yields = 0;
  for (;;) {
    const step = steps.next();
    if (step.done) {
      kept.set(key, { yields, result: step.value });
      if (kept.size > mostKept) kept.delete(kept.keys().next().value as string);
      return step.value;
    }
    yields++;
    yield;
  }
}
