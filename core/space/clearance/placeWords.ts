import { significant } from '../../language/numbers.ts';
import type { EndSide } from '../../winding/model.ts';
import type { ClearancePlace } from './clearance.ts';

/** A length as told: at most four digits of millimeters. */
export const toldLength = (meters: number, beside?: number) =>
  `${significant(meters * 1000, 4, beside && beside * 1000)} mm`;

export const sideWords = (side: EndSide) => (side === 'far' ? 'far side' : 'connection side');

/** The two that come near each other, in words. */
export function bothWords({
  bars,
  pieces,
}: Pick<ClearancePlace, 'bars' | 'pieces'>): readonly [one: string, other: string] {
  return [partWords(pieces[0], bars[0]), partWords(pieces[1], bars[1])];
}

/** `the crown of 6b`, `the ring N`, `the arc of the piece 3a–9b`. */
function partWords(piece: string, name: string): string {
  if (name.startsWith('ring ')) return `the ${name}`;
  return name.includes('–') ? `the ${piece} of the piece ${name}` : `the ${piece} of ${name}`;
}
