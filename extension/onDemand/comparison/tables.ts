import { toldMessage } from '../../../core/findings/acceptance/acceptance.ts';
import { visible } from '../../../core/language/text/visible.ts';
import { isTelling, verdictOrder } from '../../../core/review/numbers/scales.ts';
import type {
  ChangedNumber,
  ComparedAccept,
  ComparedLimit,
  Comparison,
} from '../../../core/review/schema.ts';
import { shapeRows } from '../../../core/review/shapeRows.ts';
import {
  comparedLimitName,
  limitText,
  movedTexts,
  quantityName,
  valueText,
} from '../../../core/review/words.ts';
import type { ShownTable } from '../../protocol/viewContent.ts';
import { l10n } from '../../wording.ts';
import { engineSpeech } from '../engineSpeech.ts';

/**
 * The tables of a comparison that have rows, in the order in which a reviewer asks: what was written otherwise, what
 * became of limits, failed ones first, and of findings; then numbers, the worse before the better, shapes, and at last
 * the numbers that hardly moved.
 */
export function comparisonTables(comparison: Comparison): readonly ShownTable[] {
  const { numbers } = comparison;
  const tables = [
    statementTable(comparison),
    limitTable(comparison.limits),
    acceptedTable(comparison),
    findingTable(comparison),
    numberTable(l10n.t('Numbers that moved'), numbers.filter(isTelling)),
    shapeTable(comparison),
    numberTable(
      l10n.t('Numbers that hardly moved'),
      numbers.filter((number) => !isTelling(number)),
    ),
  ];
  return tables.filter(({ rows }) => rows.length > 0);
}

function limitTable(limits: readonly ComparedLimit[]): ShownTable {
  const failing = ({ limit, holds }: ComparedLimit) => limit !== null && holds !== true;
  const ordered = [...limits.filter(failing), ...limits.filter((each) => !failing(each))];
  const rows = ordered.map((limit) => [
    comparedLimitName(limit),
    limitText(limit, engineSpeech()),
    valueText(limit.quantity, limit.old),
    valueText(limit.quantity, limit.new),
    valueText(limit.quantity, limit.margin),
    // A sign that is found at a glance, whatever the colors.
    `${failing(limit) ? '✗ ' : ''}${holdsText(limit)}`,
  ]);
  const columns = [
    l10n.t('limit'),
    l10n.t('required'),
    l10n.t('old'),
    l10n.t('new'),
    l10n.t('margin'),
    l10n.t('holds'),
  ];
  return { title: l10n.t('Limits'), columns, rows };
}

function holdsText({ limit, new: now, holds, heldBefore }: ComparedLimit): string {
  if (limit === null) return l10n.t('limit gone');
  if (holds) return heldBefore === false ? l10n.t('yes, now') : l10n.t('yes');
  if (now === null) return l10n.t('not computable');
  return heldBefore ? l10n.t('no, held before') : l10n.t('no');
}

function numberTable(title: string, numbers: readonly ChangedNumber[]): ShownTable {
  const ordered = [...numbers].sort((a, b) => verdictOrder(a) - verdictOrder(b));
  const rows = ordered.map((number) => {
    const texts = movedTexts(number);
    const verdict = number.better === null ? '' : number.better ? l10n.t('better') : l10n.t('worse');
    return [quantityName(number, engineSpeech()), texts.old, texts.new, texts.difference, verdict];
  });
  const columns = [
    l10n.t('quantity'),
    l10n.t('old'),
    l10n.t('new'),
    l10n.t('difference'),
    l10n.t('better or worse'),
  ];
  return { title, columns, rows };
}

/** What else the shop makes. */
function shapeTable({ shapes }: Comparison): ShownTable {
  const rows = shapeRows(shapes, engineSpeech()).map(({ shape, old, now }) => [
    shape,
    String(old),
    String(now),
  ]);
  const columns = [l10n.t('shape'), l10n.t('old pieces'), l10n.t('new pieces')];
  return { title: l10n.t('Shapes of bars and joints'), columns, rows };
}

function statementTable({ statements }: Comparison): ShownTable {
  const rows = statements.map(({ what, old, new: now }) => [what, old ?? '–', now ?? '–']);
  const columns = [l10n.t('statement'), l10n.t('old'), l10n.t('new')];
  return { title: l10n.t('Changed statements'), columns, rows };
}

function acceptedTable({ accepted }: Comparison): ShownTable {
  const row = (what: string) => (accept: ComparedAccept) => [
    what,
    accept.code,
    visible(accept.reason),
    accept.messages.join(' '),
  ];
  const rows = [
    ...accepted.new.map(row(l10n.t('newly accepted'))),
    ...accepted.gone.map(row(l10n.t('accepted no more'))),
  ];
  const columns = [l10n.t('what'), l10n.t('warning'), l10n.t('reason'), l10n.t('what it says')];
  return { title: l10n.t('Accepted warnings'), columns, rows };
}

function findingTable({ findings }: Comparison): ShownTable {
  const row = (what: string) => (found: Comparison['findings']['new'][number]) => [
    what,
    String(found.range.start.line),
    found.severity,
    toldMessage(found.message, found.accepted),
  ];
  const rows = [...findings.new.map(row(l10n.t('new'))), ...findings.gone.map(row(l10n.t('gone')))];
  const columns = [l10n.t('new or gone'), l10n.t('line'), l10n.t('severity'), l10n.t('finding')];
  return { title: l10n.t('Findings'), columns, rows };
}
