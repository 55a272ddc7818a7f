import { textWidth } from '../../picture/fontMetrics.ts';
import { textSize } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import {
  busName,
  endShape,
  junctionShapes,
  type OnPaper,
  overhangOnPaper,
  pathEndShape,
} from '../../views/layout/ends.ts';
import { type Stretch, spread } from '../../views/layout/levels.ts';
import { nameGap, type PlannedBus, riseTo } from '../../views/layout/overhang.ts';
import { type BrokenOverhang, rowOfSlot, slotsOfRow } from './rowCuts.ts';
import type { RowPlace } from './rowPlace.ts';

/** The joints, coil ends, leads and star points of one side in a row. */
export function drawSide(place: RowPlace, side: BrokenOverhang): readonly Primitive[] {
  const onPaper = overhangOnPaper(place.stack, side.overhang.side);
  const items: Primitive[] = [];
  for (const { line, runs } of side.rows[place.row]!.ends) items.push(endShape(line, runs.map(onPaper)));
  const names = terminalNames(place, side);
  for (const { bus, ends } of side.buses) {
    const dots: number[] = [];
    for (const { line, pieces } of ends) {
      const runs = pieces.filter(({ row }) => row === place.row).flatMap((piece) => piece.runs);
      if (runs.length === 0) continue;
      const own = rowOfSlot(place.band.plan.breaks, line.end.bar.slot) === place.row;
      if (own) dots.push(...onPaper(line.dots));
      const nameX = names.get(bus);
      const moved = nameX === undefined ? runs : runs.map((run) => leadTo(run, bus, nameX));
      items.push(pathEndShape(bus, line.end, moved.map(onPaper)));
    }
    items.push(
      ...junctionShapes(bus, side.overhang.side, dots),
      ...drawBusName(place, side, bus, names.get(bus), onPaper),
    );
  }
  return items;
}

/** Places of the terminals' names of a row, apart from each other and within the row. */
function terminalNames(place: RowPlace, { buses }: BrokenOverhang): ReadonlyMap<PlannedBus, number> {
  const { scale, breaks } = place.band.plan;
  const own = buses
    .filter(({ bus }) => !bus.star && rowOfSlot(breaks, bus.ends[0]!.end.bar.slot) === place.row)
    .map(({ bus }) => bus)
    .sort((one, other) => one.ends[0]!.runs[0]![0]! - other.ends[0]!.runs[0]![0]!);
  const { first, last } = slotsOfRow(breaks, place.row);
  const gap = nameGap(own);
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
  return [first, 0, ...riseTo(first, nameX, top)];
}

function drawBusName(
  place: RowPlace,
  { overhang, buses }: BrokenOverhang,
  bus: PlannedBus,
  terminalX: number | undefined,
  onPaper: OnPaper,
): readonly Primitive[] {
  const x = bus.star ? starNameX(place, buses, bus) : terminalX;
  return x === undefined ? [] : [busName(bus, x, overhang.side, onPaper)];
}

/** A star point's name stands on its line in each row, where no lead passes; undefined where there is no room. */
function starNameX(place: RowPlace, buses: BrokenOverhang['buses'], bus: PlannedBus): number | undefined {
  const { row, band } = place;
  const { first, last } = slotsOfRow(band.plan.breaks, row);
  const half = textWidth(bus.name, textSize) / 2 + 0.6;
  const broken = buses.find((other) => other.bus === bus)!;
  const level = bus.nameHeight - 0.5;
  const stretches = unbroken(
    broken.ends.flatMap(({ pieces }) =>
      pieces
        .filter((piece) => piece.row === row)
        .flatMap(({ runs }) => runs.flatMap((run) => onLevel(run, level))),
    ),
  );
  const risers = buses
    .filter(({ bus: other }) => other.nameHeight > bus.nameHeight)
    .flatMap(({ bus: other }) =>
      other.star ? other.ends.map(({ runs }) => runs[0]![0]!) : [other.ends[0]!.runs[0]![0]!],
    );
  for (const { from, to } of stretches) {
    const low = Math.max((first - 1) * band.plan.scale.pitch, from) + half;
    const high = Math.min(last * band.plan.scale.pitch, to) - half;
    for (let x = high; x >= low; x -= 0.5) if (risers.every((riser) => Math.abs(riser - x) > half)) return x;
  }
  const starts = broken.ends.some(({ line }) => rowOfSlot(band.plan.breaks, line.end.bar.slot) === row);
  return starts && bus.ends.length === 1 ? stretches[0]?.from : undefined;
}

/** What of a run lies on a level; none where nothing does. */
function onLevel(run: readonly number[], level: number): readonly Stretch[] {
  const found: number[] = [];
  for (let index = 0; index < run.length; index += 2)
    if (Math.abs(run[index + 1]! - level) < 1e-6) found.push(run[index]!);
  return found.length === 0 ? [] : [{ from: Math.min(...found), to: Math.max(...found) }];
}

/** Stretches that meet as one, from the right. */
function unbroken(stretches: readonly Stretch[]): readonly Stretch[] {
  const whole: Stretch[] = [];
  for (const stretch of [...stretches].sort((one, other) => other.to - one.to)) {
    const last = whole.at(-1);
    if (last && stretch.to > last.from - 1e-6)
      whole[whole.length - 1] = { from: Math.min(last.from, stretch.from), to: last.to };
    else whole.push(stretch);
  }
  return whole;
}
