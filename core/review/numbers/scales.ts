import { figureRow, type ShownAs } from '../../figures/register.ts';
import { type VocabularyEntry, vocabulary } from '../../language/vocabulary/vocabulary.ts';
import type { ChangedNumber } from '../schema.ts';
import { figurePlace } from './figureNames.ts';

/** The words that `require` can set limits on. */
export const quantities: readonly VocabularyEntry[] = vocabulary.filter(({ role }) => role === 'quantity');

const entries = new Map(quantities.map((entry) => [entry.word, entry]));

/** The quantity of a word; undefined for other figures of the report. */
export function quantityOf(word: string): VocabularyEntry | undefined {
  return entries.get(word);
}

/** How values of a quantity of `require` or of another figure of the report are shown. */
export function scaleOf(quantity: string, siUnit = ''): ShownAs {
  const path = entries.get(quantity)?.reportPath ?? figurePlace(quantity);
  return figureRow(path)?.shown ?? { factor: 1, unit: siUnit };
}

/** Where a number stands among others: the worse first, then the better, then those that are neither. */
export function verdictOrder({ better }: ChangedNumber): number {
  if (better === null) return 2;
  return better ? 1 : 0;
}

/** 0 °C in kelvins. */
const celsiusZero = 273.15;

/** Share of a value below which a difference is beyond what a winding is made or measured to. */
const leastShare = 5e-4;

/** Whether a number moved by what a reader would call a change; one that came or went did. */
export function isTelling({ quantity, old, new: now }: ChangedNumber): boolean {
  return old === null || now === null || tellinglyMoved(quantity, old, now);
}

/**
 * Whether two values of a quantity differ enough to be better or worse: by half a unit of the last
 * decimal shown and by a two-thousandth of the value, a temperature's in kelvins. Counts always do.
 */
export function tellinglyMoved(quantity: string, old: number, now: number): boolean {
  const { factor, unit, decimals } = scaleOf(quantity);
  const difference = Math.abs(now - old);
  if (entries.get(quantity)?.dimension === 'none' && Number.isInteger(old) && Number.isInteger(now))
    return difference > 0;
  if (decimals !== undefined && difference < 0.5 * 10 ** -decimals * factor) return false;
  const from = unit === '°C' ? celsiusZero : 0;
  return difference >= leastShare * Math.max(Math.abs(old + from), Math.abs(now + from));
}
