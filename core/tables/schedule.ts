import { joinedFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { valuesOf } from '../figures/groups.ts';
import { slotNumbers } from '../winding/model.ts';
import { barColumns, barRows } from './bars.ts';
import { bendColumns, bendRows } from './bends.ts';
import { type MadeTable, madeTable } from './column.ts';
import { csvText } from './csv.ts';
import { dutyColumns } from './duty.ts';
import { factorColumns, factorTableRows } from './factors.ts';
import { fieldColumns, fieldRows } from './field.ts';
import { jointColumns, jointRows } from './joints.ts';
import { leadColumns, leadRows } from './leads.ts';
import { operationColumns } from './operation.ts';
import { slotColumns } from './slots.ts';

export const scheduleTables = [
  'slots',
  'bars',
  'joints',
  'leads',
  'factors',
  'bends',
  'field',
  'operation',
  'duty',
] as const;

export type ScheduleTable = (typeof scheduleTables)[number];

/**
 * A table of the winding as CSV, in an order that does not depend on how the paths were found: two revisions
 * compare line by line. Empty cells: what is not known, as paths and joints before the bars are joined.
 */
export function schedule(facts: Facts, table: ScheduleTable): string {
  return csvText(scheduleTable(facts, table));
}

/** The same table with its columns' descriptions; numbers are in SI units still. */
export function scheduleTable(facts: Facts, table: ScheduleTable): MadeTable {
  const connection = joinedFacts(facts);
  switch (table) {
    case 'slots':
      return madeTable(slotColumns(facts.winding), slotNumbers(facts.winding));
    case 'bars':
      return madeTable(barColumns, barRows(facts));
    case 'joints':
      return madeTable(jointColumns, connection ? jointRows(facts, connection) : []);
    case 'leads':
      return madeTable(leadColumns, connection ? leadRows(facts, connection) : []);
    case 'factors':
      return madeTable(factorColumns, factorTableRows(facts));
    case 'bends':
      return madeTable(bendColumns, bendRows(facts));
    case 'operation':
      return madeTable(operationColumns, facts.torqueSpeedCurve());
    case 'duty':
      return madeTable(dutyColumns, valuesOf(facts.duty()?.points ?? []));
    case 'field': {
      const rows = fieldRows(facts);
      return madeTable(fieldColumns(rows), rows);
    }
  }
}
