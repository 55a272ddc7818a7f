import type { Facts } from '../facts/facts.ts';
import type { Figure } from '../figures/figure.ts';
import { valuesOf } from '../figures/groups.ts';
import { toldMessage } from '../findings/acceptance/acceptance.ts';
import { alikeFindings } from '../findings/alike.ts';
import { cautions } from '../findings/cautions.ts';
import { countedIn, type LimitResult, limitName, limitValue, requiredText } from '../findings/limits.ts';
import { printedNotes } from '../findings/sheetRules.ts';
import { figureLabel, figureText } from '../language/figureText.ts';
import type { Finding } from '../language/finding.ts';
import { plural } from '../language/lists.ts';
import { significant } from '../language/numbers.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { SheetSpecification } from '../language/specification/specification.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { visible } from '../language/text/visible.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import type { PhaseSystem } from '../winding/model.ts';
import { lineTerminal, otherTerminal, phaseOrder, starPoint } from '../winding/terminals.ts';
import { pairWords, phaseConnectionOf } from './joining.ts';
import { withPrintedUnits } from './numbers.ts';
import type { Paragraphs } from './page/paragraphs.ts';
import type { SheetTable } from './page/table.ts';
import { lackingCharacters } from './page/text.ts';

type TestRow = readonly [quantity: string, value: string, basis: string];

const mostBasis = 104;

/** What is measured on the finished winding, with the value it should have. */
export function testTable(facts: Facts, section: string): SheetTable {
  return {
    id: 'tests',
    section,
    heading: 'Test values',
    remarks: [
      `Resistances: computed, for direct current; ${jointsWords(facts)}. Tolerances are not given.`,
      ...missingRemarks(facts),
    ],
    columns: [{ name: 'quantity' }, { name: 'value', most: 52 }, { name: 'basis', most: mostBasis }],
    rows: [...copperRows(facts), factorRow(facts), ...rotationRows(facts), ...withstandRows(facts)],
  };
}

function copperRows(facts: Facts): readonly TestRow[] {
  const { resistance, mass } = valuesOf(facts.copper());
  const { phases, parallelPaths } = facts.winding;
  const metal = valueOrDefault(barStatements, facts.specification.bar, 'metal');
  const connection = phaseConnectionOf(facts);
  const lineRow: readonly TestRow[] =
    connection === null || connection === 'open'
      ? []
      : [
          [
            figureLabel('copper.resistance.line20'),
            figureText('copper.resistance.line20', resistance.line20),
            linePlaces(phases, connection),
          ],
        ];
  const pathRow: readonly TestRow[] =
    parallelPaths === 1 || resistance.path20 === null
      ? []
      : [
          [
            figureLabel('copper.resistance.path20'),
            figureText('copper.resistance.path20', resistance.path20),
            'mean of all paths, each before it is joined to others',
          ],
        ];
  return [
    ...pathRow,
    [
      figureLabel('copper.resistance.phase20'),
      figureText('copper.resistance.phase20', resistance.phase20),
      resistance.phase20 === null ? 'not computed' : phasePlace(phases, connection),
    ],
    ...lineRow,
    [
      `Mass of the ${metal}`,
      figureText('copper.mass', mass),
      mass === null ? 'not computed' : 'bars, pieces and rings as listed, without coating, computed',
    ],
  ];
}

/** What the resistances count for the joints themselves. */
function jointsWords({ specification }: Facts): string {
  const given = specification.bar?.jointResistance?.value;
  return given === undefined
    ? 'joints not counted (bar joint-resistance)'
    : `${figureText('copper.resistance.phase20', given)} for each joint`;
}

/** Where a phase alone can be measured. */
function phasePlace(phases: PhaseSystem, connection: PhaseConnection | null): string {
  const name = phases.names[0]!;
  const line = lineTerminal(name);
  switch (connection) {
    case 'star':
    case 'star-joined':
      return `${pairWords(line, starPoint(phases, 0, connection === 'star-joined'))} of each phase, where its star point can be reached`;
    case 'delta':
      return `${pairWords(line, otherTerminal(name))} of each phase, with the delta open`;
    default:
      return `${pairWords(line, otherTerminal(name))} of each phase`;
  }
}

/** Between which terminals a closed star or delta is measured; of more than four phases the first. */
function linePlaces({ names, sets }: PhaseSystem, connection: PhaseConnection): string {
  const ofSet = names.slice(0, names.length / sets);
  const pairs = ofSet.map((name, phase) =>
    pairWords(lineTerminal(name), lineTerminal(ofSet[(phase + 1) % ofSet.length]!)),
  );
  const listed = pairs.length > 4 ? `${pairs.slice(0, 3).join(', ')} \u2026` : pairs.join(', ');
  const alike = sets > 1 ? ', set 2 alike' : '';
  return `${listed}${alike}, with the ${connection === 'delta' ? 'delta' : 'star'} closed`;
}

/** Which statements would give the values that are not known. */
function missingRemarks(facts: Facts): readonly string[] {
  const { resistance, mass } = facts.copper();
  const needs = (figure: Figure<number>) => (figure.known ? '' : figure.needs.join(', '));
  const [ofResistance, ofMass] = [needs(resistance.phase20), needs(mass)];
  if (ofResistance === ofMass) return ofMass === '' ? [] : [`Resistances and mass need ${ofMass}.`];
  return [['Resistances need', ofResistance] as const, ['Mass needs', ofMass] as const].flatMap(
    ([name, words]) => (words === '' ? [] : [`${name} ${words}.`]),
  );
}

function factorRow(facts: Facts): TestRow {
  const { winding } = facts.factorRow(facts.winding.polePairs);
  return [
    figureLabel('factors[].winding'),
    figureText('factors[].winding', winding),
    'fundamental, skew included',
  ];
}

/** Which way the field turns when the phases follow each other in their order. */
function rotationWords(facts: Facts, seenFrom: 'connection' | 'far'): string {
  const { workingAmplitude, runsWithSlotNumbers } = facts.mmf();
  if (!(workingAmplitude > 0)) return 'none: no working wave';
  // Slots are numbered clockwise as seen from the connection side.
  return runsWithSlotNumbers === (seenFrom === 'connection') ? 'clockwise' : 'counterclockwise';
}

function rotationRows(facts: Facts): readonly TestRow[] {
  const basis = `phase order ${phaseOrder(facts.winding.phases)}, field of the winding`;
  const driveEnd = facts.specification.machine?.driveEnd?.value;
  const rows: TestRow[] = [
    ['Rotation seen from the connection side', rotationWords(facts, 'connection'), basis],
  ];
  if (driveEnd !== undefined)
    rows.push([
      'Rotation seen from the drive end',
      rotationWords(facts, driveEnd),
      `drive end: ${driveEnd === 'far' ? 'far side' : 'connection side'} (IEC 60034-8)`,
    ]);
  return rows;
}

/** Test voltage of IEC 60034-1 for a rated voltage, V; from memory. */
export function withstandVoltage(rated: number): number {
  return Math.max(2 * rated + 1000, 1500);
}

function withstandRows(facts: Facts): readonly TestRow[] {
  const voltage = facts.specification.machine?.voltage?.value;
  if (voltage === undefined) return [];
  return [
    [
      'Withstand voltage after IEC 60034-1',
      `${significant(withstandVoltage(voltage), 5)} V rms`,
      '2U + 1000 V, at least 1500 V, from memory: verify',
    ],
  ];
}

/** The limits that the text requires, and how the winding stands to them. */
export function limitsTable(limits: readonly LimitResult[], section: string): SheetTable {
  return {
    id: 'limits',
    section,
    heading: 'Required limits',
    columns: [
      { name: 'quantity', most: 70 },
      { name: 'required', align: 'end' },
      { name: 'computed', align: 'end' },
      { name: 'holds' },
    ],
    rows: limits.map((limit) => [
      `${limitName(limit)}${countedIn(limit)}`,
      withPrintedUnits(requiredText(limit)),
      limit.actual === null ? '\u2013' : withPrintedUnits(limitValue(limit, limit.actual)),
      limit.met === null ? 'NOT KNOWN' : limit.met ? 'yes' : 'NO',
    ]),
  };
}

/** The notes of the `sheet` block. */
export function notesText(facts: Facts, section: string, width: number): Paragraphs | null {
  const notes = facts.specification.sheet?.notes ?? [];
  if (notes.length === 0) return null;
  const printed = printedNotes(notes);
  const paragraphs = notes.slice(0, printed).map(({ value }) => visible(value));
  const left = notes.length - printed;
  if (left > 0)
    paragraphs.push(`NOT PRINTED: ${plural(left, 'more note')}; the winding file has all of them.`);
  return { id: 'notes', section, heading: 'Notes', paragraphs, width, marks: 'numbers' };
}

/** The cautions that stand on every report and sheet set. */
export function cautionsText(section: string, width: number): Paragraphs {
  return { id: 'cautions', section, heading: 'Cautions', paragraphs: cautions, width, marks: 'dashes' };
}

/** What the set is made from. */
export interface SourceInput {
  readonly title: string;
  /** The `sheet` block; undefined where the text has none. */
  readonly given: SheetSpecification | undefined;
  readonly fileHash: string;
  readonly findings: readonly Finding[];
}

const mostListed = 30;

/**
 * Where the sheets come from, the warnings, those that are accepted with a reason, and the findings of
 * severity error, which keep the sheets from being released.
 */
export function sourceTexts(input: SourceInput, section: string, width: number): readonly Paragraphs[] {
  const { findings, given } = input;
  const revision = given?.revision?.value;
  const count = (severity: Finding['severity']) =>
    findings.filter((each) => each.severity === severity).length;
  const errors = findings.filter(({ severity }) => severity === 'error');
  const warnings = findings.filter(({ severity }) => severity === 'warning');
  const accepted = findings.filter((each) => each.accepted);
  const remarks = plural(count('info') - accepted.length, 'remark');
  const reviewed = accepted.length === 0 ? '' : `${plural(accepted.length, 'accepted warning')}, `;
  const counts = `Findings: ${plural(errors.length, 'error')}, ${plural(warnings.length, 'warning')}, ${reviewed}${remarks}.`;
  const source: Paragraphs = {
    id: 'source',
    section,
    heading: 'Source',
    paragraphs: [
      `Winding: ${shortened(input.title)}. Revision: ${revision === undefined ? 'not given' : shortened(revision)}.`,
      'Hash of the winding file:',
      ...hashLines(visible(input.fileHash)),
      `${counts} Every figure on these sheets is computed from that file alone.`,
      ...lackingWords(input),
    ],
    width,
  };
  const list = (id: string, heading: string, those: readonly Finding[]): readonly Paragraphs[] => {
    if (those.length === 0) return [];
    const alike = alikeFindings(those, ({ accepted }) => accepted?.reason);
    const left = alike.slice(mostListed).reduce((sum, { findings: rest }) => sum + rest.length, 0);
    const paragraphs = alike
      .slice(0, mostListed)
      .map(({ message, findings: [first] }) =>
        visible(toldMessage(withPrintedUnits(message), first?.accepted?.reason)),
      );
    const more = left > 0 ? [`${left} more: see the report.`] : [];
    return [{ id, section, heading, paragraphs: [...paragraphs, ...more], width, marks: 'numbers' }];
  };
  return [
    source,
    ...list('warnings', 'Warnings', warnings),
    ...list('accepted', 'Accepted warnings', accepted),
    ...list('errors', 'Why it is not released', errors),
  ];
}

/** A text by the user as one of the names on a sheet: a long one is cut with an ellipsis. */
function shortened(words: string): string {
  const shown = visible(words);
  return shown.length > 200 ? `${shown.slice(0, 199).replace(/[\ud800-\udbff]$/, '')}\u2026` : shown;
}

const mostLacking = 12;

/** A warning of characters that are printed as a replacement sign. */
function lackingWords({ title, given, findings }: SourceInput): readonly string[] {
  const { notes = [], range: _, ...fields } = given ?? {};
  const values = [...Object.values(fields), ...notes].flatMap((each) => (each ? [String(each.value)] : []));
  const reasons = findings.flatMap(({ accepted }) => (accepted ? [accepted.reason] : []));
  const lacking = lackingCharacters([title, ...values, ...reasons]);
  if (lacking.length === 0) return [];
  const codes = lacking
    .slice(0, mostLacking)
    .map((each) => `U+${each.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`);
  const more = lacking.length > mostLacking ? ` and ${lacking.length - mostLacking} more` : '';
  return [
    `The letters of these sheets lack ${plural(lacking.length, 'character')} of the text, shown by a replacement sign: ${codes.join(', ')}${more}.`,
  ];
}

/** A hash in pieces that fit on a line. */
function hashLines(hash: string): readonly string[] {
  return hash.slice(0, 256).match(/.{1,32}/gu) ?? ['not given'];
}
