import { type Body, type Segment, stationSize } from './body.ts';

const noise = 1e-9;

/** Where a point on an edge of a body stands: x, y, z. */
export type Point = Float64Array;

/**
 * Writes into `point` where an edge of the inner section (by the signs of its width and height, `across`
 * and `up`) stands at a share `along` (0 to 1) of a segment, turned
 * about the axis by the angle of this cosine and sine. At ends of the body edges stop as far short as they
 * are rounded.
 */
export function edgePoint(
  body: Body,
  { station, length, first, last }: Segment,
  across: number,
  up: number,
  along: number,
  cosine: number,
  sine: number,
  point: Point,
): void {
  const { stations: s, rounding } = body;
  const a = station * stationSize;
  const [m, e] = [a + stationSize, a + 2 * stationSize];
  const short = rounding / length;
  const share = Math.max(first ? short : 0, Math.min(last ? 1 - short : 1, along));
  const w0 = (1 - share) * (1 - 2 * share);
  const wm = 4 * share * (1 - share);
  const w1 = share * (2 * share - 1);
  const v = across * body.halfWidth;
  const h = up * body.halfHeight;
  const x =
    w0 * (s[a]! + h * s[a + 6]! + v * s[a + 9]!) +
    wm * (s[m]! + h * s[m + 6]! + v * s[m + 9]!) +
    w1 * (s[e]! + h * s[e + 6]! + v * s[e + 9]!);
  const y =
    w0 * (s[a + 1]! + h * s[a + 7]! + v * s[a + 10]!) +
    wm * (s[m + 1]! + h * s[m + 7]! + v * s[m + 10]!) +
    w1 * (s[e + 1]! + h * s[e + 7]! + v * s[e + 10]!);
  point[0] = x * cosine - y * sine;
  point[1] = x * sine + y * cosine;
  point[2] =
    w0 * (s[a + 2]! + h * s[a + 8]! + v * s[a + 11]!) +
    wm * (s[m + 2]! + h * s[m + 8]! + v * s[m + 11]!) +
    w1 * (s[e + 2]! + h * s[e + 8]! + v * s[e + 11]!);
}

/**
 * Distance of a point from the inner section of a body along one of its segments, m: negative within it, by
 * the least way out across the section. Infinity where the point lies beside another segment.
 */
export function signedDistance(body: Body, { station, first, last }: Segment, point: Point): number {
  const { stations: s } = body;
  const a = station * stationSize;
  const [m, e] = [a + stationSize, a + 2 * stationSize];
  const [x, y, z] = [point[0]!, point[1]!, point[2]!];
  const before = (x - s[a]!) * s[a + 3]! + (y - s[a + 1]!) * s[a + 4]! + (z - s[a + 2]!) * s[a + 5]!;
  const after = (x - s[e]!) * s[e + 3]! + (y - s[e + 1]!) * s[e + 4]! + (z - s[e + 2]!) * s[e + 5]!;
  if (before < -noise && !first) return Number.POSITIVE_INFINITY;
  if (after > noise && !last) return Number.POSITIVE_INFINITY;
  const u = before <= 0 ? 0 : after >= 0 ? 1 : before / (before - after);
  const w0 = (1 - u) * (1 - 2 * u);
  const wm = 4 * u * (1 - u);
  const w1 = u * (2 * u - 1);
  const dx = x - (w0 * s[a]! + wm * s[m]! + w1 * s[e]!);
  const dy = y - (w0 * s[a + 1]! + wm * s[m + 1]! + w1 * s[e + 1]!);
  const dz = z - (w0 * s[a + 2]! + wm * s[m + 2]! + w1 * s[e + 2]!);
  const up =
    dx * (w0 * s[a + 6]! + wm * s[m + 6]! + w1 * s[e + 6]!) +
    dy * (w0 * s[a + 7]! + wm * s[m + 7]! + w1 * s[e + 7]!) +
    dz * (w0 * s[a + 8]! + wm * s[m + 8]! + w1 * s[e + 8]!);
  const across =
    dx * (w0 * s[a + 9]! + wm * s[m + 9]! + w1 * s[e + 9]!) +
    dy * (w0 * s[a + 10]! + wm * s[m + 10]! + w1 * s[e + 10]!) +
    dz * (w0 * s[a + 11]! + wm * s[m + 11]! + w1 * s[e + 11]!);
  const h = Math.abs(up) - body.halfHeight;
  const v = Math.abs(across) - body.halfWidth;
  const beyond = Math.max(
    first ? body.rounding - before : Number.NEGATIVE_INFINITY,
    last ? after + body.rounding : Number.NEGATIVE_INFINITY,
  );
  if (h <= 0 && v <= 0 && beyond <= 0) return Math.max(h, v, beyond);
  const above = Math.max(h, 0);
  const beside = Math.max(v, 0);
  const behind = Math.max(beyond, 0);
  return Math.sqrt(above * above + beside * beside + behind * behind);
}
