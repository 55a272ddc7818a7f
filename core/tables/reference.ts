import type { Facts } from '../facts/facts.ts';
import { scaledUnits, type Unit } from './column.ts';
import { csvHeading } from './csv.ts';
import { scheduleTable, scheduleTables } from './schedule.ts';

const unitWords = {
  length: 'mm',
  meters: 'm',
  slots: 'slots',
  sense: '',
  edeg: 'electrical degrees',
  degrees: 'degrees',
  factor: '',
  ...Object.fromEntries(Object.entries(scaledUnits).map(([unit, { name }]) => [unit, name])),
} as Readonly<Record<Unit, string>>;

/** The list of the columns of all schedules as a Markdown page, made from their descriptions, by the tables of one winding. */
export function scheduleReference(facts: Facts): string {
  const sections = scheduleTables.flatMap((name) => [
    '',
    `## ${name}`,
    '',
    '| column | unit | meaning |',
    '| --- | --- | --- |',
    ...scheduleTable(facts, name).columns.map(
      (column) =>
        `| \`${csvHeading(column)}\` | ${column.unit ? unitWords[column.unit] : ''} | ${column.meaning} |`,
    ),
  ]);
  const introduction = `# Schedules

The columns of \`slotwright schedule FILE --table NAME\`, and of the tables in the panel, which rounds numbers and writes senses as + and −. CSV after RFC 4180: a header row, lines that end in CRLF, UTF-8 without a mark, decimals with a point. A spreadsheet of a country that writes decimals with a comma reads them by its text import, told commas between columns and points in numbers; opened by a double click it may make dates of them (6.5 as June 5). Rows are in an order that does not depend on how the paths were found, so that two revisions compare line by line. A cell is empty where something is not known, as paths are before the bars are joined.`;
  return `${[introduction, ...sections].join('\n')}\n`;
}
