import { inEnglish, type Speech } from '../figures/speech.ts';
import { helpOf } from '../findings/registry.ts';
import { shownNumber, significant } from '../language/numbers.ts';
import { unitNamed } from '../language/vocabulary/units.ts';
import { vocabulary } from '../language/vocabulary/vocabulary.ts';
import { scaleOf } from '../review/numbers/scales.ts';
import { valueText } from '../review/words.ts';
import type { VariantRow, Variants } from './schema.ts';

/** What stays equal, in words. */
export function heldText({ hold }: Pick<Variants, 'hold'>, { say }: Speech = inEnglish): string {
  const { field, load, room, torque } = hold;
  const held = {
    'gap-flux-density': say('flux density in the gap (the flux of a pole follows)'),
    flux: say('flux of a pole'),
    torque:
      torque === null
        ? say('torque (the current follows)')
        : say('torque {0} Nm (the current follows)', significant(torque)),
    current: say('current'),
    shares: say('share of slots in the slot pitch, and of bars in the room of their slot'),
    sizes: say('sizes of slots and bars'),
  };
  return `${held[field]}; ${held[load]}; ${held[room]}`;
}

const reasons: Readonly<Record<string, string>> = {
  'no-pole-pitch': 'nominal counts from slots and poles, which are not given',
  'span-below-1': 'the span, counted from the pole pitch, is below 1',
  'no-winding': 'the text makes no winding',
  'layout-refused': 'no layout can be generated',
};

/** Why combinations are refused, in words. */
export function reasonText(reason: string, { refusal }: Speech = inEnglish): string {
  const [code = '', kind] = reason.split(': ');
  const spaced = (words: string) => words.replaceAll('-', ' ');
  const words = refusal(code, reasons[code] || helpOf(code).replace(/\.$/, '') || spaced(code));
  return kind === undefined ? words : `${words}: ${refusal(kind, spaced(kind))}`;
}

/** A value of a row as it is told: in the unit it is written in. */
export function valueWords(value: number | string, unit: string | null): string {
  if (typeof value === 'string') return value;
  if (unit === null) return significant(value, 9);
  const { factor } = unitNamed(unit)!;
  return `${significant(value / factor, 9)} ${unit}`;
}

/** A figure as it is told: in the unit of its quantity. */
export function figureWords(name: string, value: number | null): string {
  const word = name.split(' ')[0]!;
  if (isQuantity(word)) return valueText(word, value);
  return value === null ? '\u2013' : shownNumber(value, undefined);
}

/** The unit in which a figure is told, and what one of it is in SI units. */
export function figureScale(name: string): { readonly unit: string; readonly factor: number } {
  const word = name.split(' ')[0]!;
  return isQuantity(word) ? scaleOf(word) : { unit: '', factor: 1 };
}

function isQuantity(word: string): boolean {
  return vocabulary.some((entry) => entry.role === 'quantity' && entry.word === word);
}

/** How many of the limits of a row are met, of all that were looked at. */
export function limitsWords({ limits }: VariantRow): string {
  if (limits === null) return '';
  return `${limits.filter((met) => met === true).length} of ${limits.length}`;
}
