import {
  cutLine,
  type Overhang,
  type PlannedBus,
  type PlannedEnd,
  type PlannedPathEnd,
} from '../../views/layout/overhang.ts';
import type { LayoutScale } from '../../views/layout/scale.ts';
import type { Bar } from '../../winding/model.ts';

/** How the slots of a developed layout are broken into rows. */
export interface RowBreaks {
  readonly slots: number;
  /** Slots of a row; the last may have fewer. */
  readonly perRow: number;
  /** How many rows there are. */
  readonly rows: number;
}

/** The row, from 0, in which a slot stands. */
export function rowOfSlot({ perRow }: RowBreaks, slot: number): number {
  return Math.floor((slot - 1) / perRow);
}

/** First and last slot of a row. */
export function slotsOfRow(
  { perRow, slots }: RowBreaks,
  row: number,
): { readonly first: number; readonly last: number } {
  return { first: row * perRow + 1, last: Math.min(slots, (row + 1) * perRow) };
}

/** Stretches of a line in one row, x h x h ..., mm: x from the border before slot 1, h away from the stack's end. */
export interface RowPiece {
  /** From 0. */
  readonly row: number;
  readonly runs: readonly (readonly number[])[];
}

/** A place where a line leaves a row at one of its ends, and the label under which it goes on. */
export interface RowCut {
  /** From 0. */
  readonly row: number;
  readonly edge: 'left' | 'right';
  /** From the border before slot 1 of the whole layout, mm. */
  readonly x: number;
  /** Away from the stack's end, mm. */
  readonly height: number;
  readonly label: string;
}

/** A joint, coil end or line to a terminal or star point, broken into rows. */
export interface BrokenLine<T> {
  readonly line: T;
  readonly pieces: readonly RowPiece[];
  readonly cuts: readonly RowCut[];
}

/** Everything of one side's overhang, broken into rows. */
export interface BrokenOverhang {
  readonly overhang: Overhang;
  /** What is drawn in each row: joints and coil ends with their runs there. */
  readonly rows: readonly RowLines[];
  readonly buses: readonly {
    readonly bus: PlannedBus;
    readonly ends: readonly BrokenLine<PlannedPathEnd>[];
  }[];
}

/** The lines of one row. */
export interface RowLines {
  readonly ends: readonly { readonly line: PlannedEnd; readonly runs: RowPiece['runs'] }[];
  /** Runs of lines to terminals and star points. */
  readonly busRuns: RowPiece['runs'];
  readonly cuts: readonly RowCut[];
}

/** Breaks an overhang; `labelOf` names the cut ends of joints and coil ends. */
export function breakOverhang(
  overhang: Overhang,
  scale: LayoutScale,
  breaks: RowBreaks,
  labelOf: (end: PlannedEnd) => string,
): BrokenOverhang {
  const ends = overhang.ends.map((planned) => breakEnd(planned, scale, breaks, labelOf(planned)));
  const buses = overhang.buses.map((bus) => ({
    bus,
    ends: breakBus(bus, scale, breaks),
  }));
  return { overhang, buses, rows: linesByRow(breaks, ends, buses) };
}

function linesByRow(
  breaks: RowBreaks,
  ends: readonly BrokenLine<PlannedEnd>[],
  buses: BrokenOverhang['buses'],
): readonly RowLines[] {
  const rows = Array.from({ length: breaks.rows }, () => ({
    ends: [] as { line: PlannedEnd; runs: RowPiece['runs'] }[],
    busRuns: [] as (readonly number[])[],
    cuts: [] as RowCut[],
  }));
  for (const { line, pieces, cuts } of ends) {
    for (const { row, runs } of pieces) rows[row]!.ends.push({ line, runs });
    for (const cut of cuts) rows[cut.row]!.cuts.push(cut);
  }
  for (const { pieces, cuts } of buses.flatMap((bus) => bus.ends)) {
    for (const { row, runs } of pieces) rows[row]!.busRuns.push(...runs);
    for (const cut of cuts) rows[cut.row]!.cuts.push(cut);
  }
  return rows;
}

function breakEnd(
  planned: PlannedEnd,
  scale: LayoutScale,
  breaks: RowBreaks,
  label: string,
): BrokenLine<PlannedEnd> {
  const { end, runs, crossing } = planned;
  const rowOf = (bar: Bar) => rowOfSlot(breaks, bar.slot);
  if (crossing === null) {
    const parts = breakRun(runs[0]!, rowOf(end.from), rowOf(end.to), scale, breaks, label);
    return { line: planned, ...joined([parts]) };
  }
  const [before, after] = runs as readonly [readonly number[], readonly number[]];
  const upwards = before.at(-2)! > after[0]!;
  const [out, back] = upwards ? [breaks.rows - 1, 0] : [0, breaks.rows - 1];
  const wrap = (row: number, edge: RowCut['edge'], x: number): RowCut => ({
    row,
    edge,
    x,
    height: crossing.height,
    label,
  });
  return {
    line: planned,
    ...joined([
      breakRun(before, rowOf(end.from), out, scale, breaks, label),
      breakRun(after, back, rowOf(end.to), scale, breaks, label),
      {
        pieces: [],
        cuts: [wrap(breaks.rows - 1, 'right', crossing.right), wrap(0, 'left', crossing.left)],
      },
    ]),
  };
}

/**
 * The lines of path ends that meet. Within a row each goes to the one before it; from row to row one line
 * goes on, however leaning bars of both rows stand among each other, so that a name stands once at a border.
 */
function breakBus(
  bus: PlannedBus,
  scale: LayoutScale,
  breaks: RowBreaks,
): readonly BrokenLine<PlannedPathEnd>[] {
  // Beyond the cut edge rows, and places, are counted on.
  const rows = bus.ends.map(({ end, turn }) => rowOfSlot(breaks, end.bar.slot) + turn * breaks.rows);
  const taps = bus.ends.map(({ runs, turn }) => runs[0]![0]! + turn * scale.width);
  return bus.ends.map((planned, index) => {
    const run = planned.runs[0]!;
    if (index === 0) return { line: planned, pieces: [{ row: rows[0]!, runs: [run] }], cuts: [] };
    const next = nextOnBus(rows, index);
    const [tap, level] = [taps[index]!, run[3]!];
    const line = [tap, 0, tap, level, taps[next]!, level];
    return { line: planned, ...breakRun(line, rows[index]!, rows[next]!, scale, breaks, bus.name) };
  });
}

/**
 * The path end to which that of an index is led: the one before it in its row; for the first of a row one
 * of the next row towards the row of index 0, from which the line leaves.
 */
function nextOnBus(rows: readonly number[], index: number): number {
  const row = rows[index]!;
  const before = rows.lastIndexOf(row, index - 1);
  if (before >= 0) return before;
  const [way, nearest] = row > rows[0]! ? [-1, Math.max] : [1, Math.min];
  const between = rows.filter((other) => Math.sign(other - row) === way);
  const next = nearest(...between);
  return way < 0 ? rows.lastIndexOf(next) : rows.indexOf(next);
}

interface Broken {
  readonly pieces: readonly RowPiece[];
  readonly cuts: readonly RowCut[];
}

/** Pieces of one row are one: a line that goes all round comes back to the row it left. */
function joined(parts: readonly Broken[]): Broken {
  const byRow = new Map<number, (readonly number[])[]>();
  for (const { pieces } of parts)
    for (const { row, runs } of pieces) byRow.set(row, [...(byRow.get(row) ?? []), ...runs]);
  return {
    pieces: [...byRow].map(([row, runs]) => ({ row, runs })),
    cuts: parts.flatMap(({ cuts }) => cuts),
  };
}

/**
 * Cuts a run at the borders between two rows; where a leaning bar ends beyond a border, a little off it. Rows from
 * the number of rows on are those beyond the cut edge.
 */
function breakRun(
  run: readonly number[],
  from: number,
  to: number,
  scale: LayoutScale,
  breaks: RowBreaks,
  label: string,
): Broken {
  const turnOf = (row: number) => Math.floor(row / breaks.rows);
  const rowOf = (row: number) => row - turnOf(row) * breaks.rows;
  const xOf = (row: number, x: number) => x - turnOf(row) * scale.width;
  const pieceOf = (row: number, points: readonly number[]): RowPiece => ({
    row: rowOf(row),
    runs: [points.map((value, index) => (index % 2 === 0 ? xOf(row, value) : value))],
  });
  const [start, end] = [run[0]!, run.at(-2)!];
  if (from === to || start === end) return { pieces: [pieceOf(from, run)], cuts: [] };
  const way = Math.sign(to - from);
  // Between bars that lean past each other a line can run against the order of the rows.
  const along = Math.sign(end - start);
  const count = Math.abs(to - from);
  const margin = Math.min(1, (0.3 * Math.abs(end - start)) / count);
  const pieces: RowPiece[] = [];
  const cuts: RowCut[] = [];
  let rest = run;
  for (let step = 0; step < count; step++) {
    const row = from + way * step;
    const later = Math.max(row, row + way);
    const border = turnOf(later) * scale.width + rowOf(later) * breaks.perRow * scale.pitch - scale.cutInset;
    // Between the last cut and the end, with room for the cuts that follow.
    const [near, last] = [rest[0]! + along * margin, end - along * margin * (count - step)];
    const x = Math.max(Math.min(near, last), Math.min(border, Math.max(near, last)));
    const [before, after, height] = cutLine(rest, x);
    const cutOf = (side: number, edge: RowCut['edge']): RowCut => ({
      row: rowOf(side),
      edge,
      x: xOf(side, x),
      height,
      label,
    });
    pieces.push(pieceOf(row, before));
    cuts.push(cutOf(row, way > 0 ? 'right' : 'left'), cutOf(row + way, way > 0 ? 'left' : 'right'));
    rest = after;
  }
  pieces.push(pieceOf(to, rest));
  return { pieces, cuts };
}
