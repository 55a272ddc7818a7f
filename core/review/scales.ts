import { unitNamed, unitNames } from '../language/vocabulary/units.ts';
import { type VocabularyEntry, vocabulary } from '../language/vocabulary/vocabulary.ts';

/** The words that `require` can set limits on. */
export const quantities: readonly VocabularyEntry[] = vocabulary.filter(({ role }) => role === 'quantity');

const entries = new Map(quantities.map((entry) => [entry.word, entry]));

/** The quantity of a word; undefined for other figures of the report. */
export function quantityOf(word: string): VocabularyEntry | undefined {
  return entries.get(word);
}

/** Instead of decimals: figures whose size is not known beforehand get five significant digits. */
export const significantOnly = -1;

/** How values of a quantity are shown: a factor and a unit. */
export interface Scale {
  readonly factor: number;
  readonly unit: string;
  readonly decimals: number;
}

/** How values of a quantity are shown; other figures of the report keep their SI unit. */
export function scaleOf(quantity: string, siUnit = ''): Scale {
  const dimension = entries.get(quantity)?.dimension;
  if (dimension === undefined) return { factor: 1, unit: siUnit, decimals: significantOnly };
  if (dimension === 'none') return { factor: 1, unit: '', decimals: 4 };
  const unit = unitNamed(unitNames(dimension)[0]!)!;
  return { factor: unit.factor, unit: unit.name, decimals: dimension === 'ratio' ? 2 : 3 };
}

/** Share of a value below which a difference is beyond what a winding is made or measured to. */
const leastShare = 5e-4;

/**
 * Whether two values of a quantity differ enough to be better or worse: by half a unit of the last
 * decimal shown and by a two-thousandth of the value. Counts always do.
 */
export function tellinglyMoved(quantity: string, old: number, now: number): boolean {
  const { factor, decimals } = scaleOf(quantity);
  const difference = Math.abs(now - old);
  if (entries.get(quantity)?.dimension === 'none' && Number.isInteger(old) && Number.isInteger(now))
    return difference > 0;
  if (decimals !== significantOnly && difference < 0.5 * 10 ** -decimals * factor) return false;
  return difference >= leastShare * Math.max(Math.abs(old), Math.abs(now));
}
