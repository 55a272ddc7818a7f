import { layerLetter, type Winding } from '../winding/model.ts';
import { fixedText } from './numberText.ts';
import type { BentEnd, ShapeRow, ShapeSizes, SizeLetter } from './sheetShapeData.ts';
import { type SketchContext, slotsWords } from './sheetSketch.ts';
import { lengthRange, millimetreText, signed } from './sheetTables.ts';

/** What a sketch of a bar says in words below the figure. */
export function barNotes(
  { shape, legs, lengths }: ShapeRow,
  { winding, sizes }: SketchContext,
): readonly string[] {
  const reach = legs.map(({ bar, connection, far }) => {
    const letter = layerLetter(bar.layer);
    const ends = [`connection side ${endWords(connection)}`];
    if (shape.form !== 'hairpin') ends.push(`far side ${endWords(far)}`);
    return `${letter}: ${ends.join(', ')}`;
  });
  const order = legs.length > 1 ? 'Layers from left to right. ' : 'Layer ';
  const notes = [`${order}${reach.join('; ')}. Each bar reaches half the span.`];
  const radii = sizes.radii;
  const crown = shape.crown === null ? '' : `Crown ${slotsWords(Math.abs(shape.crown))}. `;
  if (radii === null && crown !== '') notes.push(crown.trim());
  if (radii !== null)
    notes.push(
      `${crown}Mean radius: ${[...new Set(legs.map(({ bar }) => bar.layer))].map((layer) => `${layerLetter(layer)} ${millimetreText(radii[layer]!)}`).join(', ')} mm.`,
    );
  const leans = legs.filter(({ bar }) => (winding.lean[bar.layer] ?? 0) !== 0);
  if (leans.length > 0)
    notes.push(
      `Lean over the stack: ${leans.map(({ bar }) => leanWords(winding, sizes, bar.layer)).join(', ')}; L runs along the bar.`,
    );
  const bare = sizes.bareEnd === null ? 'B' : `${millimetreText(sizes.bareEnd)} mm`;
  const radius =
    sizes.bendRadius === null ? '' : ` Inner bend radius ${millimetreText(sizes.bendRadius)} mm.`;
  if (lengths !== null) notes.push(`Developed length ${lengthRange(lengths)} mm.`);
  notes.push(`Bared ends (thick) ${bare}.${radius} Tolerances: left to the shop.`);
  notes.push(...needWords(sizes));
  return notes;
}

function endWords({ slots, otherLayer }: BentEnd): string {
  return slots === null || otherLayer === null
    ? 'straight'
    : `${signed(slots)} to layer ${layerLetter(otherLayer)}`;
}

function leanWords(winding: Winding, sizes: ShapeSizes, layer: number): string {
  const lean = winding.lean[layer]!;
  const pitches = fixedText((lean * winding.slots) / (2 * Math.PI), 2).replace('-', '\u2212');
  const length = sizes.radii === null ? '' : ` (${millimetreText(Math.abs(lean) * sizes.radii[layer]!)} mm)`;
  return `${layerLetter(layer)} ${lean > 0 ? '+' : ''}${pitches} slots${length}`;
}

const letterWords: Readonly<Record<SizeLetter, string>> = {
  L: 'slot part',
  E: 'straight part',
  H: 'bend height',
  J: 'joint part',
  B: 'bared end',
};

/** Which statement each letter waits for. */
function needWords({ needs, radii }: ShapeSizes): readonly string[] {
  if (needs.size === 0) return [];
  const words = [...needs].map(([letter, statements]) => {
    const give = statements.length === 0 ? '' : ` needs ${statements.join(', ')}`;
    return `${letter} ${letterWords[letter]}${give}`;
  });
  return [`Not given: ${words.join('; ')}.${radii === null ? ' sl.: slots.' : ''}`];
}
