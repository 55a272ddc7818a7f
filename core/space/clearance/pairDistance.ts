import { rotated, type Vector } from '../vectors.ts';
import type { Body, Mark, Segment } from './body.ts';
import { boxesMeet, boxSize } from './box.ts';
import { edgeLine, edgePoint, type Probe, probe, segmentsBeside } from './signedDistance.ts';

/** The smallest distance of some segments of two bodies, m: negative is the depth of penetration. */
export interface Meeting {
  readonly distance: number;
  /** Where it is, as the second body stands for slot 1, m. */
  readonly at: Vector;
  readonly first: Segment;
  readonly second: Segment;
}

/** Tells pairs of segments apart by what they are marked with. */
export interface Groups {
  readonly count: number;
  readonly of: (first: Mark, second: Mark) => number;
  /** m: what is further away in a group is left out. */
  readonly reach: Float64Array;
}

/** Distance along an edge between points that are looked at, m. */
const spacing = 8e-4;
/** Faces are looked at where edges come this near, m: they matter where sections lie flat on each other. */
const facing = 3e-4;
/** Differences along an edge below this are no dip, m. */
const flat = 1e-6;

/**
 * The smallest distance of two coated bodies in each group of their segments, the first turned by `turn`
 * about the axis; null for a group that has none within its reach. From the rounded edges of either to the
 * other, and from the middles of faces where edges come near.
 */
export function pairDistances(
  first: Body,
  second: Body,
  turn: number,
  groups: Groups,
): readonly (Meeting | null)[] {
  const found = new Array<Meeting | null>(groups.count).fill(null);
  fromEdges(first, second, turn, groups, (group, { distance, at, own, other }) => {
    found[group] = { distance, at, first: own, second: other };
  });
  fromEdges(second, first, -turn, groups, (group, { distance, at, own, other }) => {
    const known = found[group];
    // Points of the second are told as the first stands.
    if (!known || distance < known.distance)
      found[group] = { distance, at: rotated(at, turn), first: other, second: own };
  });
  return found;
}

/** A point of the one body near the other, as that stands for slot 1. */
interface Nearing {
  readonly distance: number;
  readonly at: Vector;
  readonly own: Segment;
  readonly other: Segment;
}

type Tell = (group: number, nearing: Nearing) => void;

/** Tells, group by group, ever smaller distances from the edges of a body to another. */
function fromEdges(body: Body, other: Body, turn: number, groups: Groups, tell: Tell): void {
  const widest = groups.reach.reduce((most, reach) => Math.max(most, reach), Number.NEGATIVE_INFINITY);
  if (!boxesMeet(body.box, 0, other.box, 0, turn, widest)) return;
  // Segments of the other body that the present one comes near to.
  const near: Segment[] = [];
  const best = groups.reach.slice();
  const room: Room = {
    found: { point: new Float64Array(3), distance: 0, nearest: other.segments[0]! },
    distances: [],
    beside: [],
    cosine: Math.cos(turn),
    sine: Math.sin(turn),
  };
  const { boxes, pieceBoxes, firstSegment, marks, segments } = other;
  // Pieces of the other body that the present piece comes near to, and the groups that it makes with them.
  const nearPieces = new Int32Array(marks.length);
  const groupWith = new Int32Array(marks.length);
  for (let piece = 0; piece < body.marks.length; piece++) {
    const ofPiece = boxSize * piece;
    if (!boxesMeet(body.pieceBoxes, ofPiece, other.box, 0, turn, widest)) continue;
    let pieces = 0;
    for (let index = 0; index < marks.length; index++) {
      const group = groups.of(body.marks[piece]!, marks[index]!);
      if (!boxesMeet(body.pieceBoxes, ofPiece, pieceBoxes, boxSize * index, turn, best[group]!)) continue;
      nearPieces[pieces] = index;
      groupWith[pieces] = group;
      pieces++;
    }
    if (pieces === 0) continue;
    for (let own = body.firstSegment[piece]!; own < body.firstSegment[piece + 1]!; own++) {
      const ofOwn = boxSize * own;
      const segment = body.segments[own]!;
      for (let group = 0; group < groups.count; group++) {
        let count = 0;
        for (let index = 0; index < pieces; index++) {
          if (groupWith[index] !== group) continue;
          const end = firstSegment[nearPieces[index]! + 1]!;
          for (let one = firstSegment[nearPieces[index]!]!; one < end; one++)
            if (boxesMeet(body.boxes, ofOwn, boxes, boxSize * one, turn, best[group]!))
              near[count++] = segments[one]!;
        }
        if (count === 0) continue;
        best[group] = alongEdges(body, segment, other, near, count, room, best[group]!, group, tell);
      }
    }
  }
}

/** What going along edges takes, and the angle by which the body stands turned against the other. */
interface Room {
  readonly found: Probe;
  /** From points on a line. */
  readonly distances: number[];
  /** Segments that a line does not lie beside. */
  readonly beside: Segment[];
  readonly cosine: number;
  readonly sine: number;
}

/** Lines along a section, by the signs of its width and height: its edges, then the middles of its faces. */
const lines = [
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
] as const;

/**
 * Goes along the edges of a segment of one body and tells ever smaller distances to the first `count` segments of
 * another, below `reach`, as those of a group: at points of even spacing, and from each dip of theirs on to its
 * bottom. Returns the last of them, or `reach`.
 */
function alongEdges(
  body: Body,
  segment: Segment,
  other: Body,
  segments: readonly Segment[],
  count: number,
  room: Room,
  reach: number,
  group: number,
  tell: Tell,
): number {
  const { found, distances, beside, cosine, sine } = room;
  const { point } = found;
  const rounding = body.rounding + other.rounding;
  const steps = Math.max(2, Math.ceil(segment.length / spacing));
  const step = segment.length / steps;
  let taken = 0;
  let best = reach;
  let across = 0;
  let up = 0;
  const distanceAt = (share: number): number => {
    edgePoint(body, segment, across, up, share, cosine, sine, point);
    probe(other, beside, taken, found);
    return found.distance - rounding;
  };
  for (let line = 0; line < lines.length; line++) {
    [across, up] = lines[line]!;
    if (across * up === 0 && best >= facing) break;
    const edge = segment.edges[line] ?? edgeLine(body, segment, across, up, steps);
    segment.edges[line] = edge;
    const { points, center, radius } = edge;
    point[0] = center[0]! * cosine - center[1]! * sine;
    point[1] = center[0]! * sine + center[1]! * cosine;
    point[2] = center[2]!;
    taken = segmentsBeside(other, segments, count, point, radius, beside);
    if (taken === 0) continue;
    for (let at = 0; at <= steps; at++) {
      const x = points[3 * at]!;
      const y = points[3 * at + 1]!;
      point[0] = x * cosine - y * sine;
      point[1] = x * sine + y * cosine;
      point[2] = points[3 * at + 2]!;
      probe(other, beside, taken, found);
      const distance = found.distance - rounding;
      distances[at] = distance;
      if (distance >= best) continue;
      best = distance;
      const place: Vector = [point[0], point[1], point[2]];
      tell(group, { distance, at: place, own: segment, other: found.nearest });
    }
    for (let at = 0; at <= steps; at++) {
      const here = distances[at]!;
      // No point between two that are `step` apart is nearer than this.
      if (here - step >= best) continue;
      const before = at > 0 ? distances[at - 1]! : Number.POSITIVE_INFINITY;
      const after = at < steps ? distances[at + 1]! : Number.POSITIVE_INFINITY;
      if (before - here < flat || after - here < flat) continue;
      const dip = bottom(distanceAt, Math.max(0, at - 1) / steps, Math.min(steps, at + 1) / steps);
      if (dip.value >= best) continue;
      best = dip.value;
      edgePoint(body, segment, across, up, dip.at, cosine, sine, point);
      const place: Vector = [point[0]!, point[1]!, point[2]!];
      tell(group, { distance: best, at: place, own: segment, other: found.nearest });
    }
  }
  return best;
}

const golden = (Math.sqrt(5) - 1) / 2;

/** The least value between two places with one dip between them, and where it is, by golden sections. */
function bottom(
  value: (at: number) => number,
  from: number,
  to: number,
): { readonly value: number; readonly at: number } {
  let [low, high] = [from, to];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [value(left), value(right)];
  let least = atLeft < atRight ? { value: atLeft, at: left } : { value: atRight, at: right };
  for (let round = 0; round < 12; round++) {
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = value(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = value(right);
    }
    if (atLeft < least.value) least = { value: atLeft, at: left };
    if (atRight < least.value) least = { value: atRight, at: right };
  }
  return least;
}
