import type { Facts } from '../../facts/facts.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { significant } from '../../language/numbers.ts';
import { filledShape, pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { barCoating, barCorner, barHeight, barStrands, barWidth } from '../../sizes/barInputs.ts';
import { scaledShape } from '../../sizes/slotShape/scaled.ts';
import { type BarPlace, millimeters, type SectionShape } from '../../sizes/slotShape/shape.ts';
import { drawCore } from '../../views/section/core.ts';
import { type SectionPlace, straightPlace } from '../../views/section/place.ts';
import type { Block } from '../page/flow.ts';
import { line } from '../page/text.ts';
import { sketchBlock } from './sketch.ts';
import type { SlotBar, SlotFigure } from './slot.ts';
import { drawSlotDimensions, tierHeight, widthTiers } from './slotDimensions.ts';

/** Room of the slot itself on paper. */
const mostHeight = 50;
/** Where bars have no room for their letters in that. */
const mostForLetters = 80;
const mostWidth = 40;
/** Bars that are smaller on paper, height and width, have no letter. */
const letterRoom = [3.2, 3] as const;
/** Usual scales, paper over machine. */
const scales = [50, 20, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.5, 0.2, 0.1, 0.05] as const;

/** The dimensioned section of one slot with its bars to scale; null where the text does not give the slot's sizes. */
export function slotFigureBlock(facts: Facts, section: string, width: number): Block | null {
  const { specification, winding } = facts;
  const scaled = scaledShape(specification, winding);
  if (!scaled.known) return null;
  const shape = trimmed(scaled.value);
  const pitch = 1.9 * Math.max(...shape.pieces.map((piece) => piece.width));
  const height = shape.outer - shape.inner;
  const slot = fullestSlot(facts, shape);
  const bars = shape.rows.flatMap((row) => row.barsOf(slot)).map((bar) => sized(facts, bar));
  const within = (most: number) =>
    scales.find((each) => each * height <= most && each * pitch <= mostWidth) ?? 0.02;
  const larger = within(mostForLetters);
  const usual = within(mostHeight);
  const lettered = (at: number) => bars.every((bar) => isLegible(bar, at));
  const scale = !lettered(usual) && lettered(larger) ? larger : usual;
  const tiers = widthTiers(shape, bars);
  const figureHeight = height * scale + (tiers.above + tiers.below) * tierHeight + 7;
  const words = `Slot with its bars, ${scale >= 1 ? `${significant(scale)}:1` : `1:${significant(1 / scale)}`}`;
  const id = 'slot-figure';
  return sketchBlock({
    id,
    heading: words,
    section,
    width,
    figureHeight,
    notes: slotNotes(facts, shape, bars),
    draw: (middle, top) => {
      const base = top + tiers.above * tierHeight + 3 + height * scale;
      const place = straightPlace(shape, pitch, scale, [middle, base], { first: 1, count: 1 });
      const half = (pitch * scale) / 2;
      return drawSlot(id, facts, {
        shape,
        place,
        scale,
        bars,
        left: middle - half,
        right: middle + half,
        top: base - height * scale,
        bottom: base,
      });
    },
  });
}

/** The core's back is far thicker than what matters here: cut short. */
function trimmed(shape: SectionShape): SectionShape {
  const [first, last] = [shape.rows[0]!.from, shape.rows.at(-1)!.to];
  const back = 0.18 * (last - first);
  return {
    ...shape,
    ...(shape.innerEnd === 'gap' ? {} : { inner: first - back, innerEnd: 'break' }),
    ...(shape.outerEnd === 'gap' ? {} : { outer: last + back, outerEnd: 'break' }),
  };
}

/** The first of the slots with the most bars. */
function fullestSlot({ winding }: Facts, shape: SectionShape): number {
  let [best, most] = [1, -1];
  for (let slot = 1; slot <= winding.slots; slot++) {
    const count = shape.rows.reduce((sum, row) => sum + row.barsOf(slot).length, 0);
    if (count > most) [best, most] = [slot, count];
  }
  return best;
}

function sized({ specification }: Facts, bar: BarPlace): SlotBar {
  const [width, height] = [barWidth(specification, bar.layer), barHeight(specification, bar.layer)];
  const same = (figure: typeof width, drawn: number) =>
    figure.known && Math.abs(figure.value * millimeters - drawn) < 1e-6;
  return { ...bar, toScale: same(width, bar.width) && same(height, bar.to - bar.from) };
}

function isLegible({ from, to, width }: BarPlace, scale: number): boolean {
  return (to - from) * scale >= letterRoom[0] && width * scale >= letterRoom[1];
}

function drawSlot(id: string, facts: Facts, figure: SlotFigure): readonly Primitive[] {
  const { shape, place, scale, bars } = figure;
  const corner = barCorner(facts.specification);
  const coating = barCoating(facts.specification);
  const coat = coating.known ? coating.value * millimeters : 0;
  const outlines = (beyond: number): readonly PathPart[] =>
    bars.map((bar) => {
      const radius = bar.toScale && corner.known ? corner.value * millimeters + beyond : 0;
      return rounded(place, grown(bar, beyond), radius);
    });
  const core = drawCore(shape, place, '').map((item) => ({ ...item, id: `${id}-${item.id}` }));
  const legible = bars.filter((bar) => isLegible(bar, scale));
  return [
    ...core,
    filledShape(`${id}-bars`, 'bar-section', outlines(0)),
    ...(coat * scale >= 0.2 && bars.some(({ toScale }) => toScale)
      ? [pathShape(`${id}-coatings`, 'sketch-line', outlines(coat).map(closed))]
      : []),
    ...legible.map((bar) => {
      const [x, y] = place.at(0, 0, (bar.from + bar.to) / 2);
      return line(`${id}-layer-${layerLetter(bar.layer)}`, 'sheet-text', x, y + 0.9, layerLetter(bar.layer), {
        height: 1.8,
        anchor: 'middle',
      });
    }),
    ...drawSlotDimensions(id, figure),
  ];
}

function grown(bar: BarPlace, by: number): BarPlace {
  return { ...bar, width: bar.width + 2 * by, from: bar.from - by, to: bar.to + by };
}

function closed(part: PathPart): PathPart {
  return [...part, part[0]!, part[1]!];
}

/** The outline of a bar with rounded edges. */
function rounded({ at }: SectionPlace, { width, from, to }: BarPlace, radius: number): PathPart {
  const r = Math.min(radius, width / 2, (to - from) / 2);
  const steps = r > 0 ? 6 : 0;
  const corners = [
    { across: width / 2 - r, outwards: to - r, start: 90 },
    { across: width / 2 - r, outwards: from + r, start: 0 },
    { across: r - width / 2, outwards: from + r, start: -90 },
    { across: r - width / 2, outwards: to - r, start: -180 },
  ];
  return corners.flatMap(({ across, outwards, start }) =>
    Array.from({ length: steps + 1 }, (_, step) => {
      const turn = ((start - (steps === 0 ? 0 : (90 * step) / steps)) * Math.PI) / 180;
      return at(0, across + r * Math.cos(turn), outwards + r * Math.sin(turn));
    }).flat(),
  );
}

function slotNotes(facts: Facts, shape: SectionShape, bars: readonly SlotBar[]): readonly string[] {
  const { specification, winding } = facts;
  const size = (length: number) => significant(length, 4);
  const liners = [...new Set(shape.rows.map(({ liner }) => liner))].filter((each) => each > 0);
  const wedges = [...new Set(shape.rows.map(({ wedge }) => wedge))].filter((each) => each > 0);
  const separators = [
    ...new Set(specification.slots.flatMap((slot) => slot.separators.map(({ value }) => value.thickness))),
  ];
  const [corner, coating] = [barCorner(specification), barCoating(specification)];
  const scaled = bars.some(({ toScale }) => toScale);
  const strands = new Set(
    bars.map(({ layer }) => {
      const figure = barStrands(specification, layer);
      return figure.known ? figure.value : 1;
    }),
  );
  const parts = [
    ...(liners.length > 0 ? [`liner ${liners.map(size).join(', ')} mm on each wall`] : []),
    ...(wedges.length > 0 ? [`wedge ${wedges.map(size).join(', ')} mm high`] : []),
    ...(separators.length > 0
      ? [`separators ${separators.map((each) => size(each * millimeters)).join(', ')} mm between layers`]
      : []),
    ...(scaled && coating.known && coating.value > 0
      ? [`coating ${size(coating.value * millimeters)} mm on each face (thin outline)`]
      : []),
    ...(scaled && corner.known && corner.value > 0
      ? [`bar edges rounded by ${size(corner.value * millimeters)} mm`]
      : []),
    ...(strands.size > 1 || !strands.has(1) ? [`strands in a bar: ${[...strands].join(', ')}`] : []),
  ];
  const sentence = parts.join('; ');
  return [
    `Seen from the connection side${winding.lean.some((each) => each !== 0) ? ' at mid-stack' : ''}, axis below, gap drawn straight.`,
    ...(sentence === '' ? [] : [`${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`]),
    ...shape.notes,
  ];
}
