import type { Facts } from '../../core/facts/facts.ts';
import { pathsNeed } from '../../core/facts/unjoined.ts';
import { toldMessage } from '../../core/findings/acceptance/acceptance.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { Finding } from '../../core/language/finding.ts';
import { decimal, fixed, percent, significant } from '../../core/language/numbers.ts';
import { lineColumn, lineStarts } from '../../core/language/text/lines.ts';
import { bendNeeds } from '../../core/tables/bends.ts';
import { type Cell, type ColumnDescription, headingOf } from '../../core/tables/column.ts';
import { csvCell } from '../../core/tables/csv.ts';
import { pathRows } from '../../core/tables/paths.ts';
import { type ScheduleTable, scheduleTable } from '../../core/tables/schedule.ts';
import { barName, printedSigns } from '../../core/winding/model.ts';
import { pathName } from '../../core/winding/paths/writtenPaths.ts';
import type { ShownTable } from '../protocol/viewContent.ts';
import type { PanelTable } from '../protocol/wish.ts';
import { findingWords, l10n } from '../wording.ts';
import { connectionOf } from './barUse.ts';
import { engineSpeech } from './engineSpeech.ts';
import { findingPlaces } from './places.ts';

/** One table of a winding as text, cell by cell; the schedules' own where there is one. */
export function tableOf(study: CheckedText, facts: Facts, name: PanelTable): ShownTable {
  switch (name) {
    case 'paths':
      return pathTable(study, facts);
    case 'findings':
      return findingTable(study);
    default:
      return shownSchedule(facts, name);
  }
}

/** The hand-off to field computation is for programs, its coordinates tell a reader nothing; the curve over the speed is a view. */
type ShownSchedule = Exclude<ScheduleTable, 'field' | 'operation'>;

function shownSchedule(facts: Facts, name: ShownSchedule): ShownTable {
  const titles: Readonly<Record<ShownSchedule, string>> = {
    slots: l10n.t('Slot table'),
    bars: l10n.t('Bars'),
    joints: l10n.t('Joints and leads'),
    leads: l10n.t('Leads and star points'),
    factors: l10n.t('Winding factors'),
    bends: l10n.t('Bend list'),
    duty: l10n.t('Points of the duty'),
  };
  const { columns, cells } = scheduleTable(facts, name);
  const text = (cell: Cell, index: number) => shownCell(columns[index]!, cell);
  const placeOf = rowPlaces[name];
  const { phrase } = engineSpeech();
  const rows = cells.map((row) => {
    const words = row.map(text);
    const place =
      placeOf?.((column) => words[columns.findIndex((each) => each.heading === column)] ?? '') ?? '';
    const told = words.map((word, index) => (kindColumns.has(columns[index]!.heading) ? phrase(word) : word));
    return place === '' ? told : [...told, place];
  });
  const headings = columns.map((column) => headingOf({ ...column, heading: phrase(column.heading) }));
  const needs: Readonly<Partial<Record<ShownSchedule, readonly string[]>>> = {
    joints: pathNeeds(facts),
    leads: pathNeeds(facts),
    bends: bendNeeds(facts),
    duty: ['duty'],
  };
  const title = rows.length === 0 ? titleWithNeeds(titles[name], needs[name] ?? []) : titles[name];
  const signed = columns.some(({ unit }) => unit === 'sense');
  return { title, columns: headings, rows, ...(signed ? { signs: senseSigns() } : {}) };
}

/** What the signs of currents say. */
function senseSigns(): NonNullable<ShownTable['signs']> {
  return {
    '+': l10n.t('away from the connection side'),
    [printedSigns.minus]: l10n.t('back to the connection side'),
  };
}

/**
 * A cell as it is read: lengths to a hundredth of a millimeter, factors to six decimals, angles to a thousandth of a
 * degree, senses as the drawing's signs. The CSV files have all that is known.
 */
function shownCell(column: ColumnDescription, cell: Cell): string {
  const written = csvCell(column, cell);
  if (typeof cell !== 'number') return written === null ? '' : String(written);
  const { unit } = column;
  if (unit === 'sense') return cell > 0 ? '+' : printedSigns.minus;
  if (unit === 'length') return fixed(Number(written), 2);
  if (unit === 'factor') return fixed(cell, 6);
  if (unit === 'edeg' || unit === 'degrees') return decimal(cell, 3);
  return significant(Number(written), 6);
}

/** Columns whose cells are one of few words, not names or numbers. */
const kindColumns: ReadonlySet<string> = new Set([
  'side',
  'kind',
  'end',
  'separate piece',
  'operation',
  'ends',
]);

type CellOf = (column: string) => string;

/** The thing of the winding that a row stands for. */
const rowPlaces: Readonly<Partial<Record<ShownSchedule, (cell: CellOf) => string>>> = {
  slots: (cell) => `slot ${cell('slot')}`,
  bars: (cell) => `bar ${cell('position')}`,
  joints: (cell) => `joint ${cell('number')}`,
  leads: (cell) => (cell('number') === '' ? '' : `joint ${cell('number')}`),
};

/** What an empty table is called: with what would fill it. */
function titleWithNeeds(title: string, needs: readonly string[]): string {
  const { phrase } = engineSpeech();
  return needs.length === 0 ? title : l10n.t('{0}: needs {1}.', title, needs.map(phrase).join(', '));
}

function pathNeeds({ connection }: Facts): readonly string[] {
  return connection.kind === 'connected' ? [] : [pathsNeed(connection)];
}

function pathTable(study: CheckedText, facts: Facts): ShownTable {
  const { winding } = facts;
  const connection = connectionOf(study);
  const rows = (connection ? pathRows(connection) : []).map(({ path, voltage }) => [
    winding.phases.names[path.phase] ?? '',
    String(path.number),
    path.from,
    path.to,
    String(path.bars.length),
    voltage.relative === null ? '' : percent(voltage.relative),
    voltage.angle === null ? '' : fixed(voltage.angle, 3),
    path.bars.map(barName).join(' '),
    `path ${pathName(path, winding.phases)}`,
  ]);
  const columns = [
    l10n.t('phase'),
    l10n.t('path'),
    l10n.t('from'),
    l10n.t('to'),
    l10n.t('bars'),
    l10n.t('voltage of the mean path'),
    l10n.t('angle to it in degrees'),
    l10n.t('bars from the line terminal'),
  ];
  return { title: titleWithNeeds(l10n.t('Paths'), rows.length === 0 ? pathNeeds(facts) : []), columns, rows };
}

function findingTable({ text, findings }: CheckedText): ShownTable {
  const starts = lineStarts(text);
  const places = findingPlaces(findings);
  const rows = findings.map((finding, index) => [
    String(lineColumn(starts, finding.range.start).line),
    severityWords(finding.severity),
    finding.code,
    toldMessage(findingWords(finding), finding.accepted?.reason),
    places[index]!,
  ]);
  const columns = [l10n.t('line'), l10n.t('severity'), l10n.t('code'), l10n.t('finding')];
  return { title: rows.length === 0 ? l10n.t('Nothing is found amiss.') : l10n.t('Findings'), columns, rows };
}

/** `Error`, `Warning` or `Note`. */
export function severityWords(severity: Finding['severity']): string {
  if (severity === 'error') return l10n.t('Error');
  return severity === 'warning' ? l10n.t('Warning') : l10n.t('Note');
}
