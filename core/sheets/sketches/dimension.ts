import { filledShape, pathShape } from '../../picture/make.ts';
import { arrowHeadAt } from '../../picture/outlines.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { line } from '../page/text.ts';

const headLength = 1.5;
/** Shorter dimensions have their arrows outside, on lines of the second length. */
const leastInside = 2 * headLength + 0.2;
const outsideLength = 2.6;
/** From base line to base line of texts of 2.5 mm, with air. */
const textPitch = 4.1;

/** A chain of dimensions along a vertical line: one text beside each stretch between two heights. */
export interface DimensionChain {
  readonly id: string;
  /** Of the vertical line, mm on paper. */
  readonly x: number;
  /** Where texts stand. */
  readonly beside: 'left' | 'right';
  /** Heights on paper, mm downwards. */
  readonly stretches: readonly { readonly from: number; readonly to: number; readonly words: string }[];
}

/** Draws a chain of vertical dimensions. */
export function verticalChain({ id, x, beside, stretches }: DimensionChain): readonly Primitive[] {
  if (stretches.length === 0) return [];
  const lines: PathPart[] = [];
  const heads: PathPart[] = [];
  const bases = spreadApart(stretches.map(({ from, to }) => (from + to) / 2 + 1.25));
  const texts = stretches.map(({ from, to, words }, index): Primitive => {
    const [top, bottom] = [Math.min(from, to), Math.max(from, to)];
    lines.push([x, top, x, bottom]);
    if (bottom - top < leastInside) {
      lines.push([x, top - outsideLength, x, top], [x, bottom, x, bottom + outsideLength]);
      heads.push(arrowHeadAt(x, top, 90, headLength), arrowHeadAt(x, bottom, -90, headLength));
    } else heads.push(arrowHeadAt(x, top, -90, headLength), arrowHeadAt(x, bottom, 90, headLength));
    const at = beside === 'left' ? x - 1.4 : x + 1.4;
    return line(`${id}-${index}`, 'dimension-text', at, bases[index]!, words, {
      height: 2.5,
      anchor: beside === 'left' ? 'end' : 'start',
    });
  });
  return [
    pathShape(`${id}-lines`, 'dimension-line', lines),
    filledShape(`${id}-heads`, 'dimension-arrow', heads),
    ...texts,
  ];
}

/** Base lines of texts, moved as little as it takes (by the squares) that none overlaps the next: short stretches lie close. */
export function spreadApart(wanted: readonly number[]): readonly number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]!);
  // Without their pitches the bases must not fall: neighbors that would are moved to their mean as one run.
  const runs: { sum: number; count: number }[] = [];
  order.forEach((index, place) => {
    let run = { sum: wanted[index]! - place * textPitch, count: 1 };
    for (let last = runs.at(-1); last && last.sum / last.count > run.sum / run.count; last = runs.at(-1)) {
      run = { sum: last.sum + run.sum, count: last.count + run.count };
      runs.pop();
    }
    runs.push(run);
  });
  const bases = new Array<number>(wanted.length).fill(0);
  let place = 0;
  for (const { sum, count } of runs)
    for (let i = 0; i < count; i++, place++) bases[order[place]!] = sum / count + place * textPitch;
  return bases;
}

/** A horizontal dimension with its text above, if there is one; narrow ones have their arrows outside. */
export function horizontalDimension(
  id: string,
  from: number,
  to: number,
  y: number,
  words: string,
  textAt: 'above' | 'below' = 'above',
): readonly Primitive[] {
  const [left, right] = [Math.min(from, to), Math.max(from, to)];
  const outside = right - left < leastInside;
  const reach = outside ? outsideLength : 0;
  return [
    pathShape(`${id}-line`, 'dimension-line', [[left - reach, y, right + reach, y]]),
    filledShape(`${id}-heads`, 'dimension-arrow', [
      arrowHeadAt(left, y, outside ? 0 : 180, headLength),
      arrowHeadAt(right, y, outside ? 180 : 0, headLength),
    ]),
    ...(words === ''
      ? []
      : [
          line(id, 'dimension-text', (left + right) / 2, textAt === 'above' ? y - 0.9 : y + 3.4, words, {
            height: 2.5,
            anchor: 'middle',
          }),
        ]),
  ];
}

/** A dimension of a slanting stretch, parallel to it at a distance; its text stands level beside the middle. */
export interface SlantingDimension {
  readonly id: string;
  /** Its upper end, x and y on paper, mm; and its lower one. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** On which side of the stretch, seen with its lower end down. */
  readonly beside: 'left' | 'right';
  /** From the stretch, square to it, mm. */
  readonly distance: number;
  readonly words: string;
}

/** Draws a dimension parallel to a stretch that runs from its upper to its lower end. */
export function slantingDimension(dimension: SlantingDimension): readonly Primitive[] {
  const { id, from, to, beside, distance, words } = dimension;
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy);
  const way = beside === 'right' ? 1 : -1;
  // Across the stretch, towards its side.
  const [ax, ay] = [(way * dy) / long, (-way * dx) / long];
  const moved = ([x, y]: readonly [number, number], by: number): [number, number] => [
    x + by * ax,
    y + by * ay,
  ];
  const [start, end] = [moved(from, distance), moved(to, distance)];
  const degrees = (180 * Math.atan2(dy, dx)) / Math.PI;
  const middle = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2] as const;
  const extension = (at: readonly [number, number]): PathPart => [
    ...moved(at, 1),
    ...moved(at, distance + 1),
  ];
  // Clear of the line over the whole height of the letters.
  const clear = 1.2 + (1.4 * Math.abs(dx)) / Math.max(1e-9, Math.abs(dy));
  return [
    pathShape(`${id}-lines`, 'dimension-line', [[...start, ...end], extension(from), extension(to)]),
    filledShape(`${id}-heads`, 'dimension-arrow', [
      arrowHeadAt(...start, degrees + 180, headLength),
      arrowHeadAt(...end, degrees, headLength),
    ]),
    line(id, 'dimension-text', middle[0] + way * clear, middle[1] + 1.25, words, {
      height: 2.5,
      anchor: beside === 'left' ? 'end' : 'start',
    }),
  ];
}
