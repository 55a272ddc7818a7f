import type { Fix } from '../../language/finding.ts';
import { significant } from '../../language/numbers.ts';
import type { Given } from '../../language/specification/statements.ts';

// Values that free something are told in hundredths of a millimeter, rounded to the safe side.
const hundredth = 1e-5;
const noise = 1e-4;

/** The least length of whole hundredths of a millimeter that is not below one in m: `5.28 mm`. */
export function atLeast(meters: number): string {
  return `${significant(Math.ceil(meters / hundredth - noise) / 100, 10)} mm`;
}

/** The largest that is not above one. */
export function atMost(meters: number): string {
  return `${significant(Math.floor(meters / hundredth + noise) / 100, 10)} mm`;
}

/** Whether a length that may be had at most can be told: of less than a hundredth nothing is left. */
export function canBeTold(meters: number): boolean {
  return meters >= hundredth;
}

/** The fix that writes another value for a statement's. */
export function replacing(given: Given<number> | undefined, text: string, word: string): Fix {
  const edits = given ? [{ range: given.range, text }] : [];
  return { title: `Write '${word} ${text}'`, edits };
}
