import type { Path, Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';
import { senseInPath } from './validity.ts';

/** Bars of a path in each layer. */
export interface PathOccupation {
  /** Index in the list of paths. */
  readonly path: number;
  /** Bars, one a layer. */
  readonly layers: readonly number[];
}

/** Parallel paths that do not lie in the layers alike. */
export interface OccupationProblem {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** layers: counts differ; cells: layers agree, but not angle by angle, where slots hold two phases. */
  readonly kind: 'layers' | 'cells';
  /** The path that differs from the first one of its phase. */
  readonly path: number;
  /** Bars of that path, one a layer. */
  readonly actual: readonly number[];
  /** Bars of the first path, one a layer. */
  readonly expected: readonly number[];
  /** A cell that differs, for `cells`: electrical angle in degrees and layer. */
  readonly cell: { readonly angle: number; readonly layer: number } | null;
}

/** Bars of every path in every layer. */
export function layerCounts(winding: Winding, paths: readonly Path[]): PathOccupation[] {
  return paths.map((path, index) => {
    const layers = new Array<number>(winding.layers).fill(0);
    for (const { layer } of path.bars) layers[layer]!++;
    return { path: index, layers };
  });
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

/** The first cell along two paths that holds different numbers of their bars. */
function differingCell(winding: Winding, first: Path, other: Path): OccupationProblem['cell'] {
  const angles = 2 * winding.slots;
  const cellsOf = (path: Path) =>
    path.bars.map((bar, position) => {
      const half = senseInPath(path, position) === 1 ? 0 : winding.slots;
      return bar.layer * angles + ((2 * winding.polePairs * (bar.slot - 1) + half) % angles);
    });
  const differences = new Int32Array(winding.layers * angles);
  const firstCells = cellsOf(first);
  const otherCells = cellsOf(other);
  for (const cell of firstCells) differences[cell]!++;
  for (const cell of otherCells) differences[cell]!--;
  const differs = (cell: number) => differences[cell] !== 0;
  const found = firstCells.find(differs) ?? otherCells.find(differs);
  if (found === undefined) return null;
  return { angle: ((found % angles) * 180) / winding.slots, layer: Math.floor(found / angles) };
}
