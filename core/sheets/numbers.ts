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

/** Rising whole numbers, runs shortened: `1\u20133 7 9`. */
export function runsText(numbers: readonly number[]): string {
  const runs: { readonly from: number; readonly to: number }[] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && last.to === number - 1) runs[runs.length - 1] = { from: last.from, to: number };
    else runs.push({ from: number, to: number });
  }
  return runs
    .map(({ from, to }) =>
      from === to ? `${from}` : to === from + 1 ? `${from} ${to}` : `${from}\u2013${to}`,
    )
    .join(' ');
}
