import { finished, type Steps } from './steps.ts';

/** What takes its time: all that it depends on as one text, and the work in small steps. */
export interface Work<T> {
  readonly kind:
    | 'clearances'
    | 'near-ends'
    | 'nearest-ends'
    | 'inductance'
    | 'image-inductance'
    | 'rated-heat'
    | 'duty-heat'
    | 'cycle-heat'
    | 'bars-in-space'
    | 'conductors'
    | 'slot-table'
    | 'layout'
    | 'machine';
  readonly key: () => string;
  readonly steps: () => Steps<T>;
  /** Quick enough to be done at once where it is asked for, and worth keeping for the next text. */
  readonly quick?: true;
}

/** Why a figure is not there while work is under way. */
export const underWay = 'a moment: it is being computed';

/** The result of some work, or null while it is still under way; the editor's gives way to typing. */
export type Measurer = <T>(work: Work<T>) => T | null;

/** The result of quick work: what is kept of an earlier text where nothing it depends on has changed. */
export function kept<T>(measurer: Measurer, work: Omit<Work<T>, 'steps' | 'quick'>, make: () => T): T {
  return measurer({ ...work, quick: true, steps: () => oneStep(make) }) ?? make();
}

// biome-ignore lint/correctness/useYield: one step
function* oneStep<T>(make: () => T): Steps<T> {
  return make();
}

/** Measures at once, however long it takes. */
export const measureNow: Measurer = <T>({ steps }: Work<T>): T => finished(steps());
