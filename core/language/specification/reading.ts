import type { Range } from '../finding.ts';
import type { Block, Statement, Value } from '../text/document.ts';
import type { BlockSaid, Word, Words } from '../vocabulary/word.ts';
import type { Angle, Given } from './statements.ts';

/** Reads the statements of a block by the rows of its words; the first of those that may stand once counts. */
export function readBlock<W extends Words>(block: Block, words: W): BlockSaid<W> {
  const said: Record<string, unknown> = { range: block.word };
  for (const key in words) {
    const word = words[key]!;
    if (word.repeatable) said[key] = statementsOf(block, word).map((statement) => read(statement, word));
    else {
      const statement = block.statements.find(({ entry }) => entry === word);
      if (statement) said[key] = read(statement, word);
    }
  }
  return said as BlockSaid<W>;
}

function statementsOf({ statements }: Block, word: Word): readonly Statement[] {
  return statements.filter(({ entry }) => entry === word);
}

function read(statement: Statement, word: Word): Given<unknown> {
  return given(statement, word.read(statement), word.place?.(statement));
}

/** A value of a statement, where it stands: without a range, from the first value to the last. */
export function given<T>(statement: Statement, value: T, range?: Range): Given<T> {
  const last = statement.values[statement.values.length - 1];
  const first = statement.values[0];
  const whole = first && last ? { start: first.range.start, end: last.range.end } : statement.range;
  return { value, range: range ?? whole, statement: statement.range };
}

type Quantity = Extract<Value, { kind: 'quantity' }>;

/** The numbers of a statement, in text order. */
export function quantities(statement: Statement): readonly Quantity[] {
  return statement.values.filter((value): value is Quantity => value.kind === 'quantity');
}

/** The text in quotes, or the name, of a statement. */
export function textOf(statement: Statement): string {
  return statement.values
    .map((value) => (value.kind === 'text' || value.kind === 'mark' ? value.text : ''))
    .join('');
}

/** Whether a word stands among the values of a statement. */
export function hasKeyword(statement: Statement, word: string): boolean {
  return statement.values.some((value) => value.kind === 'keyword' && value.text === word);
}

/** The layers that a statement names, from 0. */
export function layersOf(statement: Statement): readonly number[] {
  return statement.values.flatMap((value) => (value.kind === 'layer' ? [value.layer] : []));
}

/** A number with its unit as an angle. */
export function angleOf({ value, unit }: Quantity): Angle {
  return { amount: value, unit: unit as Angle['unit'] };
}

/** The first number of a statement, SI. */
export function amount(statement: Statement): number {
  return quantities(statement)[0]!.value;
}

/** The first number of a statement, an angle. */
export function angle(statement: Statement): Angle {
  return angleOf(quantities(statement)[0]!);
}

/** The pattern and the reader of a word that takes one of some words. */
export function oneOf<const T extends string>(...words: readonly T[]) {
  return {
    pattern: words.map((word) => `'${word}'`).join(' | '),
    read: (statement: Statement): T => words.find((word) => hasKeyword(statement, word))!,
  };
}
