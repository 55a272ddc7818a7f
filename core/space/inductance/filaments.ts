import { type Curve, chordsFor, speedAt, stationAt } from '../curve.ts';
import type { Piece } from '../piece.ts';
import { difference, distance, dot, type Vector } from '../vectors.ts';
import { ruleOf } from './gauss.ts';

/** Numbers of a chord: middle x, y, z, direction x, y, z of length 1, length. */
export const chordSize = 7;
/** Numbers of a part: middle x, y, z, length. */
export const partSize = 4;
/** Numbers of a node: place x, y, z, and the directed stretch of the line that it stands for. */
export const nodeSize = 6;

/**
 * A center line, m, for a bar in slot 1: as chords, and coarser as parts of some chords each. Seen from afar, one to
 * four nodes at the places of Gauss stand for a part.
 */
export interface Filament {
  readonly chords: Float64Array;
  readonly parts: Float64Array;
  /** The first chord of each part, and the end of the last. */
  readonly firstChord: Int32Array;
  /** Those of all parts with one node each, then with two, three and four. */
  readonly nodes: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

/** How far the chords of a filament may leave its center line, m. */
const chordTolerance = 1.5e-4;

/** Chords and pieces shorter than this, m, are left out. */
const shortest = 1e-9;

/** Most chords of a part, and most radians by which it turns. */
const mostChords = 4;
const mostTurn = 1.2;

/** The center line of pieces; `finer` times as many chords and parts as closeness asks for. */
export function filamentOf(pieces: readonly Piece<unknown>[], finer = 1): Filament {
  const parts = pieces.flatMap(({ curve, length }) => {
    // What bends leave of a piece may be nothing but rounding; it has no direction.
    if (length <= shortest) return [];
    const chords = finer * chordsFor(curve, length, chordTolerance);
    const turn = Math.acos(
      Math.max(-1, Math.min(1, dot(stationAt(curve, 0).tangent, stationAt(curve, 1).tangent))),
    );
    const count = Math.min(chords, finer * Math.ceil(Math.max(chords / finer / mostChords, turn / mostTurn)));
    return Array.from({ length: count }, (_, part) => {
      const [from, to] = [Math.round((part * chords) / count), Math.round(((part + 1) * chords) / count)];
      return partOf(curve, from / chords, to / chords, to - from);
    });
  });
  return filament(parts);
}

/** The filament of straight lines from each point to the next. */
export function filamentThrough(points: readonly Vector[]): Filament {
  return filament(
    points.slice(1).map((to, index): Part => {
      const from = points[index]!;
      const between = ([place, weight]: readonly [number, number]) => [
        ...from.map((value, axis) => value + (place + 0.5) * (to[axis]! - value)),
        ...to.map((value, axis) => (value - from[axis]!) * weight),
      ];
      return { points: [from, to], nodes: ruleOf.map((rule) => pairsOf(rule).flatMap(between)) };
    }),
  );
}

function pairsOf(rule: Float64Array): readonly (readonly [place: number, weight: number])[] {
  return Array.from({ length: rule.length / 2 }, (_, at) => [rule[2 * at]!, rule[2 * at + 1]!]);
}

/** Points that chords lead through, and the numbers of one, two, three and four nodes. */
interface Part {
  readonly points: readonly Vector[];
  readonly nodes: readonly (readonly number[])[];
}

/** The part of a curve between two fractions of it. */
function partOf(curve: Curve, from: number, to: number, chords: number): Part {
  const points: Vector[] = [];
  for (let at = 0; at <= chords; at++)
    points.push(stationAt(curve, from + (at / chords) * (to - from)).point);
  const along = difference(points.at(-1)!, points[0]!);
  return { points, nodes: ruleOf.map((rule) => nodesOn(curve, from, to, rule, along)) };
}

/** Nodes between two fractions of a curve, `along` from the one to the other. */
function nodesOn(
  curve: Curve,
  from: number,
  to: number,
  rule: Float64Array,
  [alongX, alongY, alongZ]: Vector,
): readonly number[] {
  const nodes: number[] = [];
  let [openX, openY, openZ] = [alongX, alongY, alongZ];
  for (let at = 0; at < rule.length; at += 2) {
    const fraction = from + (rule[at]! + 0.5) * (to - from);
    const { point, tangent } = stationAt(curve, fraction);
    const length = speedAt(curve, fraction) * rule[at + 1]! * (to - from);
    const [x, y, z] = [tangent[0] * length, tangent[1] * length, tangent[2] * length];
    nodes.push(point[0], point[1], point[2], x, y, z);
    openX -= x;
    openY -= y;
    openZ -= z;
  }
  // Together they lead from one end to the other: what the rule leaves open is spread among them.
  const count = rule.length / 2;
  for (let at = 0; at < nodes.length; at += nodeSize) {
    nodes[at + 3]! += openX / count;
    nodes[at + 4]! += openY / count;
    nodes[at + 5]! += openZ / count;
  }
  return nodes;
}

function filament(all: readonly Part[]): Filament {
  const chords: number[] = [];
  const parts: number[] = [];
  const firstChord = [0];
  const nodes: readonly [number[], number[], number[], number[]] = [[], [], [], []];
  for (const { points, nodes: made } of all) {
    let whole = 0;
    points.slice(1).forEach((to, index) => {
      const from = points[index]!;
      const length = distance(from, to);
      if (length <= shortest) return;
      whole += length;
      for (let axis = 0; axis < 3; axis++) chords.push((from[axis]! + to[axis]!) / 2);
      for (let axis = 0; axis < 3; axis++) chords.push((to[axis]! - from[axis]!) / length);
      chords.push(length);
    });
    firstChord.push(chords.length / chordSize);
    parts.push(...made[0]!.slice(0, 3), whole);
    nodes.forEach((level, index) => {
      level.push(...made[index]!);
    });
  }
  const [a, b, c, d] = nodes;
  return {
    chords: Float64Array.from(chords),
    parts: Float64Array.from(parts),
    firstChord: Int32Array.from(firstChord),
    nodes: [Float64Array.from(a), Float64Array.from(b), Float64Array.from(c), Float64Array.from(d)],
  };
}

/**
 * A filament turned about the axis by an angle, and mirrored in the plane z = `mirror` where that is given; made in
 * `room`, a filament of the same make, where there is one.
 */
export function moved(
  filament: Filament,
  turn: number,
  mirror: number | null,
  room: Filament = copyOf(filament),
): Filament {
  const turned = { cosine: Math.cos(turn), sine: Math.sin(turn), mirrored: mirror !== null };
  const ofPlaces = { ...turned, height: 2 * (mirror ?? 0) };
  const ofDirections = { ...turned, height: 0 };
  moveVectors(filament.chords, room.chords, chordSize, 0, ofPlaces);
  moveVectors(filament.chords, room.chords, chordSize, 3, ofDirections);
  moveVectors(filament.parts, room.parts, partSize, 0, ofPlaces);
  filament.nodes.forEach((nodes, level) => {
    moveVectors(nodes, room.nodes[level]!, nodeSize, 0, ofPlaces);
    moveVectors(nodes, room.nodes[level]!, nodeSize, 3, ofDirections);
  });
  return room;
}

/** A filament of the same make, with numbers of its own. */
export function copyOf({ chords, parts, firstChord, nodes }: Filament): Filament {
  const [one, two, three, four] = nodes;
  return {
    chords: chords.slice(),
    parts: parts.slice(),
    firstChord,
    nodes: [one.slice(), two.slice(), three.slice(), four.slice()],
  };
}

/** How vectors are moved: turned about the axis and, where they are mirrored, their z taken from `height`. */
interface Way {
  readonly cosine: number;
  readonly sine: number;
  readonly mirrored: boolean;
  readonly height: number;
}

/** Moves the vector that begins at `first` in every `size` numbers. */
function moveVectors(
  from: Float64Array,
  to: Float64Array,
  size: number,
  first: number,
  { cosine, sine, mirrored, height }: Way,
): void {
  for (let at = first; at < from.length; at += size) {
    const x = from[at]!;
    const y = from[at + 1]!;
    const z = from[at + 2]!;
    to[at] = x * cosine - y * sine;
    to[at + 1] = x * sine + y * cosine;
    to[at + 2] = mirrored ? height - z : z;
  }
}
