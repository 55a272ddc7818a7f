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
  const vector = (at: number): Vector => [station[at]!, station[at + 1]!, station[at + 2]!];
  const parts = pieces.flatMap(({ curve, length }) => {
    // What bends leave of a piece may be nothing but rounding; it has no direction.
    if (length <= shortest) return [];
    const chords = finer * chordsFor(curve, length, chordTolerance);
    const points: Vector[] = [];
    const tangents: Vector[] = [];
    for (let at = 0; at <= chords; at++) {
      writeStation(curve, at / chords, station, 0);
      points.push(vector(0));
      tangents.push(vector(3));
    }
    const turn = Math.acos(Math.max(-1, Math.min(1, dot(tangents[0]!, tangents[chords]!))));
    const count = Math.min(chords, finer * Math.ceil(Math.max(chords / finer / mostChords, turn / mostTurn)));
    return Array.from({ length: count }, (_, part) => {
      const from = Math.round((part * chords) / count);
      const to = Math.round(((part + 1) * chords) / count);
      const own = points.slice(from, to + 1);
      const along = difference(own.at(-1)!, own[0]!);
      return {
        points: own,
        writeNodes: (rule: GaussRule, nodes: Float64Array, first: number) =>
          writeNodesOn(curve, from / chords, to / chords, along, rule, nodes, first, station),
      };
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

/** Writes nodes between two fractions of a curve, `along` from the one to the other. */
function writeNodesOn(
  curve: Curve,
  from: number,
  to: number,
  along: Vector,
  rule: GaussRule,
  nodes: Float64Array,
  first: number,
  station: Float64Array,
): void {
  const count = rule.length / 2;
  const end = first + nodeSize * count;
  for (let node = 0; node < count; node++) {
    writeStation(curve, from + (rule[2 * node]! + 0.5) * (to - from), station, 0);
    const length = station[ofSpeed]! * rule[2 * node + 1]! * (to - from);
    for (let axis = 0; axis < nodeSize; axis++)
      nodes[first + nodeSize * node + axis] = station[axis]! * (axis < 3 ? 1 : length);
  }
  // Together they lead from one end to the other: what the rule leaves open is spread among them.
  for (let axis = 0; axis < 3; axis++) {
    let open = along[axis]!;
    for (let at = first + 3 + axis; at < end; at += nodeSize) open -= nodes[at]!;
    for (let at = first + 3 + axis; at < end; at += nodeSize) nodes[at]! += open / count;
  }
}

function filament(all: readonly Part[]): Filament {
  const chords: number[] = [];
  const parts: number[] = [];
  const firstChord = [0];
  const starts = Int32Array.from(
    { length: ruleOf.length + 2 },
    (_, count) => (nodeSize * all.length * count * (count - 1)) / 2,
  );
  const nodes = new Float64Array(starts.at(-1)!);
  for (const [rule, places] of ruleOf.entries())
    for (const [part, { writeNodes }] of all.entries())
      writeNodes(places, nodes, starts[rule + 1]! + nodeSize * (rule + 1) * part);
  for (const [part, { points }] of all.entries()) {
    let whole = 0;
    for (let end = 1; end < points.length; end++) {
      const from = points[end - 1]!;
      const to = points[end]!;
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

/** A filament mirrored in the plane z = `plane`, m. */
export function mirrored(filament: Filament, plane: number): Filament {
  const mirror = (numbers: Float64Array, size: number, along: number) =>
    numbers.map((value, at) => (at % size === 2 ? 2 * plane - value : at % size === along ? -value : value));
  return {
    ...filament,
    parts: mirror(filament.parts, partSize, -1),
    chords: mirror(filament.chords, chordSize, 5),
    nodes: mirror(filament.nodes, nodeSize, 5),
  };
}
