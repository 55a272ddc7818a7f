// The mini build of zod: the same schemas without the parts that only larger schemas need.
import * as z from 'zod/mini';

/** What a number may be: the zod schema that decides, and the same in words for messages and docs. */
export interface NumberRule {
  readonly schema: z.ZodMiniType<number>;
  readonly words: string;
  /** What the number is, where its statement's word does not say it: `the number of steps`. */
  readonly name?: string;
  /** What to write instead of a number outside the range. */
  readonly advice?: string;
}

/** A rule for one of several values of a statement, with what that value is. */
export function valueNamed(name: string, rule: NumberRule, advice?: string): NumberRule {
  return { ...rule, name, ...(advice === undefined ? {} : { advice }) };
}

/** Whole numbers from `least` to `most`. */
export function whole(least: number, most: number): NumberRule {
  return {
    schema: z.int().check(z.gte(least), z.lte(most)),
    words: `a whole number from ${least} to ${most}`,
  };
}

/** Even numbers from `least` to `most`. */
export function even(least: number, most: number): NumberRule {
  return {
    schema: z.int().check(z.multipleOf(2), z.gte(least), z.lte(most)),
    words: `an even number from ${least} to ${most}`,
  };
}

/** Any number from `least` to `most`, both in SI units; `words` says it in the unit people write. */
export function between(least: number, most: number, words: string): NumberRule {
  return { schema: z.number().check(z.gte(least), z.lte(most)), words };
}

/** Numbers that no other rule holds for, those of limits, as they are written: what is read shows none larger. */
export const anyNumber = between(-1e15, 1e15, 'a number from -1e15 to 1e15');

/** Numbers above zero, up to `most`. */
export function positive(most: number, words: string): NumberRule {
  return { schema: z.number().check(z.gt(0), z.lte(most)), words };
}

/** Number of phases: odd from 3 to 15, or 6 (two sets). */
export const phaseCount: NumberRule = {
  schema: z.int().check(
    z.gte(3),
    z.lte(15),
    z.refine((count) => count % 2 === 1 || count === 6),
  ),
  words: 'an odd number from 3 to 15, or 6 apart an angle',
};
