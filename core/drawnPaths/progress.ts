import { add, degrees, divide, scale, size, zero } from '../balance/complex.ts';
import { orderVoltages, sumAlong } from '../balance/voltages.ts';
import { type Bar, cellAt, type Path } from '../winding/model.ts';
import { type Drawing, pathsWanted, unusedBars } from './drawing.ts';
import { type DrawingBase, freeBars } from './nextBars.ts';

/** How far a path has come, and how it stands to an even share of its phase. */
export interface PathProgress {
  readonly number: number;
  readonly bars: number;
  /** Voltage against an even share of the phase's, and angle from it in electrical degrees; null where the phase has none. */
  readonly relative: number | null;
  readonly angle: number | null;
  /** Bars in each layer. */
  readonly layers: readonly number[];
}

/** How far a drawing has come. */
export interface Progress {
  /** Bars of the phase for each of its paths; no whole number where they cannot be dealt out evenly. */
  readonly share: number;
  /** The path that grows, which may have no bars yet. */
  readonly current: PathProgress;
  /** The phase's other paths, kept or drawn, by number. */
  readonly others: readonly PathProgress[];
  /** Bars of the phase that no path holds. */
  readonly unused: number;
}

/** Counts and voltages of a drawing, at the working order, from the bars alone. */
export function progressOf(drawing: Drawing): Progress {
  const { base, phase, kept, done, current } = drawing;
  const paths = pathsWanted(drawing);
  const stateOf = shareOf(base, phase, paths);
  return {
    share: freeBars(base, phase, new Set()).length / paths,
    current: stateOf(current),
    others: [...kept, ...done].sort((a, b) => a.number - b.number).map(stateOf),
    unused: unusedBars(drawing).length,
  };
}

/** How all paths of a phase stand to an even share. */
export function progressOfPaths(
  base: DrawingBase,
  phase: number,
  paths: readonly Path[],
): readonly PathProgress[] {
  return paths.map(shareOf(base, phase, paths.length));
}

/** What tells how a path stands to the share that each of so many paths has of its phase. */
function shareOf(base: DrawingBase, phase: number, paths: number): (path: Path) => PathProgress {
  const { winding } = base;
  const all = freeBars(base, phase, new Set());
  const voltages = orderVoltages(winding, winding.polePairs);
  const alone = (bar: Bar) =>
    sumAlong(voltages, { bars: [bar], startsFar: cellAt(winding.table, bar.slot, bar.layer) < 0 });
  const even = scale(all.map(alone).reduce(add, zero), 1 / paths);
  const none = size(even) < 1e-9 * Math.max(1, all.length);
  return (path) => {
    const ratio = none ? null : divide(sumAlong(voltages, path), even);
    const layers = new Array<number>(winding.layers).fill(0);
    for (const { layer } of path.bars) layers[layer]!++;
    return {
      number: path.number,
      bars: path.bars.length,
      relative: ratio && size(ratio),
      angle: ratio && (size(ratio) < 1e-9 ? 0 : degrees(ratio)),
      layers,
    };
  };
}
