import type { FactorTableRow, KeyFigure } from '../../core/report/figures.ts';
import { followList, type ItemRule, type ListChange, listChange } from './listChange.ts';
import {
  factorColumns,
  nothingListed,
  nothingMarked,
  type PanelControls,
  type PanelHeading,
  type PanelMarks,
  type PanelNotice,
  type PanelState,
  type PathMark,
  type Place,
  type ShownConnections,
  type ShownDifference,
  type ShownDrawing,
  type ShownFinding,
  type ShownLimit,
} from './shownParts.ts';
import { type Fields, hasOnly, hasTexts, isCount, isListOf, isRecord, isText, isTexts } from './values.ts';
import { followView, type ViewChange, viewChange } from './viewContent.ts';
import { readWish } from './wish.ts';

/** What changes of the parts of a panel; what is left out stays as it was. */
export interface PanelChanges {
  readonly heading?: PanelHeading;
  /** 'none' withdraws the notice. */
  readonly notice?: PanelNotice | 'none';
  readonly controls?: PanelControls;
  readonly view?: ViewChange | 'none';
  readonly figures?: ListChange;
  readonly factors?: ListChange;
  readonly findings?: ListChange;
  readonly limits?: ListChange;
  readonly connections?: ShownConnections;
  readonly marks?: PanelMarks;
  /** 'none' ends it. */
  readonly drawing?: ShownDrawing | 'none';
  readonly difference?: ShownDifference | 'none';
}

/** One step of what the panel shows. The page answers each with `shown`, and only then gets the next. */
export interface PanelUpdate {
  readonly kind: 'update';
  /** Counts the updates of a panel, from 1. */
  readonly version: number;
  /** The version these changes follow on; 0 for a page that shows nothing yet, which forgets what it has. */
  readonly base: number;
  readonly changes: PanelChanges;
}

const parts: readonly (keyof PanelChanges)[] = [
  'heading',
  'notice',
  'controls',
  'view',
  'figures',
  'factors',
  'findings',
  'limits',
  'connections',
  'marks',
  'drawing',
  'difference',
];

/** What changes from one state to another, the first being null for a page that shows nothing; null for nothing. */
export function panelChanges(before: PanelState | null, state: PanelState): PanelChanges | null {
  const changes = {
    heading: changed(before?.heading, state.heading),
    notice: changed<PanelNotice | 'none'>(before?.notice ?? 'none', state.notice ?? 'none'),
    controls: changed(before?.controls, state.controls),
    view: viewChange(before?.view ?? null, state.view),
    figures: rowChange(before?.figures ?? [], state.figures, figureRule),
    factors: rowChange(before?.factors ?? [], state.factors, factorRule),
    findings: rowChange(before?.findings ?? [], state.findings, findingRule),
    limits: rowChange(before?.limits ?? [], state.limits, limitRule),
    connections: changed(before === null ? nothingListed : before.connections, state.connections),
    marks: changed(before === null ? nothingMarked : before.marks, state.marks),
    drawing: changed<ShownDrawing | 'none'>(before?.drawing ?? 'none', state.drawing ?? 'none'),
    difference: changed<ShownDifference | 'none'>(before?.difference ?? 'none', state.difference ?? 'none'),
  };
  const entries = Object.entries(changes).filter(([, change]) => change !== null);
  return entries.length === 0 ? null : (Object.fromEntries(entries) as PanelChanges);
}

/** The state that follows from the one before; null where the changes do not fit. */
export function followChanges(before: PanelState | null, changes: PanelChanges): PanelState | null {
  const heading = changes.heading ?? before?.heading;
  const controls = changes.controls ?? before?.controls;
  const notice = changes.notice === 'none' ? null : (changes.notice ?? before?.notice ?? null);
  const old = before?.view ?? null;
  const view = changes.view === undefined ? old : followView(old, changes.view);
  const figures = followed(before?.figures ?? [], changes.figures, isKeyFigure);
  const factors = followed(before?.factors ?? [], changes.factors, isFactorRow);
  const findings = followed(before?.findings ?? [], changes.findings, isShownFinding);
  const limits = followed(before?.limits ?? [], changes.limits, isShownLimit);
  if (!heading || !controls || view === undefined || !figures || !factors || !findings || !limits)
    return null;
  const connections = changes.connections ?? before?.connections ?? nothingListed;
  const marks = changes.marks ?? before?.marks ?? nothingMarked;
  const drawing = changes.drawing === 'none' ? null : (changes.drawing ?? before?.drawing ?? null);
  const difference =
    changes.difference === 'none' ? null : (changes.difference ?? before?.difference ?? null);
  return {
    heading,
    notice,
    controls,
    view,
    figures,
    factors,
    findings,
    limits,
    connections,
    marks,
    drawing,
    difference,
  };
}

/** The update if the value is one that a page can try to follow, else null. Lists are read when they are followed. */
export function readUpdate(value: Fields): PanelUpdate | null {
  const { version, base, changes } = value;
  const good =
    hasOnly(value, ['kind', 'version', 'base', 'changes']) &&
    isCount(version) &&
    isCount(base) &&
    0 <= base &&
    base < version &&
    isRecord(changes) &&
    areChanges(changes);
  return good ? (value as unknown as PanelUpdate) : null;
}

function areChanges(changes: Fields): boolean {
  const {
    heading,
    notice,
    controls,
    view,
    figures,
    factors,
    findings,
    limits,
    connections,
    marks,
    drawing,
    difference,
  } = changes;
  return (
    hasOnly(changes, parts) &&
    (heading === undefined || isHeading(heading)) &&
    (notice === undefined || notice === 'none' || isNotice(notice)) &&
    (controls === undefined || isControls(controls)) &&
    (view === undefined || view === 'none' || (isRecord(view) && isText(view.kind))) &&
    (figures === undefined || Array.isArray(figures)) &&
    (factors === undefined || Array.isArray(factors)) &&
    (findings === undefined || Array.isArray(findings)) &&
    (limits === undefined || Array.isArray(limits)) &&
    (connections === undefined || isConnections(connections)) &&
    (marks === undefined || isMarks(marks)) &&
    (drawing === undefined || drawing === 'none' || isDrawing(drawing)) &&
    (difference === undefined || difference === 'none' || isDifference(difference))
  );
}

/** The value where it is another than before, else null. Small values only: they are compared as texts. */
function changed<Value>(before: Value | undefined, value: Value): Value | null {
  return before === value || JSON.stringify(before) === JSON.stringify(value) ? null : value;
}

const figureRule = ruleBy<KeyFigure>(({ label, value, help }) => `${label}\t${value}\t${help ?? ''}`);
const factorRule = ruleBy<FactorTableRow>((row) => factorColumns.map((column) => row[column]).join('\t'));

const findingRule = ruleBy<ShownFinding>(
  ({ severity, message, place }) => `${severity}\t${message}\t${place}`,
);
const limitRule = ruleBy<ShownLimit>((limit) => limitParts.map((name) => limit[name]).join('\t'));

/** Rows that are the same where their words are. */
function ruleBy<Row>(words: (row: Row) => string): ItemRule<Row> {
  return { key: words, pack: (row) => row, change: () => null };
}

function rowChange<Row>(
  before: readonly Row[],
  rows: readonly Row[],
  rule: ItemRule<Row>,
): ListChange | null {
  return before === rows ? null : listChange(before, rows, rule);
}

function followed<Row>(
  before: readonly Row[],
  change: ListChange | undefined,
  isRow: (row: unknown) => row is Row,
): readonly Row[] | null {
  if (change === undefined) return before;
  return followList(before, change, (row) => (isRow(row) ? { item: row, takesNext: false } : null));
}

function isHeading(value: unknown): value is PanelHeading {
  return hasTexts(value, ['source', 'file', 'title']) && typeof value.waiting === 'boolean';
}

function isNotice(value: unknown): value is PanelNotice {
  return hasTexts(value, ['stamp', 'headline']) && isListOf(value.places, isPlace);
}

function isPlace(value: unknown): value is Place {
  return hasTexts(value, ['text', 'place']);
}

function isControls(value: unknown): value is PanelControls {
  return (
    isRecord(value) &&
    readWish(value.wish) !== null &&
    isTexts(value.phases) &&
    isCount(value.paths) &&
    isCount(value.layers)
  );
}

function isKeyFigure(value: unknown): value is KeyFigure {
  return hasTexts(value, ['label', 'value']) && ['string', 'undefined'].includes(typeof value.help);
}

function isFactorRow(value: unknown): value is FactorTableRow {
  return hasTexts(value, factorColumns);
}

const limitParts = ['name', 'limit', 'value', 'margin', 'state', 'place'] as const;

function isShownFinding(value: unknown): value is ShownFinding {
  return hasTexts(value, ['severity', 'message', 'place']);
}

function isShownLimit(value: unknown): value is ShownLimit {
  return hasTexts(value, limitParts);
}

function isConnections(value: unknown): value is ShownConnections {
  return (
    hasTexts(value, ['status']) &&
    ['none', 'written', 'searching', 'found'].includes(value.status as string) &&
    isListOf(value.rows, isTexts) &&
    isCount(value.drawn)
  );
}

function isMarks(value: unknown): value is PanelMarks {
  return (
    hasTexts(value, ['words']) &&
    isTexts(value.bars) &&
    isListOf(value.joints, isCount) &&
    isListOf(value.paths, isPathMark) &&
    (value.chosen === null || isText(value.chosen))
  );
}

function isDrawing(value: unknown): value is ShownDrawing {
  return (
    hasTexts(value, ['words']) &&
    isCount(value.phase) &&
    isTexts(value.lines) &&
    isListOf(value.next, isOffer) &&
    isCount(value.marked) &&
    typeof value.joint === 'boolean'
  );
}

function isDifference(value: unknown): value is ShownDifference {
  return (
    hasTexts(value, ['against', 'words']) &&
    isListOf(value.rows, isTexts) &&
    isTexts(value.bars) &&
    isListOf(value.joints, isCount)
  );
}

function isOffer(value: unknown): value is ShownDrawing['next'][number] {
  return hasTexts(value, ['bar', 'kind']) && ['regular', 'special', 'piece'].includes(value.kind as string);
}

function isPathMark(value: unknown): value is PathMark {
  return isRecord(value) && isCount(value.phase) && isCount(value.path);
}
