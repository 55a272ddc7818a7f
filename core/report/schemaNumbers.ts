import * as z from 'zod';
import { type FigurePath, figureRegister } from '../figures/register.ts';
import { capitalized } from '../language/numbers.ts';

export const number = z.number();
export const maybe = number.nullable();
export const count = z.number().int();

/** A figure by what it is and its unit, null where it cannot be computed. */
export const figure = (words: string) => maybe.describe(words);
/** The same where it is always there. */
export const known = (words: string) => number.describe(words);

/** A figure of the register, by its place in the report: its words and SI unit; null where it cannot be computed. */
export const figureAt = (path: FigurePath) => {
  const { words, unit } = figureRegister[path];
  const name = capitalized(words);
  return maybe.describe(unit === '1' ? name : `${name}, ${unit}`);
};
