import { reportSchema } from '../core/report/schema.ts';
import { study } from '../core/study.ts';
import { readText } from './files.ts';
import { countFindings, exitCodeOf, type Outcome } from './outcome.ts';

export interface ReportOptions {
  readonly format: 'markdown' | 'json';
  readonly orders?: number;
  readonly maxWarnings: number;
}

/** The report of one file. */
export function report(file: string, options: ReportOptions): Outcome {
  const studied = study(readText(file));
  const output =
    options.format === 'json'
      ? `${JSON.stringify(reportSchema.parse(studied.report(options.orders)), null, 2)}\n`
      : studied.markdown(options.orders);
  return {
    exitCode: exitCodeOf(countFindings(studied.findings), options.maxWarnings),
    output,
    complaints: '',
  };
}
