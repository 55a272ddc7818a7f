import { nice, ticks } from 'd3-array';
import { significant, withMinus } from '../../language/numbers.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, drawingTitle, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import { thinnedTexts } from './labels.ts';

/** What an axis shows; a logarithmic one needs `from` > 0. */
export interface AxisRange {
  readonly from: number;
  readonly to: number;
  readonly logarithmic?: boolean;
  /** Widen the range to round numbers; by default so. */
  readonly round?: boolean;
  /** The last value to name: above it is room for what stands on the columns. */
  readonly lastTick?: number;
  /** The places to name, instead of round numbers: categories, slots. */
  readonly ticks?: readonly { readonly value: number; readonly name: string }[];
}

/** An axis between two places on paper. */
export interface Axis {
  readonly from: number;
  readonly to: number;
  /** The place of a value on paper. */
  readonly at: (value: number) => number;
  readonly ticks: readonly { readonly value: number; readonly name: string }[];
}

/** A number as charts write it, with a true minus sign. */
export function chartNumber(value: number, digits = 4): string {
  return withMinus(significant(value, digits));
}

const smallestRange = 1e-250;
/** Round numbers beyond larger values are none that a computer has. */
const largestValue = 1e300;
/** Values that differ by less than this share of them are equal but for rounding. */
const rounding = 1e-9;

/**
 * An axis from place `start` to place `end` on paper, with round ticks, about one every `spacing` millimeters. A
 * range without extent, but for rounding, is widened. Throws RangeError for a range beyond 1e300 or, on a logarithmic
 * axis, not above 0.
 */
export function chartAxis(range: AxisRange, start: number, end: number, spacing: number): Axis {
  const { logarithmic = false, round = true } = range;
  let { from, to } = range;
  const drawable = Math.abs(from) <= largestValue && Math.abs(to) <= largestValue;
  if (!drawable || (logarithmic && !(from > 0)))
    throw new RangeError(
      `An axis cannot reach from ${from} to ${to}${logarithmic ? ' on a logarithmic scale' : ''}`,
    );
  // A range near the smallest numbers there are has no steps to mark.
  const least = Math.max(smallestRange, rounding * Math.abs(from));
  if (!(to - from > least)) {
    const room = logarithmic ? 1 : Math.max(Math.abs(from), 1);
    to = logarithmic ? from * 10 : from + room;
  }
  const count = Math.max(2, Math.round(Math.abs(end - start) / spacing));
  if (round && !logarithmic) [from, to] = nice(from, to, count);
  const all = logarithmic ? logarithmicTicks(from, to) : ticks(from, to, count);
  const values = all.filter((value) => value <= (range.lastTick ?? Infinity) * (1 + 1e-9));
  const along = logarithmic ? Math.log : (value: number) => value;
  const [first, last] = [along(from), along(to)];
  return {
    from,
    to,
    at: (value) => {
      const share = (along(value) - first) / (last - first);
      return start * (1 - share) + end * share;
    },
    ticks: range.ticks ?? namedTicks(values),
  };
}

/** Ticks named with as many digits as it takes to tell them apart: an axis may span a millionth of its values. */
function namedTicks(values: readonly number[]): AxisRange['ticks'] & {} {
  for (let digits = 6; ; digits++) {
    const names = values.map((value) => chartNumber(value, digits));
    if (digits === 15 || new Set(names).size === names.length)
      return values.map((value, i) => ({ value, name: names[i]! }));
  }
}

/** Powers of ten with their double and fivefold. */
function logarithmicTicks(from: number, to: number): readonly number[] {
  const values: number[] = [];
  for (let power = Math.floor(Math.log10(from)); power <= Math.ceil(Math.log10(to)); power++)
    for (const factor of [1, 2, 5]) {
      const value = Number(`${factor}e${power}`);
      if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9)) values.push(value);
    }
  return values;
}

/** What a chart's frame needs; lengths in millimeters. */
export interface ChartRequest {
  /** Start of all ids. */
  readonly id: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Least room left of the field. */
  readonly inset?: number;
  readonly title?: string;
  readonly x: AxisRange;
  readonly y: AxisRange;
  /** Names of the axes with their units: `slot`, `MMF in A`. */
  readonly xName: string;
  readonly yName: string;
  /** Grid lines at the ticks of x, too. */
  readonly xGrid?: boolean;
}

/** A chart's frame: its items, and where values lie on paper. */
export interface Chart {
  readonly items: readonly Primitive[];
  /** The texts among the items. */
  readonly texts: readonly Text[];
  readonly x: Axis;
  readonly y: Axis;
  /** The field within the axes. */
  readonly field: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
}

const tickLength = 1;

/**
 * Frame, grid, ticks and names of a chart within the box asked for: the name of y stands above the
 * field and that of x below it, so that no text is turned. Numbers that would touch are left out.
 */
export function chart(request: ChartRequest): Chart {
  const { id, left, top, width, height } = request;
  const head = (request.title === undefined ? 0 : textRow + 1.5) + textRow + 1.5;
  const field = {
    left: 0,
    top: top + head,
    right: left + width - 2,
    bottom: top + height - tickLength - 2 * textRow - 1.5,
  };
  const y = chartAxis(request.y, field.bottom, field.top, 9);
  const numbers = Math.max(...y.ticks.map(({ name }) => textWidth(name, textSize)));
  field.left = left + Math.max(numbers + tickLength + 1, request.inset ?? 0);
  const x = chartAxis(request.x, field.left, field.right, 16);

  const xNumbers = thinnedTexts(
    x.ticks.map(({ value, name }) =>
      text(`${id}-x-${name}`, 'axis-number', x.at(value), field.bottom + tickLength + 0.7 + baseLine, name, {
        anchor: 'middle',
      }),
    ),
    0.5,
  );
  const yNumbers = y.ticks.map(({ value, name }) =>
    text(`${id}-y-${name}`, 'axis-number', field.left - tickLength - 0.6, y.at(value) + 0.9, name, {
      anchor: 'end',
    }),
  );
  const named = new Set(xNumbers.map(({ id: key }) => key));
  const xTicks = x.ticks.filter(({ name }) => named.has(`${id}-x-${name}`));
  const grid: PathPart[] = y.ticks.map(({ value }) => [field.left, y.at(value), field.right, y.at(value)]);
  if (request.xGrid)
    for (const { value } of xTicks) grid.push([x.at(value), field.top, x.at(value), field.bottom]);
  const axes: PathPart[] = [[field.left, field.top, field.left, field.bottom, field.right, field.bottom]];
  for (const { value } of xTicks)
    axes.push([x.at(value), field.bottom, x.at(value), field.bottom + tickLength]);
  for (const { value } of y.ticks) axes.push([field.left - tickLength, y.at(value), field.left, y.at(value)]);
  if (y.from < 0 && y.to > 0) axes.push([field.left, y.at(0), field.right, y.at(0)]);

  const names: Text[] = [
    text(`${id}-name-y`, 'axis-name', left, field.top - 1.6 - (textRow - baseLine), request.yName),
    text(
      `${id}-name-x`,
      'axis-name',
      field.right,
      field.bottom + tickLength + 0.9 + textRow + baseLine,
      request.xName,
      { anchor: 'end' },
    ),
  ];
  if (request.title !== undefined) names.push(drawingTitle(`${id}-title`, left, top, request.title));
  const texts = [...names, ...xNumbers, ...yNumbers];
  return {
    items: [
      ...(grid.length > 0 ? [pathShape(`${id}-grid`, 'grid', grid)] : []),
      pathShape(`${id}-axes`, 'axis', axes),
      ...texts,
    ],
    texts,
    x,
    y,
    field,
  };
}
