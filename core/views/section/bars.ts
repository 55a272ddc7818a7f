import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import { circlePart } from '../../picture/outlines.ts';
import type { Emphasis, PathPart, Primitive } from '../../picture/picture.ts';
import type { BarPlace, RowShape, SectionShape } from '../../sizes/slotShape/shape.ts';
import { barName, cellAt, phaseOfCell, type Winding } from '../../winding/model.ts';
import { emphasisOf } from '../layout/bars.ts';
import type { LayoutInput } from '../layout/input.ts';
import { marksFrom } from '../room.ts';
import type { SectionPlace } from './place.ts';

type BarInput = Pick<LayoutInput, 'winding' | 'barPath' | 'barSource' | 'emphasis'>;

/** Radius of the mark of the current's sense, in millimeters of paper. */
const markRadius = 0.9;
const gap = 0.45;
/** Half the height of a capital, from the middle of a text to its base line. */
const halfCapital = 0.91;

/** What stands in a bar, from its middle: millimeters of paper across and outwards. */
interface Spot {
  readonly across: number;
  readonly outwards: number;
}

/** How letter, mark and path number stand in a bar, and the room they need. */
export interface BarWords {
  readonly letter: Spot;
  readonly mark: Spot;
  readonly path: Spot;
  readonly width: number;
  readonly height: number;
}

/** The ways to arrange the words of a winding's bars, whatever way these are turned; the words stay upright. */
export function barWords(winding: Winding, withPaths: boolean): readonly BarWords[] {
  const letter = Math.max(...winding.phases.names.map((name) => textWidth(name, textSize)));
  const path = withPaths ? textWidth(String(winding.parallelPaths), textSize) : 0;
  const mark = 2 * markRadius;
  const room = path > 0 ? path + gap : 0;
  const line = letter + gap + mark + room;
  const origin = { across: 0, outwards: 0 };
  const places = {
    letter: -line / 2 + letter / 2,
    mark: -line / 2 + letter + gap + mark / 2,
    path: line / 2 - path / 2,
  };
  const thick = Math.max(letter, mark, path);
  // One above the other, words are as high as they are, not as wide.
  const stacked = Math.max(mark, letter, path) / 2 + gap + mark / 2;
  const ways: BarWords[] = [
    {
      letter: { ...origin, across: places.letter },
      mark: { ...origin, across: places.mark },
      path: { ...origin, across: places.path },
      width: line + 0.4,
      height: mark + 1,
    },
    {
      letter: { ...origin, outwards: path > 0 ? stacked : stacked / 2 },
      mark: { ...origin, outwards: path > 0 ? 0 : -stacked / 2 },
      path: { ...origin, outwards: -stacked },
      width: thick + 0.8,
      height: (path > 0 ? 2 : 1) * stacked + 3,
    },
  ];
  if (path > 0) {
    // Far enough apart for a bar on its side.
    const apart = Math.hypot((letter + path) / 2 + 0.2, textRow);
    ways.push({
      letter: { across: -apart / 2, outwards: 1.3 },
      mark: { across: 0, outwards: -1.3 },
      path: { across: apart / 2, outwards: 1.3 },
      width: apart + Math.max(letter, path) + 0.9,
      height: 2.6 + mark + 1,
    });
  }
  return ways;
}

/** The arrangement that needs the smallest scale for the bars of a shape, and that scale, rounded up by `round`. */
export function fittingWords(
  shape: SectionShape,
  ways: readonly BarWords[],
  count: number,
  round: (scale: number) => number,
): { readonly words: BarWords; readonly scale: number } {
  let [width, height] = [Infinity, Infinity];
  for (const row of shape.rows)
    for (let slot = 1; slot <= count; slot++)
      for (const bar of row.barsOf(slot)) {
        width = Math.min(width, bar.width);
        height = Math.min(height, bar.to - bar.from);
      }
  const choices = ways.map((words) => {
    const least = Math.max(words.width / width, words.height / height);
    return { words, scale: round(least > 0 ? least : 1) };
  });
  return choices.reduce((best, next) => (next.scale < best.scale ? next : best));
}

interface Marks {
  readonly key: string;
  readonly lines: PathPart[];
  readonly dots: PathPart[];
  readonly emphasis: Emphasis | undefined;
}

/** The bars of a section, and what stands in them. */
export interface SectionBars {
  readonly input: BarInput;
  readonly shape: SectionShape;
  readonly words: BarWords;
  /** Bars bear the number of their path. */
  readonly withPaths: boolean;
}

/** Bars at a scale, and what of them is drawn so far. */
interface Drawing extends SectionBars {
  readonly scale: number;
  readonly bars: Primitive[];
  /** Outlines of the coatings that are thick enough to be seen. */
  readonly coatings: PathPart[];
  readonly labels: Primitive[];
  readonly marks: Map<string, Marks>;
}

/** The bars of all places with their letters, senses and path numbers. */
export function drawSectionBars(
  section: SectionBars,
  places: readonly SectionPlace[],
  scale: number,
): {
  readonly bars: readonly Primitive[];
  readonly coatings: readonly Primitive[];
  readonly marks: readonly Primitive[];
  readonly words: readonly Primitive[];
} {
  const drawing: Drawing = { ...section, scale, bars: [], coatings: [], labels: [], marks: new Map() };
  for (const place of places)
    for (let index = 0; index < place.count; index++)
      for (const row of section.shape.rows)
        for (const bar of row.barsOf(place.first + index)) {
          drawBar(drawing, place, index, bar);
          if (coatingShows(row, scale)) drawing.coatings.push(closedBox(place, index, bar, row.coating));
        }
  return {
    bars: drawing.bars,
    coatings: drawing.coatings.length > 0 ? [pathShape('coatings', 'sketch-line', drawing.coatings)] : [],
    marks: [...drawing.marks.values()].flatMap(drawMarks),
    words: drawing.labels,
  };
}

/** Whether the coating of a row's bars is thick enough on paper to be told from the edge of the copper. */
export function coatingShows({ coating }: Pick<RowShape, 'coating'>, scale: number): boolean {
  return coating * scale >= 0.3;
}

/** The outline of a bar, `beyond` it on every side. */
function closedBox(
  { at }: SectionPlace,
  index: number,
  { width, from, to }: BarPlace,
  beyond: number,
): PathPart {
  const half = width / 2 + beyond;
  const start = at(index, -half, from - beyond);
  return [
    ...start,
    ...at(index, half, from - beyond),
    ...at(index, half, to + beyond),
    ...at(index, -half, to + beyond),
    ...start,
  ];
}

function drawBar(drawing: Drawing, place: SectionPlace, index: number, bar: BarPlace): void {
  const { input, words, scale, withPaths, labels } = drawing;
  const position = { slot: place.first + index, layer: bar.layer };
  const cell = cellAt(input.winding.table, position.slot, bar.layer);
  if (cell === 0) return;
  const name = barName(position);
  const phase = phaseOfCell(cell);
  const path = input.barPath?.(position);
  const source = input.barSource?.(position);
  const emphasis = emphasisOf(input, phase, path, { layers: [bar.layer] });
  const extras = { phase, path, source, emphasis };
  const [left, right] = [-bar.width / 2, bar.width / 2];
  const corners = [
    ...place.at(index, left, bar.from),
    ...place.at(index, right, bar.from),
    ...place.at(index, right, bar.to),
    ...place.at(index, left, bar.to),
  ];
  drawing.bars.push(
    filledShape(`bar-${name}`, 'bar-section', [corners], { ...extras, subject: { bar: name } }),
  );
  const middle = (bar.from + bar.to) / 2;
  // In bars that lie upside down, words still read from left to right.
  const upright = place.at(index, 1, middle)[0] >= place.at(index, -1, middle)[0] ? 1 : -1;
  const spot = ({ across, outwards }: Spot) =>
    place.at(index, (upright * across) / scale, middle + (upright * outwards) / scale);
  const write = (id: string, [x, y]: readonly [number, number], what: string) => {
    const label = { ...extras, subject: { label: name }, anchor: 'middle' } as const;
    labels.push(text(id, 'bar-label', x, y + halfCapital, what, label));
  };
  write(`phase-${name}`, spot(words.letter), input.winding.phases.names[phase]!);
  if (withPaths && path !== undefined) write(`path-${name}`, spot(words.path), String(path));
  addMark(marksOf(drawing, phase, path, emphasis), ...spot(words.mark), cell > 0);
}

/** Marks of one phase and path that stand out alike are one primitive. */
function marksOf(
  { input, marks }: Drawing,
  phase: number,
  path: number | undefined,
  emphasis: Emphasis | undefined,
): Marks {
  const name = input.winding.phases.names[phase];
  const key = `${name}${path === undefined ? '' : `-${path}`}${emphasis === 'faded' ? '-faded' : ''}`;
  const existing = marks.get(key);
  if (existing !== undefined) return existing;
  const fresh = { key, lines: [], dots: [], emphasis };
  marks.set(key, fresh);
  return fresh;
}

/** Cross in a circle for a current away from the reader, point in a circle for one towards. */
export function addMark(
  marks: { readonly lines: PathPart[]; readonly dots: PathPart[] },
  x: number,
  y: number,
  away: boolean,
): void {
  marks.lines.push(circlePart(x, y, markRadius));
  const arm = markRadius * Math.SQRT1_2;
  if (away) marks.lines.push([x - arm, y - arm, x + arm, y + arm], [x - arm, y + arm, x + arm, y - arm]);
  else marks.dots.push(circlePart(x, y, 0.38, 12));
}

function drawMarks({ key, lines, dots, emphasis }: Marks): readonly Primitive[] {
  return [
    pathShape(`senses-${key}`, 'sense-mark', lines, { emphasis, shownFrom: marksFrom }),
    ...(dots.length > 0
      ? [filledShape(`points-${key}`, 'sense-dot', dots, { emphasis, shownFrom: marksFrom })]
      : []),
  ];
}
