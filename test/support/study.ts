import type { ReportWishes } from '../../core/report/build.ts';
import type { Report } from '../../core/report/schema.ts';
import { type Study, study as studyAnew } from '../../core/study.ts';
import { keeping } from './keeping.ts';

export type { Study };

/** Studies that are kept of each kind. */
const mostKnown = 80;

/**
 * The study of a text. Nothing changes a study, so that of a text that was studied before is shared, also from
 * one test file to the next. Tests of whether a study comes out the same again call the engine itself.
 */
export const study: (text: string) => Study = shared(studyAnew);

/** The same studies, with those of texts that were studied before handed out again. */
export function shared(anew: (text: string) => Study): (text: string) => Study {
  const keep = keeping<Study>(mostKnown);
  return (text) => keep(text, () => withReports(anew(text)));
}

/** The same with every report made once. */
function withReports(made: Study): Study {
  const reports = new Map<string, Report>();
  const report = (asked: ReportWishes = {}): Report => {
    const key = `${asked.orders} ${asked.candidates === true}`;
    const found = reports.get(key) ?? made.report(asked);
    reports.set(key, found);
    return found;
  };
  return { ...made, report };
}
