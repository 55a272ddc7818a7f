import { withSign } from '../language/numbers.ts';
import { fixedText } from '../picture/numberText.ts';

/** A signed whole number with a true minus sign. */
export function signed(value: number): string {
  return withSign(String(value));
}

/** Metres as millimetres with one decimal. */
export function millimetreText(length: number): string {
  return fixedText(length * 1e3, 1);
}

/** One length, or the shortest and the longest. */
export function lengthRange({ shortest, longest }: { shortest: number; longest: number }): string {
  const [low, high] = [millimetreText(shortest), millimetreText(longest)];
  return low === high ? low : `${low} \u2013 ${high}`;
}
