import { significant, withSign } from '../language/numbers.ts';
import { runsOf } from '../language/runs.ts';
import { fixedText } from '../picture/numberText.ts';
import type { BendRadii } from '../space/space.ts';

/** A signed whole number with a true minus sign. */
export function signed(value: number): string {
  return withSign(String(value));
}

/** Meters as millimeters with one decimal. */
export function millimeterText(length: number): string {
  return fixedText(length * 1e3, 1);
}

/** A length in meters as millimeters, as written: no more digits than it has. */
export function plainMillimeters(length: number): string {
  return significant(length * 1e3, 5);
}

/** One length, or the shortest and the longest. */
export function lengthRange({ shortest, longest }: { shortest: number; longest: number }): string {
  const [low, high] = [millimeterText(shortest), millimeterText(longest)];
  return low === high ? low : `${low} \u2013 ${high}`;
}

/** Inner radii of bends as written, edgewise and, where they are others, flatwise: `4 mm, flatwise 3 mm`. */
export function bendRadiiText({ edge, flat, assumed }: BendRadii, unit: '' | ' mm'): string {
  const flatwise = flat === edge ? '' : `, flatwise ${plainMillimeters(flat)}${unit}`;
  return `${plainMillimeters(edge)}${unit}${flatwise}${assumed ? ' (assumed)' : ''}`;
}

const printed: Readonly<Record<string, string>> = {
  degC: '\u00b0C',
  'A/mm2': 'A/mm\u00b2',
  ohm: '\u03a9',
  mohm: 'm\u03a9',
  uohm: '\u00b5\u03a9',
};

/** Words with their units as sheets print them, `90 \u00b0C` for `90 degC`; what stands in quotes is the user's. */
export function withPrintedUnits(words: string): string {
  return words.replace(/"[^"]*"|(?<=\d )(?:degC|A\/mm2|[mu]?ohm)(?!\w)/g, (found) => printed[found] ?? found);
}

/** Rising whole numbers, runs shortened: `1\u20133 7 9`. */
export function runsText(numbers: readonly number[]): string {
  return runsOf(numbers)
    .map(({ from, to }) =>
      from === to ? `${from}` : to === from + 1 ? `${from} ${to}` : `${from}\u2013${to}`,
    )
    .join(' ');
}
