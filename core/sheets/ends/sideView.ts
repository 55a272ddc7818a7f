import { chordsFor, stationAt } from '../../space/curve.ts';
import type { Piece } from '../../space/piece.ts';
import type { Section } from '../../space/section.ts';
import { offsetBy } from '../../space/vectors.ts';

/** A point of a side view: distance from the axis and height above the stack, m. */
export type SidePoint = readonly [radius: number, height: number];

/** Ratios of ISO 5455 of paper to machine, the largest first. */
const ratios = [10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02] as const;

/** The largest ratio at which a size (m) stays within a room on paper (mm). */
export function ratioWithin(...sizes: readonly (readonly [size: number, room: number])[]): number {
  return ratios.find((ratio) => sizes.every(([size, room]) => size * 1000 * ratio <= room)) ?? 0.01;
}

/** A ratio as it is written: `2:1`, `1:5`. */
export function ratioWords(ratio: number): string {
  return ratio >= 1 ? `${ratio}:1` : `1:${Math.round(1 / ratio)}`;
}

/**
 * The four edges of a bar's copper along pieces, and its cut end, as seen along the circumference: lines
 * through distances from the axis and heights above the stack, m.
 */
export function edgesOf(
  pieces: readonly Piece<unknown>[],
  { width, height }: Pick<Section, 'width' | 'height'>,
): readonly (readonly SidePoint[])[] {
  const corners = [-1, 1].flatMap((face) =>
    [-1, 1].map((flank) => [(face * height) / 2, (flank * width) / 2] as const),
  );
  const edges: SidePoint[][] = corners.map(() => []);
  pieces.forEach(({ curve, length }, index) => {
    const steps = chordsFor(curve, length, 5e-5);
    for (let step = index === 0 ? 0 : 1; step <= steps; step++) {
      const station = stationAt(curve, step / steps);
      corners.forEach(([out, across], corner) => {
        const [x, y, z] = offsetBy(station.point, station.height, out, station.width, across);
        edges[corner]!.push([Math.hypot(x, y), curve.side * z - curve.face]);
      });
    }
  });
  const last = edges.map((edge) => edge.at(-1)!);
  return [...edges.map(simplified), [last[0]!, last[1]!, last[3]!, last[2]!, last[0]!]];
}

/** A line without the points that lie on the straight between their neighbors, within a micrometer. */
function simplified(line: readonly SidePoint[]): readonly SidePoint[] {
  const kept: SidePoint[] = [];
  line.forEach((point, index) => {
    const [before, after] = [kept.at(-1), line[index + 1]];
    if (before && after && Math.abs(turnOf(before, point, after)) < 1e-6) return;
    kept.push(point);
  });
  return kept;
}

/** Distance of a point from the straight between two others, m. */
function turnOf(from: SidePoint, point: SidePoint, to: SidePoint): number {
  const [across, up] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(across, up);
  if (long < 1e-9) return Math.hypot(point[0] - from[0], point[1] - from[1]);
  return ((point[0] - from[0]) * up - (point[1] - from[1]) * across) / long;
}
