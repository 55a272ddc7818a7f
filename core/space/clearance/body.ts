import { chordsFor, placeAt, stationAt } from '../curve.ts';
import type { Piece } from '../piece.ts';
import { coatedHeight, coatedWidth, type Section } from '../section.ts';

/** Numbers of a box in `Body.boxes`. */
export const boxSize = 4;

/** Numbers of a station: point, tangent, direction of the height, direction of the width. */
export const stationSize = 12;

/**
 * A coated section swept along a center line: a bar end, a connecting piece or a ring, as it stands for
 * slot 1. Segments follow each other along the line; each has a station at its start, in its middle and
 * at its end, and curves through them as a parabola. Edges of the section are rounded: the body is all
 * within `rounding` of its inner section. Lengths in m, angles in radians.
 */
export interface Body {
  /** Half the inner section: coated, less the rounding of the edges. */
  readonly halfWidth: number;
  /** The same along the slot depth. */
  readonly halfHeight: number;
  /** Radius of its edges. */
  readonly rounding: number;
  /** Numbers of each station one behind the other. */
  readonly stations: Float64Array;
  readonly segments: readonly Segment[];
  /** Of each segment the middle and half of its box's heights and of its radii; one behind the other. */
  readonly boxes: Float64Array;
  /** Of each segment its piece. */
  readonly pieces: Int32Array;
  /** Of each piece what it is marked with. */
  readonly marks: readonly Mark[];
  /** Round all segments. */
  readonly box: CylinderBox;
}

/** What a piece counts as, by a number of the caller's, and the layer it lies in; -1 for none. */
export interface Mark {
  readonly sort: number;
  readonly layer: number;
}

/** A stretch of a body between two stations. */
export interface Segment {
  /** Place of its first station; those of its middle and end follow. */
  readonly station: number;
  readonly length: number;
  /** Index of its piece in the body's list, and what that is marked with. */
  readonly piece: number;
  readonly mark: Mark;
  readonly box: CylinderBox;
  /** Lines along its edges, those that have been asked for. */
  readonly edges: EdgeLine[];
  /** Whether the body ends where the segment begins or ends. */
  readonly first: boolean;
  readonly last: boolean;
}

/** A line along an edge of a segment, as the body stands for slot 1. */
export interface EdgeLine {
  /** Points of even spacing; x, y, z each. */
  readonly points: Float64Array;
  /** A ball that holds all of the line: its center and radius. */
  readonly center: Float64Array;
  readonly radius: number;
}

/** All places between two angles, radii and heights: a middle and a half of each. */
export interface CylinderBox {
  readonly angle: number;
  readonly angleHalf: number;
  readonly radius: number;
  readonly radiusHalf: number;
  readonly height: number;
  readonly heightHalf: number;
}

/** How far the chords of a body's segments may leave its center line, m; the parabolas stay far nearer. */
const chordTolerance = 2e-5;

/**
 * The coated body along pieces, each with its mark. It ends where `ends` says: not at the stack, nor where
 * half a crown meets the other half.
 */
export function bodyOf(
  pieces: readonly Piece<unknown>[],
  section: Section,
  marks: readonly Mark[],
  ends: { readonly start: boolean; readonly end: boolean },
): Body {
  const [width, height] = [coatedWidth(section), coatedHeight(section)];
  const rounding =
    section.corner === 0 ? 0 : Math.min(section.corner + section.coating, width / 2, height / 2);
  const reach = Math.hypot(width, height) / 2 + chordTolerance;
  const counts = pieces.map(({ curve, length }) => chordsFor(curve, length, chordTolerance));
  const total = counts.reduce((sum, count) => sum + count, 0);
  const stations = new Float64Array(stationSize * (2 * total + pieces.length));
  const segments: Segment[] = [];
  let next = 0;
  pieces.forEach(({ curve, length }, piece) => {
    const count = counts[piece]!;
    const places = Array.from({ length: 2 * count + 1 }, (_, at) => placeAt(curve, at / (2 * count)));
    places.forEach((_, at) => {
      const { point, tangent, height: up, width: across } = stationAt(curve, at / (2 * count));
      const first = (next + at) * stationSize;
      stations.set(point, first);
      stations.set(tangent, first + 3);
      stations.set(up, first + 6);
      stations.set(across, first + 9);
    });
    for (let chord = 0; chord < count; chord++) {
      segments.push({
        station: next + 2 * chord,
        length: length / count,
        piece,
        mark: marks[piece]!,
        box: boxRound(places.slice(2 * chord, 2 * chord + 3), curve, reach, {
          stations: stations.subarray((next + 2 * chord) * stationSize, (next + 2 * chord + 3) * stationSize),
          width,
          height,
        }),
        edges: [],
        first: ends.start && segments.length === 0,
        last: ends.end && segments.length === total - 1,
      });
    }
    next += places.length;
  });
  return {
    halfWidth: width / 2 - rounding,
    halfHeight: height / 2 - rounding,
    rounding,
    stations,
    segments,
    boxes: Float64Array.from(
      segments.flatMap(({ box }) => [box.height, box.heightHalf, box.radius, box.radiusHalf]),
    ),
    pieces: Int32Array.from(segments, ({ piece }) => piece),
    marks,
    box: unionOf(segments.map(({ box }) => box)),
  };
}

function boxRound(
  places: readonly { readonly angle: number; readonly radius: number; readonly height: number }[],
  { side, face }: { readonly side: number; readonly face: number },
  reach: number,
  swept: { readonly stations: Float64Array; readonly width: number; readonly height: number },
): CylinderBox {
  const range = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;
  const inner = Math.min(...places.map(({ radius }) => radius));
  const [nearest, farthest] = radiiOf(swept);
  const [from, to] = range(places.map(({ angle }) => angle));
  const [low, high] = range(places.map(({ height }) => side * (face + height)));
  const across = Math.asin(Math.min(1, reach / inner));
  return {
    angle: (from + to) / 2,
    angleHalf: (to - from) / 2 + across,
    radius: (nearest + farthest) / 2,
    radiusHalf: (farthest - nearest) / 2 + radialTolerance,
    height: (low + high) / 2,
    heightHalf: (high - low) / 2 + reach,
  };
}

/** Between its stations a segment leaves the radii that it has there by less than this, m. */
const radialTolerance = 1e-6;

/** The least and the most radius of a coated section at some stations, m. */
function radiiOf({
  stations: s,
  width,
  height,
}: {
  readonly stations: Float64Array;
  readonly width: number;
  readonly height: number;
}): readonly [nearest: number, farthest: number] {
  let [nearest, farthest] = [Number.POSITIVE_INFINITY, 0];
  for (let at = 0; at < s.length; at += stationSize) {
    const radius = Math.sqrt(s[at]! ** 2 + s[at + 1]! ** 2);
    const [x, y] = [s[at]! / radius, s[at + 1]! / radius];
    // Half the section along the radius and across it.
    const along =
      (Math.abs(x * s[at + 6]! + y * s[at + 7]!) * height +
        Math.abs(x * s[at + 9]! + y * s[at + 10]!) * width) /
      2;
    const across =
      (Math.abs(x * s[at + 7]! - y * s[at + 6]!) * height +
        Math.abs(x * s[at + 10]! - y * s[at + 9]!) * width) /
      2;
    nearest = Math.min(nearest, radius - along);
    farthest = Math.max(farthest, Math.sqrt((radius + along) ** 2 + across ** 2));
  }
  return [nearest, farthest];
}

function unionOf(boxes: readonly CylinderBox[]): CylinderBox {
  const span = (middle: (box: CylinderBox) => number, half: (box: CylinderBox) => number) => {
    const from = Math.min(...boxes.map((box) => middle(box) - half(box)));
    const to = Math.max(...boxes.map((box) => middle(box) + half(box)));
    return [(from + to) / 2, (to - from) / 2] as const;
  };
  const [angle, angleHalf] = span(
    (box) => box.angle,
    (box) => box.angleHalf,
  );
  const [radius, radiusHalf] = span(
    (box) => box.radius,
    (box) => box.radiusHalf,
  );
  const [height, heightHalf] = span(
    (box) => box.height,
    (box) => box.heightHalf,
  );
  return { angle, angleHalf, radius, radiusHalf, height, heightHalf };
}

/**
 * Whether two boxes come within `reach` m of each other, the first turned by `turn` about the axis; with a negative
 * one, whether they overlap by so much in height and radius.
 */
export function boxesMeet(a: CylinderBox, b: CylinderBox, turn: number, reach: number): boolean {
  if (Math.abs(a.height - b.height) > a.heightHalf + b.heightHalf + reach) return false;
  if (Math.abs(a.radius - b.radius) > a.radiusHalf + b.radiusHalf + reach) return false;
  const inner = Math.min(a.radius - a.radiusHalf, b.radius - b.radiusHalf);
  if (inner <= reach) return true;
  const apart = a.angle + turn - b.angle;
  const round = Math.abs(apart - 2 * Math.PI * Math.round(apart / (2 * Math.PI)));
  // A chord of a length spans the most angle at the innermost radius; pi/3 bounds the arc of short ones.
  return round <= a.angleHalf + b.angleHalf + Math.min(Math.PI, (1.05 * Math.max(0, reach)) / inner);
}
