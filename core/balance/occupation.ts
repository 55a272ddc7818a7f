import type { Path, Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/routeUnits.ts';
import { senseInPath } from './validity.ts';

/** Bars of a path in each layer. */
export interface PathOccupation {
  readonly path: number;
  readonly layers: readonly number[];
}

/** Parallel paths that do not lie in the layers alike. */
export interface OccupationProblem {
  readonly phase: number;
  /** layers: counts differ; cells: layers agree, but not angle by angle, where slots hold two phases. */
  readonly kind: 'layers' | 'cells';
  /** The path that differs from the first one of its phase. */
  readonly path: number;
  readonly actual: readonly number[];
  readonly expected: readonly number[];
  /** A cell that differs, for `cells`: electrical angle in degrees and layer. */
  readonly cell: { readonly angle: number; readonly layer: number } | null;
}

/** Bars of every path in every layer. */
export function layerCounts(winding: Winding, paths: readonly Path[]): PathOccupation[] {
  return paths.map((path, index) => ({
    path: index,
    layers: Array.from(
      { length: winding.layers },
      (_, layer) => path.bars.filter((bar) => bar.layer === layer).length,
    ),
  }));
}

/**
 * Paths whose layers (or, where a slot holds two phases, cells of angle and layer) differ from those of
 * the first path of their phase: their slot leakage then differs.
 */
export function occupationProblems(winding: Winding, paths: readonly Path[]): OccupationProblem[] {
  const counts = layerCounts(winding, paths);
  const strict = needsStrictBalance(winding);
  const firsts = new Map<number, number>();
  const problems: OccupationProblem[] = [];
  paths.forEach((path, index) => {
    const first = firsts.get(path.phase) ?? index;
    firsts.set(path.phase, first);
    const expected = counts[first]!.layers;
    const actual = counts[index]!.layers;
    const common = { phase: path.phase, path: index, actual, expected };
    if (actual.some((count, layer) => count !== expected[layer])) {
      problems.push({ ...common, kind: 'layers', cell: null });
      return;
    }
    const cell = strict ? differingCell(winding, paths[first]!, path) : null;
    if (cell) problems.push({ ...common, kind: 'cells', cell });
  });
  return problems;
}

function differingCell(winding: Winding, first: Path, other: Path): OccupationProblem['cell'] {
  const cells = new Map<string, number>();
  const count = (path: Path, change: number) => {
    path.bars.forEach((bar, position) => {
      const half = senseInPath(path, position) === 1 ? 0 : winding.slots;
      const angle = (2 * winding.polePairs * (bar.slot - 1) + half) % (2 * winding.slots);
      const key = `${angle} ${bar.layer}`;
      cells.set(key, (cells.get(key) ?? 0) + change);
    });
  };
  count(first, 1);
  count(other, -1);
  for (const [key, difference] of cells) {
    if (difference === 0) continue;
    const [angle, layer] = key.split(' ').map(Number);
    return { angle: (angle! * 180) / winding.slots, layer: layer! };
  }
  return null;
}
