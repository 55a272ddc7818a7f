import type { Speech } from '../../figures/speech.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { withSign } from '../../language/numbers.ts';
import { textWidth, wrapText } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import { fixedText } from '../../picture/numberText.ts';
import { boxArea, boxOutline } from '../../picture/outlines.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { type StackPlace, stripOf } from './bars.ts';
import type { DrawnLayout } from './input.ts';
import type { LayoutScale } from './scale.ts';

/** Names of the strip's rows stand left of it. */
export function rowNames({ say }: Speech) {
  return [
    ['slot', say('slot')],
    ['layer', say('layer')],
    ['phase', say('phase')],
  ] as const;
}

/** The same as drawn, left of what begins at a place on paper. */
export function drawRowNames(
  scale: LayoutScale,
  place: StackPlace,
  from: number,
  speech: Speech,
): readonly Primitive[] {
  const { top } = stripOf(scale, place);
  return rowNames(speech).map(([id, name], row) =>
    text(`row-${id}`, 'row-name', from - scale.cutInset - 0.8, top + 0.5 + row * textRow + baseLine, name, {
      anchor: 'end',
    }),
  );
}

/** From where to where a layout, or a row of one, reaches on paper. */
export interface DrawnRow {
  readonly from: number;
  readonly to: number;
}

/** All of a layout as one row. */
export function wholeRow({ width }: LayoutScale, { left }: StackPlace): DrawnRow {
  return { from: left, to: left + width };
}

/** Places of the borders between poles on paper, and of both ends, from the border before slot 1. */
function poleBorders({ winding }: DrawnLayout, scale: LayoutScale, { left }: StackPlace): readonly number[] {
  const { poles } = winding;
  return Array.from({ length: poles + 1 }, (_, pole) => left + (pole * scale.width) / poles);
}

/** Ends of the stack, cut edges up to `reach` beyond them, pole borders. */
export function drawFrame(
  input: DrawnLayout,
  scale: LayoutScale,
  place: StackPlace,
  { from, to }: DrawnRow,
  reach: { readonly connection: number; readonly far: number },
): readonly Primitive[] {
  const { top, bottom } = place;
  const strip = stripOf(scale, place);
  const [first, last] = [from - scale.cutInset, to - scale.cutInset];
  // Not through the strip: the last slot's labels may reach over it.
  const parted = (x: number, up: number, down: number): readonly PathPart[] => [
    [x, top - up, x, strip.top],
    [x, strip.bottom, x, bottom + down],
  ];
  const borders = poleBorders(input, scale, place)
    .filter((x) => x > from + 0.1 && x < to - 0.1)
    .flatMap((x) => parted(x, 0, 0));
  return [
    ...(borders.length > 0 ? [pathShape('pole-borders', 'pole-border', borders)] : []),
    pathShape(
      'cut-edges',
      'cut-edge',
      [first, last].flatMap((x) => parted(x, reach.connection, reach.far)),
    ),
    pathShape(
      'core-ends',
      'core-end',
      [top, bottom].map((y) => [first, y, last, y]),
    ),
  ];
}

/** Height of the pole scale, in millimeters. */
export const poleScaleHeight = 1.8 + 0.6 + textRow;

/** The poles as a scale of blocks, filled and open in turn, with their numbers as far as these fit. */
export function drawPoleScale(
  input: DrawnLayout,
  scale: LayoutScale,
  place: StackPlace,
  { from, to }: DrawnRow,
  top: number,
  { say }: Speech,
): readonly Primitive[] {
  const borders = poleBorders(input, scale, place);
  const blocks: PathPart[] = [];
  const names: Primitive[] = [];
  let lastEnd = Number.NEGATIVE_INFINITY;
  for (let pole = 1; pole < borders.length; pole++) {
    const [left, right] = [Math.max(from, borders[pole - 1]!), Math.min(to, borders[pole]!)];
    if (right - left < 0.05) continue;
    if (pole % 2 === 1) blocks.push(boxArea(left, top, right, top + 1.8));
    const long = say('pole {0}', pole);
    const name = textWidth(long, textSize) + 1 <= right - left ? long : String(pole);
    const half = textWidth(name, textSize) / 2;
    const x = (left + right) / 2;
    if (x - half < lastEnd + 1) continue;
    lastEnd = x + half;
    const y = top + 2.4 + baseLine;
    names.push(text(`pole-${pole}`, 'pole-number', x, y, name, { anchor: 'middle', subject: { pole } }));
  }
  return [
    ...(blocks.length > 0 ? [filledShape('pole-blocks', 'pole-block', blocks)] : []),
    pathShape('pole-outline', 'pole-block', [boxOutline(from, top, to, top + 1.8)]),
    ...names,
  ];
}

/** Of the legend: the longest line pattern that is shown and the shortest that can be told, and room between names, mm. */
const longSample = 14;
const shortSample = 4;
const wideRoom = 6;
const narrowRoom = 2;

/**
 * The phases' line patterns with their letters, from `top` down, and how high that is: in rows of a width, and so
 * close that all are in sight within another, as far as patterns can be told.
 */
export function drawLegend(
  input: DrawnLayout,
  left: number,
  top: number,
  width: number,
  sight = Infinity,
): { readonly items: readonly Primitive[]; readonly height: number } {
  const names = input.winding.phases.names;
  const word = 1.5 + Math.max(...names.map((name) => textWidth(name, textSize)));
  const isWide = names.length * (longSample + word + wideRoom) - wideRoom <= sight;
  const apart = isWide ? wideRoom : narrowRoom;
  const fitting = (sight + apart) / names.length - word - apart;
  const sample = isWide ? longSample : Math.min(longSample, Math.max(shortSample, fitting));
  const cell = sample + word + apart;
  const columns = Math.max(1, Math.floor((width + apart) / cell));
  const rowHeight = textRow + 1;
  const items = names.flatMap((name, phase): Primitive[] => {
    const x = left + (phase % columns) * cell;
    const y = top + Math.floor(phase / columns) * rowHeight;
    const middle = y + baseLine - 0.9;
    return [
      pathShape(`legend-line-${name}`, 'legend-line', [[x, middle, x + sample, middle]], { phase }),
      text(`legend-${name}`, 'legend-name', x + sample + 1.5, y + baseLine, name, { phase }),
    ];
  });
  return { items, height: Math.ceil(names.length / columns) * rowHeight };
}

/** What a reader must know to read this layout, in sentences. */
export function layoutNotes(
  input: DrawnLayout,
  cutStep: number,
  anyCut: boolean,
  { say, phrase }: Speech,
): readonly string[] {
  const { layers } = input.winding;
  const notes = [
    say(
      'Developed, not to scale. Seen from the axis; slot numbers rise to the right, clockwise as seen from the connection side.',
    ),
    say(
      'When a phase current enters at its line terminal, + bars carry it from the connection side to the far side (arrow down), \u2212 bars back.',
    ),
  ];
  if (layers > 1)
    notes.push(
      say(
        'In each slot the layers stand from left to right: a nearest the axis, {0} farthest.',
        layerLetter(layers - 1),
      ),
    );
  notes.push(...leanNotes(input, { say }));
  if (anyCut)
    notes.push(
      cutStep > 1
        ? say(
            'A line cut at one edge goes on at the other edge at the same number or name (1 line in {0} is numbered).',
            cutStep,
          )
        : say('A line cut at one edge goes on at the other edge at the same number or name.'),
    );
  if (input.barPath !== undefined && input.winding.parallelPaths > 1)
    notes.push(say('Cross strokes on a bar count its parallel path; a wide stroke counts five.'));
  if (!input.compared && input.ends.some(({ kind }) => kind !== 'regular' && kind !== 'coil-end'))
    notes.push(
      say('Thick joints are special: of another span, between other layers, or made by a separate piece.'),
    );
  if (input.ends.length === 0)
    notes.push(
      input.unjoined === undefined
        ? say('No joints are drawn: how the bars are joined is not yet given.')
        : say('No joints are drawn: {0}.', phrase(input.unjoined)),
    );
  else if (input.ends.every(({ kind }) => kind === 'coil-end'))
    notes.push(
      input.unjoined === undefined
        ? say('Coil ends are drawn by coil span, not by joints: how the coils are joined is not yet given.')
        : say('Coil ends are drawn by coil span, not by joints: {0}.', phrase(input.unjoined)),
    );
  return notes;
}

/** One sentence on the layers that lean. */
function leanNotes(input: DrawnLayout, { say }: Pick<Speech, 'say'>): readonly string[] {
  const { lean, slots, layers } = input.winding;
  const groups = new Map<string, string[]>();
  for (let layer = 0; layer < layers; layer++) {
    const pitches = ((lean[layer] ?? 0) * slots) / (2 * Math.PI);
    const words = withSign(fixedText(pitches, 2));
    groups.set(words, [...(groups.get(words) ?? []), layerLetter(layer)]);
  }
  if (groups.size === 1 && groups.has('0.00')) return [];
  const all = [...groups].map(([words, letters]) => `${letters.join(' ')}: ${words}`);
  return [say('Lean of the bars over the stack in slot pitches, by layers: {0}.', all.join('; '))];
}

/** Sentences as rows of text, and how high that is. */
export function drawNotes(
  notes: readonly string[],
  left: number,
  top: number,
  width: number,
): { readonly items: readonly Primitive[]; readonly height: number } {
  const lines = notes.flatMap((note) => wrapText(note, textSize, width));
  const rowHeight = textRow + 0.6;
  return {
    items: lines.map((line, index) =>
      text(`note-${index + 1}`, 'note', left, top + index * rowHeight + baseLine, line),
    ),
    height: lines.length * rowHeight,
  };
}
