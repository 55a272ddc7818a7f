import { chordsFor, stationSize, writeStation } from '../curve.ts';
import type { Piece } from '../piece.ts';
import { coatedHeight, coatedWidth, type Section } from '../section.ts';
import { boxRound, boxSize, extentOf, extentSize, unionOf } from './box.ts';

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
  /** Half the section with its edges, as it stands: along the radius, and across that. */
  readonly halfRadial: number;
  readonly halfAside: number;
  /** Lines along it, by shares of its inner width and height: the outer ones, then the middles of the largest balls in it. */
  readonly across: readonly (readonly [across: number, up: number])[];
  /** Radius of these balls. */
  readonly innerRadius: number;
  /** Numbers of each station one behind the other. */
  readonly stations: Float64Array;
  readonly segments: readonly Segment[];
  /** The boxes of its segments (box.ts). */
  readonly boxes: Float64Array;
  /** Those of its pieces, each round all of its segments. */
  readonly pieceBoxes: Float64Array;
  /** The first segment of each piece, and the end of the last. */
  readonly firstSegment: Int32Array;
  /** Of each piece what it is marked with. */
  readonly marks: readonly Mark[];
  /** Made when one is first asked for (`linesOf`): most bodies are told apart without. */
  lines: EdgeLines | null;
  /** The one round all of it. */
  readonly box: Float64Array;
  /** Of each piece whether it keeps its distance from the axis, so that sections across it stand along the radius. */
  readonly isLevel: readonly boolean[];
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
  /** Its first line in those of the body, from which points go on so many steps, and the first point of that. */
  readonly line: number;
  readonly steps: number;
  readonly point: number;
  /** Whether the body ends where the segment begins or ends. */
  readonly first: boolean;
  readonly last: boolean;
}

/** Lines along the segments of a body as it stands for slot 1, those that have been asked for. */
export interface EdgeLines {
  /** A ball that holds all of a line: its center and radius, which is 0 until it is asked for. */
  readonly balls: Float64Array;
  /** Points of even spacing on each line; x, y, z each. */
  readonly points: Float64Array;
  /** 1 for lines whose points are there. */
  readonly written: Uint8Array;
}

/** Lines along a section, by the signs of its width and height: its edges, then the middles of its faces. */
export const outerLines = [
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
] as const;
/** Of these the edges. */
export const edges = 4;
/** Lines of a segment: these, and three within it. */
const linesOfSegment = outerLines.length + 3;
/** Distance along a line between its points, m. */
const spacing = 8e-4;

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
  const width = coatedWidth(section);
  const height = coatedHeight(section);
  const rounding =
    section.corner === 0 ? 0 : Math.min(section.corner + section.coating, width / 2, height / 2);
  const reach = Math.hypot(width, height) / 2 + chordTolerance;
  const firstSegment = new Int32Array(pieces.length + 1);
  pieces.forEach(({ curve, length }, piece) => {
    firstSegment[piece + 1] = firstSegment[piece]! + chordsFor(curve, length, chordTolerance);
  });
  const total = firstSegment[pieces.length]!;
  const stations = new Float64Array(stationSize * (2 * total + pieces.length));
  const extents = new Float64Array(extentSize * (2 * total + pieces.length));
  const boxes = new Float64Array(boxSize * total);
  const pieceBoxes = new Float64Array(boxSize * pieces.length);
  const segments: Segment[] = [];
  let points = 0;
  let next = 0;
  pieces.forEach(({ curve, length }, piece) => {
    const first = firstSegment[piece]!;
    const count = firstSegment[piece + 1]! - first;
    for (let at = 0; at <= 2 * count; at++) {
      const station = (next + at) * stationSize;
      writeStation(curve, at / (2 * count), stations, station);
      extentOf(stations, station, width, height, extents, (next + at) * extentSize);
    }
    const steps = Math.max(2, Math.ceil(length / count / spacing));
    for (let chord = 0; chord < count; chord++) {
      const station = next + 2 * chord;
      boxRound(extents, station * extentSize, reach, boxes, (first + chord) * boxSize);
      segments.push({
        station,
        length: length / count,
        piece,
        mark: marks[piece]!,
        line: linesOfSegment * segments.length,
        steps,
        point: points,
        first: ends.start && segments.length === 0,
        last: ends.end && segments.length === total - 1,
      });
      points += linesOfSegment * (steps + 1);
    }
    unionOf(boxes, first, first + count, pieceBoxes, piece * boxSize);
    next += 2 * count + 1;
  });
  const box = new Float64Array(boxSize);
  unionOf(boxes, 0, total, box, 0);
  const halfWidth = width / 2 - rounding;
  const halfHeight = height / 2 - rounding;
  const isOnEdge = pieces[0]!.curve.radialSide === 'height';
  const thin = Math.min(halfWidth, halfHeight);
  const wide = halfWidth > thin ? 1 - thin / halfWidth : 0;
  const high = halfHeight > thin ? 1 - thin / halfHeight : 0;
  return {
    halfWidth,
    halfHeight,
    rounding,
    halfRadial: (isOnEdge ? height : width) / 2,
    halfAside: (isOnEdge ? width : height) / 2,
    across: [...outerLines, [0, 0], [wide, high], [-wide, -high]],
    innerRadius: thin + rounding,
    stations,
    segments,
    boxes,
    pieceBoxes,
    firstSegment,
    marks,
    lines: null,
    box,
    isLevel: pieces.map(({ curve }) => curve.profile.kind === 'level'),
  };
}

/** The lines along a body. */
export function linesOf(body: Body): EdgeLines {
  const { line, point, steps } = body.segments.at(-1)!;
  const count = line + linesOfSegment;
  body.lines ??= {
    balls: new Float64Array(4 * count),
    points: new Float64Array(3 * (point + linesOfSegment * (steps + 1))),
    written: new Uint8Array(count),
  };
  return body.lines;
}
