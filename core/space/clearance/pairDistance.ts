import { rotated, type Vector } from '../vectors.ts';
import { type Body, edges, linesOf, type Mark, outerLines, type Segment } from './body.ts';
import { boxesMeet, boxSize } from './box.ts';
import {
  edgePoint,
  type Probe,
  probe,
  segmentsApart,
  segmentsNear,
  writeBall,
  writePoints,
} from './signedDistance.ts';

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

/** Faces are looked at where edges come this near, m: they matter where sections lie flat on each other. */
export const facing = 3e-4;
/** No distance is as large; points beside all segments have none. */
const unseen = Number.POSITIVE_INFINITY;
/** Differences along an edge below this are no dip, m. */
const flat = 1e-6;

/** A reach within which nothing lies, m. */
export const nothing = -1;

/** What is still looked for. */
export interface Sought {
  /** By group: distances below these, m. */
  readonly below: number[];
  /** Nothing is. */
  isFound: boolean;
}

/**
 * What it takes to look for the distances of a pair: the same lists for one pair after the other, because new ones for
 * each would take longer than the shorter searches.
 */
export interface Room {
  readonly sought: Sought;
  /** By group, the least distance so far. */
  readonly best: number[];
  /** Pieces of the other body that the present piece comes near to, and the groups that it makes with them. */
  readonly nearPieces: number[];
  readonly groupWith: number[];
  /** Segments of the other body that the present one comes near to. */
  readonly nearSegments: Segment[];
  readonly found: Probe;
  /** From points on a line. */
  readonly distances: number[];
  /** Segments that a line may come near, the first `taken` of the list. */
  readonly beside: Segment[];
  taken: number;
  /** Of the balls round the line, m. */
  radius: number;
  /** The bottom of a dip: a distance, m, and the share of the segment where it is. */
  readonly dip: Float64Array;
  /** Of the angle by which the body stands turned against the other. */
  cosine: number;
  sine: number;
}

/** Room for one search at a time. */
export function roomForPairs(): Room {
  return {
    sought: { below: [], isFound: false },
    best: [],
    nearPieces: [],
    groupWith: [],
    nearSegments: [],
    found: { point: new Float64Array(3), distance: 0, h: 0, v: 0, nearest: null },
    distances: [],
    beside: [],
    taken: 0,
    radius: 0,
    dip: new Float64Array(2),
    cosine: 1,
    sine: 0,
  };
}

/** Told each smaller distance of a group, m; says what is still looked for. */
type Heard = (sought: Sought, group: number, distance: number) => void;

const smaller: Heard = ({ below }, group, distance) => {
  below[group] = distance;
};

/**
 * The smallest distance of two coated bodies in each group of their segments, the first turned by `turn`
 * about the axis; null for a group that has none within its reach. From the rounded edges of either to the
 * other, from the middles of faces where edges come near, and from the largest balls in either where they collide.
 * Where `heard` looks for less than ever smaller distances, these need not be the smallest.
 */
export function pairDistances(
  room: Room,
  first: Body,
  second: Body,
  turn: number,
  groups: Groups,
  heard: Heard = smaller,
): readonly (Meeting | null)[] {
  const meetings = new Array<Meeting | null>(groups.count).fill(null);
  const { sought } = room;
  sought.isFound = false;
  for (let group = 0; group < groups.count; group++) sought.below[group] = unseen;
  const told =
    (isSwapped: boolean): Tell =>
    (group, { distance, at, own, other }) => {
      if (distance >= (meetings[group]?.distance ?? unseen)) return;
      // Points of the second are told as the first stands.
      meetings[group] = isSwapped
        ? { distance, at: rotated(at, turn), first: other, second: own }
        : { distance, at, first: own, second: other };
      heard(sought, group, distance);
    };
  const isNear = fromEdges(room, first, second, turn, groups, told(false));
  if (isNear && !sought.isFound) fromEdges(room, second, first, -turn, groups, told(true));
  return meetings;
}

/**
 * The distance from which on nothing is looked at, where `best` was found already and only what is below `sought`
 * counts: as long as edges are not known to come so near that faces are looked at, whether they do counts too. Bodies
 * within each other are looked at as far as they meet.
 */
function bound(best: number, sought: number): number {
  if (sought >= best) return best;
  return Math.max(sought, best >= facing ? facing : 0);
}

/**
 * The reach for the box of a piece and another where a point is to lie so deep in the piece, or beyond all: boxes with a
 * negative one overlap by it along the radius, but depths are measured across sections, which lean where a piece rises.
 */
function overlap(reach: number, isLevel: boolean): number {
  return isLevel || reach <= nothing ? reach : Math.max(0, reach);
}

/** A point of the one body near the other, as that stands for slot 1. */
interface Nearing {
  readonly distance: number;
  readonly at: Vector;
  readonly own: Segment;
  readonly other: Segment;
}

type Tell = (group: number, nearing: Nearing) => void;

/**
 * Tells, group by group, ever smaller distances from the edges of a body to another, those that are sought. Returns
 * whether any of their segments may be within reach of each other.
 */
function fromEdges(room: Room, body: Body, other: Body, turn: number, groups: Groups, tell: Tell): boolean {
  let isNear = false;
  const { sought, best, nearPieces, groupWith, nearSegments } = room;
  const { below } = sought;
  let widest = 0;
  for (let group = 0; group < groups.count; group++) {
    best[group] = groups.reach[group]!;
    widest = Math.max(widest, best[group]!);
  }
  if (!boxesMeet(body.box, 0, other.box, 0, turn, widest)) return false;
  const cosine = Math.cos(turn);
  const sine = Math.sin(turn);
  Object.assign(room, { cosine, sine });
  const { boxes, pieceBoxes, firstSegment, isLevel, marks, segments } = other;
  const rounding = body.rounding + other.rounding;
  for (let piece = 0; piece < body.marks.length; piece++) {
    const ofPiece = boxSize * piece;
    if (!boxesMeet(body.pieceBoxes, ofPiece, other.box, 0, turn, widest)) continue;
    let pieces = 0;
    let lowest = groups.count;
    let highest = -1;
    for (let index = 0; index < marks.length; index++) {
      const group = groups.of(body.marks[piece]!, marks[index]!);
      const reach = overlap(bound(best[group]!, below[group]!), isLevel[index]!);
      if (!boxesMeet(body.pieceBoxes, ofPiece, pieceBoxes, boxSize * index, turn, reach)) continue;
      nearPieces[pieces] = index;
      groupWith[pieces] = group;
      lowest = Math.min(lowest, group);
      highest = Math.max(highest, group);
      pieces++;
    }
    if (pieces === 0) continue;
    for (let own = body.firstSegment[piece]!; own < body.firstSegment[piece + 1]!; own++) {
      const ofOwn = boxSize * own;
      const segment = body.segments[own]!;
      for (let group = lowest; group <= highest; group++) {
        let count = 0;
        let isApart = true;
        const reach = bound(best[group]!, below[group]!);
        for (let index = 0; index < pieces; index++) {
          if (groupWith[index] !== group) continue;
          const near = nearPieces[index]!;
          const overlapping = overlap(reach, isLevel[near]!);
          if (!boxesMeet(body.boxes, ofOwn, pieceBoxes, boxSize * near, turn, overlapping)) continue;
          const end = firstSegment[near + 1]!;
          for (let one = firstSegment[near]!; one < end; one++)
            if (boxesMeet(body.boxes, ofOwn, boxes, boxSize * one, turn, overlapping)) {
              const near = segments[one]!;
              nearSegments[count++] = near;
              isApart &&= segmentsApart(body, segment, other, near, cosine, sine, reach + rounding);
            }
        }
        if (isApart) continue;
        isNear = true;
        best[group] = alongEdges(room, body, segment, other, count, best[group]!, group, tell);
        if (sought.isFound) return true;
      }
    }
  }
  return isNear;
}

/**
 * Goes along the edges of a segment of one body and tells ever smaller distances to the first `count` near segments of
 * another, below `reach`, as those of a group: at points of even spacing, and from each dip of theirs on to its
 * bottom. Returns the last of them, or `reach`.
 */
function alongEdges(
  room: Room,
  body: Body,
  segment: Segment,
  other: Body,
  count: number,
  reach: number,
  group: number,
  tell: Tell,
): number {
  const { found, distances, beside, cosine, sine, dip, nearSegments } = room;
  const { below } = room.sought;
  const { point } = found;
  // A wider and a higher section may lie across each other with all of their edges apart, and the middles of their faces.
  const isAcross = (body.halfAside - other.halfAside) * (body.halfRadial - other.halfRadial) < 0;
  const { balls, points, written } = linesOf(body);
  const { steps } = segment;
  const step = segment.length / steps;
  let best = reach;
  const tellPoint = (distance: number) => {
    best = distance;
    const at: Vector = [point[0]!, point[1]!, point[2]!];
    tell(group, { distance, at, own: segment, other: found.nearest! });
  };
  for (let index = 0; index < body.across.length; index++) {
    const [across, up] = body.across[index]!;
    const isInner = index >= outerLines.length;
    if (index >= edges && !isAcross && best >= (isInner ? 0 : facing)) break;
    if (isInner && room.sought.isFound) break;
    room.radius = isInner ? body.innerRadius : body.rounding;
    const line = segment.line + index;
    const ball = 4 * line;
    if (balls[ball + 3] === 0) writeBall(body, segment, index, across, up);
    point[0] = balls[ball]! * cosine - balls[ball + 1]! * sine;
    point[1] = balls[ball]! * sine + balls[ball + 1]! * cosine;
    point[2] = balls[ball + 2]!;
    room.taken = segmentsNear(
      other,
      nearSegments,
      count,
      found,
      balls[ball + 3]!,
      bound(best, below[group]!) + room.radius + other.rounding,
      beside,
    );
    if (room.taken === 0) continue;
    if (written[line] === 0) writePoints(body, segment, index, across, up);
    const first = 3 * (segment.point + index * (steps + 1));
    // Balls as large reach out of a body near its ends.
    const short = isInner ? room.radius / step : 0;
    const least = segment.first ? Math.ceil(short) : 0;
    const most = steps - (segment.last ? Math.ceil(short) : 0);
    for (let at = least; at <= most; at++) {
      const x = points[first + 3 * at]!;
      const y = points[first + 3 * at + 1]!;
      point[0] = x * cosine - y * sine;
      point[1] = x * sine + y * cosine;
      point[2] = points[first + 3 * at + 2]!;
      probe(other, beside, room.taken, found, room.radius);
      const { distance } = found;
      distances[at] = distance;
      if (distance < best) tellPoint(distance);
    }
    for (let at = least; at <= most; at++) {
      const here = distances[at]!;
      const sought = bound(best, below[group]!);
      // No point between two that are `step` apart is nearer than this.
      if (here - step >= sought) continue;
      const before = at > least ? distances[at - 1]! : unseen;
      const after = at < most ? distances[at + 1]! : unseen;
      if (before - here < flat || after - here < flat) continue;
      // Nor, where it lies beside no segment that they do not, than half of this, with the nearer of those next to it.
      const isSeen = (at === least || before < unseen) && (at === most || after < unseen);
      if (isSeen && sought > 0 && here + Math.min(before, after) - step >= 2 * (sought + flat)) continue;
      toBottom(
        room,
        body,
        segment,
        other,
        across,
        up,
        Math.max(least, at - 1) / steps,
        Math.min(most, at + 1) / steps,
      );
      if (dip[0]! >= best) continue;
      edgePoint(body, segment, across, up, dip[1]!, cosine, sine, point);
      tellPoint(dip[0]!);
    }
  }
  return best;
}

/** The distance of a body from another at a place on a line of one of its segments, m. */
function distanceAt(
  { found, beside, taken, radius, cosine, sine }: Room,
  body: Body,
  segment: Segment,
  other: Body,
  across: number,
  up: number,
  share: number,
): number {
  edgePoint(body, segment, across, up, share, cosine, sine, found.point);
  probe(other, beside, taken, found, radius);
  return found.distance;
}

const golden = (Math.sqrt(5) - 1) / 2;

/**
 * Leaves in `dip` the least distance between two places on a line with one dip between them, and where it is, by
 * golden sections.
 */
function toBottom(
  room: Room,
  body: Body,
  segment: Segment,
  other: Body,
  across: number,
  up: number,
  from: number,
  to: number,
): void {
  const { dip } = room;
  let low = from;
  let high = to;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = distanceAt(room, body, segment, other, across, up, left);
  let atRight = distanceAt(room, body, segment, other, across, up, right);
  dip[0] = Math.min(atLeft, atRight);
  dip[1] = atLeft < atRight ? left : right;
  for (let round = 0; round < 12; round++) {
    if (atLeft < atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - golden * (high - low);
      atLeft = distanceAt(room, body, segment, other, across, up, left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + golden * (high - low);
      atRight = distanceAt(room, body, segment, other, across, up, right);
    }
    if (atLeft < dip[0]!) {
      dip[0] = atLeft;
      dip[1] = left;
    }
    if (atRight < dip[0]!) {
      dip[0] = atRight;
      dip[1] = right;
    }
  }
}
