import { reportSchema } from '../../core/report/schema.ts';
import { study } from '../../core/study.ts';
import { outputFormat } from '../files/destination.ts';
import { readText, UsageError } from '../files/files.ts';
import { jsonText } from '../inert.ts';
import { countFindings, delivered, exitCodeOf, type Outcome } from '../outcome.ts';

/** Most orders that `--orders` lists; more than the report lists by itself of any winding. */
export const mostOrders = 50_000;

export interface ReportOptions {
  readonly format?: 'markdown' | 'json';
  readonly output?: string;
  /** Orders 1 to this one are reported. */
  readonly orders?: number;
  readonly maxWarnings: number;
}

/** The report of one file, to standard output or a file. */
export function report(file: string, options: ReportOptions): Outcome {
  const format = reportFormat(file, options);
  const studied = study(readText(file));
  const content =
    format === 'json'
      ? jsonText(reportSchema.parse(studied.report({ orders: options.orders, candidates: true })))
      : studied.markdown({ orders: options.orders });
  const exitCode = exitCodeOf(countFindings(studied.findings), options.maxWarnings);
  return delivered(content, options.output, { exitCode, complaints: '' });
}

/** The format asked for in words, by the ending of the output file, or Markdown. */
function reportFormat(file: string, { format, output }: ReportOptions): 'markdown' | 'json' {
  const ending = output === undefined ? null : outputFormat(output, ['md', 'json'], file);
  if (ending === null) return format ?? 'markdown';
  const asked = ending === 'md' ? 'markdown' : 'json';
  if (format !== undefined && format !== asked)
    throw new UsageError(
      `--format ${format}: the ending of ${output} asks for ${asked}; leave one of them out.`,
    );
  return asked;
}
