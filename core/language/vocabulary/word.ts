import type { Range } from '../finding.ts';
import type { Given } from '../specification/statements.ts';
import type { Statement } from '../text/document.ts';
import { type BlockName, type Row, statement, type VocabularyEntry } from './entry.ts';

/** The row of a word whose statement is a member of its block: how its values are written, and how they are read. */
export interface KeyedRow extends Row {
  /** Reads the values of a statement; SI units. */
  readonly read: (statement: Statement) => unknown;
  /** The word, where it is not the key with a hyphen for each capital letter. */
  readonly word?: string;
  /** Where the value stands; without it from the first value of the statement to the last. */
  readonly place?: (statement: Statement) => Range;
}

type Rows = Readonly<Record<string, KeyedRow>>;

/** A word that starts a statement of a block, with what reads it. */
export type Word<T = unknown, Repeats extends boolean = boolean> = VocabularyEntry & {
  readonly read: (statement: Statement) => T;
  readonly place?: (statement: Statement) => Range;
  readonly repeatable: Repeats;
};

/** The words of a block by their keys. */
export type Words<R extends Rows = Rows> = {
  readonly [K in keyof R]: Word<ReturnType<R[K]['read']>, R[K]['repeatable'] extends true ? true : false>;
};

/** The words of a block, from one row each, in the order of the rows, which is the canonical order. */
export function statementsOf<const R extends Rows>(block: BlockName, rows: R): Words<R> {
  const words = Object.entries(rows).map(([key, { word, ...row }]) => [
    key,
    statement(block, word ?? key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`), row),
  ]);
  return Object.fromEntries(words) as Words<R>;
}

/** What a statement of a word says. */
export type SaidBy<W> = W extends Word<infer T> ? T : never;

type Repeatable<W> = {
  readonly [K in keyof W]: W[K] extends { readonly repeatable: true } ? K : never;
}[keyof W];

type Once<W, K extends keyof W> = { readonly [P in K]?: Given<SaidBy<W[P]>> };
type Often<W, K extends keyof W> = { readonly [P in K]: readonly Given<SaidBy<W[P]>>[] };

/**
 * What a block says: of each word that may stand once its value, where it stands; of each that is
 * repeatable all of them, in text order. `range` is that of the word that opens the block.
 */
export type BlockSaid<W> = { readonly range: Range } & Once<W, Exclude<keyof W, Repeatable<W>>> &
  Often<W, Repeatable<W>>;
