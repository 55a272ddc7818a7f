import type { Picture } from '../core/picture/picture.ts';
import type { ShownTable } from './protocol/panelState.ts';
import { isRecord } from './protocol/values.ts';
import { isPicture, isTable } from './protocol/viewContent.ts';
import { readSubject, type Subject } from './subject.ts';

/** The views of a comparison, in the order of their tabs. */
export const comparisonViews = ['overlay', 'beside', 'numbers'] as const;
export type ComparisonView = (typeof comparisonViews)[number];

/** One of the two texts. */
export interface ComparedSide {
  readonly source: string;
  readonly name: string;
  /** Its layout; null where the text yields none. */
  readonly picture: Picture | null;
}

/** One thing that is different, as it is found in the old and in the new picture. */
export interface Difference {
  readonly words: string;
  readonly old: Subject | null;
  readonly now: Subject | null;
}

/** Everything the comparison panel shows. */
export interface ComparisonContent {
  readonly kind: 'comparison';
  readonly headline: string;
  readonly details: readonly string[];
  readonly old: ComparedSide;
  readonly now: ComparedSide;
  /** The old winding laid over the new one; null where one of the texts yields none. */
  readonly overlay: Picture | null;
  readonly differences: readonly Difference[];
  readonly tables: readonly ShownTable[];
}

/** All that the comparison's page tells the extension. */
export type ComparisonPageMessage = { readonly kind: 'ready' } | { readonly kind: 'swap' };

/** What the page keeps over a reload of the window. */
export interface ComparisonState {
  readonly old: string;
  readonly now: string;
  readonly oldName: string;
  readonly view: ComparisonView;
}

/** The message if it is one that the page can act on, else null. */
export function readComparison(value: unknown): ComparisonContent | null {
  if (!isRecord(value) || value.kind !== 'comparison') return null;
  const { headline, details, old, now, overlay, differences, tables } = value;
  const good =
    typeof headline === 'string' &&
    isList(details, (text) => typeof text === 'string') &&
    isSide(old) &&
    isSide(now) &&
    (overlay === null || isPicture(overlay)) &&
    isList(differences, isDifference) &&
    isList(tables, isTable);
  return good ? (value as unknown as ComparisonContent) : null;
}

/** The message if it is one that the extension can act on, else null. */
export function readComparisonPage(value: unknown): ComparisonPageMessage | null {
  if (!isRecord(value)) return null;
  return value.kind === 'ready' || value.kind === 'swap' ? { kind: value.kind } : null;
}

/** The state if it is one that a page of ours saved, else null. */
export function readComparisonState(value: unknown): ComparisonState | null {
  if (!isRecord(value)) return null;
  const { old, now, oldName, view } = value;
  if (typeof old !== 'string' || typeof now !== 'string' || typeof oldName !== 'string') return null;
  return { old, now, oldName, view: comparisonViews.find((name) => name === view) ?? 'overlay' };
}

function isList(value: unknown, isItem: (item: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(isItem);
}

function isSide(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { source, name, picture } = value;
  return typeof source === 'string' && typeof name === 'string' && (picture === null || isPicture(picture));
}

function isDifference(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { words, old, now } = value;
  const isSubject = (subject: unknown) => subject === null || readSubject(subject) !== null;
  return typeof words === 'string' && isSubject(old) && isSubject(now);
}
