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

/** Ends of the stack, cut edges up to `reach` beyond them, pole borders. */
export function drawFrame(
  input: DrawnLayout,
  scale: LayoutScale,
  place: StackPlace,
  reach: { readonly connection: number; readonly far: number },
): readonly Primitive[] {
  const { left, top, bottom } = place;
  const right = left + scale.width;
  const strip = stripOf(scale, place);
  const borders: PathPart[] = [];
  for (let pole = 1; pole < input.winding.poles; pole++) {
    const x = left + (pole * scale.width) / input.winding.poles;
    borders.push([x, top, x, strip.top], [x, strip.bottom, x, bottom]);
  }
  const [first, last] = [left - scale.cutInset, right - scale.cutInset];
  const cuts = [first, last].map((x) => [x, top - reach.connection, x, bottom + reach.far]);
  const ends = [top, bottom].map((y) => [first, y, last, y]);
  return [
    ...(borders.length > 0 ? [pathShape('pole-borders', 'pole-border', borders)] : []),
    pathShape('cut-edges', 'cut-edge', cuts),
    pathShape('core-ends', 'core-end', ends),
  ];
}

/** Height of the pole scale, in millimetres. */
export const poleScaleHeight = 1.8 + 0.6 + textRow;

/** The poles as a scale of blocks, filled and open in turn, with their numbers as far as these fit. */
export function drawPoleScale(
  input: DrawnLayout,
  scale: LayoutScale,
  left: number,
  top: number,
  { say }: Speech,
): readonly Primitive[] {
  const { poles } = input.winding;
  const pitch = scale.width / poles;
  const right = left + scale.width;
  const blocks: PathPart[] = [];
  for (let pole = 0; pole < poles; pole += 2) {
    const x = left + pole * pitch;
    blocks.push(boxArea(x, top, x + pitch, top + 1.8));
  }
  const outline = boxOutline(left, top, right, top + 1.8);
  const long = textWidth(say('pole {0}', poles), textSize) + 1 <= pitch;
  const every = Math.max(1, Math.ceil((textWidth(String(poles), textSize) + 1) / pitch));
  const items: Primitive[] = [
    filledShape('pole-blocks', 'pole-block', blocks),
    pathShape('pole-outline', 'pole-block', [outline]),
  ];
  for (let pole = 1; pole <= poles; pole += every)
    items.push(
      text(
        `pole-${pole}`,
        'pole-number',
        left + (pole - 0.5) * pitch,
        top + 2.4 + baseLine,
        long ? say('pole {0}', pole) : String(pole),
        { anchor: 'middle', subject: { pole } },
      ),
    );
  return items;
}

/** The phases' line patterns with their letters, from `top` down, and how high that is. */
export function drawLegend(
  input: DrawnLayout,
  left: number,
  top: number,
  width: number,
): { readonly items: readonly Primitive[]; readonly height: number } {
  const names = input.winding.phases.names;
  const sample = 14;
  const cell = sample + 1.5 + Math.max(...names.map((name) => textWidth(name, textSize))) + 6;
  const columns = Math.max(1, Math.floor((width + 6) / cell));
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
