import { type Body, type Segment, stationSize } from './body.ts';

const noise = 1e-9;

/** Where a point on an edge of a body stands: x, y, z. */
export type Point = Float64Array;

/**
 * Writes into `points`, from `at` on, where an edge of the inner section (by the signs of its width and height, `across`
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
  points: Float64Array,
  at = 0,
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
  points[at] = x * cosine - y * sine;
  points[at + 1] = x * sine + y * cosine;
  points[at + 2] =
    w0 * (s[a + 2]! + h * s[a + 8]! + v * s[a + 11]!) +
    wm * (s[m + 2]! + h * s[m + 8]! + v * s[m + 11]!) +
    w1 * (s[e + 2]! + h * s[e + 8]! + v * s[e + 11]!);
}

/** Writes the points of a line of a segment, by its number among them, into those of the body. */
export function writePoints(body: Body, segment: Segment, index: number, across: number, up: number): void {
  const { steps, point, line } = segment;
  const first = point + index * (steps + 1);
  for (let at = 0; at <= steps; at++)
    edgePoint(body, segment, across, up, at / steps, 1, 0, body.lines.points, 3 * (first + at));
  body.lines.written[line + index] = 1;
}

/** Writes the ball round a line of a segment, by its number among them, into those of the body. */
export function writeBall(body: Body, segment: Segment, index: number, across: number, up: number): void {
  const { stations: s } = body;
  const { balls } = body.lines;
  const ball = 4 * (segment.line + index);
  const h = up * body.halfHeight;
  const v = across * body.halfWidth;
  let toStart = 0;
  let toPole = 0;
  let toEnd = 0;
  for (let axis = 0; axis < 3; axis++) {
    const a = segment.station * stationSize + axis;
    const m = a + stationSize;
    const e = m + stationSize;
    const start = s[a]! + h * s[a + 6]! + v * s[a + 9]!;
    const middle = s[m]! + h * s[m + 6]! + v * s[m + 9]!;
    const end = s[e]! + h * s[e + 6]! + v * s[e + 9]!;
    const toChord = middle - (start + end) / 2;
    balls[ball + axis] = middle;
    toStart += (start - middle) * (start - middle);
    toEnd += (end - middle) * (end - middle);
    // A parabola stays among its ends and the pole where their tangents meet.
    toPole += toChord * toChord;
  }
  balls[ball + 3] = Math.sqrt(Math.max(toStart, toPole, toEnd));
}

/**
 * How much faster than a point moves its distance from a segment may change: sections turn along a line, and what lies
 * far from it moves with them.
 */
const fastest = 1.25;

/**
 * Takes over those of the first `count` segments that a ball round a probe's point may come near, and tells how many
 * they are: for any point of the ball, `probe` finds nothing at the others, or nothing `within` a distance.
 */
export function segmentsNear(
  body: Body,
  segments: readonly Segment[],
  count: number,
  found: Probe,
  radius: number,
  within: number,
  into: Segment[],
): number {
  const { stations: s } = body;
  const { point } = found;
  const x = point[0]!;
  const y = point[1]!;
  const z = point[2]!;
  const beyond = radius + 2 * noise;
  const farthest = within + fastest * radius;
  let taken = 0;
  for (let index = 0; index < count; index++) {
    const segment = segments[index]!;
    const a = segment.station * stationSize;
    const e = a + 2 * stationSize;
    const before = (x - s[a]!) * s[a + 3]! + (y - s[a + 1]!) * s[a + 4]! + (z - s[a + 2]!) * s[a + 5]!;
    if (before < -beyond && !segment.first) continue;
    const after = (x - s[e]!) * s[e + 3]! + (y - s[e + 1]!) * s[e + 4]! + (z - s[e + 2]!) * s[e + 5]!;
    if (after > beyond && !segment.last) continue;
    acrossSection(body, a, before <= 0 ? 0 : after >= 0 ? 1 : before / (before - after), found);
    const { h, v } = found;
    const distance = h <= 0 ? Math.max(h, v) : v <= 0 ? h : Math.sqrt(h * h + v * v);
    if (distance > farthest) continue;
    into[taken] = segment;
    taken++;
  }
  return taken;
}

/** A point, and what was found of it. */
export interface Probe {
  readonly point: Point;
  /** Signed distance, m; infinite beside all segments. */
  distance: number;
  /** From the faces of the section beside it, along its height and width, m: negative between them. */
  h: number;
  v: number;
  /** The segment that was nearest to the last point that lay beside none. */
  nearest: Segment | null;
}

/** Tells how far a probe's point lies from the faces of the section at a share of the segment whose stations begin at `a`. */
function acrossSection(
  { stations: s, halfHeight, halfWidth }: Body,
  a: number,
  share: number,
  found: Probe,
): void {
  const { point } = found;
  const m = a + stationSize;
  const e = m + stationSize;
  const w0 = (1 - share) * (1 - 2 * share);
  const wm = 4 * share * (1 - share);
  const w1 = share * (2 * share - 1);
  const dx = point[0]! - (w0 * s[a]! + wm * s[m]! + w1 * s[e]!);
  const dy = point[1]! - (w0 * s[a + 1]! + wm * s[m + 1]! + w1 * s[e + 1]!);
  const dz = point[2]! - (w0 * s[a + 2]! + wm * s[m + 2]! + w1 * s[e + 2]!);
  const up =
    dx * (w0 * s[a + 6]! + wm * s[m + 6]! + w1 * s[e + 6]!) +
    dy * (w0 * s[a + 7]! + wm * s[m + 7]! + w1 * s[e + 7]!) +
    dz * (w0 * s[a + 8]! + wm * s[m + 8]! + w1 * s[e + 8]!);
  const across =
    dx * (w0 * s[a + 9]! + wm * s[m + 9]! + w1 * s[e + 9]!) +
    dy * (w0 * s[a + 10]! + wm * s[m + 10]! + w1 * s[e + 10]!) +
    dz * (w0 * s[a + 11]! + wm * s[m + 11]! + w1 * s[e + 11]!);
  found.h = Math.abs(up) - halfHeight;
  found.v = Math.abs(across) - halfWidth;
}

/**
 * Finds the least distance of a probe's point from the inner section of a body along the first `count` segments of a
 * list, m: negative within it, by the least way out across the section. Where the point lies beside a segment, that
 * does not count.
 */
export function probe(body: Body, segments: readonly Segment[], count: number, found: Probe): void {
  const { stations: s, rounding } = body;
  const { point } = found;
  const x = point[0]!;
  const y = point[1]!;
  const z = point[2]!;
  let least = Number.POSITIVE_INFINITY;
  for (let index = 0; index < count; index++) {
    const segment = segments[index]!;
    const a = segment.station * stationSize;
    const e = a + 2 * stationSize;
    const before = (x - s[a]!) * s[a + 3]! + (y - s[a + 1]!) * s[a + 4]! + (z - s[a + 2]!) * s[a + 5]!;
    if (before < -noise && !segment.first) continue;
    const after = (x - s[e]!) * s[e + 3]! + (y - s[e + 1]!) * s[e + 4]! + (z - s[e + 2]!) * s[e + 5]!;
    if (after > noise && !segment.last) continue;
    acrossSection(body, a, before <= 0 ? 0 : after >= 0 ? 1 : before / (before - after), found);
    const { h, v } = found;
    const beyond = Math.max(
      segment.first ? rounding - before : Number.NEGATIVE_INFINITY,
      segment.last ? after + rounding : Number.NEGATIVE_INFINITY,
    );
    let distance = Math.max(h, v, beyond);
    if (!(h <= 0 && v <= 0 && beyond <= 0)) {
      const above = Math.max(h, 0);
      const beside = Math.max(v, 0);
      const behind = Math.max(beyond, 0);
      distance = Math.sqrt(above * above + beside * beside + behind * behind);
    }
    if (distance >= least) continue;
    least = distance;
    found.nearest = segment;
  }
  found.distance = least;
}
