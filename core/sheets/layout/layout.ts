import { inEnglish } from '../../figures/speech.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, text, textRow, textSize } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import { drawBars, drawStrip, type StackPlace } from '../../views/layout/bars.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import { drawFrame, drawPoleScale, drawRowNames } from '../../views/layout/surroundings.ts';
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
  const below = stack.bottom + layout.far.overhang.height;
  const items = [
    ...drawCaption(place, top),
    ...drawFrame(input, scale, stack, place, {
      connection: layout.connection.overhang.crowns + 1,
      far: layout.far.overhang.crowns + 1,
    }),
    ...drawRowNames(scale, stack, from, inEnglish),
    ...drawStrip(input, scale, stack),
    ...drawSide(place, layout.connection),
    ...drawSide(place, layout.far),
    ...bars.filter(drawsSomething),
    ...labels,
    ...drawCuts(place, layout.connection),
    ...drawCuts(place, layout.far),
    ...drawPoleScale(input, scale, stack, place, below + 1 + textRow + 1, inEnglish),
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
