import type { PathVoltage } from '../balance/voltages.ts';
import type { ConnectionFacts } from '../facts/connection.ts';
import type { Path } from '../winding/model.ts';

/** A path with what it yields. */
export interface PathRow {
  readonly path: Path;
  /** Relative to the mean path of its phase, with the angle from it in electrical degrees; null where that is zero. */
  readonly voltage: Pick<PathVoltage, 'relative' | 'angle'>;
  /** How many of its bars lie in each layer. */
  readonly layerCounts: readonly number[];
}

/** The paths, phase by phase. */
export function pathRows(connection: ConnectionFacts): readonly PathRow[] {
  const voltages = new Map(
    connection.balances().flatMap(({ paths }) => paths.map((path) => [path.path, path] as const)),
  );
  const counts = connection.layerCounts();
  return connection.paths.map((path, index) => ({
    path,
    voltage: voltages.get(index) ?? { relative: null, angle: null },
    layerCounts: counts[index]!.layers,
  }));
}
