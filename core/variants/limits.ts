import { limitMargin } from '../facts/limitMargin.ts';
import type { RequiredLimit } from '../language/specification/specification.ts';
import type { Question } from './question.ts';

/** The limits that candidates are kept by: those of `keep`, and of the require block where all of them are kept. */
export function keptLimits({ keeps, specification }: Question): readonly RequiredLimit[] {
  const required = keeps.includes(null) ? specification.limits.map(({ value }) => value) : [];
  return [...keeps.flatMap((keep) => keep ?? []), ...required];
}

/** Whether a value, null where it is missing, meets a limit. */
export function meets(limit: RequiredLimit, value: number | null): boolean {
  return value !== null && limitMargin(limit, value) >= 0;
}
