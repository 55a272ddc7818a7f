import { type Finding, finding, type Range } from '../language/finding.ts';
import { type Bar, barName, cellAt, type PhaseSystem, type SlotTable } from './model.ts';
import { barUnused, barUsedTwice, layoutAgainstPaths, senseAgainstTable } from './pathKinds.ts';
import { pathName, type SourcedPath } from './writtenPaths.ts';

// A finding names this many bars, then says how many more there are.
const mostNamed = 8;

/** Cell code of bar i of a path: + when it is passed from the connection side to the far side. */
export function walkedCell(path: SourcedPath['path'], i: number): number {
  const outward = (i % 2 === 0) !== path.startsFar;
  return outward ? path.phase + 1 : -(path.phase + 1);
}

/** The name of a cell: `+U`, or `nothing` for an empty place. */
export function cellName(cell: number, phases: PhaseSystem): string {
  return cell === 0 ? 'nothing' : `${cell > 0 ? '+' : '-'}${phases.names[Math.abs(cell) - 1]}`;
}

/** Layers that written paths use: the highest one and all below. */
export function layersOfPaths(paths: readonly SourcedPath[]): number {
  let layers = 0;
  for (const { path } of paths) for (const { layer } of path.bars) layers = Math.max(layers, layer + 1);
  return layers;
}

/** The slot table that written paths make; a bar used twice keeps its first use. */
export function tableOfPaths(paths: readonly SourcedPath[], slots: number, layers: number): SlotTable {
  const cells = new Int8Array(slots * layers);
  for (const { path } of paths) {
    path.bars.forEach((bar, i) => {
      const place = bar.layer * slots + bar.slot - 1;
      if (cells[place] === 0) cells[place] = walkedCell(path, i);
    });
  }
  return { slots, layers, cells };
}

/** Findings for bars that two steps use. */
export function reportRepeatedBars(
  paths: readonly SourcedPath[],
  phases: PhaseSystem,
  findings: Finding[],
): void {
  const first = new Map<string, { readonly path: string; readonly range: Range }>();
  for (const { path, steps } of paths) {
    path.bars.forEach((bar, i) => {
      const name = barName(bar);
      const earlier = first.get(name);
      if (earlier) {
        const related = [{ message: 'first used here', range: earlier.range }];
        findings.push(
          finding(barUsedTwice, steps[i]!, { bar: name, first: `path ${earlier.path}` }, { related }),
        );
      } else first.set(name, { path: pathName(path, phases), range: steps[i]! });
    });
  }
}

/** Findings where written paths and the layout disagree, at both places, and for bars no path uses. */
export function compareWithTable(
  paths: readonly SourcedPath[],
  table: SlotTable,
  phases: PhaseSystem,
  layoutPlace: (bar: Bar) => Range,
  unusedPlace: Range,
  findings: Finding[],
): void {
  const used = new Set<number>();
  const disagreeing: { readonly bar: Bar; readonly step: Range }[] = [];
  for (const sourced of paths) {
    const { path, steps } = sourced;
    path.bars.forEach((bar, i) => {
      used.add(bar.layer * table.slots + bar.slot - 1);
      const walked = walkedCell(path, i);
      const laid = cellAt(table, bar.slot, bar.layer);
      if (walked === laid) return;
      const data = {
        bar: barName(bar),
        path: pathName(path, phases),
        table: cellName(laid, phases),
        walked: cellName(walked, phases),
      };
      const related = [{ message: `the layout has ${data.table} at ${data.bar}`, range: layoutPlace(bar) }];
      findings.push(finding(senseAgainstTable, steps[i]!, data, { related }));
      disagreeing.push({ bar, step: steps[i]! });
    });
  }
  const first = disagreeing[0];
  if (first) {
    const data = { bars: named(disagreeing.map(({ bar }) => bar)), count: disagreeing.length };
    const related = disagreeing
      .slice(0, mostNamed)
      .map(({ bar, step }) => ({ message: `passed otherwise: ${barName(bar)}`, range: step }));
    findings.push(finding(layoutAgainstPaths, layoutPlace(first.bar), data, { related }));
  }
  const unused: Bar[] = [];
  table.cells.forEach((cell, place) => {
    if (cell === 0 || used.has(place)) return;
    unused.push({ slot: (place % table.slots) + 1, layer: Math.floor(place / table.slots) });
  });
  if (unused.length > 0)
    findings.push(finding(barUnused, unusedPlace, { bars: named(unused), count: unused.length }));
}

function named(bars: readonly Bar[]): string {
  const shown = bars.slice(0, mostNamed).map(barName).join(', ');
  return bars.length > mostNamed ? `${shown} and ${bars.length - mostNamed} more` : shown;
}
