import { chordSize, type Filament, nodeSize, partSize } from './filaments.ts';
import { fourteen, ruleOf } from './gauss.ts';

const perLength = 1e-7;
/** Filaments nearer than this, m, are taken this far apart. */
const least2 = 1e-7 * 1e-7;

/**
 * Mutual inductance of two filaments, H, `apart` m farther from each other than their lines in a direction
 * of its own (the mean distance of a section from itself): (mu0/4 pi) times the double integral of the
 * directions' product over the distance. By nodes of parts, or of chords, as far as these are apart for their
 * lengths; nearer than that with the inner integral closed, and the outer one by Gauss.
 */
export function mutualInductance(first: Filament, second: Filament, apart: number): number {
  return mutualInductances(first, second, apart, anglesOf(1, 0), 0, 1)[1]!;
}

/** Angles by which lines are turned about the axis. */
export interface Angles {
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
  /** Room for how two parts are taken at each (`kindOf`). */
  readonly kinds: Uint8Array;
  /** Room for what is found at each, H/`perLength`. */
  readonly found: Float64Array;
}

/** So many angles from 0 on by a step, radians. */
export function anglesOf(count: number, step: number): Angles {
  const angles = Float64Array.from({ length: count }, (_, at) => at * step);
  return {
    cosines: angles.map(Math.cos),
    sines: angles.map(Math.sin),
    kinds: new Uint8Array(count),
    // Not needed any more, and as long.
    found: angles,
  };
}

/**
 * The same at the angles from one to before another by which the second is turned: the number of the first of them, and
 * behind it one inductance an angle. Where the lines come nearest, the outer integral is that along the first.
 */
export function mutualInductances(
  first: Filament,
  second: Filament,
  apart: number,
  { cosines, sines, kinds, found }: Angles,
  from: number,
  end: number,
): number[] {
  const { parts: partsA, nodes: nodesA, starts: startsA } = first;
  const { parts: partsB, nodes: nodesB, starts: startsB } = second;
  const apart2 = apart * apart;
  found.fill(0);
  const endA = partsA.length / partSize;
  const endB = partsB.length / partSize;
  for (let partA = 0; partA < endA; partA++)
    for (let partB = 0; partB < endB; partB++) {
      const a = partSize * partA;
      const b = partSize * partB;
      const ax = partsA[a]!;
      const ay = partsA[a + 1]!;
      const bx = partsB[b]!;
      const by = partsB[b + 1]!;
      const z = partsA[a + 2]! - partsB[b + 2]!;
      const squared = ax * ax + ay * ay + bx * bx + by * by + z * z + apart2;
      const byCosine = 2 * (ax * bx + ay * by);
      const bySine = 2 * (ay * bx - ax * by);
      const lengthA = partsA[a + 3]!;
      const lengthB = partsB[b + 3]!;
      for (let turn = from; turn < end; turn++) {
        const distance = Math.sqrt(Math.max(0, squared - byCosine * cosines[turn]! - bySine * sines[turn]!));
        kinds[turn] = kindOf(lengthA, lengthB, distance);
      }
      for (let turn = from, next = from; turn < end; turn = next) {
        const kind = kinds[turn]!;
        do next++;
        while (next < end && kinds[next] === kind);
        if (kind === 0) {
          for (; turn < next; turn++)
            ofChords(first, partA, second, partB, apart2, cosines, sines, found, turn);
          continue;
        }
        const countA = Math.floor(kind / 5);
        const countB = kind % 5;
        const firstA = startsA[countA]! + partA * countA * nodeSize;
        const firstB = startsB[countB]! + partB * countB * nodeSize;
        ofNodes(nodesA, firstA, countA, nodesB, firstB, countB, apart2, cosines, sines, found, turn, next);
      }
    }
  // Not a typed array, which takes longer to make.
  const list = [from];
  for (let turn = from; turn < end; turn++) list.push(perLength * found[turn]!);
  return list;
}

/**
 * How two lines of these lengths at a distance are taken: by nodes, 5 times those for the first and once those for the
 * second, or 0. One, two, three and four nodes stand for a line up to a length over distance of 0.02, 0.25, 0.65 and 1.1:
 * the rule's remainder for 1/distance along the line of sight, (h/D)^2/3, 0.09 (h/D)^4, 0.023 (h/D)^6 and 0.006 (h/D)^8
 * with half the length h, stays below 5e-5. Of the other line the ends come nearer than its middle does. Told without
 * branches, which nothing would foresee.
 */
function kindOf(lengthA: number, lengthB: number, distance: number): number {
  const a = distance - 0.3 * lengthB;
  const b = distance - 0.3 * lengthA;
  const nodesA = Number(lengthA > 0.02 * a) + Number(lengthA > 0.25 * a) + Number(lengthA > 0.65 * a);
  const nodesB = Number(lengthB > 0.02 * b) + Number(lengthB > 0.25 * b) + Number(lengthB > 0.65 * b);
  return lengthA > 1.1 * a || lengthB > 1.1 * b ? 0 : 5 * nodesA + nodesB + 6;
}

/**
 * Adds what the nodes of two parts link at some angles. Squared distances and products of directions are sums of a constant
 * and parts of the cosine and the sine of the angle.
 */
function ofNodes(
  nodesA: Float64Array,
  firstA: number,
  countA: number,
  nodesB: Float64Array,
  firstB: number,
  countB: number,
  apart2: number,
  cosines: Float64Array,
  sines: Float64Array,
  found: Float64Array,
  from: number,
  to: number,
): void {
  const size = nodeSize;
  const endA = firstA + countA * size;
  const endB = firstB + countB * size;
  for (let a = firstA; a < endA; a += size) {
    const ax = nodesA[a]!;
    const ay = nodesA[a + 1]!;
    const az = nodesA[a + 2]!;
    const au = nodesA[a + 3]!;
    const av = nodesA[a + 4]!;
    const aw = nodesA[a + 5]!;
    const a2 = ax * ax + ay * ay + apart2;
    for (let b = firstB; b < endB; b += size) {
      const bx = nodesB[b]!;
      const by = nodesB[b + 1]!;
      const z = az - nodesB[b + 2]!;
      const bu = nodesB[b + 3]!;
      const bv = nodesB[b + 4]!;
      const along = aw * nodesB[b + 5]!;
      const squared = a2 + bx * bx + by * by + z * z;
      const byCosine = 2 * (ax * bx + ay * by);
      const bySine = 2 * (ay * bx - ax * by);
      const alongCosine = au * bu + av * bv;
      const alongSine = av * bu - au * bv;
      for (let turn = from; turn < to; turn++) {
        const cosine = cosines[turn]!;
        const sine = sines[turn]!;
        found[turn]! +=
          (along + alongCosine * cosine + alongSine * sine) /
          Math.sqrt(squared - byCosine * cosine - bySine * sine);
      }
    }
  }
}

/** Adds what the chords of two parts link at an angle; told by lists, as numbers by themselves take longer to hand over. */
function ofChords(
  first: Filament,
  partA: number,
  second: Filament,
  partB: number,
  apart2: number,
  cosines: Float64Array,
  sines: Float64Array,
  found: Float64Array,
  turn: number,
): void {
  const turnCosine = cosines[turn]!;
  const turnSine = sines[turn]!;
  const { chords: chordsA, firstChord: firstA } = first;
  const { chords: chordsB, firstChord: firstB } = second;
  const size = chordSize;
  const endA = firstA[partA + 1]! * size;
  const endB = firstB[partB + 1]! * size;
  let sum = 0;
  for (let b = firstB[partB]! * size; b < endB; b += size) {
    const bx = chordsB[b]! * turnCosine - chordsB[b + 1]! * turnSine;
    const by = chordsB[b]! * turnSine + chordsB[b + 1]! * turnCosine;
    const toX = chordsB[b + 3]! * turnCosine - chordsB[b + 4]! * turnSine;
    const toY = chordsB[b + 3]! * turnSine + chordsB[b + 4]! * turnCosine;
    const toZ = chordsB[b + 5]!;
    const lengthB = chordsB[b + 6]!;
    for (let a = firstA[partA]! * size; a < endA; a += size) {
      const alongX = chordsA[a + 3]!;
      const alongY = chordsA[a + 4]!;
      const alongZ = chordsA[a + 5]!;
      const lengthA = chordsA[a + 6]!;
      const x = chordsA[a]! - bx;
      const y = chordsA[a + 1]! - by;
      const z = chordsA[a + 2]! - chordsB[b + 2]!;
      const squared = x * x + y * y + z * z + apart2;
      const cosine = alongX * toX + alongY * toY + alongZ * toZ;
      const onA = x * alongX + y * alongY + z * alongZ;
      const onB = x * toX + y * toY + z * toZ;
      const kind = kindOf(lengthA, lengthB, Math.sqrt(squared));
      let integral = 0;
      if (kind > 0) {
        const ruleA = ruleOf[Math.floor(kind / 5) - 1]!;
        const ruleB = ruleOf[(kind % 5) - 1]!;
        for (let i = 0; i < ruleA.length; i += 2) {
          const s = ruleA[i]! * lengthA;
          const toLine = squared + s * (s + 2 * onA);
          const shifted = 2 * (onB + s * cosine);
          let inner = 0;
          for (let j = 0; j < ruleB.length; j += 2) {
            const t = ruleB[j]! * lengthB;
            inner += ruleB[j + 1]! / Math.sqrt(toLine + t * (t - shifted));
          }
          integral += ruleA[i + 1]! * lengthB * inner;
        }
      }
      // Its places are in pairs beside the middle, of one weight.
      else
        for (let i = 0; i < fourteen.length; i += 4) {
          const s = fourteen[i]! * lengthA;
          const before = distancesToEnds(onB - s * cosine, squared + s * (s - 2 * onA), lengthB);
          const behind = distancesToEnds(onB + s * cosine, squared + s * (s + 2 * onA), lengthB);
          const more = (before + lengthB) * (behind + lengthB);
          integral += fourteen[i + 1]! * Math.log(more / ((before - lengthB) * (behind - lengthB)));
        }
      sum += cosine * lengthA * integral;
    }
  }
  found[turn]! += sum;
}

/**
 * From a point to the two ends of a line of a length, together, m: the integral of 1/distance along the line is the
 * logarithm of (this + length) / (this - length). The point is `p` along the line from its middle, and `squared` m2
 * from that.
 */
function distancesToEnds(p: number, squared: number, length: number): number {
  const toMiddle = Math.max(squared, p * p + least2) + (length * length) / 4;
  return Math.sqrt(toMiddle - p * length) + Math.sqrt(toMiddle + p * length);
}
