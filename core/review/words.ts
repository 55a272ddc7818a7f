import { significant } from '../language/numbers.ts';
import { unitNamed, unitNames } from '../language/units.ts';
import { quantities } from './numbers.ts';
import type { ChangedNumber, ComparedLimit } from './schema.ts';

const entries = new Map(quantities.map((entry) => [entry.word, entry]));
const dash = '–';
const minus = '\u2212';

/** Instead of decimals: figures whose size is not known beforehand get five significant digits. */
const significantOnly = -1;

/** How values of a quantity are shown: a factor and a unit. */
interface Scale {
  readonly factor: number;
  readonly unit: string;
  readonly decimals: number;
}

function scaleOf(quantity: string, siUnit = ''): Scale {
  const dimension = entries.get(quantity)?.dimension;
  if (dimension === undefined) return { factor: 1, unit: siUnit, decimals: significantOnly };
  if (dimension === 'none') return { factor: 1, unit: '', decimals: 4 };
  const unit = unitNamed(unitNames(dimension)[0]!)!;
  return { factor: unit.factor, unit: unit.name, decimals: dimension === 'ratio' ? 2 : 3 };
}

/** A value in the first unit of its dimension, for people. */
export function valueText(quantity: string, value: number | null, siUnit?: string): string {
  if (value === null) return dash;
  const { factor, unit, decimals } = scaleOf(quantity, siUnit);
  return withUnit(rounded(value / factor, decimals), unit);
}

/** Old, new and difference with as many digits as it takes to see the difference. */
export function movedTexts({
  quantity,
  old,
  new: now,
  difference,
  unit: siUnit,
}: Pick<ChangedNumber, 'quantity' | 'old' | 'new' | 'difference' | 'unit'>): {
  readonly old: string;
  readonly new: string;
  readonly difference: string;
} {
  if (old === null || now === null || difference === null)
    return {
      old: valueText(quantity, old, siUnit),
      new: valueText(quantity, now, siUnit),
      difference: dash,
    };
  const { factor, unit, decimals } = scaleOf(quantity, siUnit);
  let digits = decimals;
  while (digits >= 0 && digits < 12 && rounded(old / factor, digits) === rounded(now / factor, digits))
    digits++;
  const sign = difference > 0 ? '+' : minus;
  return {
    old: withUnit(rounded(old / factor, digits), unit),
    new: withUnit(rounded(now / factor, digits), unit),
    difference: withUnit(sign + rounded(Math.abs(difference) / factor, digits), unit),
  };
}

/** Whole numbers plainly, others with decimals; small and large ones with significant digits. */
function rounded(value: number, decimals: number): string {
  if (Number.isInteger(value)) return value < 0 ? minus + String(-value) : String(value);
  const size = Math.abs(value);
  if (decimals < 0) return significant(value, 5).replace('-', minus);
  if (size >= 1e5 || size < 10 ** -decimals) return significant(value, 4).replace('-', minus);
  return value.toFixed(decimals).replace('-', minus);
}

function withUnit(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}

/** `winding-factor harmonic 5`; a figure of the report in words: `winding: series turns`. */
export function quantityName({ quantity, harmonic, phase }: ChangedNumber): string {
  const words = entries.has(quantity)
    ? quantity
    : quantity
        .replace('.', ': ')
        .replaceAll('.', ' ')
        .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return `${words}${harmonic === undefined ? '' : ` harmonic ${harmonic}`}${phase === undefined ? '' : ` phase ${phase}`}`;
}

/** `winding-factor harmonic 5`, `wave-relative order 2`. */
export function comparedLimitName({ quantity, harmonic, order }: ComparedLimit): string {
  if (!entries.get(quantity)?.perOrder) return quantity;
  return harmonic === null ? `${quantity} order ${order}` : `${quantity} harmonic ${significant(harmonic)}`;
}

/** `at most 3 %`, with the old limit where it was another. */
export function limitText({ quantity, relation, limit, oldLimit }: ComparedLimit): string {
  const text = (value: number) =>
    `${relation === '<=' ? 'at most' : 'at least'} ${valueText(quantity, value)}`;
  if (limit === null) return `${text(oldLimit!)}, dropped`;
  if (oldLimit === null) return `${text(limit)}, new`;
  return oldLimit === limit ? text(limit) : `${text(limit)}, was ${valueText(quantity, oldLimit)}`;
}
