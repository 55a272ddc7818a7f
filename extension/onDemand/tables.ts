import { l10n } from 'vscode';
import type { Facts } from '../../core/facts/facts.ts';
import { toldMessage } from '../../core/findings/acceptance.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { fixed, percent } from '../../core/language/numbers.ts';
import { lineColumn, lineStarts } from '../../core/language/text/lines.ts';
import { type Cell, headingOf } from '../../core/tables/column.ts';
import { csvCell } from '../../core/tables/csv.ts';
import { pathRows } from '../../core/tables/paths.ts';
import { type ScheduleTable, scheduleTable } from '../../core/tables/schedule.ts';
import { barName } from '../../core/winding/model.ts';
import type { ShownTable } from '../protocol/panelState.ts';
import type { PanelTable } from '../wish.ts';
import { connectionOf } from './barUse.ts';

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

function shownSchedule(facts: Facts, name: ScheduleTable): ShownTable {
  const titles: Readonly<Record<ScheduleTable, string>> = {
    slots: l10n.t('Slot table'),
    bars: l10n.t('Bars'),
    joints: l10n.t('Joints and leads'),
    leads: l10n.t('Leads and star points'),
    factors: l10n.t('Winding factors'),
  };
  const { columns, cells } = scheduleTable(facts, name);
  const text = (cell: Cell, index: number) => String(csvCell(columns[index]!, cell) ?? '');
  return { title: titles[name], columns: columns.map(headingOf), rows: cells.map((row) => row.map(text)) };
}

function pathTable(study: CheckedText, { winding }: Facts): ShownTable {
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
  return { title: l10n.t('Paths'), columns, rows };
}

function findingTable({ text, findings }: CheckedText): ShownTable {
  const starts = lineStarts(text);
  const rows = findings.map(({ range, severity, code, message, accepted }) => [
    String(lineColumn(starts, range.start).line),
    severity,
    code,
    toldMessage(message, accepted?.reason),
  ]);
  const columns = [l10n.t('line'), l10n.t('severity'), l10n.t('code'), l10n.t('finding')];
  return { title: l10n.t('Findings'), columns, rows };
}
