import { inEnglish, type Speech } from '../../figures/speech.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, group, pathShape, text, textSize } from '../../picture/make.ts';
import { numberText } from '../../picture/numberText.ts';
import type { PathPart, Picture, Primitive, Text } from '../../picture/picture.ts';
import { scaledShape } from '../../sizes/slotShape/scaled.ts';
import type { SectionShape } from '../../sizes/slotShape/shape.ts';
import { greatestCommonDivisor } from '../../winding/integers.ts';
import { cellAt, placeName, printedSigns } from '../../winding/model.ts';
import { clearTexts } from '../chart/labels.ts';
import { frameFor, legendRow, pagePicture, windingWords } from '../chart/page.ts';
import type { LayoutInput } from '../layout/input.ts';
import type { Room } from '../room.ts';
import { addMark, barWords, coatingShows, drawSectionBars, fittingWords, type SectionBars } from './bars.ts';
import { drawCore } from './core.ts';
import { roundPlaces, type SectionPlace, type SectionPlaces, straightPlaces } from './place.ts';
import { plainShape } from './plain.ts';

/** What the section of the slots shows. */
export interface SectionInput
  extends Pick<LayoutInput, 'winding' | 'title' | 'barPath' | 'barSource' | 'emphasis'> {
  readonly specification: Specification;
  /** One repetition (a pole pair, or the basic winding where its slots do not divide), or all slots; default one. */
  readonly extent?: 'repetition' | 'circle' | undefined;
  /** The words tell of a drawing in full size, as CAD files hold it. Default false: of the scale on paper. */
  readonly fullSize?: boolean | undefined;
  /** Paper over machine; by default the smallest usual scale at which every bar is legible. */
  readonly scale?: number | undefined;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** Straight lines for arcs, in radians: in a file in full size within 1 micrometer of them for bores up to 0.8 m. */
const chords = { paper: Math.PI / 90, file: Math.PI / 720 } as const;
/** Slots of one row where sizes are not known. */
const perRow = 24;
const mostTries = 12;

/**
 * The section of the slots as seen from the connection side: bars to scale in their slots with phase,
 * sense and path, laminations, liner, wedge and opening; every bar of the shown slots once
 * (`data-bar`). Straight and not to scale where the text lacks sizes. Throws RangeError for a scale
 * that is not above 0.
 */
export function sectionPicture(input: SectionInput): Picture {
  const { winding, specification, speech = inEnglish } = input;
  const { say } = speech;
  if (input.scale !== undefined && !(input.scale > 0 && input.scale < 1e4))
    throw new RangeError(`A scale must be above 0 and below 10000, got ${input.scale}`);
  const scaled = scaledShape(specification, winding);
  const shape = scaled.known ? scaled.value : plainShape(specification, winding, scaled.needs, input.room);
  const count = shownSlots(input);
  const withPaths = winding.parallelPaths > 1 && input.barPath !== undefined;
  const round = 'angle' in shape.pitch ? nextScale : (least: number) => Math.max(1, least);
  const { words, scale: least } = fittingWords(shape, barWords(winding, withPaths), count, round);
  const section: Section = { input: { ...input, speech }, shape, count, words, withPaths };
  const legibly = drawLegibly(section, least);
  const { margin } = frameFor(input.room);
  const most = input.room === undefined ? Infinity : input.room.width - 2 * margin;
  const larger = input.room && scaled.known ? scaleWithin(input.room, shape, legibly) : legibly.scale;
  const drawn = larger > legibly.scale ? drawLegibly(section, larger) : legibly;
  const { places, scale, items, width } = drawn;
  const legendAt = (left: number, top: number) =>
    drawSectionLegend(left, top, scaled.known ? scale : null, most, speech);
  const long = legendAt(0, 0).width;
  // A panel opens at the middle, so the legend stands there, under the gap's arc where it has room.
  const legend =
    input.room === undefined
      ? legendAt(margin, places.bottom + 2)
      : legendAt(
          Math.max(margin, (width - long) / 2),
          Math.min(places.bottom, places.lowestAbove(long / 2 + 2)) + 2,
        );
  const shown = shownWords(input, count, speech);
  const facts = [
    windingWords(winding, speech),
    shown,
    scaled.known ? sizeWords(scale, input.fullSize ?? false, speech) : say('not to scale'),
  ].join(', ');
  const page = {
    title: input.title,
    view: say('section of the slots'),
    facts,
    description: describe(input, facts, count, speech),
    items: [
      ...items,
      group('letters', 'layer-letter', toothLetters(section, drawn)),
      group('legend', 'legend-name', legend.items),
    ],
    width: Math.max(width, legend.width + 2 * margin, input.room === undefined ? 150 : 0),
    bottom: Math.max(legend.bottom, input.room === undefined ? 0 : places.bottom),
    notes: sectionNotes(section, scale, speech),
    speech,
  };
  const picture = pagePicture(page, input.room);
  return scaled.known ? { ...picture, scale } : picture;
}

/** The scale in words: on paper, or in a file in full size, whose letters are made for a print at a scale. */
function sizeWords(scale: number, inFullSize: boolean, { say }: Speech): string {
  return inFullSize
    ? say('1:1 in millimeters, letters for prints at {0}', scaleWords(scale))
    : say('scale {0}', scaleWords(scale));
}

function shownSlots({ winding, extent }: SectionInput): number {
  const { slots, polePairs } = winding;
  if (extent === 'circle') return slots;
  return slots % polePairs === 0 ? slots / polePairs : slots / greatestCommonDivisor(slots, polePairs);
}

function shownWords({ winding }: SectionInput, count: number, { say }: Speech): string {
  if (count === winding.slots) return say('all slots');
  return count * winding.polePairs === winding.slots
    ? say('slots 1 to {0} (one pole pair)', count)
    : say('slots 1 to {0} (the basic winding)', count);
}

interface Drawn {
  readonly places: SectionPlaces;
  readonly scale: number;
  readonly width: number;
  readonly items: readonly Primitive[];
}

/** Some slots with their bars, before the scale is known. */
interface Section extends SectionBars {
  readonly input: SectionInput;
  /** Slots that are shown. */
  readonly count: number;
}

/** Draws at growing scales, from the least, until no two texts touch; at the asked scale only the texts that fit. */
function drawLegibly(section: Section, least: number): Drawn {
  const { input, shape } = section;
  const round = 'angle' in shape.pitch;
  let scale = input.scale ?? least;
  for (let attempt = 0; ; attempt++) {
    const drawn = drawAt(section, scale);
    const clear = clearTexts(drawn.texts, [], 0.05);
    if (clear.length === drawn.texts.length) return drawn;
    if (input.scale !== undefined || attempt >= mostTries) return withTexts(drawn, new Set(clear));
    scale = round ? nextScale(scale * 1.001) : scale * 1.15;
  }
}

/** How much larger than legible bars are drawn in a panel, at most: neighbors stay in sight. */
const mostGrowth = 1.4;

/** The scale, in halves, at which the slots fill a panel's room, and do not leave its width where they are within it. */
function scaleWithin(room: Room, shape: SectionShape, { places, scale, width }: Drawn): number {
  const legend = 2 + 2 * legendRow;
  const free = room.height - legend - places.lowestAbove(room.width / 2);
  const byWidth = width <= room.width ? room.width / width : mostGrowth;
  const most = Math.min(scale + free / (shape.outer - shape.inner), scale * Math.min(byWidth, mostGrowth));
  return Math.max(scale, Math.floor(2 * most) / 2);
}

function withTexts(drawn: Drawn, kept: ReadonlySet<Primitive>): Drawn {
  const keep = (items: readonly Primitive[]): readonly Primitive[] =>
    items
      .filter((item) => item.kind !== 'text' || kept.has(item))
      .map((item) => (item.kind === 'group' ? { ...item, items: keep(item.items) } : item));
  return { ...drawn, items: keep(drawn.items) };
}

function drawAt(section: Section, scale: number): Drawn & { readonly texts: readonly Text[] } {
  const { input, shape, count } = section;
  const frame = frameFor(input.room);
  const corner = { left: frame.margin, top: frame.top };
  const closed = count === input.winding.slots;
  const places =
    'angle' in shape.pitch
      ? roundPlaces(shape, {
          angle: shape.pitch.angle,
          count,
          closed,
          scale,
          corner,
          chord: input.fullSize ? chords.file : chords.paper,
        })
      : straightPlaces(shape, shape.pitch.length, count, perRow, scale, corner);
  const cores = places.places.flatMap((place, row) => drawCore(shape, place, row === 0 ? '' : `-${row + 1}`));
  const bars = drawSectionBars(section, places.places, scale);
  const names = places.places.flatMap((place, row) =>
    drawNames(shape, place, row, scale, input.speech ?? inEnglish),
  );
  const texts = [...names, ...bars.words].filter((item): item is Text => item.kind === 'text');
  return {
    places,
    scale,
    texts,
    width: places.width + 2 * frame.margin,
    items: [
      group('core-parts', 'core', cores),
      group('bars', 'bar-section', bars.bars),
      ...(input.fullSize ? [] : bars.coatings),
      group('senses', 'sense-mark', bars.marks),
      group('labels', 'bar-label', bars.words),
      group('names', 'slot-number', names),
    ],
  };
}

/** The smallest usual scale that is no less: n:1 or 1:n, n one of 1, 2, 3, 4, 5, 6, 8 times a power of ten. */
function nextScale(least: number): number {
  if (least > 1) return usualAbove(least);
  const reduction = 1 / least;
  const power = 10 ** Math.floor(Math.log10(reduction) + 1e-9);
  const fitting = usualFactors.filter((each) => each * power <= reduction * (1 + 1e-9));
  return 1 / (power * fitting.at(-1)!);
}

const usualFactors = [1, 2, 3, 4, 5, 6, 8];

function usualAbove(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return power * (usualFactors.find((each) => each * power >= least * (1 - 1e-9)) ?? 10);
}

function scaleWords(scale: number): string {
  return scale >= 1 ? `${numberText(scale)}:1` : `1:${numberText(1 / scale)}`;
}

/** Slot numbers outside, layer letters beside the first slot, names of the gaps. */
function drawNames(
  shape: SectionShape,
  place: SectionPlace,
  row: number,
  scale: number,
  { say }: Speech,
): readonly Primitive[] {
  const items: Primitive[] = [];
  for (let index = 0; index < place.count; index++) {
    const slot = place.first + index;
    const [x, y] = place.at(index, 0, shape.outer + 2.6 / scale);
    const subject = { subject: { slot } };
    items.push(
      text(`slot-${slot}`, 'slot-number', x, y + 0.91, String(slot), { ...subject, anchor: 'middle' }),
    );
  }
  if (!place.closed)
    for (const { layer, from, to } of shape.rows.flatMap((each) => each.barsOf(place.first))) {
      const [x, y] = place.at(-0.5, -2.4 / scale, (from + to) / 2);
      const letter = layerLetter(layer);
      items.push(
        text(`layer-${place.first}${letter}`, 'layer-letter', x, y + 0.91, letter, { anchor: 'middle' }),
      );
    }
  const middle = (place.count - 1) / 2;
  const both = shape.innerEnd === 'gap' && shape.outerEnd === 'gap';
  if (shape.innerEnd === 'gap') {
    const [x, y] = place.at(middle, 0, shape.inner - 3.2 / scale);
    const name = both ? say('inner gap') : say('gap, rotor inside');
    items.push(text(`gap-inner-${row + 1}`, 'side-name', x, y + 0.91, name, { anchor: 'middle' }));
  }
  if (shape.outerEnd === 'gap') {
    const [x, y] = place.at(middle, 0, shape.outer + 7.4 / scale);
    const name = both ? say('outer gap') : say('gap, rotor outside');
    items.push(text(`gap-outer-${row + 1}`, 'side-name', x, y + 0.91, name, { anchor: 'middle' }));
  }
  return items;
}

/** Teeth narrower than this on paper have no room for a letter, in millimeters. */
const leastTooth = 3;

/** In a panel narrower than the drawing, layer letters beside so many slots that one of these is always in sight. */
function toothLetters({ input: { room }, shape }: Section, { places, scale, width }: Drawn): readonly Text[] {
  if (room === undefined || width <= room.width) return [];
  return places.places.flatMap(({ first, count, at }) => {
    const [left, right] = [at(0, 0, shape.outer), at(1, 0, shape.outer)];
    const pitch = Math.hypot(right[0] - left[0], right[1] - left[1]);
    const step = Math.max(1, Math.floor(room.width / pitch) - 1);
    // Beside the slot before the middle, where a panel opens.
    const from = Math.floor(count / 2 - 0.6) % step;
    const beside = Array.from({ length: count - 1 }, (_, index) => index).filter(
      (index) => index % step === from,
    );
    return beside.flatMap((index) =>
      shape.rows.flatMap((row) =>
        row.barsOf(first + index).flatMap(({ layer, from, to }): readonly Text[] => {
          const middle = (from + to) / 2;
          const [wall, next] = [at(index, row.width / 2, middle), at(index + 1, -row.width / 2, middle)];
          const tooth = Math.hypot(next[0] - wall[0], next[1] - wall[1]);
          if (tooth < leastTooth) return [];
          const [x, y] = at(index, row.width / 2 + Math.min(tooth / 2, 2) / scale, middle);
          const letter = layerLetter(layer);
          return [
            text(`letter-${first + index}${letter}`, 'layer-letter', x, y + 0.91, letter, {
              anchor: 'middle',
            }),
          ];
        }),
      ),
    );
  });
}

/** What the marks mean, and a scale bar: beside them where that is no wider than `most`, else below. */
function drawSectionLegend(
  left: number,
  top: number,
  scale: number | null,
  most: number,
  { say }: Speech,
): { readonly items: readonly Primitive[]; readonly width: number; readonly bottom: number } {
  const marks: { lines: PathPart[]; dots: PathPart[] } = { lines: [], dots: [] };
  const items: Primitive[] = [];
  let x = left;
  let row = top;
  let right = left;
  for (const away of [true, false]) {
    const words = away
      ? say('+ bar: current to the far side')
      : say('\u2212 bar: current to the connection side');
    addMark(marks, x + 1.2, top + baseLine - 0.9, away);
    items.push(text(`legend-${away ? 'away' : 'towards'}`, 'legend-name', x + 3.2, top + baseLine, words));
    right = x + 3.2 + textWidth(words, textSize);
    x = right + 6;
  }
  items.push(
    pathShape('legend-senses', 'sense-mark', marks.lines),
    filledShape('legend-points', 'sense-dot', marks.dots),
  );
  if (scale !== null) {
    const power = 10 ** Math.round(Math.log10(20 / scale));
    const long = power * scale;
    const name = `${numberText(power)} mm`;
    const whole = long + 1.5 + textWidth(name, textSize);
    if (x + whole - left > most) {
      x = left;
      row += legendRow;
    }
    const y = row + baseLine - 0.9;
    items.push(
      pathShape('scale-bar', 'axis', [
        [x, y, x + long, y],
        [x, y - 1, x, y + 1],
        [x + long, y - 1, x + long, y + 1],
      ]),
      text('scale-name', 'legend-name', x + long + 1.5, row + baseLine, name),
    );
    right = Math.max(right, x + whole);
  }
  return { items, width: right - left, bottom: row + legendRow };
}

function sectionNotes(
  { input, shape, withPaths }: Section,
  scale: number,
  { say, phrase }: Speech,
): readonly string[] {
  const { layers, lean } = input.winding;
  const words = withPaths
    ? say('phase, sense of the current and parallel path')
    : say('phase and sense of the current');
  const notes = [
    say('Seen from the connection side; slot numbers rise clockwise. In each bar: {0}.', words),
    say('Senses are those of currents that enter at the line terminals.'),
  ];
  if (layers > 1) notes.push(say('Layer a lies nearest the axis, {0} farthest.', layerLetter(layers - 1)));
  if (lean.some((each) => each !== 0)) notes.push(say('The bars lean: this is the section at mid-stack.'));
  if (input.fullSize && 'angle' in shape.pitch)
    notes.push(say('Bars are drawn without coating, their edges square.'));
  else if (shape.rows.some((row) => coatingShows(row, scale)))
    notes.push(say('The thin line round a bar is its coating.'));
  return [...notes, ...shape.notes.map(phrase)];
}

/** The text equivalent: what lies in each shown slot. */
function describe(input: SectionInput, facts: string, count: number, { say }: Speech): string {
  const { table, phases, layers } = input.winding;
  const slots = Array.from({ length: count }, (_, index) => {
    const bars = Array.from({ length: layers }, (_, layer) => {
      return placeName(cellAt(table, index + 1, layer), phases, { ...printedSigns, empty: say('empty') });
    });
    return `${index + 1}: ${bars.join(' ')}`;
  });
  const listed = slots.slice(0, mostListed).join('; ');
  const more = count - mostListed;
  const all =
    more === 1
      ? say('{0}; and 1 more slot', listed)
      : more > 1
        ? say('{0}; and {1} more slots', listed, more)
        : listed;
  return say(
    'Section of the slots of a winding with {0}. Bars from the axis outwards, by slots: {1}.',
    facts,
    all,
  );
}

const mostListed = 60;
