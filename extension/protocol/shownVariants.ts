import {
  changingItemsBy,
  followState,
  list,
  optional,
  type StateChanges,
  type StateOf,
  stateChanges,
  whole,
} from './stateParts.ts';
import { type Fields, hasTexts, isCount, isListOf, isRecord, isText, isTexts } from './values.ts';

/** What one column of the table of variants holds: a value that varies, or a figure. */
export interface VariantColumn {
  /** `machine slots`, `copper-loss`. */
  readonly name: string;
  /** In which its amounts are; empty for plain numbers. */
  readonly unit: string;
  readonly kind: 'value' | 'figure';
  /** Which way the question ranks by it; null where it does not. */
  readonly better: 'least' | 'most' | null;
}

/** What a text asks, in words. */
export interface ShownQuestion {
  readonly columns: readonly VariantColumn[];
  readonly held: string;
  /** What nothing settles. */
  readonly unsettled: readonly string[];
  readonly kept: readonly string[];
  readonly ranked: readonly string[];
  /** The limits of the text, which rows are looked at by. */
  readonly limits: readonly string[];
}

/** How far it is. */
export interface VariantStanding {
  /** `none`: nothing varies in the text; `faulty`: the question has an error. */
  readonly status: 'none' | 'faulty' | 'ready' | 'running' | 'stopped' | 'done';
  readonly candidates: number;
  readonly judged: number;
  readonly kept: number;
  readonly leftOut: number;
  /** Combinations that make no winding: why, and how many. */
  readonly refused: readonly (readonly [string, number])[];
  /** Those that none beats; null where one quantity ranks, or none. */
  readonly front: number | null;
  /** The text has changed since: what is shown is not of the present one. */
  readonly stale: boolean;
  /** The candidate whose values the text has; 0 for none that is known. */
  readonly inText: number;
  /** Why figures of listed candidates are missing, a sentence each. */
  readonly missing: readonly string[];
  /** The error of a faulty question, or what went wrong; else empty. */
  readonly trouble: string;
}

/** One candidate. Texts and amounts stand in the order of the columns. */
export interface ShownVariant {
  /** From 1; 0 for the winding of the text as it stands. */
  readonly number: number;
  readonly front: boolean;
  readonly texts: readonly string[];
  /** In the columns' units; null where there is no number. */
  readonly amounts: readonly (number | null)[];
  /** How many limits are met: `3 of 4`; empty while they are not looked at. */
  readonly limits: string;
}

/** A candidate that was chosen to stand beside others. */
export interface BesideVariant {
  readonly number: number;
  readonly row: ShownVariant | null;
  /** One repetition of its slot table: a row for each layer, `+U` in each place, behind the layer's letter. */
  readonly layout: readonly (readonly string[])[];
  /** Harmonic, winding factor and relative wave of the lowest waves. */
  readonly waves: readonly (readonly string[])[];
  /** How each limit stands, in the order of the question's: `met`, `failed`, `unknown`. */
  readonly limits: readonly string[];
  /** Why figures are missing, a sentence each. */
  readonly missing: readonly string[];
  /** It is still being looked at. */
  readonly waiting: boolean;
}

const variantParts = {
  question: optional(isQuestion),
  standing: whole(isStanding),
  /** The winding of the text as it stands; null where it makes none. */
  own: optional(isVariant),
  /** The best, and those that none beats, in their order. */
  rows: list(
    isVariant,
    changingItemsBy(({ number }) => String(number)),
  ),
  /** Some of the others that are kept, evenly taken: number, then amounts of all columns. */
  others: list(
    isAmounts,
    changingItemsBy(([number]) => String(number)),
  ),
  beside: list(
    isBeside,
    changingItemsBy(({ number }) => String(number)),
  ),
};

type VariantsState = StateOf<typeof variantParts>;

/** The variants of a text as the panel shows them. */
export type ShownVariants = { readonly kind: 'variants' } & VariantsState;

/** What changes of them. */
export type VariantsChange = { readonly kind: 'variants' } & StateChanges<VariantsState>;

/** What is sent where one follows on another; null where nothing changes. */
export function variantsChange(before: ShownVariants | null, content: ShownVariants): VariantsChange | null {
  const changes = stateChanges<VariantsState>(variantParts, before, content);
  return changes && { kind: 'variants', ...changes };
}

/** The variants that follow; null where the change does not fit. */
export function followVariants(
  before: ShownVariants | null,
  { kind: _, ...changes }: Fields,
): ShownVariants | null {
  const state = followState<VariantsState>(variantParts, before, changes);
  return state && { kind: 'variants', ...state };
}

function isAmounts(value: unknown): value is readonly (number | null)[] {
  return Array.isArray(value) && value.every((each) => each === null || typeof each === 'number');
}

function isVariant(value: unknown): value is ShownVariant {
  return (
    hasTexts(value, ['limits']) &&
    isCount(value.number) &&
    typeof value.front === 'boolean' &&
    isTexts(value.texts) &&
    isAmounts(value.amounts)
  );
}

function isColumn(value: unknown): value is VariantColumn {
  return hasTexts(value, ['name', 'unit', 'kind']) && (value.better === null || isText(value.better));
}

function isQuestion(value: unknown): value is ShownQuestion {
  return (
    hasTexts(value, ['held']) &&
    isListOf(value.columns, isColumn) &&
    [value.unsettled, value.kept, value.ranked, value.limits].every(isTexts)
  );
}

function isStanding(value: unknown): value is VariantStanding {
  return (
    hasTexts(value, ['status', 'trouble']) &&
    [value.candidates, value.judged, value.kept, value.leftOut, value.inText].every(isCount) &&
    (value.front === null || isCount(value.front)) &&
    typeof value.stale === 'boolean' &&
    isTexts(value.missing) &&
    Array.isArray(value.refused) &&
    value.refused.every((each) => Array.isArray(each) && isText(each[0]) && isCount(each[1]))
  );
}

function isBeside(value: unknown): value is BesideVariant {
  return (
    isRecord(value) &&
    isCount(value.number) &&
    (value.row === null || isVariant(value.row)) &&
    isListOf(value.layout, isTexts) &&
    isListOf(value.waves, isTexts) &&
    isTexts(value.limits) &&
    isTexts(value.missing) &&
    typeof value.waiting === 'boolean'
  );
}
