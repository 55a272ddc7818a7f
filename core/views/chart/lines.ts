import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import { circlePart } from '../../picture/outlines.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { spread } from '../layout/levels.ts';
import { type Chart, type ChartRequest, chart } from './chart.ts';

/** Shapes that tell lines apart without color. */
export type MarkerShape = 'dot' | 'square' | 'triangle' | 'diamond';

/** One line of a chart, named at its right end. */
export interface Series {
  readonly id: string;
  readonly name: string;
  readonly role: 'curve' | 'second-curve' | 'quiet-curve';
  readonly marker?: MarkerShape;
  /** By ascending x. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

/** A chart of lines; `y` covers all of them unless it is given. */
export interface LinesRequest extends Omit<ChartRequest, 'x' | 'y'> {
  readonly x?: Partial<ChartRequest['x']>;
  readonly y?: ChartRequest['y'];
  readonly series: readonly Series[];
}

const leader = 5;

/** Lines with their names beside their ends, kept apart; series without points are left out. */
export function drawLines(request: LinesRequest): {
  readonly items: readonly Primitive[];
  readonly frame: Chart;
} {
  const series = request.series.filter(({ points }) => points.length > 0);
  const xs = series.flatMap(({ points }) => points.map(({ x }) => x));
  const ys = series.flatMap(({ points }) => points.map(({ y }) => y));
  const named = series.some(({ name }) => name !== '');
  const names = Math.max(0, ...series.map(({ name }) => textWidth(name, textSize)));
  const room = named ? names + leader + 0.5 : 0;
  const frame = chart({
    ...request,
    width: request.width - room,
    x: { from: least(xs), to: greatest(xs), round: false, ...request.x },
    y: request.y ?? { from: least(ys), to: greatest(ys) },
  });
  const lines = series.flatMap((one) => drawSeries(request.id, one, frame));
  return { items: [...frame.items, ...lines, ...drawNames(request.id, series, frame)], frame };
}

function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), values[0] ?? 0);
}

function greatest(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b), values[0] ?? 1);
}

function drawSeries(
  id: string,
  { id: key, role, marker, points }: Series,
  frame: Chart,
): readonly Primitive[] {
  const places = points.map(({ x, y }) => [frame.x.at(x), frame.y.at(y)] as const);
  const line = pathShape(`${id}-${key}`, role, [places.flat()]);
  if (marker === undefined) return [line];
  const shapes = places.map(([x, y]) => markerPart(marker, x, y));
  return [line, filledShape(`${id}-${key}-marks`, 'marker', shapes)];
}

/** A filled marker about 1.6 mm wide. */
export function markerPart(shape: MarkerShape, x: number, y: number): PathPart {
  switch (shape) {
    case 'dot':
      return circlePart(x, y, 0.7, 12).slice(0, 24);
    case 'square':
      return [x - 0.65, y - 0.65, x + 0.65, y - 0.65, x + 0.65, y + 0.65, x - 0.65, y + 0.65];
    case 'triangle':
      return [x, y - 0.9, x + 0.85, y + 0.6, x - 0.85, y + 0.6];
    case 'diamond':
      return [x, y - 0.95, x + 0.95, y, x, y + 0.95, x - 0.95, y];
  }
}

/** Names in one column beside the field, also of lines that end within it, where other words may stand. */
function drawNames(id: string, series: readonly Series[], frame: Chart): readonly Primitive[] {
  const { top, bottom, right } = frame.field;
  const all = series
    .filter(({ name }) => name !== '')
    .map((one) => {
      const last = one.points.at(-1)!;
      return { ...one, x: frame.x.at(last.x), y: frame.y.at(last.y) };
    })
    .sort((one, other) => one.y - other.y);
  // Of too many lines, only some of the quiet ones are named.
  const quiet = all.filter(({ role }) => role === 'quiet-curve');
  const room = Math.max(1, Math.floor((bottom - top) / textRow) - (all.length - quiet.length));
  const every = Math.ceil(quiet.length / room);
  const ends = all.filter((one) => one.role !== 'quiet-curve' || quiet.indexOf(one) % every === 0);
  const places = spread(
    ends.map(({ y }) => y),
    textRow,
    top - 1,
    bottom,
  );
  const leaders = ends.map(({ x, y }, index): PathPart => [x + 0.4, y, right + leader - 0.8, places[index]!]);
  return [
    ...(leaders.length > 0 ? [pathShape(`${id}-leaders`, 'cut-leader', leaders)] : []),
    ...ends.map(({ id: key, name }, index) =>
      text(`${id}-${key}-name`, 'axis-name', right + leader, places[index]! + 0.91, name),
    ),
  ];
}

/** A vertical line over a chart's field at a value of x, with its words at the top inside the field. */
export function drawMark(id: string, frame: Chart, value: number, words: string): readonly Primitive[] {
  if (value < frame.x.from || value > frame.x.to) return [];
  const x = frame.x.at(value);
  const right = x + 1 + textWidth(words, textSize) <= frame.field.right;
  return [
    pathShape(`${id}-mark`, 'reference-circle', [[x, frame.field.top, x, frame.field.bottom]]),
    text(`${id}-mark-name`, 'axis-name', right ? x + 1 : x - 1, frame.field.top + 2.6, words, {
      anchor: right ? 'start' : 'end',
    }),
  ];
}
