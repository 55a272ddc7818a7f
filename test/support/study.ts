import type { Report } from '../../core/report/schema.ts';
import { type Study, study as studyAnew } from '../../core/study.ts';

export type { Study };

const known = new Map<string, Study>();
const mostKnown = 80;

/**
 * The study of a text. Nothing changes a study, so that of a text that was studied lately is shared, also from
 * one test file to the next. Tests of whether a study comes out the same again call the engine itself.
 */
export function study(text: string): Study {
  const found = known.get(text);
  if (found !== undefined) return found;
  const made = shared(studyAnew(text));
  if (known.size === mostKnown) known.delete(known.keys().next().value!);
  known.set(text, made);
  return made;
}

/** The same with every report made once. */
function shared(made: Study): Study {
  const reports = new Map<number | undefined, Report>();
  const report = (orders?: number): Report => {
    const found = reports.get(orders) ?? made.report(orders);
    reports.set(orders, found);
    return found;
  };
  return { ...made, report };
}
