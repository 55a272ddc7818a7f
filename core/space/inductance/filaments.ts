import { type Curve, chordsFor, ofSpeed, stationSize, writeStation } from '../curve.ts';
import type { Piece } from '../piece.ts';
import { difference, distance, dot, type Vector } from '../vectors.ts';
import { type GaussRule, ruleOf } from './gauss.ts';

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
  /** The nodes of all parts with one each, then with two, three and four. */
  readonly nodes: Float64Array;
  /** Where the nodes begin of which there are so many a part, from 1, and where the last ones end. */
  readonly starts: Int32Array;
}

function startsOf(parts: number): Int32Array {
  return Int32Array.from(
    { length: ruleOf.length + 2 },
    (_, count) => (nodeSize * parts * count * (count - 1)) / 2,
  );
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
  const station = new Float64Array(stationSize);
  const parts = pieces.flatMap(({ curve, length }) => {
    // What bends leave of a piece may be nothing but rounding; it has no direction.
    if (length <= shortest) return [];
    const chords = finer * chordsFor(curve, length, chordTolerance);
    const points: Vector[] = [];
    const tangents: Vector[] = [];
    for (let at = 0; at <= chords; at++) {
      writeStation(curve, at / chords, station, 0);
      points.push([station[0]!, station[1]!, station[2]!]);
      tangents.push([station[3]!, station[4]!, station[5]!]);
    }
    const turn = Math.acos(Math.max(-1, Math.min(1, dot(tangents[0]!, tangents[chords]!))));
    const count = Math.min(chords, finer * Math.ceil(Math.max(chords / finer / mostChords, turn / mostTurn)));
    return Array.from({ length: count }, (_, part) => {
      const [from, to] = [Math.round((part * chords) / count), Math.round(((part + 1) * chords) / count)];
      return partOf(curve, from / chords, to / chords, points.slice(from, to + 1), station);
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
      return {
        points: [from, to],
        writeNodes: (rule, nodes, first) => nodes.set(pairsOf(rule).flatMap(between), first),
      };
    }),
  );
}

function pairsOf(rule: GaussRule): readonly (readonly [place: number, weight: number])[] {
  return Array.from({ length: rule.length / 2 }, (_, at) => [rule[2 * at]!, rule[2 * at + 1]!]);
}

/** Points that chords lead through, and how the nodes at the places of a rule are written, from `first` on. */
interface Part {
  readonly points: readonly Vector[];
  readonly writeNodes: (rule: GaussRule, nodes: Float64Array, first: number) => void;
}

/** The part of a curve between two fractions of it, which leads through points; `station` is there to be written. */
function partOf(
  curve: Curve,
  from: number,
  to: number,
  points: readonly Vector[],
  station: Float64Array,
): Part {
  const along = difference(points.at(-1)!, points[0]!);
  return {
    points,
    writeNodes: (rule, nodes, first) => writeNodesOn(curve, from, to, along, rule, nodes, first, station),
  };
}

/** Writes nodes between two fractions of a curve, `along` from the one to the other. */
function writeNodesOn(
  curve: Curve,
  from: number,
  to: number,
  [alongX, alongY, alongZ]: Vector,
  rule: GaussRule,
  nodes: Float64Array,
  first: number,
  station: Float64Array,
): void {
  const count = rule.length / 2;
  let [openX, openY, openZ] = [alongX, alongY, alongZ];
  for (let node = 0; node < count; node++) {
    const fraction = from + (rule[2 * node]! + 0.5) * (to - from);
    writeStation(curve, fraction, station, 0);
    const length = station[ofSpeed]! * rule[2 * node + 1]! * (to - from);
    const at = first + nodeSize * node;
    for (let axis = 0; axis < 3; axis++) {
      nodes[at + axis] = station[axis]!;
      nodes[at + 3 + axis] = station[3 + axis]! * length;
    }
    openX -= nodes[at + 3]!;
    openY -= nodes[at + 4]!;
    openZ -= nodes[at + 5]!;
  }
  // Together they lead from one end to the other: what the rule leaves open is spread among them.
  for (let at = first; at < first + nodeSize * count; at += nodeSize) {
    nodes[at + 3]! += openX / count;
    nodes[at + 4]! += openY / count;
    nodes[at + 5]! += openZ / count;
  }
}

function filament(all: readonly Part[]): Filament {
  const chords: number[] = [];
  const parts: number[] = [];
  const firstChord = [0];
  const starts = startsOf(all.length);
  const nodes = new Float64Array(starts.at(-1)!);
  for (const [rule, places] of ruleOf.entries())
    for (const [part, { writeNodes }] of all.entries())
      writeNodes(places, nodes, starts[rule + 1]! + nodeSize * (rule + 1) * part);
  for (const [part, { points }] of all.entries()) {
    let whole = 0;
    for (let end = 1; end < points.length; end++) {
      const [from, to] = [points[end - 1]!, points[end]!];
      const length = distance(from, to);
      if (length <= shortest) continue;
      whole += length;
      for (let axis = 0; axis < 3; axis++) chords.push((from[axis]! + to[axis]!) / 2);
      for (let axis = 0; axis < 3; axis++) chords.push((to[axis]! - from[axis]!) / length);
      chords.push(length);
    }
    firstChord.push(chords.length / chordSize);
    // Single nodes are the middles of their parts.
    for (let axis = 0; axis < 3; axis++) parts.push(nodes[nodeSize * part + axis]!);
    parts.push(whole);
  }
  return {
    chords: Float64Array.from(chords),
    parts: Float64Array.from(parts),
    firstChord: Int32Array.from(firstChord),
    nodes,
    starts,
  };
}

/** A filament turned about the axis by an angle, and mirrored in the plane z = `mirror` where that is given. */
export function moved(from: Filament, turn: number, mirror: number | null): Filament {
  const found = roomFor(from);
  move(from, found, turn, mirror);
  return found;
}

/** A filament of the same make, to be moved. */
export function roomFor(filament: Filament): Filament {
  const { chords, parts, nodes } = filament;
  return { ...filament, chords: chords.slice(), parts: parts.slice(), nodes: nodes.slice() };
}

/** Moves one filament of a make to where `moved` has the other. */
export function move(from: Filament, to: Filament, turn: number, mirror: number | null): void {
  const way = { cosine: Math.cos(turn), sine: Math.sin(turn), mirrored: mirror !== null };
  const height = 2 * (mirror ?? 0);
  moveVectors(from.parts, to.parts, partSize, 0, way, height);
  moveVectors(from.chords, to.chords, chordSize, 0, way, height);
  moveVectors(from.chords, to.chords, chordSize, 3, way, 0);
  moveVectors(from.nodes, to.nodes, nodeSize, 0, way, height);
  moveVectors(from.nodes, to.nodes, nodeSize, 3, way, 0);
}

/** How vectors are moved: turned about the axis and, where they are mirrored, their z taken from a height. */
interface Way {
  readonly cosine: number;
  readonly sine: number;
  readonly mirrored: boolean;
}

/** Moves the vectors that begin at `first` and every `size` numbers behind it; directions by a height of 0. */
function moveVectors(
  from: Float64Array,
  to: Float64Array,
  size: number,
  first: number,
  { cosine, sine, mirrored }: Way,
  height: number,
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
