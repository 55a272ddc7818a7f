/** What takes its time: all that it depends on as one text, and the work in small steps. */
export interface Work<T> {
  readonly kind: 'clearances' | 'inductance' | 'rated-heat' | 'duty-heat' | 'cycle-heat';
  readonly key: () => string;
  readonly steps: () => Generator<undefined, T>;
}

/** Why a figure is not there while work is under way. */
export const underWay = 'a moment: it is being computed';

/** The result of some work, or null while it is still under way; the editor's gives way to typing. */
export type Measurer = <T>(work: Work<T>) => T | null;

/** Measures at once, however long it takes. */
export const measureNow: Measurer = <T>({ steps }: Work<T>): T => {
  const work = steps();
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
};
