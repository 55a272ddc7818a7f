import { fixed, significant, withMinus } from '../../../core/language/numbers.ts';

/** An axis between two places of a chart, with round ticks. */
export interface Axis {
  readonly at: (value: number) => number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
}

/** An axis that shows all values, from place `start` to place `end`, with about `count` ticks; null without values. */
export function axisOf(values: readonly number[], start: number, end: number, count: number): Axis | null {
  if (values.length === 0) return null;
  let [from, to] = [values[0]!, values[0]!];
  for (const value of values) {
    if (value < from) from = value;
    if (value > to) to = value;
  }
  // Values that are all alike stand in the middle of a range about their size.
  if (!(to - from > 1e-9 * Math.max(Math.abs(from), Math.abs(to)))) {
    const room = Math.abs(from) * 0.1 || 1;
    from -= room;
    to += room;
  }
  const step = roundStep((to - from) / Math.max(1, count));
  const [first, last] = [Math.floor(from / step + 1e-9), Math.ceil(to / step - 1e-9)];
  const [low, high] = [first * step, last * step];
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return {
    at: (value) => start + ((value - low) / (high - low)) * (end - start),
    ticks: Array.from({ length: last - first + 1 }, (_, index) => {
      const value = (first + index) * step;
      return { value, text: tickText(value, decimals) };
    }),
  };
}

/** The step of 1, 2 or 5 times a power of ten that is not smaller than a length. */
function roundStep(length: number): number {
  const power = 10 ** Math.floor(Math.log10(length));
  const factor = [1, 2, 5, 10].find((each) => each * power >= length * (1 - 1e-9)) ?? 10;
  return factor * power;
}

function tickText(value: number, decimals: number): string {
  const size = Math.abs(value);
  const text = size >= 1e6 || decimals > 6 ? significant(value, 4) : fixed(value, Math.min(decimals, 6));
  return withMinus(text);
}
