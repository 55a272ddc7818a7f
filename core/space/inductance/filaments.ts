import { chordsFor, stationAt } from '../curve.ts';
import type { Piece } from '../piece.ts';

/** Numbers of a segment: middle x, y, z, direction x, y, z of length 1, length. */
export const segmentSize = 7;
const size = segmentSize;

/** A center line as straight segments, m, for a bar in slot 1; seven numbers a segment. */
export type Filament = Float64Array;

/** How far the chords of a filament may leave its center line, m. */
const chordTolerance = 1.5e-4;

/** Chords shorter than this, m, are left out. */
const shortest = 1e-9;

/** The chords of pieces; `finer` times as many as closeness asks for. */
export function filamentOf(pieces: readonly Piece<unknown>[], finer = 1): Filament {
  const numbers: number[] = [];
  for (const { curve, length } of pieces) {
    const chords = finer * chordsFor(curve, length, chordTolerance);
    let [x, y, z] = stationAt(curve, 0).point;
    for (let chord = 1; chord <= chords; chord++) {
      const [nextX, nextY, nextZ] = stationAt(curve, chord / chords).point;
      // What bends leave of a piece may be nothing but rounding; it has no direction.
      const isThere = Math.hypot(nextX - x, nextY - y, nextZ - z) > shortest;
      if (isThere) numbers.push(...segmentOf(x, y, z, nextX, nextY, nextZ));
      [x, y, z] = [nextX, nextY, nextZ];
    }
  }
  return Float64Array.from(numbers);
}

/** The seven numbers of a straight segment from one point to another. */
export function segmentOf(
  x: number,
  y: number,
  z: number,
  toX: number,
  toY: number,
  toZ: number,
): readonly number[] {
  const [dx, dy, dz] = [toX - x, toY - y, toZ - z];
  const length = Math.hypot(dx, dy, dz);
  return [(x + toX) / 2, (y + toY) / 2, (z + toZ) / 2, dx / length, dy / length, dz / length, length];
}

/** A filament turned about the axis by an angle, and mirrored in the plane z = `mirror` where that is given. */
export function moved(filament: Filament, turn: number, mirror: number | null): Filament {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const out = filament.slice();
  for (let at = 0; at < filament.length; at += size) {
    for (const part of [0, 3]) {
      const [x, y] = [filament[at + part]!, filament[at + part + 1]!];
      out[at + part] = x * cosine - y * sine;
      out[at + part + 1] = x * sine + y * cosine;
    }
    if (mirror !== null) {
      out[at + 2] = 2 * mirror - filament[at + 2]!;
      out[at + 5] = -filament[at + 5]!;
    }
  }
  return out;
}

// Gauss-Legendre places and weights on -1/2..1/2 (Abramowitz and Stegun, table 25.4).
const coarse = symmetric([[0.28867513459481287, 0.5]]);
const usual = symmetric([
  [0.11930959304159845, 0.23395696728634552],
  [0.3306046932331323, 0.1803807865240693],
  [0.46623475710157603, 0.0856622461895852],
]);
const fine = symmetric([
  [0.0540274743536718, 0.107631926731579],
  [0.159556184463945, 0.10259923186064777],
  [0.2576243181790099, 0.09276919873896891],
  [0.3436464520815627, 0.0786015835790967],
  [0.4136006497948424, 0.06075928534395159],
  [0.464217417563656, 0.0400790435798801],
  [0.4931419034910834, 0.01755973016587593],
]);

/** Places and weights in turn. */
function symmetric(half: readonly (readonly [place: number, weight: number])[]): Float64Array {
  return Float64Array.from(half.flatMap(([place, weight]) => [-place, weight, place, weight]));
}

/** asinh u + asinh v by one logarithm, for u + v > 0: where one is negative, it is taken off. */
function sumOfAsinh(u: number, v: number): number {
  const a = Math.abs(u) + Math.sqrt(u * u + 1);
  const b = Math.abs(v) + Math.sqrt(v * v + 1);
  return Math.log(u < 0 ? b / a : v < 0 ? a / b : a * b);
}

const perLength = 1e-7;
/** Filaments nearer than this, m, are taken this far apart. */
const least = 1e-7;
const least2 = least * least;

/**
 * Mutual inductance of two filaments, H, `apart` m farther from each other than their lines in a direction
 * of its own (the mean distance of a section from itself): (mu0/4 pi) times the double integral of the
 * directions' product over the distance, inner integral closed, outer by Gauss.
 */
export function mutualInductance(first: Filament, second: Filament, apart: number): number {
  const apart2 = apart * apart;
  let sum = 0;
  for (let a = 0; a < first.length; a += size) {
    const ax = first[a]!;
    const ay = first[a + 1]!;
    const az = first[a + 2]!;
    const alongX = first[a + 3]!;
    const alongY = first[a + 4]!;
    const alongZ = first[a + 5]!;
    const lengthA = first[a + 6]!;
    for (let b = 0; b < second.length; b += size) {
      const toX = second[b + 3]!;
      const toY = second[b + 4]!;
      const toZ = second[b + 5]!;
      const cosine = alongX * toX + alongY * toY + alongZ * toZ;
      const lengthB = second[b + 6]!;
      const x = ax - second[b]!;
      const y = ay - second[b + 1]!;
      const z = az - second[b + 2]!;
      const distance2 = x * x + y * y + z * z + apart2;
      const reach = lengthA + lengthB;
      const reach2 = reach * reach;
      if (distance2 > 36 * reach2) {
        sum += (cosine * lengthA * lengthB) / Math.sqrt(distance2);
        continue;
      }
      const rule = distance2 > 4 * reach2 ? coarse : distance2 > reach2 ? usual : fine;
      const half = lengthB / 2;
      let integral = 0;
      for (let at = 0; at < rule.length; at += 2) {
        const along = rule[at]! * lengthA;
        const px = x + along * alongX;
        const py = y + along * alongY;
        const pz = z + along * alongZ;
        const p = px * toX + py * toY + pz * toZ;
        const d2 = px * px + py * py + pz * pz - p * p + apart2;
        const d = Math.sqrt(Math.max(d2, least2));
        integral += rule[at + 1]! * sumOfAsinh((half - p) / d, (half + p) / d);
      }
      sum += cosine * lengthA * integral;
    }
  }
  return perLength * sum;
}
