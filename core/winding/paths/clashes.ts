import { mostSlots } from '../../language/counts.ts';
import { type Finding, finding, type Range } from '../../language/finding.ts';
import { firstOf, listed } from '../../language/lists.ts';
import { type Bar, barName, type PhaseSystem } from '../model.ts';
import { barUsedTwice } from './pathFindingKinds.ts';
import { pathName, type SourcedPath } from './writtenPaths.ts';

// A finding names this many bars, then says how many more there are.
const mostNamed = 8;
// And shows so many further places of the text.
const mostRelated = 6;

/** A bar of a path, by its place in it. */
export interface BarUse {
  readonly sourced: SourcedPath;
  readonly at: number;
}

/** Bars as a message lists them: the first few, and how many more. */
export function namedBars(bars: readonly Bar[]): string {
  return firstOf(bars.map(barName), mostNamed);
}

export function barOf({ sourced, at }: BarUse): Bar {
  return sourced.path.bars[at]!;
}

/** What a statement lays: its path, or all paths of the phase that it copies to. */
export function laidBy({ path, source }: SourcedPath, phases: PhaseSystem): string {
  return source ? `phase ${phases.names[path.phase]}` : `path ${pathName(path, phases)}`;
}

/** Bars that the statement of a path lays in all. */
export function barsLaidWith(sourced: SourcedPath, paths: readonly SourcedPath[]): number {
  return paths
    .filter(({ statement }) => statement.start === sourced.statement.start)
    .reduce((sum, { path }) => sum + path.bars.length, 0);
}

/** Where a finding about several uses of one statement stands: the statement, or the first of its steps. */
export function rangeOfUses([first]: readonly BarUse[], whole: boolean): Range {
  return whole ? first!.sourced.statement : first!.sourced.steps[first!.at]!;
}

/** Each place once, the first few. */
export function distinctPlaces<Place extends { readonly range: Range }>(
  places: readonly Place[],
): readonly Place[] {
  const seen = new Map<string, Place>();
  for (const place of places) {
    const key = `${place.range.start} ${place.range.end}`;
    if (!seen.has(key)) seen.set(key, place);
    if (seen.size === mostRelated) break;
  }
  return [...seen.values()];
}

/** Uses in groups by the statement that laid them, in the order of the first use. */
export function byStatement<Item>(
  items: readonly Item[],
  useOf: (item: Item) => BarUse,
): readonly (readonly Item[])[] {
  const groups = new Map<number, Item[]>();
  for (const item of items) {
    const { start } = useOf(item).sourced.statement;
    const group = groups.get(start);
    if (group) group.push(item);
    else groups.set(start, [item]);
  }
  return [...groups.values()];
}

interface Clash {
  readonly use: BarUse;
  /** The use before it. */
  readonly other: BarUse;
}

/** Findings for bars that two steps use: one for each statement that lays bars on those of others. */
export function reportRepeatedBars(
  paths: readonly SourcedPath[],
  phases: PhaseSystem,
  findings: Finding[],
): void {
  for (const clashes of byStatement(clashesOf(paths), ({ use }) => use))
    findings.push(clashFinding(clashes, paths, phases));
}

function clashesOf(paths: readonly SourcedPath[]): readonly Clash[] {
  const first = new Map<number, BarUse>();
  const clashes: Clash[] = [];
  for (const sourced of paths) {
    sourced.path.bars.forEach((bar, at) => {
      const place = bar.layer * (mostSlots + 1) + bar.slot;
      const other = first.get(place);
      if (!other) first.set(place, { sourced, at });
      else if (!copiedTogether(sourced, other.sourced)) clashes.push({ use: { sourced, at }, other });
    });
  }
  return clashes;
}

/** Paths of one copy clash where the paths they are copied from do, which is told there. */
function copiedTogether(a: SourcedPath, b: SourcedPath): boolean {
  return a.source !== null && a.statement.start === b.statement.start;
}

function clashFinding(
  clashes: readonly Clash[],
  paths: readonly SourcedPath[],
  phases: PhaseSystem,
): Finding {
  const uses = clashes.map(({ use }) => use);
  const { sourced } = uses[0]!;
  const total = barsLaidWith(sourced, paths);
  const alone = clashes.length === 1;
  const data = {
    path: alone ? `path ${pathName(sourced.path, phases)}` : laidBy(sourced, phases),
    bars: namedBars(uses.map(barOf)),
    count: clashes.length,
    total,
    other: usersNamed(clashes, phases),
    itself: clashes.every(({ use, other }) => use.sourced === other.sourced),
  };
  const related = distinctPlaces(
    clashes.map(({ use, other }) => ({
      message: alone ? 'first used here' : `${barName(barOf(use))} is first used here`,
      range: other.sourced.steps[other.at]!,
    })),
  );
  return finding(barUsedTwice, rangeOfUses(uses, clashes.length === total), data, { related });
}

/** Whose bars they are: a path, a phase, or several. */
function usersNamed(clashes: readonly Clash[], phases: PhaseSystem): string {
  const others = new Set(clashes.map(({ other }) => other.sourced));
  const [only] = others;
  if (others.size === 1) return `path ${pathName(only!.path, phases)}`;
  const names = [...new Set([...others].map(({ path }) => phases.names[path.phase]!))];
  return names.length === 1 ? `phase ${names[0]}` : `the phases ${listed(names)}`;
}
