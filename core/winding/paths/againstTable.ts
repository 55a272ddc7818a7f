import { type Finding, type Fix, finding, type Range } from '../../language/finding.ts';
import type { ConnectSpecification } from '../../language/specification/specification.ts';
import type { Given, PathCopy } from '../../language/specification/statements.ts';
import {
  type Bar,
  barName,
  cellAt,
  type PhaseSystem,
  placeName,
  type SlotTable,
  typedSigns,
} from '../model.ts';
import {
  type BarUse,
  barOf,
  barsLaidWith,
  byStatement,
  distinctPlaces,
  laidBy,
  namedBars,
  rangeOfUses,
  reportRepeatedBars,
} from './clashes.ts';
import { barUnused, layoutAgainstPaths, senseAgainstTable } from './pathFindingKinds.ts';
import { walkedCell } from './pathTable.ts';
import { movedBars, pathName, type SourcedPath } from './writtenPaths.ts';

/** Findings say `nothing` of an empty place. */
const signs = { ...typedSigns, empty: 'nothing' };

/** Written paths beside a layout that is given too. */
export interface PathsAndTable {
  readonly paths: readonly SourcedPath[];
  readonly connect: ConnectSpecification;
  readonly table: SlotTable;
  readonly phases: PhaseSystem;
  /** Where the text lays a bar. */
  readonly place: (bar: Bar) => Range;
}

/**
 * Findings where written paths and the layout disagree, at both places, for bars that two paths use, and
 * for bars no path uses: one for each statement that is wrong, not one for each bar.
 */
export function compareWithTable(both: PathsAndTable, findings: Finding[]): void {
  const { paths, table, phases, place } = both;
  const wrong = new Map(paths.map((sourced) => [sourced, disagreements(sourced, table)] as const));
  // Where a written path is wrong its copies are too: that is one mistake.
  const uses = paths.flatMap((sourced) =>
    [...wrong.get(sourced)!]
      .filter((at) => !(sourced.source && wrong.get(sourced.source)?.has(at)))
      .map((at): BarUse => ({ sourced, at })),
  );
  for (const group of byStatement(uses, (use) => use)) findings.push(disagreementFinding(group, both));
  if (uses.length > 0) {
    const all = paths.flatMap((sourced) => [...wrong.get(sourced)!].map((at) => ({ sourced, at })));
    const data = { bars: namedBars(all.map(barOf)), count: all.length };
    const related = distinctPlaces(
      all.map((use) => ({
        message: `passed otherwise: ${barName(barOf(use))}`,
        range: use.sourced.steps[use.at]!,
      })),
    );
    findings.push(finding(layoutAgainstPaths, place(barOf(uses[0]!)), data, { related }));
  }
  // A path that leaves its bars for others' has been told already.
  const before = findings.length;
  reportRepeatedBars(
    paths.filter((sourced) => wrong.get(sourced)!.size === 0),
    phases,
    findings,
  );
  reportUnused(both, uses.length > 0 || findings.length > before, findings);
}

/** The places of a path whose bars the layout has otherwise. */
function disagreements({ path }: SourcedPath, table: SlotTable): ReadonlySet<number> {
  const places = new Set<number>();
  for (let at = 0; at < path.bars.length; at++) {
    const { slot, layer } = path.bars[at]!;
    if (walkedCell(path, at) !== cellAt(table, slot, layer)) places.add(at);
  }
  return places;
}

function disagreementFinding(uses: readonly BarUse[], both: PathsAndTable): Finding {
  const { paths, connect, table, phases, place } = both;
  const first = uses[0]!;
  const { sourced } = first;
  const cells = uses.map((use) => {
    const bar = barOf(use);
    return {
      bar,
      laid: cellAt(table, bar.slot, bar.layer),
      walked: walkedCell(use.sourced.path, use.at),
    };
  });
  const total = barsLaidWith(sourced, paths);
  const copy = connect.copies.find(({ statement }) => statement.start === sourced.statement.start);
  const fit = copy && uses.length > 1 ? fittingShift(copy, paths, both) : null;
  const { bar, laid } = cells[0]!;
  const data = {
    path: uses.length === 1 ? `path ${pathName(sourced.path, phases)}` : laidBy(sourced, phases),
    bars: namedBars(cells.map((cell) => cell.bar)),
    places: cells.map((cell) => ({
      bar: barName(cell.bar),
      walked: placeName(cell.walked, phases, signs),
      table: placeName(cell.laid, phases, signs),
    })),
    total,
    cause: uses.length === total && total > 1 ? causeOf(cells, sourced.path.phase, phases) : null,
    fit,
  };
  const related = [
    { message: `the layout has ${placeName(laid, phases, signs)} at ${barName(bar)}`, range: place(bar) },
    ...distinctPlaces(
      uses.map((use) => ({ message: 'otherwise here too', range: use.sourced.steps[use.at]! })),
    ).slice(1),
  ];
  const fix: Fix | null =
    copy && fit !== null
      ? { title: `Write 'shift ${fit}'`, edits: [{ range: copy.value.shift.range, text: String(fit) }] }
      : null;
  return finding(senseAgainstTable, rangeOfUses(uses, uses.length === total), data, {
    related,
    ...(fix ? { fix } : {}),
  });
}

/** Whose bars all the bars of a statement are, where they are those of one phase. */
function causeOf(
  cells: readonly { readonly laid: number; readonly walked: number }[],
  own: number,
  phases: PhaseSystem,
): { readonly phase: string; readonly own: boolean; readonly opposite: boolean } | null {
  const phase = Math.abs(cells[0]!.laid) - 1;
  const senses = new Set(cells.map(({ laid, walked }) => Math.sign(laid * walked)));
  if (phase < 0 || cells.some(({ laid }) => Math.abs(laid) - 1 !== phase)) return null;
  return { phase: phases.names[phase]!, own: phase === own, opposite: senses.size === 1 && senses.has(-1) };
}

/** The shift nearest to the written one that lays all bars of a copy where the layout has its phase. */
function fittingShift(
  { value }: Given<PathCopy>,
  paths: readonly SourcedPath[],
  { table, phases }: PathsAndTable,
): number | null {
  const sources = paths.filter(
    ({ path, source }) => source === null && phases.names[path.phase] === value.phase.value,
  );
  const target = phases.names.indexOf(value.as.value);
  const fits = (shift: number) =>
    sources.every(({ path }) => {
      const moved = { ...path, phase: target };
      return path.bars.every((bar, at) => {
        const [{ slot, layer }] = movedBars([bar], shift, table.slots) as [Bar];
        return walkedCell(moved, at) === cellAt(table, slot, layer);
      });
    });
  for (let apart = 1; apart <= table.slots / 2; apart++) {
    for (const shift of [value.shift.value - apart, value.shift.value + apart]) {
      if (shift !== 0 && Math.abs(shift) < table.slots && fits(shift)) return shift;
    }
  }
  return null;
}

/** Findings for bars no path uses: at the path that came out short, else at the connect block. */
function reportUnused(both: PathsAndTable, otherwiseWrong: boolean, findings: Finding[]): void {
  const { paths, connect, table, phases } = both;
  const unused = unusedBars(both);
  if (unused.length === 0) return;
  const shortOfPhase = phases.names.map((_, phase) => shortPath(phase, both));
  const groups = new Map<SourcedPath | null, Bar[]>();
  for (const bar of unused) {
    const short = shortOfPhase[Math.abs(cellAt(table, bar.slot, bar.layer)) - 1] ?? null;
    const bars = groups.get(short) ?? [];
    bars.push(bar);
    groups.set(short, bars);
  }
  for (const [short, bars] of groups) {
    if (!short && otherwiseWrong) continue;
    const pathless = phases.names.filter(
      (_, phase) =>
        !paths.some(({ path }) => path.phase === phase) &&
        bars.some(({ slot, layer }) => Math.abs(cellAt(table, slot, layer)) - 1 === phase),
    );
    const data = {
      bars: namedBars(bars),
      count: bars.length,
      short: short && {
        path: pathName(short.path, phases),
        bars: short.path.bars.length,
        share: evenShare(short.path.phase, both),
        copied: paths.some(({ source }) => source === short),
      },
      pathless,
    };
    findings.push(finding(barUnused, short?.statement ?? connect.range, data));
  }
}

/** The bars of the table that no path passes, layer by layer. */
function unusedBars({ paths, table: { slots, cells } }: PathsAndTable): readonly Bar[] {
  const used = new Uint8Array(cells.length);
  for (const { path } of paths) for (const { slot, layer } of path.bars) used[layer * slots + slot - 1] = 1;
  const bars: Bar[] = [];
  for (let place = 0; place < cells.length; place++)
    if (cells[place] !== 0 && used[place] === 0)
      bars.push({ slot: (place % slots) + 1, layer: Math.floor(place / slots) });
  return bars;
}

/** Bars of a phase for each of its paths. */
function evenShare(phase: number, { paths, table }: PathsAndTable): number {
  const bars = table.cells.filter((cell) => Math.abs(cell) - 1 === phase).length;
  return bars / paths.filter(({ path }) => path.phase === phase).length;
}

/** The written path with the fewest bars of a phase, where they are fewer than an even share. */
function shortPath(phase: number, both: PathsAndTable): SourcedPath | null {
  const own = both.paths.filter(({ path }) => path.phase === phase);
  const [shortest] = [...own].sort((a, b) => a.path.bars.length - b.path.bars.length);
  if (!shortest || shortest.path.bars.length >= evenShare(phase, both)) return null;
  return shortest.source ?? shortest;
}
