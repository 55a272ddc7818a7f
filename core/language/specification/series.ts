import type { SeriesItem, Value } from '../text/document.ts';
import type { StepProblem } from '../varyFindingKinds.ts';
import { unitNamed } from '../vocabulary/units.ts';

export type Series = Extract<Value, { kind: 'series' }>;

/** Most values of a row. */
export const mostValues = 10_000;

/** How the steps of `from to by` run; null for a list. */
export interface Steps {
  readonly count: number;
  /** The last step meets the last value. */
  readonly meets: boolean;
  readonly at: (index: number) => SeriesItem;
}

/** A decimal number as a whole one times a power of ten. */
interface Decimal {
  readonly digits: bigint;
  readonly exponent: number;
}

function decimalOf(text: string): Decimal {
  const [mantissa, power = '0'] = text.toLowerCase().split('e');
  const [whole, fraction = ''] = mantissa!.split('.');
  return {
    digits: BigInt(`${whole!.replace('+', '')}${fraction}`),
    exponent: Number(power) - fraction.length,
  };
}

function scaled({ digits, exponent }: Decimal, to: number): bigint {
  return digits * 10n ** BigInt(exponent - to);
}

/** A decimal number in plain digits, without a sign where it is not below zero. */
function decimalText(digits: bigint, exponent: number): string {
  const sign = digits < 0n ? '-' : '';
  const plain = (digits < 0n ? -digits : digits).toString() + '0'.repeat(Math.max(0, exponent));
  const places = Math.max(0, -exponent);
  const padded = plain.padStart(places + 1, '0');
  const cut = padded.length - places;
  const fraction = padded.slice(cut).replace(/0+$/, '');
  return `${sign}${padded.slice(0, cut)}${fraction === '' ? '' : `.${fraction}`}`;
}

// Longer numbers measure nothing, and their steps would be counted for ever.
const longestNumber = 40;

/**
 * The steps of a series, exact in the decimals written; or what is wrong with them. `whole` values step
 * by 1 where no step is written.
 */
export function seriesSteps({ items, to, by }: Series, whole: boolean): Steps | StepProblem | null {
  const from = items[0]!;
  if (to === null || from.kind === 'choice' || to.kind === 'choice') return null;
  if (by !== null && by.kind !== 'number') return 'not-whole';
  const nominal = from.kind === 'nominal' || to.kind === 'nominal';
  if (nominal && from.kind !== to.kind) return 'units';
  if (by === null && !whole) return 'none';
  const unit = from.kind === 'number' ? from.unit : null;
  if ((to.kind === 'number' && to.unit !== unit) || (by !== null && by.unit !== unit)) return 'units';
  const texts = [textOf(from), textOf(to), by === null ? '1' : by.text];
  if (texts.some((text) => text.length > longestNumber)) return 'too-many';
  const [first, last, step] = texts.map(decimalOf);
  const exponent = Math.min(first!.exponent, last!.exponent, step!.exponent);
  if (Math.max(first!.exponent, last!.exponent, step!.exponent) - exponent > longestNumber) return 'too-many';
  const [start, end, stride] = [first!, last!, step!].map((decimal) => scaled(decimal, exponent));
  const span = end! - start!;
  if (stride === 0n) return 'zero';
  // Without a step whole numbers run either way.
  const signed = by === null && span < 0n ? -stride! : stride!;
  if (span !== 0n && span < 0n !== signed < 0n) return 'away';
  const count = span / signed + 1n;
  if (count > BigInt(mostValues)) return 'too-many';
  if (nominal && exponent < 0) return 'not-whole';
  return {
    count: Number(count),
    meets: start! + (count - 1n) * signed === end,
    at: (index) => {
      const text = decimalText(start! + BigInt(index) * signed, exponent);
      return nominal
        ? { kind: 'nominal', offset: Number(text), range: from.range }
        : { kind: 'number', text, unit, range: from.range };
    },
  };
}

function textOf(item: Exclude<SeriesItem, { kind: 'choice' }>): string {
  return item.kind === 'number' ? item.text : String(item.offset);
}

/** All values of a series, in their order; none where its steps are wrong. */
export function seriesItems(series: Series, whole: boolean): readonly SeriesItem[] {
  const steps = seriesSteps(series, whole);
  if (steps === null) return series.items;
  return typeof steps === 'string' ? [] : Array.from({ length: steps.count }, (_, index) => steps.at(index));
}

/** A value as it is written; one counted from the pole pitch as such. */
export function itemText(item: SeriesItem): string {
  if (item.kind === 'choice') return item.text;
  if (item.kind === 'number') return item.unit === null ? item.text : `${item.text} ${item.unit}`;
  return item.offset === 0 ? 'nominal' : `nominal ${item.offset > 0 ? '+' : ''}${item.offset}`;
}

/** The amount of a number in SI units, angles in their own unit. */
export function itemAmount({ text, unit }: Extract<SeriesItem, { kind: 'number' }>): number {
  return Number(text) * (unit === null ? 1 : unitNamed(unit)!.factor);
}

/** The value with the other sign; null for one that has none. */
export function negatedItem(item: SeriesItem): SeriesItem | null {
  if (item.kind !== 'number') return null;
  if (Number(item.text) === 0) return item;
  const bare = item.text.replace(/^[+-]/, '');
  return { ...item, text: item.text.startsWith('-') ? bare : `-${bare}` };
}
