import type { Finding, Range } from '../finding.ts';
import type { BlockName, VocabularyEntry } from '../vocabulary/entry.ts';
import type { Dimension } from '../vocabulary/units.ts';
import type { Token } from './lexer.ts';
import type { Sequence } from './sequence.ts';

/** One place of a written row: a phase name with its sense, or an empty place (null). */
export interface RowPlace {
  readonly kind: 'place';
  readonly phase: string | null;
  readonly sense: 1 | -1;
  readonly range: Range;
}

/** One step of a written path: an absolute position, a hop, or `|` (the next joint is a separate piece). */
export type WalkStep =
  | { readonly kind: 'position'; readonly slot: number; readonly layer: number; readonly range: Range }
  | { readonly kind: 'hop'; readonly slots: number; readonly layer: number; readonly range: Range }
  | { readonly kind: 'piece'; readonly range: Range };

/** One value of a row of `vary`: a number as written, one counted from the pole pitch, or a choice. */
export type SeriesItem =
  | { readonly kind: 'number'; readonly text: string; readonly unit: string | null; readonly range: Range }
  | { readonly kind: 'nominal'; readonly offset: number; readonly range: Range }
  | { readonly kind: 'choice'; readonly text: string; readonly range: Range };

/** A value of a statement. Quantities are in SI units; angles stay in the unit written. */
export type Value =
  | { readonly kind: 'text'; readonly text: string; readonly range: Range }
  | {
      readonly kind: 'quantity';
      readonly placeholder: string;
      readonly dimension: Dimension;
      readonly value: number;
      readonly unit: string | null;
      readonly written: string;
      readonly range: Range;
    }
  /** The code of a finding. */
  | { readonly kind: 'code'; readonly text: string; readonly range: Range }
  | { readonly kind: 'keyword'; readonly text: string; readonly range: Range }
  | { readonly kind: 'layer'; readonly layer: number; readonly range: Range }
  | {
      readonly kind: 'mark';
      readonly role: 'phase' | 'terminal' | 'sheet-size';
      readonly text: string;
      readonly range: Range;
    }
  /** A word of another block whose values vary; `qualifiers` stand between it and them. */
  | {
      readonly kind: 'target';
      readonly entry: VocabularyEntry;
      /** Of a slot block that names its layers, from 0. */
      readonly slotLayers: readonly number[];
      readonly qualifiers: readonly Value[];
      readonly range: Range;
    }
  /** A list of values, or one with the last and the step behind it. */
  | {
      readonly kind: 'series';
      readonly items: readonly SeriesItem[];
      readonly to: SeriesItem | null;
      readonly by: SeriesItem | null;
      readonly range: Range;
    }
  /** A quantity by its word. */
  | { readonly kind: 'measure'; readonly entry: VocabularyEntry; readonly range: Range }
  | { readonly kind: 'row'; readonly places: Sequence<RowPlace>; readonly range: Range }
  | { readonly kind: 'walk'; readonly steps: Sequence<WalkStep>; readonly range: Range };

/** A statement that was understood; `range` runs from its word to its last value. */
export interface Statement {
  readonly entry: VocabularyEntry;
  readonly word: Token;
  readonly values: readonly Value[];
  readonly range: Range;
}

/** A block with the statements of it that were understood. */
export interface Block {
  readonly name: BlockName;
  readonly word: Token;
  /** Layers named before the brace (slot only), from 0. */
  readonly layers: readonly { readonly layer: number; readonly range: Range }[];
  readonly statements: readonly Statement[];
  /** Ranges of statements that were not understood. */
  readonly broken: readonly Range[];
  readonly range: Range;
}

/** A parsed text: the tree of what was understood, and findings for the rest. */
export interface Document {
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly title: Statement | null;
  readonly blocks: readonly Block[];
  /** Ranges of top-level text that was not understood. */
  readonly broken: readonly Range[];
  readonly findings: readonly Finding[];
}
