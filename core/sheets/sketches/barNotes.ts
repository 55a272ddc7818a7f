import { fixedText } from '../../picture/numberText.ts';
import { layerLetter, type Winding } from '../../winding/model.ts';
import { lengthRange, millimetreText, signed } from '../tables.ts';
import {
  type BentEnd,
  bendHeight,
  type ShapeRow,
  type ShapeSizes,
  type SizeLetter,
  slotPitch,
} from './shapeData.ts';
import { type SketchContext, slotsWords } from './sketch.ts';

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
  const notes = [
    'Seen from the axis, connection side up; developed, not to scale.',
    `${order}${reach.join('; ')}. Each bar reaches half the span.`,
    ...legs.flatMap(({ bar, connection, far }) => [
      ...otherBends('connection side', connection, bar.layer, winding, sizes),
      ...(shape.form === 'hairpin' ? [] : otherBends('far side', far, bar.layer, winding, sizes)),
    ]),
  ];
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
      `Lean over the stack: ${leans.map(({ bar }) => leanWords(winding, sizes, bar.layer)).join(', ')}; the slot part is dimensioned along the bar, the stack along the axis.`,
    );
  const bare = sizes.bareEnd === null ? 'B' : `${millimetreText(sizes.bareEnd)} mm`;
  const radius =
    sizes.bendRadius === null ? '' : ` Inner bend radius ${millimetreText(sizes.bendRadius)} mm.`;
  if (lengths !== null) notes.push(`Developed length ${lengthRange(lengths)} mm.`);
  notes.push(`Bared ends (thick) ${bare}.${radius} Tolerances: left to the shop.`);
  notes.push(...needWords(sizes));
  return notes;
}

/** Bend and layers joined to; with the number of pieces where there are several layers. */
function endWords({ slots, targets }: BentEnd): string {
  if (slots === null || targets.length === 0) return 'straight';
  const several = targets.length > 1;
  const layers = targets.map(
    ({ layer, count }) => `to layer ${layerLetter(layer)}${several ? ` (${count} of the pieces)` : ''}`,
  );
  return `${signed(slots)} ${layers.join(' and ')}`;
}

/** Where leaning layers differ, the same bend in slots reaches differently far: dimensions of the rarer ones. */
function otherBends(
  side: string,
  { span, targets }: BentEnd,
  layer: number,
  winding: Winding,
  sizes: ShapeSizes,
): readonly string[] {
  const pitch = slotPitch(sizes, winding, layer);
  return targets
    .filter((target) => span !== null && Math.abs(Math.abs(target.span) - Math.abs(span)) > 1e-9)
    .map((target) => {
      const half = Math.abs(target.span) / 2;
      const height = bendHeight(sizes, layer, target.span);
      const offset = pitch === null ? `${fixedText(half, 2)} slots` : `${millimetreText(half * pitch)} mm`;
      const rise = height === null ? '' : `, bend height ${millimetreText(height)} mm`;
      return `${layerLetter(layer)}, ${side} to layer ${layerLetter(target.layer)}: offset ${offset}${rise} instead.`;
    });
}

function leanWords(winding: Winding, sizes: ShapeSizes, layer: number): string {
  const lean = winding.lean[layer]!;
  const pitches = fixedText((lean * winding.slots) / (2 * Math.PI), 2).replace('-', '\u2212');
  const length = sizes.radii === null ? '' : ` (${millimetreText(Math.abs(lean) * sizes.radii[layer]!)} mm)`;
  return `${layerLetter(layer)} ${lean > 0 ? '+' : ''}${pitches} slots${length}`;
}

const letterWords: Readonly<Record<SizeLetter, string>> = {
  L: 'slot part',
  S: 'stack length',
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
