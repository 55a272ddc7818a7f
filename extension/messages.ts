import type { Picture } from '../core/drawing/picture.ts';
import type { Range } from '../core/language/finding.ts';
import type { FactorTableRow, KeyFigure } from '../core/report/figures.ts';

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

/** Everything the panel shows of one winding text. */
export interface PanelContent {
  readonly kind: 'content';
  /** Address of the document, kept by the page so that a reloaded window finds it again. */
  readonly source: string;
  readonly title: string;
  readonly picture: Picture;
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

/** All that the extension tells the page. A content withdraws the notice before it. */
export type HostMessage = PanelContent | PanelNotice;

/** All that the page tells the extension. */
export type PageMessage =
  | { readonly kind: 'ready' }
  | { readonly kind: 'reveal'; readonly source: string; readonly range: Range };

/** What the page keeps over a reload of the window. The view is read by the page alone. */
export interface PageState {
  readonly source: string;
  readonly view: unknown;
}

/** The message if it is one that the page can act on, else null. */
export function readHostMessage(value: unknown): HostMessage | null {
  if (!isRecord(value) || typeof value.source !== 'string') return null;
  if (value.kind === 'content') return isContent(value) ? value : null;
  if (value.kind === 'notice') return isNotice(value) ? value : null;
  return null;
}

/** The message if it is one that the extension can act on, else null. */
export function readPageMessage(value: unknown): PageMessage | null {
  if (!isRecord(value)) return null;
  if (value.kind === 'ready') return { kind: 'ready' };
  if (value.kind !== 'reveal' || typeof value.source !== 'string' || !isRange(value.range)) return null;
  const { start, end } = value.range;
  return { kind: 'reveal', source: value.source, range: { start, end } };
}

/** The state if it is one that a page of ours saved, else null. */
export function readPageState(value: unknown): PageState | null {
  if (!isRecord(value) || typeof value.source !== 'string') return null;
  return { source: value.source, view: value.view };
}

type Fields = Readonly<Record<string, unknown>>;

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isListOf<Item>(value: unknown, isItem: (item: unknown) => item is Item): value is readonly Item[] {
  return Array.isArray(value) && value.every(isItem);
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
function isPicture(value: unknown): value is Picture {
  return (
    hasTexts(value, ['title', 'description']) &&
    isSize(value.width) &&
    isSize(value.height) &&
    Array.isArray(value.items)
  );
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

function isContent(value: Fields): value is Fields & PanelContent {
  return (
    typeof value.title === 'string' &&
    isPicture(value.picture) &&
    isListOf(value.keyFigures, isKeyFigure) &&
    isListOf(value.factorRows, isFactorRow)
  );
}

function isNotice(value: Fields): value is Fields & PanelNotice {
  return hasTexts(value, ['stamp', 'headline']) && isListOf(value.places, isPlace);
}
