import type { Facts } from '../facts/facts.ts';
import type { CheckedText } from '../findings/checkedText.ts';
import type { ReportWishes } from '../report/build.ts';
import type { Report } from '../report/schema.ts';
import type { Winding } from '../winding/model.ts';

/** What a comparison reads of a study; `Study` has all of it. */
export interface Reviewed extends Omit<CheckedText, 'pending' | 'writeOutPaths'> {
  report(asked?: ReportWishes): Report;
}

/** One side with a winding. */
export interface Wound extends Reviewed {
  readonly winding: Winding;
  readonly facts: Facts;
}

/** The study where its text yields a winding. */
export function wound(study: Reviewed | null): Wound | null {
  return study?.winding && study.facts ? (study as Wound) : null;
}

/** What bars and joints are compared of. */
export type Joined = Pick<Wound, 'winding' | 'facts' | 'broken'>;
