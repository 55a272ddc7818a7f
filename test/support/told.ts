import { type Sorted, sortedPart, type ValuesOf, valuesOf } from '../../core/figures/groups.ts';
import type { DutyResult } from '../../core/operation/duty.ts';
import { sortedDuty } from '../../core/report/sortedDuty.ts';

/** Values of the figures of a part of the report, null where they are missing, with what the part lacks and rests on. */
export type Told<T> = ValuesOf<T> & Sorted;

export function told<T extends object>(part: string, figures: T): Told<T> {
  return Object.assign(valuesOf(figures) as object, sortedPart(part, figures)) as Told<T>;
}

/** The same of a duty that there is. */
export function toldDuty(duty: DutyResult | null): Told<DutyResult> {
  if (duty === null) throw new Error('the text has no duty');
  return { ...valuesOf(duty), ...sortedDuty(duty) } as Told<DutyResult>;
}
