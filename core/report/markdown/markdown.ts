import type { Facts } from '../../facts/facts.ts';
import { limitMargin } from '../../facts/limitMargin.ts';
import { valuesOf } from '../../figures/groups.ts';
import { toldMessage } from '../../findings/acceptance/acceptance.ts';
import { alikeFindings, linesInWords } from '../../findings/alike.ts';
import { cautions } from '../../findings/cautions.ts';
import { countedIn, type LimitResult, limitName, limitValue, requiredText } from '../../findings/limits.ts';
import { figureLabel, figureText } from '../../language/figureText.ts';
import { isOne, listed, plural } from '../../language/lists.ts';
import { fixed, significant } from '../../language/numbers.ts';
import { placeColumns } from '../../tables/slots.ts';
import { slotNumbers, typedSigns, type Winding } from '../../winding/model.ts';
import { factorTableRows, keyFigures } from '../figures.ts';
import type { Report, ReportedAccepted, ReportedFinding } from '../schema.ts';
import { connectionText } from './connection.ts';
import { code, sentence } from './guard.ts';
import { copperText, dutyText, emfText, figuresTable as machineTable, operationText } from './machine.ts';
import { missingText } from './missing.ts';
import { newSources } from './sources.ts';
import { spaceText } from './space.ts';
import { columnsTable, markdownTable } from './table.ts';

// Above this many slots the slot table shows only what the rest repeats.
const mostSlotsListed = 24;

/** The report as a colleague reads it. `facts` is null where the text yields no winding. */
export function reportMarkdown(report: Report, facts: Facts | null, limits: readonly LimitResult[]): string {
  const sources = newSources();
  const parts = [`# ${sentence(report.title)}`, summary(report)];
  if (facts) {
    parts.push(section('Key figures', figuresTable(facts)));
    if (report.limits.length > 0) parts.push(section('Required limits', limitsTable(report, limits)));
  }
  parts.push(section('Findings', findingsText(report.findings)));
  if (report.accepted.length > 0) parts.push(section('Accepted warnings', acceptedText(report.accepted)));
  if (facts) {
    parts.push(section('Slot table', slotTable(facts.winding, report)));
    parts.push(section('Winding factors and MMF waves', factorsText(facts, report)));
    parts.push(section('Paths and joints', connectionText(facts, sources)));
    parts.push(section('EMF and torque', emfText(facts, sources)));
    parts.push(section('Load point', operationText(facts, sources)));
    const duty = facts.duty();
    if (duty) parts.push(section('Duty', dutyText(facts, duty, sources)));
    if (report.iron)
      parts.push(section('Iron', machineTable('iron', { iron: valuesOf(facts.iron()) }, sources)));
    parts.push(section('Copper', copperText(facts, sources)));
    parts.push(section('Bars in space', spaceText(report, sources)));
    parts.push(section('Force waves of few pole pairs', noiseText(report)));
  }
  parts.push(section('Assumptions', bullets(report.assumptions)));
  parts.push(section('Not computed', missingText(report)));
  if (sources.named().length > 0) parts.push(section('Sources', bullets(sources.named())));
  parts.push(section('Cautions', bullets(cautions)));
  return `${parts.join('\n\n')}\n`;
}

function section(title: string, body: string): string {
  return `## ${title}\n\n${body}`;
}

function bullets(lines: readonly string[]): string {
  return lines.length === 0 ? 'None.' : lines.map((line) => `- ${line}`).join('\n');
}

function summary(report: Report): string {
  const errors = report.findings.filter(({ severity }) => severity === 'error').length;
  const warnings = report.findings.filter(({ severity }) => severity === 'warning').length;
  const state = errors === 0 ? 'No errors' : `**${plural(errors, 'error')}**`;
  const rest = warnings === 0 ? '' : `, ${plural(warnings, 'warning')}`;
  const acceptedCount = report.accepted.reduce((sum, { findings }) => sum + findings.length, 0);
  const accepted = acceptedCount === 0 ? '' : `, ${plural(acceptedCount, 'accepted warning')}`;
  const met = report.limits.filter((limit) => limit.met === true).length;
  const limits =
    report.limits.length === 0
      ? ''
      : ` ${met} of ${plural(report.limits.length, 'required limit')} ${isOne(report.limits.length) ? 'holds' : 'hold'}.`;
  if (!report.winding)
    return `${state}${rest}${accepted}. The text yields no winding yet; the findings say why.`;
  const { slots, poles, phases, layers } = report.winding;
  return `A winding of ${slots} slots, ${poles} poles, ${phases} phases and ${plural(layers, 'layer')}. ${state}${rest}${accepted}.${limits}`;
}

function figuresTable(facts: Facts): string {
  return markdownTable(
    ['figure', 'value', 'note'],
    ['left', 'left', 'left'],
    keyFigures(facts).map(({ label, value, help }) => [label, value, help ?? '']),
  );
}

function limitsTable(report: Report, limits: readonly LimitResult[]): string {
  const unread = report.limits.filter(({ limit }) => limit === null);
  const note =
    unread.length === 0
      ? ''
      : `\n\nNot read because of an error in the line, and so not met: ${unread.map(({ quantity }) => code(quantity)).join(', ')}.`;
  const table = markdownTable(
    ['limit', 'required', 'actual', 'margin', 'holds'],
    ['left', 'right', 'right', 'right', 'left'],
    limits.map((limit) => [
      `${limitName(limit)}${countedIn(limit)}`,
      requiredText(limit),
      limit.actual === null ? 'not computable' : limitValue(limit, limit.actual),
      limit.actual === null ? '–' : limitValue(limit, limitMargin(limit, limit.actual)),
      limit.met === null ? '**not known**' : limit.met ? 'yes' : '**no**',
    ]),
  );
  return limits.length === 0 ? note.trim() : `${table}${note}`;
}

function slotTable(winding: Winding, report: Report): string {
  const period = report.symmetry
    ? report.symmetry.rotationSlots * (report.symmetry.negated ? 2 : 1)
    : winding.slots;
  const shown = winding.slots <= mostSlotsListed ? winding.slots : Math.min(period, winding.slots);
  const note =
    shown < winding.slots ? `Slots 1 to ${shown} of ${winding.slots}; the rest repeats them.\n\n` : '';
  const legend =
    'Slots are numbered clockwise as seen from the connection side; layer a is nearest the axis. A + bar carries the current of its phase from the connection side to the far side, a - bar back.';
  return `${legend}\n\n${note}${columnsTable(placeColumns(winding, typedSigns, 0, winding.layers), slotNumbers({ slots: shown }))}`;
}

function factorsText(facts: Facts, report: Report): string {
  const rows = factorTableRows(facts);
  const table = markdownTable(
    ['order', 'harmonic', 'distribution', 'pitch', 'skew', 'winding', 'MMF wave', 'direction'],
    ['right', 'right', 'right', 'right', 'right', 'right', 'right', 'left'],
    rows.map((row) => [
      row.order,
      row.harmonic,
      row.distribution,
      row.pitch,
      row.skew,
      row.winding,
      row.wave,
      row.direction,
    ]),
  );
  const working = report.mmf?.waves.find(
    ({ order, direction }) => order === facts.winding.polePairs && direction === 'forward',
  );
  const amplitude = working
    ? `The working wave has an amplitude of ${significant(working.amplitude)} A${report.mmf!.perAmpere ? ' for 1 A rms in each phase' : ''} and runs ${facts.mmf().runsWithSlotNumbers ? 'with' : 'against'} the slot numbers for the phase order ${facts.winding.phases.names.join('-')}. `
    : 'The winding makes no working wave. ';
  const leakage = report.mmf?.differentialLeakage;
  const sigma =
    leakage == null
      ? ''
      : `${figureLabel('mmf.differentialLeakage')}: ${figureText('mmf.differentialLeakage', leakage)} of the magnetizing inductance. `;
  const single =
    facts.winding.layers === 1
      ? 'In one layer the pitch is contained in the distribution factor, so the pitch factor is 1. '
      : '';
  return `${amplitude}${sigma}${single}Orders count pole pairs round the bore; the harmonic is the order over ${facts.winding.polePairs}. Waves are relative to the working wave, the larger of the two of an order; forward means with it. A dash marks a factor that is not defined.\n\n${table}`;
}

function noiseText(report: Report): string {
  const rows = report.noise.filter(({ order }) => order <= 4).slice(0, 24);
  if (rows.length === 0)
    return 'None with a product of relative amplitudes of at least 0.0001 up to 4 pole pairs.';
  const table = markdownTable(
    ['force order', 'stator order', 'rotor order', 'frequency', 'product'],
    ['right', 'right', 'right', 'right', 'right'],
    rows.map((row) => [
      String(row.order),
      String(row.statorOrder),
      String(row.rotorOrder),
      `${row.frequencyMultiple} f`,
      fixed(row.product, 5),
    ]),
  );
  return `Pairs of field waves whose radial force has few pole pairs, up to order 4; a negative stator order runs against the working wave. The product of relative amplitudes ranks them; it is no sound level.\n\n${table}`;
}

function findingsText(findings: readonly ReportedFinding[]): string {
  if (findings.length === 0) return 'None.';
  return alikeFindings(findings, ({ accepted }) => accepted)
    .map(({ message, findings: alike }) => {
      const [{ severity, code: name, accepted }] = alike as [ReportedFinding];
      const lines = linesInWords(alike.map(({ range }) => range.start.line));
      return `- **${severity}** ${lines}: ${sentence(toldMessage(message, accepted))} (\`${name}\`)`;
    })
    .join('\n');
}

function acceptedText(accepted: readonly ReportedAccepted[]): string {
  const lines = (findings: ReportedAccepted['findings']) =>
    listed([...new Set(findings.map(({ range }) => String(range.start.line)))]);
  const table = markdownTable(
    ['code', 'warnings', 'in line', 'reason', 'accepted in line'],
    ['left', 'right', 'left', 'left', 'right'],
    accepted.map(({ code: name, reason, range, findings }) => [
      `\`${name}\``,
      String(findings.length),
      lines(findings),
      sentence(reason),
      String(range.start.line),
    ]),
  );
  return `Warnings that the text accepts; errors cannot be accepted.\n\n${table}`;
}
