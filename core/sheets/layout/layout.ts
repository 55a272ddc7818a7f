import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { drawBars, drawStrip, type StackPlace, stripOf } from '../../views/layout/bars.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import type { Winding } from '../../winding/model.ts';
import type { Band, BandRow, Part } from '../page/flow.ts';
import { drawHeading, headingHeight } from '../page/table.ts';
import { slotsOfRow } from './rowCuts.ts';
import { drawCuts } from './rowNumbers.ts';
import type { LayoutBand, RowPlace } from './rowPlace.ts';
import { drawSide } from './rowSide.ts';
import {
  type BrokenLayout,
  brokenLayout,
  captionHeight,
  numbersStart,
  overhangs,
  rowHeight,
  rowNames,
} from './scale.ts';

/** Rows of a layout with the heading above the first. Each bar is drawn in the row of its slot, once. */
export function layoutBand(band: LayoutBand): Band {
  const { input, plan, section } = band;
  const layout = brokenLayout(input, plan);
  const height = rowHeight(plan.scale, overhangs(input, plan.scale, plan.rise));
  const start = numbersStart(plan, layout);
  const part = (row: number, heading: string | null): Part => {
    const head = heading === null ? 0 : headingHeight;
    return {
      height: head + height,
      draw: (left, top) => [
        ...(heading === null ? [] : drawHeading(`${band.id}-heading-${row}`, heading, left, top)),
        ...drawRow(band, layout, row, start, left, top + head),
      ],
    };
  };
  const rows = Array.from({ length: plan.breaks.rows }, (_, row): BandRow => {
    const continued = part(row, `${band.heading}, continued`);
    return { ...part(row, row === 0 ? band.heading : null), continued };
  });
  return { section, rows };
}

/** The layout of one phase alone. */
export function phaseAlone(input: LayoutInput, phase: number): LayoutInput {
  return {
    ...input,
    winding: phaseWinding(input.winding, phase),
    ends: input.ends.filter((end) => end.phase === phase),
    leads: input.leads.filter((lead) => lead.phase === phase),
    starPoints: input.starPoints.map(({ name, ends }) => ({
      name,
      ends: ends.filter((end) => end.phase === phase),
    })),
  };
}

function phaseWinding(winding: Winding, phase: number): Winding {
  const cells = winding.table.cells.map((cell) => (Math.abs(cell) === phase + 1 ? cell : 0));
  return { ...winding, table: { ...winding.table, cells } };
}

function drawRow(
  band: LayoutBand,
  layout: BrokenLayout,
  row: number,
  start: number,
  left: number,
  top: number,
): readonly Primitive[] {
  const { input, plan, width, id } = band;
  const { scale, breaks } = plan;
  const range = slotsOfRow(breaks, row);
  // All rows begin at the same place, so that the last, shorter one stands under the others.
  const from = left + (width - breaks.perRow * scale.pitch) / 2;
  const stackTop = top + captionHeight + layout.connection.overhang.height;
  const stack: StackPlace = {
    left: from - (range.first - 1) * scale.pitch,
    top: stackTop,
    bottom: stackTop + scale.stack,
    range,
  };
  const to = from + (range.last - range.first + 1) * scale.pitch;
  const place: RowPlace = { band, layout, row, stack, from, to, numbersStart: start };
  const { bars, labels } = drawBars(input, scale, stack);
  const items = [
    ...drawCaption(place, top),
    ...drawSurroundings(place),
    ...drawStripOfRow(place),
    ...drawSide(place, layout.connection),
    ...drawSide(place, layout.far),
    ...bars.filter(drawsSomething),
    ...labels,
    ...drawCuts(place, layout.connection),
    ...drawCuts(place, layout.far),
    ...drawPoles(place, stack.bottom + layout.far.overhang.height + 1 + textRow + 1),
  ];
  return items.map((item) => ({ ...item, id: `${id}-${row + 1}-${item.id}` }));
}

function drawsSomething(item: Primitive): boolean {
  return item.kind !== 'path' || item.parts.length > 0;
}

function drawCaption({ band, layout, row, stack, from, to }: RowPlace, top: number): readonly Primitive[] {
  const { breaks } = band.plan;
  const { first, last } = slotsOfRow(breaks, row);
  const farTop = stack.bottom + layout.far.overhang.height + 1;
  const name = `row ${row + 1} of ${breaks.rows}: slots ${first} to ${last}`;
  // Of a last row that is short the caption reaches beyond its end.
  const nameEnd = from + textWidth(`connection side${name}`, textSize) + 4;
  return [
    text('side-connection', 'side-name', from, top + baseLine, 'connection side'),
    text('side-far', 'side-name', from, farTop + baseLine, 'far side'),
    ...(breaks.rows > 1
      ? [text('row', 'subtitle', Math.max(to, nameEnd), top + baseLine, name, { anchor: 'end' })]
      : []),
  ];
}

/** Ends of the stack, cut edges, pole borders. */
function drawSurroundings({ band, layout, stack, from, to }: RowPlace): readonly Primitive[] {
  const { scale } = band.plan;
  const strip = stripOf(scale, stack);
  const { top, bottom } = stack;
  const [first, last] = [from - scale.cutInset, to - scale.cutInset];
  const reach = { up: layout.connection.overhang.crowns + 1, down: layout.far.overhang.crowns + 1 };
  const borders = poleBorders(band.input.winding, band.plan.scale.pitch)
    .map((x) => x + stack.left)
    .filter((x) => x > from + 0.1 && x < to - 0.1)
    .flatMap((x): PathPart[] => [
      [x, top, x, strip.top],
      [x, strip.bottom, x, bottom],
    ]);
  return [
    ...(borders.length > 0 ? [pathShape('pole-borders', 'pole-border', borders)] : []),
    pathShape(
      'cut-edges',
      'cut-edge',
      // Not through the strip: the last slot's labels may reach over it.
      [first, last].flatMap((x) => [
        [x, top - reach.up, x, strip.top],
        [x, strip.bottom, x, bottom + reach.down],
      ]),
    ),
    pathShape(
      'core-ends',
      'core-end',
      [top, bottom].map((y) => [first, y, last, y]),
    ),
  ];
}

/** Places of the borders between poles, and of both ends, from the border before slot 1. */
function poleBorders({ slots, poles }: Winding, pitch: number): readonly number[] {
  return Array.from({ length: poles + 1 }, (_, pole) => (pole * slots * pitch) / poles);
}

function drawStripOfRow({ band, stack, from }: RowPlace): readonly Primitive[] {
  const { scale } = band.plan;
  const strip = stripOf(scale, stack);
  const right = from - scale.cutInset - 0.8;
  return [
    ...rowNames.map((name, index) =>
      text(`row-${name}`, 'row-name', right, strip.top + 0.5 + index * textRow + baseLine, name, {
        anchor: 'end',
      }),
    ),
    ...drawStrip(band.input, scale, stack),
  ];
}

/** The poles of a row as a scale of blocks, filled and open in turn, with their numbers as far as these fit. */
function drawPoles(place: RowPlace, top: number): readonly Primitive[] {
  const { band, stack, from, to } = place;
  const borders = poleBorders(band.input.winding, band.plan.scale.pitch).map((x) => x + stack.left);
  const blocks: PathPart[] = [];
  const names: Primitive[] = [];
  let lastEnd = Number.NEGATIVE_INFINITY;
  for (let pole = 1; pole < borders.length; pole++) {
    const [left, right] = [Math.max(from, borders[pole - 1]!), Math.min(to, borders[pole]!)];
    if (right - left < 0.05) continue;
    if (pole % 2 === 1) blocks.push([left, top, right, top, right, top + 1.8, left, top + 1.8]);
    const long = `pole ${pole}`;
    const name = textWidth(long, textSize) + 1 <= right - left ? long : String(pole);
    const half = textWidth(name, textSize) / 2;
    const x = (left + right) / 2;
    if (x - half < lastEnd + 1) continue;
    lastEnd = x + half;
    const y = top + 2.4 + baseLine;
    names.push(text(`pole-${pole}`, 'pole-number', x, y, name, { anchor: 'middle', subject: { pole } }));
  }
  const outline = [from, top, to, top, to, top + 1.8, from, top + 1.8, from, top];
  return [
    ...(blocks.length > 0 ? [filledShape('pole-blocks', 'pole-block', blocks)] : []),
    pathShape('pole-outline', 'pole-block', [outline]),
    ...names,
  ];
}
