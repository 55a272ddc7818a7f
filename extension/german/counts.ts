import { layerLetters } from '../../core/language/layerLetters.ts';
import { isOne } from '../../core/language/lists.ts';
import { significant } from '../../core/language/numbers.ts';

/** `3 Stäbe`, `1 Stab`. */
export function counted(count: number | string, one: string, many: string): string {
  return `${count} ${isOne(count) ? one : many}`;
}

/** `a`, `a und b`, `a, b und c`. */
export function listed(parts: readonly string[], last = 'und'): string {
  return parts.length < 2
    ? (parts[0] ?? '')
    : `${parts.slice(0, -1).join(', ')} ${last} ${parts[parts.length - 1]}`;
}

/** A length in millimeters, with at most four digits, or as many as tell it apart from `beside`; a point as in the text. */
export const millimeters = (meters: number, beside?: number) =>
  `${significant(meters * 1000, 4, beside && beside * 1000)} mm`;

/** `Schicht a`, `Schichten a b`. */
export const layersNamed = (layers: readonly number[]) =>
  `${layers.length === 1 ? 'Schicht' : 'Schichten'} ${layerLetters(layers)}`;

/** `der Schicht a`, `der Schichten a b`. */
export const ofLayers = (layers: readonly number[]) => `der ${layersNamed(layers)}`;
