import { plural } from '../../language/lists.ts';
import { pathShape } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
import { millimeterText } from '../numbers.ts';
import type { Block } from '../page/flow.ts';
import { wholeBlock } from '../page/split.ts';
import { drawHeading, headingHeight } from '../page/table.ts';
import { fitted, line, toBase, widthOf, wrapped } from '../page/text.ts';
import type { ShapeSizes, SizeLetter } from './shapeData.ts';

/** Width of a figure with its dimensions; no sketch is narrower. */
const figureWidth = 80;
const notePitch = 3.7;
/** Distance of chains of dimensions from the middle of a sketch. */
export const chainDistance = 28;

/** What sketches need besides their shape. */
export interface SketchContext {
  readonly winding: Winding;
  readonly sizes: ShapeSizes;
  readonly section: string;
  /** Width of each sketch. */
  readonly width: number;
}

/** Width of sketches that stand side by side, a gap apart, in a width: 80 to 88 mm. */
export function sketchWidthWithin(available: number, gap: number): number {
  const count = Math.max(1, Math.floor((available + gap) / (figureWidth + gap)));
  return Math.min(88, (available + gap) / count - gap);
}

/** A figure under its heading, with notes in words below it; never split. */
export interface Sketch {
  /** Ids of all its primitives begin with it. */
  readonly id: string;
  readonly heading: string;
  readonly section: string;
  /** In mm on paper, and the height of the figure alone. */
  readonly width: number;
  readonly figureHeight: number;
  readonly notes: readonly string[];
  /** Draws the figure round a middle, down from a top. */
  readonly draw: (middle: number, top: number) => readonly Primitive[];
}

/** The block of a sketch. */
export function sketchBlock(sketch: Sketch): Block {
  const { id, heading, section, width, figureHeight, notes, draw } = sketch;
  const lines = packed(notes, width - 2);
  const height = headingHeight + figureHeight + lines.length * notePitch + 1;
  const drawAll = (left: number, top: number): readonly Primitive[] => [
    ...drawHeading(`${id}-heading`, fitted(heading, 3.5, width), left, top),
    ...draw(left + width / 2, top + headingHeight),
    ...lines.map((words, index) => {
      const y = top + headingHeight + figureHeight + index * notePitch + toBase(1.8);
      return line(`${id}-note-${index + 1}`, 'sheet-text', left, y, words, { height: 1.8 });
    }),
  ];
  return wholeBlock({ section, width }, { height, draw: drawAll });
}

/** The lines of notes; one that fits behind the one before it goes on in its line. */
function packed(notes: readonly string[], width: number): readonly string[] {
  const lines: string[] = [];
  for (const words of notes) {
    const both = `${lines.at(-1)} ${words}`;
    if (lines.length > 0 && widthOf(both, 1.8) <= width) lines[lines.length - 1] = both;
    else lines.push(...wrapped(words, 1.8, width));
  }
  return lines;
}

/** A size in millimeters, or the letter that stands for it. */
export function sizeWords(letter: SizeLetter, value: number | null): string {
  return value === null ? letter : millimeterText(value);
}

/** Thin lines from places on a bar to a chain of dimensions. */
export function leaders(id: string, ends: readonly (readonly [number, number])[], chainX: number): Primitive {
  return pathShape(
    id,
    'dimension-line',
    ends.map(([x, level]) => {
      const way = Math.sign(chainX - x);
      return [x + 1.4 * way, level, chainX + 1 * way, level];
    }),
  );
}

/** Slots as words: 1 slot, 6 slots. */
export function slotsWords(count: number): string {
  return plural(count, 'slot');
}
