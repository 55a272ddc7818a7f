/** Long work that can be interrupted: it yields where it may, tens of milliseconds apart at most on a usual machine. */
export type Steps<Result> = Generator<undefined, Result>;

/** Does all of the work at once. */
export function finished<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
