/**
 * Long work that can be interrupted: it yields where it may, tens of milliseconds apart at most on a usual machine.
 * What makes it for one text after the other is a function of its module. For each `function*` within another, V8 makes a
 * hidden class when it is run, at once among what is old, and until that is cleared away all stays that it can see.
 */
export type Steps<Result> = Generator<undefined, Result>;

/** Does all of the work at once. */
export function finished<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
