import type { Facts } from '../../core/facts/facts.ts';
import { joiningNeed } from '../../core/facts/unjoined.ts';
import { study } from '../../core/study.ts';
import { bendNeeds } from '../../core/tables/bends.ts';
import { fieldNeeds } from '../../core/tables/field.ts';
import { type ScheduleTable, schedule } from '../../core/tables/schedule.ts';
import { outputFormat } from '../files/destination.ts';
import { nameOf, readText } from '../files/files.ts';
import { complaintLine } from '../inert.ts';
import { countFindings, delivered, exitCodeOf, findingLines, type Outcome } from '../outcome.ts';

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
  return delivered(csv, options.output, { exitCode, complaints });
}

/** Why a table has nothing but its header, or the hand-off to field computation no currents. */
function lacking(file: string, facts: Facts, table: ScheduleTable): string {
  const told = (what: string, needs: readonly string[]) =>
    needs.length === 0 ? '' : complaintLine(`${nameOf(file)}: ${what}: it needs ${needs.join(', ')}.`);
  switch (table) {
    case 'joints':
      return told('the joint list is empty', joiningNeeds(facts));
    case 'leads':
      return told('the list of leads is empty', joiningNeeds(facts));
    case 'bends':
      return told('the bend list is empty', bendNeeds(facts));
    case 'operation': {
      const { topSpeed } = facts.operation();
      return told('the torque-speed curve is empty', topSpeed.known ? [] : topSpeed.needs);
    }
    case 'duty':
      return told('the list of duty points is empty', facts.duty() ? [] : ['duty points']);
    case 'field': {
      const { shape, current } = fieldNeeds(facts);
      return shape.length > 0
        ? told('the table for field computation is empty', shape)
        : told('the table for field computation has no currents', current);
    }
    default:
      return '';
  }
}

function joiningNeeds({ specification, connection }: Facts): readonly string[] {
  return connection.kind === 'connected' ? [] : [joiningNeed(specification, connection)];
}
