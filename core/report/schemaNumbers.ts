import * as z from 'zod';

export const number = z.number();
export const maybe = number.nullable();
export const count = z.number().int();

/** A figure by what it is and its unit, null where it cannot be computed. */
export const figure = (words: string) => maybe.describe(words);
/** The same where it is always there. */
export const known = (words: string) => number.describe(words);
