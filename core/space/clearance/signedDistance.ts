import { stationSize } from '../curve.ts';
import { type Body, linesOf, type Segment } from './body.ts';

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
  const m = a + stationSize;
  const e = a + 2 * stationSize;
  const short = rounding / length;
  const share = Math.max(first ? short : 0, Math.min(last ? 1 - short : 1, along));
  const w0 = (1 - share) * (1 - 2 * share);
  const wm = 4 * share * (1 - share);
  const w1 = share * (2 * share - 1);
  const v = across * body.halfWidth;
  const h = up * body.halfHeight;
  const x = w0 * corner(s, a, h, v) + wm * corner(s, m, h, v) + w1 * corner(s, e, h, v);
  const y = w0 * corner(s, a + 1, h, v) + wm * corner(s, m + 1, h, v) + w1 * corner(s, e + 1, h, v);
  points[at] = x * cosine - y * sine;
  points[at + 1] = x * sine + y * cosine;
  points[at + 2] = w0 * corner(s, a + 2, h, v) + wm * corner(s, m + 2, h, v) + w1 * corner(s, e + 2, h, v);
}

/** A coordinate, by its place in a list of stations, of a point of the section there. */
function corner(s: Float64Array, at: number, height: number, width: number): number {
  return s[at]! + height * s[at + 6]! + width * s[at + 9]!;
}

/** Writes the points of a line of a segment, by its number among them, into those of the body. */
export function writePoints(body: Body, segment: Segment, index: number, across: number, up: number): void {
  const { steps, point, line } = segment;
  const { points, written } = linesOf(body);
  const first = point + index * (steps + 1);
  for (let at = 0; at <= steps; at++)
    edgePoint(body, segment, across, up, at / steps, 1, 0, points, 3 * (first + at));
  written[line + index] = 1;
}

/** Writes the ball round a line of a segment, by its number among them, into those of the body. */
export function writeBall(body: Body, segment: Segment, index: number, across: number, up: number): void {
  const { stations: s } = body;
  const { balls } = linesOf(body);
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
    const start = corner(s, a, h, v);
    const middle = corner(s, m, h, v);
    const end = corner(s, e, h, v);
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
    const before = along(s, a + 3, x - s[a]!, y - s[a + 1]!, z - s[a + 2]!);
    if (before < -beyond && !segment.first) continue;
    const after = along(s, e + 3, x - s[e]!, y - s[e + 1]!, z - s[e + 2]!);
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

/** What the distances of a probe may lie below those of sections, m: it goes along a segment by even shares. */
const probeError = 5e-6;

/**
 * Whether the inner sections of two segments, the first turned by the angle of this cosine and sine, are farther apart
 * than `within`, or than 0, along the width of either; where that is not so, they need not be near. How deep they run
 * into each other along it tells nothing of how deep they do across sections, which turn.
 */
export function segmentsApart(
  first: Body,
  one: Segment,
  second: Body,
  other: Segment,
  cosine: number,
  sine: number,
  within: number,
): boolean {
  const least = Math.max(0, within);
  return (
    apartAcross(first, one, second, other, cosine, sine, least) ||
    apartAcross(second, other, first, one, cosine, -sine, least)
  );
}

/** The same along the width of the second. */
function apartAcross(
  first: Body,
  { station: one }: Segment,
  second: Body,
  { station: other }: Segment,
  cosine: number,
  sine: number,
  within: number,
): boolean {
  const { stations: s } = second;
  const at = (other + 1) * stationSize;
  const x = s[at + 9]!;
  const y = s[at + 10]!;
  const z = s[at + 11]!;
  // Turned back, the direction is that for the first as it stands for slot 1.
  const back = x * cosine + y * sine;
  const aside = y * cosine - x * sine;
  const apart = along(first.stations, (one + 1) * stationSize, back, aside, z) - along(s, at, x, y, z);
  const to = Math.sign(apart);
  return (
    lowestAlong(first, one, to * back, to * aside, to * z) +
      lowestAlong(second, other, -to * x, -to * y, -to * z) >
    within + probeError
  );
}

/** The part along a direction of the vector at a place of a list of stations. */
function along(s: Float64Array, at: number, x: number, y: number, z: number): number {
  return x * s[at]! + y * s[at + 1]! + z * s[at + 2]!;
}

/** How far along a direction the inner section of a segment begins: a parabola stays among its ends and its pole. */
function lowestAlong(
  { stations: s, halfHeight, halfWidth }: Body,
  station: number,
  x: number,
  y: number,
  z: number,
): number {
  const a = station * stationSize;
  const m = a + stationSize;
  const e = m + stationSize;
  const ca = along(s, a, x, y, z);
  const cm = along(s, m, x, y, z);
  const ce = along(s, e, x, y, z);
  const ha = along(s, a + 6, x, y, z);
  const hm = along(s, m + 6, x, y, z);
  const he = along(s, e + 6, x, y, z);
  const va = along(s, a + 9, x, y, z);
  const vm = along(s, m + 9, x, y, z);
  const ve = along(s, e + 9, x, y, z);
  return Math.min(
    ca - Math.abs(ha) * halfHeight - Math.abs(va) * halfWidth,
    ce - Math.abs(he) * halfHeight - Math.abs(ve) * halfWidth,
    2 * cm -
      (ca + ce) / 2 -
      Math.abs(2 * hm - (ha + he) / 2) * halfHeight -
      Math.abs(2 * vm - (va + ve) / 2) * halfWidth,
  );
}

/** A point, and what was found of it. */
export interface Probe {
  readonly point: Point;
  /** Signed, m; infinite beside all segments. */
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
 * How deep a ball reaches between two faces square to each other that lie behind its center by `h` and `v`, m (negative:
 * before it), at its deepest point: away from the nearer face until the other is as near.
 */
function reachOfBall(h: number, v: number, radius: number): number {
  const reach = radius - Math.max(h, v);
  if (reach <= -Math.min(h, v)) return reach;
  return (Math.sqrt(Math.max(0, 2 * radius * radius - (h - v) ** 2)) - h - v) / 2;
}

/**
 * Finds the least distance of a ball round a probe's point from a body along the first `count` segments of a list, m:
 * negative within it, by the least way out across the section for the point of the ball that lies deepest. Where the
 * ball's center lies beside a segment, that does not count.
 */
export function probe(
  body: Body,
  segments: readonly Segment[],
  count: number,
  found: Probe,
  ball: number,
): void {
  const { stations: s, rounding, halfHeight, halfWidth } = body;
  const { point } = found;
  const x = point[0]!;
  const y = point[1]!;
  const z = point[2]!;
  let least = Number.POSITIVE_INFINITY;
  for (let index = 0; index < count; index++) {
    const segment = segments[index]!;
    const a = segment.station * stationSize;
    const e = a + 2 * stationSize;
    const before = along(s, a + 3, x - s[a]!, y - s[a + 1]!, z - s[a + 2]!);
    if (before < -noise && !segment.first) continue;
    const after = along(s, e + 3, x - s[e]!, y - s[e + 1]!, z - s[e + 2]!);
    if (after > noise && !segment.last) continue;
    acrossSection(body, a, before <= 0 ? 0 : after >= 0 ? 1 : before / (before - after), found);
    const { h, v } = found;
    const beyond = Math.max(
      segment.first ? rounding - before : Number.NEGATIVE_INFINITY,
      segment.last ? after + rounding : Number.NEGATIVE_INFINITY,
    );
    let distance = Math.max(h, v, beyond);
    if (distance > 0) {
      const above = Math.max(h, 0);
      const beside = Math.max(v, 0);
      const behind = Math.max(beyond, 0);
      distance = Math.sqrt(above * above + beside * beside + behind * behind);
    }
    distance -= ball;
    if (distance < 0 && ball > 0) {
      const reach = Math.min(reachOfBall(h, v, ball), ball - beyond, halfHeight, halfWidth);
      if (reach > 0) distance = -reach;
    }
    distance -= rounding;
    if (distance >= least) continue;
    least = distance;
    found.nearest = segment;
  }
  found.distance = least;
}
