import type { Picture } from '../../core/picture/picture.ts';
import type { Place } from './shownParts.ts';
import { readSubject, type Subject } from './subject.ts';
import { hasTexts, isRecord, isText } from './values.ts';
import { isPicture, isTable, type ShownTable } from './viewContent.ts';

/** The views of a comparison, in the order of their tabs. */
export const comparisonViews = ['overlay', 'beside', 'space', 'numbers'] as const;
export type ComparisonView = (typeof comparisonViews)[number];

/** One of the two texts. */
export interface ComparedSide {
  readonly source: string;
  /** The file and the revision that was read, `pod-drive.winding at 3f2a91c04e`. */
  readonly name: string;
  /** More about the revision in words, such as the commit's subject; empty for none. */
  readonly about: string;
  /** Its layout; null where the text yields none. */
  readonly picture: Picture | null;
}

/** One thing that is different, as it is found in the old and in the new picture. */
export interface Difference {
  readonly words: string;
  readonly old: Subject | null;
  readonly now: Subject | null;
}

/** A place of one of the two texts that the reader can go to. */
export interface ComparedPlace extends Place {
  readonly source: string;
}

/** One text or both are broken: what is shown instead, and the places to mend. */
export interface ComparisonNotice {
  readonly stamp: string;
  readonly headline: string;
  readonly places: readonly ComparedPlace[];
}

/** Everything the comparison panel shows. */
export interface ComparisonContent {
  readonly kind: 'comparison';
  readonly headline: string;
  readonly details: readonly string[];
  readonly old: ComparedSide;
  readonly now: ComparedSide;
  readonly notice: ComparisonNotice | null;
  /** The old winding laid over the new one; null where one of the texts yields none. */
  readonly overlay: Picture | null;
  /** The bars in space of both, where they differ; null with why there are none. */
  readonly space: Picture | null;
  readonly noSpace: string;
  readonly differences: readonly Difference[];
  /** How many these are, in words. */
  readonly counted: string;
  readonly tables: readonly ShownTable[];
}

/** All that the comparison's page tells the extension. */
export type ComparisonPageMessage =
  | { readonly kind: 'ready' }
  /** What was sent last is on the screen. */
  | { readonly kind: 'shown' }
  | { readonly kind: 'swap' }
  | { readonly kind: 'reveal'; readonly source: string; readonly place: string };

/** What the page keeps over a reload of the window. */
export interface ComparisonState {
  readonly old: string;
  readonly now: string;
  readonly oldName: string;
  readonly oldAbout: string;
  readonly nowName: string;
  readonly nowAbout: string;
  readonly view: ComparisonView;
}

/** The message if it is one that the page can act on, else null. */
export function readComparison(value: unknown): ComparisonContent | null {
  if (!isRecord(value) || value.kind !== 'comparison') return null;
  const { headline, details, old, now, notice, overlay, space, noSpace, differences, counted, tables } =
    value;
  const good =
    typeof headline === 'string' &&
    isList(details, (text) => typeof text === 'string') &&
    isSide(old) &&
    isSide(now) &&
    (notice === null || isNotice(notice)) &&
    (overlay === null || isPicture(overlay)) &&
    (space === null || isPicture(space)) &&
    typeof noSpace === 'string' &&
    isList(differences, isDifference) &&
    typeof counted === 'string' &&
    isList(tables, isTable);
  return good ? (value as unknown as ComparisonContent) : null;
}

/** The message if it is one that the extension can act on, else null. */
export function readComparisonPage(value: unknown): ComparisonPageMessage | null {
  if (!isRecord(value)) return null;
  const { kind, source, place } = value;
  if (kind === 'reveal') return isText(source) && isText(place) ? { kind, source, place } : null;
  return kind === 'ready' || kind === 'shown' || kind === 'swap' ? { kind } : null;
}

/** The state if it is one that a page of ours saved, else null. */
export function readComparisonState(value: unknown): ComparisonState | null {
  if (!isRecord(value)) return null;
  if (!hasTexts(value, ['old', 'now', 'oldName', 'oldAbout', 'nowName', 'nowAbout'])) return null;
  const view = comparisonViews.find((name) => name === value.view) ?? 'overlay';
  return { ...(value as unknown as ComparisonState), view };
}

function isList(value: unknown, isItem: (item: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(isItem);
}

function isSide(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { picture } = value;
  return hasTexts(value, ['source', 'name', 'about']) && (picture === null || isPicture(picture));
}

function isNotice(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const isPlace = (place: unknown) => hasTexts(place, ['source', 'text', 'place']);
  return hasTexts(value, ['stamp', 'headline']) && isList(value.places, isPlace);
}

function isDifference(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { words, old, now } = value;
  const isSubject = (subject: unknown) => subject === null || readSubject(subject) !== null;
  return typeof words === 'string' && isSubject(old) && isSubject(now);
}
