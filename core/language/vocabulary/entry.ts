import type { FigurePath } from '../../figures/register.ts';
import type { NumberRule } from '../specification/rules.ts';
import type { Dimension } from './units.ts';

export type BlockName =
  | 'file'
  | 'machine'
  | 'slot'
  | 'bar'
  | 'insulation'
  | 'layout'
  | 'connect'
  | 'duty'
  | 'require'
  | 'vary'
  | 'sheet';

/**
 * What a word does: open a block, start a statement, stand inside a statement, be one of its values,
 * or name a quantity that a limit can be set on.
 */
export type Role = 'block' | 'statement' | 'keyword' | 'choice' | 'quantity';

/** One word of the language: everything that checks, completes, explains, formats or highlights it. */
export interface VocabularyEntry {
  readonly block: BlockName;
  readonly role: Role;
  readonly word: string;
  /** The values that follow, in the notation of pattern.ts; empty for none. */
  readonly pattern: string;
  readonly meaning: string;
  readonly example: string;
  /** What each placeholder of the pattern may be. */
  readonly rules: Readonly<Record<string, NumberRule>>;
  /** The value used when the statement is missing, as it would be written. */
  readonly default?: string;
  readonly repeatable: boolean;
  /** Keywords that may stand again in one statement, where all others stand once; without it any may. */
  readonly recurring?: readonly string[];
  /** For quantities: what it measures, and the place of its figure in the report. */
  readonly dimension?: Dimension;
  readonly reportPath?: FigurePath;
  /** For quantities: it has a value for every order. */
  readonly perOrder?: boolean;
  /** For quantities: it has a value at every point of the duty. */
  readonly perPoint?: boolean;
  /** For texts: more characters than this do not fit their field of the title block. */
  readonly recommendedLength?: number;
}

/** What a statement's word takes, means and obeys. */
export interface Row
  extends Pick<
    VocabularyEntry,
    'pattern' | 'meaning' | 'example' | 'default' | 'recurring' | 'recommendedLength'
  > {
  readonly rules?: VocabularyEntry['rules'];
  readonly repeatable?: boolean;
}

/** A word that starts a statement. */
export function statement(block: BlockName, word: string, row: Row): VocabularyEntry {
  return { block, role: 'statement', word, rules: {}, repeatable: false, ...row };
}

/** Words without values, blocks, keywords or choices: what each means, and an example. */
export function plain(
  block: BlockName,
  role: Role,
  words: Readonly<Record<string, readonly [meaning: string, example: string]>>,
): readonly VocabularyEntry[] {
  return Object.entries(words).map(([word, [meaning, example]]) => ({
    block,
    role,
    word,
    pattern: '',
    meaning,
    example,
    rules: {},
    repeatable: false,
  }));
}

/** A quantity that a limit can be set on. */
export function quantity(
  word: string,
  dimension: Dimension,
  reportPath: FigurePath,
  meaning: string,
  example: string,
): VocabularyEntry {
  const pattern = 'limit';
  return {
    block: 'require',
    role: 'quantity',
    word,
    pattern,
    meaning,
    example,
    rules: {},
    repeatable: true,
    dimension,
    reportPath,
  };
}

/** A quantity that a limit is set on for one order, or harmonic. */
export function perOrder(entry: VocabularyEntry): VocabularyEntry {
  return { ...entry, perOrder: true };
}

/** A quantity that a limit can be set on at a point of the duty too. */
export function perPoint(entry: VocabularyEntry): VocabularyEntry {
  return { ...entry, perPoint: true };
}
