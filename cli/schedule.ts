import type { Facts } from '../core/facts/facts.ts';
import { study } from '../core/study.ts';
import { bendNeeds } from '../core/tables/bends.ts';
import { type ScheduleTable, schedule } from '../core/tables/schedule.ts';
import { outputFormat } from './destination.ts';
import { nameOf, readText } from './files.ts';
import { complaintLine } from './inert.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from './outcome.ts';

export interface ScheduleOptions {
  readonly table: ScheduleTable;
  readonly output?: string;
  readonly maxWarnings: number;
}

/** Writes one schedule of a file as CSV, to standard output or a file. */
export function writeSchedule(file: string, options: ScheduleOptions): Outcome {
  if (options.output !== undefined) outputFormat(options.output, ['csv'], file);
  const text = readText(file);
  const studied = study(text);
  const lines = () => findingLines(file, text, studied.findings);
  if (!studied.facts) {
    const complaints =
      lines() + complaintLine(`${nameOf(file)}: the text yields no slot table; there is nothing to list.`);
    return { exitCode: 1, output: '', complaints };
  }
  const csv = schedule(studied.facts, options.table);
  const exitCode = exitCodeOf(countFindings(studied.findings), options.maxWarnings);
  // The table does not say why the exit code is 1.
  const complaints = (exitCode === 0 ? '' : lines()) + lacking(file, studied.facts, options.table);
  if (options.output === undefined) return { exitCode, output: csv, complaints };
  return { exitCode, output: '', complaints, files: [{ file: options.output, content: () => csv }] };
}

/** Why a bend list has nothing but its header. */
function lacking(file: string, facts: Facts, table: ScheduleTable): string {
  const needs = table === 'bends' ? bendNeeds(facts) : [];
  return needs.length === 0
    ? ''
    : complaintLine(`${nameOf(file)}: the bend list is empty: it needs ${needs.join(', ')}.`);
}
