import * as z from 'zod';

/** What a number may be: the zod schema that decides, and the same in words for messages and docs. */
export interface NumberRule {
  readonly schema: z.ZodType<number>;
  readonly words: string;
}

/** Whole numbers from `least` to `most`. */
export function whole(least: number, most: number): NumberRule {
  return { schema: z.number().int().min(least).max(most), words: `a whole number from ${least} to ${most}` };
}

/** Even numbers from `least` to `most`. */
export function even(least: number, most: number): NumberRule {
  return {
    schema: z.number().int().multipleOf(2).min(least).max(most),
    words: `an even number from ${least} to ${most}`,
  };
}

/** Any number from `least` to `most`, both in SI units; `words` says it in the unit people write. */
export function between(least: number, most: number, words: string): NumberRule {
  return { schema: z.number().min(least).max(most), words };
}

/** Numbers above zero, up to `most`. */
export function positive(most: number, words: string): NumberRule {
  return { schema: z.number().gt(0).max(most), words };
}

/** Number of phases: odd from 3 to 15, or 6 (two sets). */
export const phaseCount: NumberRule = {
  schema: z
    .number()
    .int()
    .min(3)
    .max(15)
    .refine((count) => count % 2 === 1 || count === 6),
  words: 'an odd number from 3 to 15, or 6 apart an angle',
};
