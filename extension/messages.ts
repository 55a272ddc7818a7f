import type { Range } from '../core/language/finding.ts';
import type { Picture } from '../core/picture/picture.ts';
import type { FactorTableRow, KeyFigure } from '../core/report/figures.ts';
import { readSubject, type Subject } from './subject.ts';
import { readWish, type Wish } from './wish.ts';

/** The columns of the factor table, in order. */
export const factorColumns = [
  'order',
  'harmonic',
  'distribution',
  'pitch',
  'skew',
  'winding',
  'wave',
  'direction',
] as const satisfies readonly (keyof FactorTableRow)[];

/** A table as shown; its cells are text, sorted as numbers where a column holds nothing else. */
export interface ShownTable {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Everything the panel shows of one winding text. */
export interface PanelContent {
  readonly kind: 'content';
  /** Address of the document, kept by the page so that a reloaded window finds it again. */
  readonly source: string;
  readonly title: string;
  /** What was asked for: the page's own controls follow it. */
  readonly wish: Wish;
  /** Names of the phases, in order. */
  readonly phases: readonly string[];
  /** Parallel paths of a phase, 0 while bars are not joined, and layers. */
  readonly paths: number;
  readonly layers: number;
  /** The view's picture; null for the tables. */
  readonly picture: Picture | null;
  /** The chosen table; null for a picture. */
  readonly table: ShownTable | null;
  readonly keyFigures: readonly KeyFigure[];
  readonly factorRows: readonly FactorTableRow[];
}

/** A place of the text that the page offers to jump to. */
export interface Place {
  readonly text: string;
  readonly range: Range;
}

/** What is shown no longer follows from the text, or nothing can be shown: why, and the places to mend. */
export interface PanelNotice {
  readonly kind: 'notice';
  readonly source: string;
  /** One or two words beside the title; empty where nothing is shown at all. */
  readonly stamp: string;
  readonly headline: string;
  readonly places: readonly Place[];
}

/** A path of the winding: index of its phase, and its number from 1. */
export interface PathMark {
  readonly phase: number;
  readonly path: number;
}

/** What stands out in the picture: what the text's cursor stands on, or what the reader chose. */
export interface PanelMarks {
  readonly kind: 'marks';
  readonly source: string;
  readonly bars: readonly string[];
  readonly joints: readonly number[];
  readonly paths: readonly PathMark[];
  /** The bar from which the arrow keys step on; null leaves the choice as it was. */
  readonly chosen: string | null;
  /** What it is, in one line; empty for nothing. */
  readonly words: string;
}

/** The answer to `point`: what is under the pointer, in one line. */
export interface PanelName {
  readonly kind: 'name';
  readonly source: string;
  readonly words: string;
}

/** All that the extension tells the page. A content withdraws the notice before it. */
export type HostMessage = PanelContent | PanelNotice | PanelMarks | PanelName;

/** All that the page tells the extension. */
export type PageMessage =
  | { readonly kind: 'ready'; readonly wish: Wish | null }
  /** The reader wants another view, phase, instant or table. */
  | { readonly kind: 'show'; readonly wish: Wish }
  /** A place named in a notice. */
  | { readonly kind: 'reveal'; readonly source: string; readonly range: Range }
  /** The pointer rests on something. */
  | { readonly kind: 'point'; readonly source: string; readonly subject: Subject }
  /** The reader chose something: its text is to be selected. */
  | { readonly kind: 'choose'; readonly source: string; readonly subject: Subject }
  /** The reader goes on along the path, forwards or backwards. */
  | { readonly kind: 'step'; readonly source: string; readonly bar: string; readonly by: 1 | -1 }
  /** A table for the clipboard. */
  | { readonly kind: 'copy'; readonly text: string };

/** What the page keeps over a reload of the window. The views' zooms are read by the page alone. */
export interface PageState {
  readonly source: string;
  readonly wish: Wish | null;
  readonly zooms: unknown;
}

/** The message if it is one that the page can act on, else null. */
export function readHostMessage(value: unknown): HostMessage | null {
  if (!isRecord(value) || typeof value.source !== 'string') return null;
  switch (value.kind) {
    case 'content':
      return isContent(value) ? value : null;
    case 'notice':
      return isNotice(value) ? value : null;
    case 'marks':
      return isMarks(value) ? value : null;
    case 'name':
      return isName(value) ? value : null;
    default:
      return null;
  }
}

const longestCopy = 20_000_000;

/** The message if it is one that the extension can act on, else null; further parts are left out. */
export function readPageMessage(value: unknown): PageMessage | null {
  if (!isRecord(value)) return null;
  const { kind, source, text } = value;
  const wish = readWish(value.wish);
  if (kind === 'ready') return { kind, wish };
  if (kind === 'show') return wish === null ? null : { kind, wish };
  if (kind === 'copy') return typeof text === 'string' && text.length <= longestCopy ? { kind, text } : null;
  if (typeof source !== 'string') return null;
  if (kind === 'reveal') {
    if (!isRange(value.range)) return null;
    const { start, end } = value.range;
    return { kind, source, range: { start, end } };
  }
  if (kind === 'step') {
    const { bar, by } = value;
    return typeof bar === 'string' && (by === 1 || by === -1) ? { kind, source, bar, by } : null;
  }
  const subject = readSubject(value.subject);
  return (kind === 'point' || kind === 'choose') && subject !== null ? { kind, source, subject } : null;
}

/** The state if it is one that a page of ours saved, else null. */
export function readPageState(value: unknown): PageState | null {
  if (!isRecord(value) || typeof value.source !== 'string') return null;
  return { source: value.source, wish: readWish(value.wish), zooms: value.zooms };
}

type Fields = Readonly<Record<string, unknown>>;

/** Whether a value has fields to look at. */
export function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isListOf<Item>(value: unknown, isItem: (item: unknown) => item is Item): value is readonly Item[] {
  return Array.isArray(value) && value.every(isItem);
}

function isText(value: unknown): value is string {
  return typeof value === 'string';
}

function isTexts(value: unknown): value is readonly string[] {
  return isListOf(value, isText);
}

function isNumber(value: unknown): value is number {
  return Number.isInteger(value);
}

function hasTexts(value: unknown, names: readonly string[]): value is Fields {
  return isRecord(value) && names.every((name) => typeof value[name] === 'string');
}

function isSize(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value > 0;
}

function isRange(value: unknown): value is Range {
  if (!isRecord(value)) return false;
  const { start, end } = value;
  return (
    Number.isInteger(start) && Number.isInteger(end) && 0 <= Number(start) && Number(start) <= Number(end)
  );
}

/** The items are left to `paint`, which draws what it knows and says what it does not. */
export function isPicture(value: unknown): value is Picture {
  return (
    hasTexts(value, ['title', 'description']) &&
    isSize(value.width) &&
    isSize(value.height) &&
    Array.isArray(value.items)
  );
}

/** Whether a value is a table that can be shown. */
export function isTable(value: unknown): value is ShownTable {
  return hasTexts(value, ['title']) && isTexts(value.columns) && isListOf(value.rows, isTexts);
}

function isKeyFigure(value: unknown): value is KeyFigure {
  return hasTexts(value, ['label', 'value']) && ['string', 'undefined'].includes(typeof value.help);
}

function isFactorRow(value: unknown): value is FactorTableRow {
  return hasTexts(value, factorColumns);
}

function isPlace(value: unknown): value is Place {
  return hasTexts(value, ['text']) && isRange(value.range);
}

function isPathMark(value: unknown): value is PathMark {
  return isRecord(value) && isNumber(value.phase) && isNumber(value.path);
}

function isContent(value: Fields): value is Fields & PanelContent {
  const { picture, table } = value;
  return (
    typeof value.title === 'string' &&
    readWish(value.wish) !== null &&
    isTexts(value.phases) &&
    isNumber(value.paths) &&
    isNumber(value.layers) &&
    (table === null ? isPicture(picture) : picture === null && isTable(table)) &&
    isListOf(value.keyFigures, isKeyFigure) &&
    isListOf(value.factorRows, isFactorRow)
  );
}

function isNotice(value: Fields): value is Fields & PanelNotice {
  return hasTexts(value, ['stamp', 'headline']) && isListOf(value.places, isPlace);
}

function isMarks(value: Fields): value is Fields & PanelMarks {
  return (
    hasTexts(value, ['words']) &&
    isTexts(value.bars) &&
    isListOf(value.joints, isNumber) &&
    isListOf(value.paths, isPathMark) &&
    (value.chosen === null || isText(value.chosen))
  );
}

function isName(value: Fields): value is Fields & PanelName {
  return hasTexts(value, ['words']);
}
