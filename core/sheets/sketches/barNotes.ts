import { layerLetter } from '../../language/layerLetters.ts';
import { withSign } from '../../language/numbers.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { EndUse } from '../../space/ends/endForms.ts';
import type { Winding } from '../../winding/model.ts';
import { bendRadiiText, lengthRange, millimeterText, signed } from '../numbers.ts';
import {
  type BentEnd,
  type EndSizes,
  type Leg,
  mainSizes,
  type ShapeRow,
  type ShapeSizes,
  type SizeLetter,
} from './shapeData.ts';
import { type SketchContext, slotsWords } from './sketch.ts';

/** What a sketch of a bar says in words below the figure. */
export function barNotes(
  { shape, legs, kinds }: ShapeRow,
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
    `${order}${reach.join('; ')}.`,
    ...legs.flatMap(({ bar, connection, far }) => [
      ...otherBends('connection side', connection, bar.layer),
      ...(shape.form === 'hairpin' ? [] : otherBends('far side', far, bar.layer)),
    ]),
  ];
  const radii = sizes.radii;
  const crown = shape.crown === null ? '' : `Crown ${slotsWords(Math.abs(shape.crown))}. `;
  if (radii === null && crown !== '') notes.push(crown.trim());
  if (radii !== null)
    notes.push(
      `${crown}Mean radius: ${[...new Set(legs.map(({ bar }) => bar.layer))].map((layer) => `${layerLetter(layer)} ${millimeterText(radii[layer]!)}`).join(', ')} mm.`,
    );
  const lengths = kinds.flatMap(({ name, lengths: own }) =>
    own === null ? [] : [`${lengthRange(own)} mm${kinds.length > 1 ? ` (${name})` : ''}`],
  );
  if (lengths.length > 0) notes.push(`Developed length ${lengths.join(', ')}.`);
  const leans = legs.filter(({ bar }) => (winding.lean[bar.layer] ?? 0) !== 0);
  if (leans.length > 0)
    notes.push(
      `Lean over the stack: ${leans.map(({ bar }) => leanWords(winding, sizes, bar.layer)).join(', ')}; the slot part is dimensioned along the bar, the stack along the axis.`,
    );
  const bare = sizes.bareEnd === null ? 'B' : `${millimeterText(sizes.bareEnd)} mm`;
  notes.push(
    `Bared ends (thick) ${bare}.${bendWords(sizes, shape.crown !== null)}${stepWords(legs)}`,
    'Tolerances: left to the shop.',
  );
  notes.push(...ringWords(legs), ...needWords(sizes));
  return notes;
}

const freeWords: Readonly<Record<EndUse, string>> = {
  crown: 'crown',
  joint: 'joint',
  lead: 'lead',
  star: 'star end',
  piece: 'under a connecting piece',
};

/** Bend and layers joined to, with the number of bars where there are several layers; or what free ends are for. */
function endWords({ use, slots, targets, kinds }: BentEnd): string {
  if (slots === null || targets.length === 0) {
    const uses = [...new Set(kinds.map((kind) => freeWords[kind.use]))];
    return use === null ? 'free end' : uses.join(' or ');
  }
  const several = targets.length > 1;
  const layers = targets.map(
    ({ layer, count }) => `to layer ${layerLetter(layer)}${several ? ` (${count} of the bars)` : ''}`,
  );
  return `${signed(slots)} ${layers.join(' and ')}`;
}

/** Bars of the shape whose end is bent otherwise than drawn: the sizes in which they differ. */
function otherBends(side: string, { kinds }: BentEnd, layer: number): readonly string[] {
  const [main, ...others] = kinds.map((kind) => ({ kind, sizes: endDimensions(kind.sizes) }));
  const alike = new Map<string, Set<string>>();
  for (const { kind, sizes } of others) {
    const differing = sizes.filter((words, index) => words !== main!.sizes[index]).join(', ');
    const names = alike.get(differing) ?? new Set();
    if (differing !== '') alike.set(differing, names);
    for (const name of kind.names) names.add(name);
  }
  return [...alike].map(
    ([words, names]) =>
      `${layerLetter(layer)}, ${side}, of bars ${[...names].sort().join(' ')}: ${words} instead.`,
  );
}

function endDimensions({ offset, rise, joint, lead, aside, toRing }: EndSizes): readonly string[] {
  const sizes: readonly (readonly [string, number])[] = [
    ['joint part', joint],
    ['lead', lead],
  ];
  return [
    offset === 0
      ? 'not bent to a side'
      : `offset ${millimeterText(Math.abs(offset))} mm, bend height ${millimeterText(rise)} mm`,
    ...sizes.map(([name, value]) => `${name} ${millimeterText(value)} mm`),
    toRing === 0 ? 'straight to its end' : reachWords(aside, toRing),
  ];
}

/** How a lead turns to the side of its ring: `8.4 mm towards higher slots, then 12.0 mm away from the axis to its ring`. */
function reachWords(aside: number, toRing: number): string {
  const round =
    aside === 0
      ? ''
      : `${millimeterText(Math.abs(aside))} mm towards ${aside > 0 ? 'higher' : 'lower'} slots, then `;
  const way = toRing > 0 ? 'away from' : 'towards';
  return `${round}${millimeterText(Math.abs(toRing))} mm ${way} the axis to its ring`;
}

/** Leads that are bent to their rings after the ring of their layer is twisted. */
function ringWords(legs: readonly Leg[]): readonly string[] {
  const words = legs.flatMap(({ bar, connection, far }) =>
    [['connection side', connection] as const, ['far side', far] as const].flatMap(([side, end]) => {
      const sizes = mainSizes(end);
      if (!sizes || sizes.toRing === 0) return [];
      return [`${layerLetter(bar.layer)}, ${side}, ${reachWords(sizes.aside, sizes.toRing)}`];
    }),
  );
  if (words.length === 0) return [];
  return [`The lead is bent last, center lines to sharp corners: ${words.join('; ')}.`];
}

/** What bars are bent with. */
function bendWords({ bends }: ShapeSizes, crown: boolean): string {
  if (bends === null) return '';
  return ` Inner bend radius ${bendRadiiText(bends, ' mm')}; dimensions to sharp corners${crown ? ', of the crown to its apex' : ''}.`;
}

/** Steps along the radius: of a crown, and of ends that are set towards the bar they are joined to. */
function stepWords(legs: readonly Leg[]): string {
  const words: string[] = [];
  const crown = mainSizes(legs[0]!.far);
  if (legs[0]!.far.use === 'crown' && crown && crown.step > 0)
    words.push(`the crown ${millimeterText(crown.step)} mm from leg to leg`);
  for (const { bar, connection, far } of legs)
    for (const [side, end] of [
      ['connection side', connection],
      ['far side', far],
    ] as const) {
      const sizes = mainSizes(end);
      if (end.use === 'joint' && sizes && sizes.step > 0)
        words.push(
          `${layerLetter(bar.layer)}, ${side}, ${fixedText(1000 * sizes.step, 2)} mm towards the other bar`,
        );
    }
  return words.length === 0 ? '' : ` Steps along the radius: ${words.join('; ')}.`;
}

function leanWords(winding: Winding, sizes: ShapeSizes, layer: number): string {
  const lean = winding.lean[layer]!;
  const pitches = withSign(fixedText((lean * winding.slots) / (2 * Math.PI), 2));
  const length = sizes.radii === null ? '' : ` (${millimeterText(Math.abs(lean) * sizes.radii[layer]!)} mm)`;
  return `${layerLetter(layer)} ${pitches} slots${length}`;
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
