import { barName, type Winding } from '../winding/model.ts';
import { arrangeCutNumbers, fan } from './cutNumbers.ts';
import { textWidth } from './fontMetrics.ts';
import { drawBars, drawStrip, type StackPlace, stripOf } from './layoutBars.ts';
import type { DrawnEnd, LayoutInput } from './layoutInput.ts';
import { spread } from './levels.ts';
import { baseLine, pathShape, text, textRow, textSize } from './make.ts';
import type { PlannedBus, PlannedEnd } from './overhang.ts';
import type { PathPart, Primitive, Role, Subject } from './picture.ts';
import type { Band, Part } from './sheetFlow.ts';
import {
  type BrokenLayout,
  brokenLayout,
  captionHeight,
  cutRoom,
  cutsOf,
  numbersStart,
  overhangs,
  type RowPlan,
  rowHeight,
  rowNames,
  sortedCuts,
} from './sheetLayoutScale.ts';
import { type BrokenOverhang, rowOfSlot, slotsOfRow } from './sheetRowCuts.ts';
import { drawHeading, headingHeight } from './sheetTable.ts';

/** One layout as rows on sheets. */
export interface LayoutBand {
  readonly input: LayoutInput;
  readonly plan: RowPlan;
  /** Unique in the set. */
  readonly id: string;
  readonly section: string;
  readonly heading: string;
  /** Width of the sheets' free area, in which rows are centered. */
  readonly width: number;
}

/** Rows of a layout with the heading above the first. Each bar is drawn in the row of its slot, once. */
export function layoutBand(band: LayoutBand): Band {
  const { input, plan, section } = band;
  const layout = brokenLayout(input, plan);
  const height = rowHeight(plan.scale, overhangs(input, plan.scale, plan.rise));
  const start = numbersStart(plan, layout);
  const rows = Array.from({ length: plan.breaks.rows }, (_, row): Part => {
    const head = row === 0 ? headingHeight : 0;
    return {
      height: head + height,
      draw: (left, top) => [
        ...(row === 0 ? drawHeading(`${band.id}-heading`, band.heading, left, top) : []),
        ...drawRow(band, layout, row, start, left, top + head),
      ],
    };
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

/** Where a row lies on the sheet, and what is drawn in it. */
interface RowPlace {
  readonly band: LayoutBand;
  readonly layout: BrokenLayout;
  readonly row: number;
  readonly stack: StackPlace;
  /** The row's ends on paper. */
  readonly from: number;
  readonly to: number;
  /** Cut numbers begin this far from the row's ends. */
  readonly numbersStart: number;
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
    ...(breaks.rows > 1 ? [text('row', 'subtitle', Math.max(to, nameEnd), top + baseLine, name, 'end')] : []),
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
      text(`row-${name}`, 'row-name', right, strip.top + 0.5 + index * textRow + baseLine, name, 'end'),
    ),
    ...drawStrip(band.input, scale, stack),
  ];
}

type OnPaper = (run: readonly number[]) => readonly number[];

function toPaper({ stack }: RowPlace, { overhang }: BrokenOverhang): OnPaper {
  const far = overhang.side === 'far';
  const base = far ? stack.bottom : stack.top;
  const way = far ? 1 : -1;
  return (run) => run.map((value, index) => (index % 2 === 0 ? value + stack.left : base + way * value));
}

/** The joints, coil ends, leads and star points of one side in a row. */
function drawSide(place: RowPlace, side: BrokenOverhang): readonly Primitive[] {
  const onPaper = toPaper(place, side);
  const items: Primitive[] = [];
  for (const { line, runs } of side.rows[place.row]!.ends) items.push(drawEnd(line, runs.map(onPaper)));
  const names = terminalNames(place, side);
  for (const { bus, ends } of side.buses) {
    const dots: PathPart[] = [];
    for (const { line, pieces } of ends) {
      const runs = pieces.filter(({ row }) => row === place.row).flatMap((piece) => piece.runs);
      if (runs.length === 0) continue;
      const own = rowOfSlot(place.band.plan.breaks, line.end.bar.slot) === place.row;
      if (own) dots.push(...dotParts(onPaper(line.dots)));
      const nameX = names.get(bus);
      const moved = nameX === undefined ? runs : runs.map((run) => leadTo(run, bus, nameX));
      items.push(drawPathEnd(bus, line.end, moved.map(onPaper)));
    }
    if (dots.length > 0)
      items.push(pathShape(`junctions-${bus.name}-${side.overhang.side}`, 'junction', dots, {}, true));
    items.push(...drawBusName(place, side, bus, names.get(bus), onPaper));
  }
  return items;
}

function drawEnd({ end, level }: PlannedEnd, parts: readonly PathPart[]): Primitive {
  const { phase, path, source } = end;
  const coil = `${barName(end.from)}-${barName(end.to)}`;
  const subject: Subject = end.number === undefined ? { coil } : { joint: end.number };
  const id = end.number === undefined ? `coil-${end.side}-${coil}` : `joint-${end.number}`;
  return pathShape(id, roleOfEnd(end, level), parts, { subject, phase, path, source });
}

function roleOfEnd(end: DrawnEnd, level: boolean): Role {
  if (level) return 'connecting-piece';
  if (end.kind === 'coil-end') return 'coil-end';
  return end.kind === 'regular' ? 'joint' : 'special-joint';
}

function drawPathEnd(
  { name, star }: PlannedBus,
  end: PlannedBus['ends'][number]['end'],
  parts: readonly PathPart[],
): Primitive {
  const { phase, path, source, number } = end;
  const numbered = number === undefined ? {} : { joint: number };
  const subject: Subject = star ? { star: name, ...numbered } : { terminal: name, ...numbered };
  const id = `${star ? 'star' : 'lead'}-${name}-${barName(end.bar)}-${end.side}`;
  return pathShape(id, star ? 'star-point' : 'lead', parts, { subject, phase, path, source });
}

/** Places of the terminals' names of a row, apart from each other and within the row. */
function terminalNames(place: RowPlace, { buses }: BrokenOverhang): ReadonlyMap<PlannedBus, number> {
  const { scale, breaks } = place.band.plan;
  const own = buses
    .filter(({ bus }) => !bus.star && rowOfSlot(breaks, bus.ends[0]!.end.bar.slot) === place.row)
    .map(({ bus }) => bus)
    .sort((one, other) => one.ends[0]!.runs[0]![0]! - other.ends[0]!.runs[0]![0]!);
  const { first, last } = slotsOfRow(breaks, place.row);
  const gap = Math.max(0, ...own.map(({ name }) => textWidth(name, textSize))) + 1.2;
  const places = spread(
    own.map(({ ends }) => ends[0]!.runs[0]![0]!),
    gap,
    (first - 1) * scale.pitch + gap / 2,
    last * scale.pitch - gap / 2,
  );
  return new Map(own.map((bus, index) => [bus, places[index]!]));
}

/** The first line of a terminal, led to where its name stands. Lines of other bars end below. */
function leadTo(run: readonly number[], bus: PlannedBus, nameX: number): readonly number[] {
  const top = run.at(-1)!;
  const [first, start] = run as [number, number];
  if (Math.abs(top - (bus.nameHeight - 0.4)) > 1e-6 || start !== 0) return run;
  return Math.abs(nameX - first) < 1e-9 ? [first, 0, first, top] : [first, 0, first, top - 3, nameX, top];
}

function drawBusName(
  place: RowPlace,
  { overhang, buses }: BrokenOverhang,
  bus: PlannedBus,
  terminalX: number | undefined,
  onPaper: OnPaper,
): readonly Primitive[] {
  const x = bus.star ? starNameX(place, buses, bus) : terminalX;
  if (x === undefined) return [];
  const [nameX, nameY] = onPaper([x, bus.nameHeight]) as [number, number];
  const base = overhang.side === 'far' ? nameY + baseLine : nameY - (textRow - baseLine);
  return [text(`name-${bus.name}-${overhang.side}`, 'terminal-name', nameX, base, bus.name, 'middle')];
}

/** A star point's name stands on its line in each row, where no lead passes; undefined where there is no room. */
function starNameX(place: RowPlace, buses: BrokenOverhang['buses'], bus: PlannedBus): number | undefined {
  const { row, band } = place;
  const { first, last } = slotsOfRow(band.plan.breaks, row);
  const half = textWidth(bus.name, textSize) / 2 + 0.6;
  const broken = buses.find((other) => other.bus === bus)!;
  const level = bus.nameHeight - 0.5;
  const stretches = broken.ends.flatMap(({ pieces }) =>
    pieces
      .filter((piece) => piece.row === row)
      .flatMap(({ runs }) => runs.flatMap((run) => onLevel(run, level))),
  );
  const low = Math.max((first - 1) * band.plan.scale.pitch, Math.min(...stretches)) + half;
  const high = Math.min(last * band.plan.scale.pitch, Math.max(...stretches)) - half;
  const risers = buses
    .filter(({ bus: other }) => other.nameHeight > bus.nameHeight)
    .flatMap(({ bus: other }) =>
      other.star ? other.ends.map(({ runs }) => runs[0]![0]!) : [other.ends[0]!.runs[0]![0]!],
    );
  for (let x = high; x >= low; x -= 0.5) if (risers.every((riser) => Math.abs(riser - x) > half)) return x;
  const starts = broken.ends.some(({ line }) => rowOfSlot(band.plan.breaks, line.end.bar.slot) === row);
  return stretches.length > 0 && starts && bus.ends.length === 1 ? stretches[0] : undefined;
}

/** The x of those points of a run that lie on a level. */
function onLevel(run: readonly number[], level: number): readonly number[] {
  const found: number[] = [];
  for (let index = 0; index < run.length; index += 2)
    if (Math.abs(run[index + 1]! - level) < 1e-6) found.push(run[index]!);
  return found;
}

/** Small squares where lines are joined. */
function dotParts(places: readonly number[]): readonly PathPart[] {
  const half = 0.45;
  return Array.from({ length: places.length / 2 }, (_, index) => {
    const [x, y] = [places[2 * index]!, places[2 * index + 1]!];
    return [x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half];
  });
}

/** Numbers and names under which lines go on in the next row, or at the other cut edge. */
function drawCuts(place: RowPlace, side: BrokenOverhang): readonly Primitive[] {
  const { scale } = place.band.plan;
  const far = side.overhang.side === 'far';
  const base = far ? place.stack.bottom : place.stack.top;
  const way = far ? 1 : -1;
  const [outer, inner] = cutRoom(side, scale);
  const range: [number, number] = far ? [base - inner, base - outer] : [base + outer, base + inner];
  return (['left', 'right'] as const).flatMap((edge) => {
    const cuts = sortedCuts(cutsOf(side, place.row, edge))
      .map(({ number, cut }) => ({ number, cut, y: base + way * cut.height }))
      .sort((one, other) => one.y - other.y || one.cut.x - other.cut.x);
    const arranged = arrangeCutNumbers(cuts, ...range);
    const outwards = edge === 'left' ? -1 : 1;
    const start = (edge === 'left' ? place.from : place.to) + outwards * place.numbersStart;
    const byNumber = new Map(cuts.map((each) => [each.number, each]));
    const leaders: PathPart[] = [];
    const names = arranged.numbered.map(({ cut: { number }, shelf, column }): Primitive => {
      const { cut, y } = byNumber.get(number)!;
      const near = fan + column * arranged.columnWidth;
      const end = start + outwards * (near + arranged.columnWidth - 0.4);
      leaders.push([
        cut.x + place.stack.left,
        y,
        start + outwards * 0.8,
        y,
        start + outwards * (fan - 0.4),
        shelf,
        end,
        shelf,
      ]);
      const x = start + outwards * (near + arranged.columnWidth / 2 - 0.4);
      const id = `cut-${edge}-${side.overhang.side}-${number}`;
      return text(id, 'cut-number', x, shelf - textRow + baseLine - 0.12, number, 'middle');
    });
    const id = `cut-leaders-${edge}-${side.overhang.side}`;
    return leaders.length === 0 ? [] : [pathShape(id, 'cut-leader', leaders), ...names];
  });
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
    names.push(text(`pole-${pole}`, 'pole-number', x, y, name, 'middle', textSize, { subject: { pole } }));
  }
  const outline = [from, top, to, top, to, top + 1.8, from, top + 1.8, from, top];
  return [
    ...(blocks.length > 0 ? [pathShape('pole-blocks', 'pole-block', blocks, {}, true)] : []),
    pathShape('pole-outline', 'pole-block', [outline]),
    ...names,
  ];
}
