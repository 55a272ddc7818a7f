import { rotated, type Vector } from '../vectors.ts';
import { type Body, boxesMeet, type Mark, type Segment } from './body.ts';
import { edgePoint, signedDistance } from './signedDistance.ts';

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
  const widest = Math.max(...groups.reach);
  if (!boxesMeet(body.box, other.box, turn, widest)) return;
  const near = Array.from({ length: groups.count }, (): Segment[] => []);
  const best = Float64Array.from(groups.reach);
  for (const segment of body.segments) {
    if (!boxesMeet(segment.box, other.box, turn, widest)) continue;
    for (const one of other.segments) {
      const group = groups.of(segment.mark, one.mark);
      if (boxesMeet(segment.box, one.box, turn, best[group]!)) near[group]!.push(one);
    }
    for (let group = 0; group < groups.count; group++) {
      if (near[group]!.length === 0) continue;
      alongEdges(body, segment, other, near[group]!, turn, best[group]!, (distance, one, at) => {
        best[group] = distance;
        tell(group, { distance, at, own: segment, other: one });
      });
      near[group]!.length = 0;
    }
  }
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
 * Goes along the edges of a segment of one body and tells ever smaller distances to segments of another,
 * below `reach`: at points of even spacing, and from each dip of theirs on to its bottom.
 */
function alongEdges(
  body: Body,
  segment: Segment,
  other: Body,
  segments: readonly Segment[],
  turn: number,
  reach: number,
  tell: (distance: number, other: Segment, at: Vector) => void,
): void {
  const point = new Float64Array(3);
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const rounding = body.rounding + other.rounding;
  const steps = Math.max(2, Math.ceil(segment.length / spacing));
  const step = segment.length / steps;
  const distances = new Float64Array(steps + 1);
  let nearest = segments[0]!;
  let best = reach;
  for (const [across, up] of lines) {
    if (across * up === 0 && best >= facing) break;
    const distanceAt = (share: number): number => {
      edgePoint(body, segment, across, up, share, cosine, sine, point);
      let least = Number.POSITIVE_INFINITY;
      for (const one of segments) {
        const distance = signedDistance(other, one, point);
        if (distance < least) {
          least = distance;
          nearest = one;
        }
      }
      return least - rounding;
    };
    const note = (distance: number, share: number) => {
      if (distance >= best) return;
      best = distance;
      edgePoint(body, segment, across, up, share, cosine, sine, point);
      tell(distance, nearest, [point[0]!, point[1]!, point[2]!]);
    };
    for (let at = 0; at <= steps; at++) {
      distances[at] = distanceAt(at / steps);
      note(distances[at]!, at / steps);
    }
    for (let at = 0; at <= steps; at++) {
      const here = distances[at]!;
      // No point between two that are `step` apart is nearer than this.
      if (here - step >= best) continue;
      const before = at > 0 ? distances[at - 1]! : Number.POSITIVE_INFINITY;
      const after = at < steps ? distances[at + 1]! : Number.POSITIVE_INFINITY;
      if (before - here < flat || after - here < flat) continue;
      const dip = bottom(distanceAt, Math.max(0, at - 1) / steps, Math.min(steps, at + 1) / steps);
      note(dip.value, dip.at);
    }
  }
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
