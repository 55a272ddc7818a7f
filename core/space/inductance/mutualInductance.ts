import { chordSize, type Filament, nodeSize, partSize } from './filaments.ts';
import { fourteen, ruleOf } from './gauss.ts';

const perLength = 1e-7;
/** Filaments nearer than this, m, are taken this far apart. */
const least2 = 1e-7 * 1e-7;

/**
 * Up to which length over distance one, two, three and four nodes stand for a line: the rule's remainder for
 * 1/distance along the line of sight, (h/D)^2/3, 0.09 (h/D)^4, 0.023 (h/D)^6 and 0.006 (h/D)^8 with half the length h,
 * stays below 5e-5.
 */
const reachOf: readonly [number, number, number, number] = [0.02, 0.25, 0.65, 1.1];

/** Of the other line, what its ends come nearer than its middle does. */
const nearer = 0.3;

/**
 * Mutual inductance of two filaments, H, `apart` m farther from each other than their lines in a direction
 * of its own (the mean distance of a section from itself): (mu0/4 pi) times the double integral of the
 * directions' product over the distance. By nodes of parts, or of chords, as far as these are apart for their
 * lengths; nearer than that with the inner integral closed, and the outer one by Gauss.
 */
export function mutualInductance(first: Filament, second: Filament, apart: number): number {
  const apart2 = apart * apart;
  const { parts: partsA, nodes: nodesA, starts: startsA } = first;
  const { parts: partsB, nodes: nodesB, starts: startsB } = second;
  let sum = 0;
  for (let a = 0, partA = 0; a < partsA.length; a += partSize, partA++) {
    const ax = partsA[a]!;
    const ay = partsA[a + 1]!;
    const az = partsA[a + 2]!;
    const lengthA = partsA[a + 3]!;
    for (let b = 0, partB = 0; b < partsB.length; b += partSize, partB++) {
      const x = ax - partsB[b]!;
      const y = ay - partsB[b + 1]!;
      const z = az - partsB[b + 2]!;
      const lengthB = partsB[b + 3]!;
      const distance = Math.sqrt(x * x + y * y + z * z + apart2);
      const countA = nodesFor(lengthA, distance - nearer * lengthB);
      const countB = nodesFor(lengthB, distance - nearer * lengthA);
      if (countA === 0 || countB === 0) {
        sum += ofChords(first, partA, second, partB, apart2);
        continue;
      }
      // Here and not in a function of its own, which would be called more often than it counts nodes.
      const startA = startsA[countA]! + partA * countA * nodeSize;
      const startB = startsB[countB]! + partB * countB * nodeSize;
      const endA = startA + countA * nodeSize;
      const endB = startB + countB * nodeSize;
      let ofNodes = 0;
      for (let i = startA; i < endA; i += nodeSize) {
        const ix = nodesA[i]!;
        const iy = nodesA[i + 1]!;
        const iz = nodesA[i + 2]!;
        const alongX = nodesA[i + 3]!;
        const alongY = nodesA[i + 4]!;
        const alongZ = nodesA[i + 5]!;
        for (let j = startB; j < endB; j += nodeSize) {
          const dx = ix - nodesB[j]!;
          const dy = iy - nodesB[j + 1]!;
          const dz = iz - nodesB[j + 2]!;
          const both = alongX * nodesB[j + 3]! + alongY * nodesB[j + 4]! + alongZ * nodesB[j + 5]!;
          ofNodes += both / Math.sqrt(dx * dx + dy * dy + dz * dz + apart2);
        }
      }
      sum += ofNodes;
    }
  }
  return perLength * sum;
}

/** How many nodes stand for a line of a length at a distance from it; 0 where four do not do. */
function nodesFor(length: number, distance: number): number {
  // Most by far are few.
  if (length <= reachOf[1] * distance) return length > reachOf[0] * distance ? 2 : 1;
  if (length <= reachOf[2] * distance) return 3;
  return length > reachOf[3] * distance ? 0 : 4;
}

function ofChords(first: Filament, partA: number, second: Filament, partB: number, apart2: number): number {
  let sum = 0;
  const [endA, endB] = [first.firstChord[partA + 1]!, second.firstChord[partB + 1]!];
  for (let chordA = first.firstChord[partA]!; chordA < endA; chordA++)
    for (let chordB = second.firstChord[partB]!; chordB < endB; chordB++)
      sum += ofTwoChords(first.chords, chordA * chordSize, second.chords, chordB * chordSize, apart2);
  return sum;
}

function ofTwoChords(
  first: Float64Array,
  a: number,
  second: Float64Array,
  b: number,
  apart2: number,
): number {
  const alongX = first[a + 3]!;
  const alongY = first[a + 4]!;
  const alongZ = first[a + 5]!;
  const lengthA = first[a + 6]!;
  const toX = second[b + 3]!;
  const toY = second[b + 4]!;
  const toZ = second[b + 5]!;
  const lengthB = second[b + 6]!;
  const cosine = alongX * toX + alongY * toY + alongZ * toZ;
  const x = first[a]! - second[b]!;
  const y = first[a + 1]! - second[b + 1]!;
  const z = first[a + 2]! - second[b + 2]!;
  const squared = x * x + y * y + z * z + apart2;
  const distance = Math.sqrt(squared);
  const onA = x * alongX + y * alongY + z * alongZ;
  const onB = x * toX + y * toY + z * toZ;
  const countA = nodesFor(lengthA, distance - nearer * lengthB);
  const countB = nodesFor(lengthB, distance - nearer * lengthA);
  let integral = 0;
  if (countA > 0 && countB > 0) {
    const ruleA = ruleOf[countA - 1]!;
    const ruleB = ruleOf[countB - 1]!;
    for (let i = 0; i < ruleA.length; i += 2) {
      const s = ruleA[i]! * lengthA;
      const toLine = squared + s * (s + 2 * onA);
      const shifted = 2 * (onB + s * cosine);
      let inner = 0;
      for (let j = 0; j < ruleB.length; j += 2) {
        const t = ruleB[j]! * lengthB;
        inner += ruleB[j + 1]! / Math.sqrt(toLine + t * (t - shifted));
      }
      integral += ruleA[i + 1]! * inner;
    }
    return cosine * lengthA * lengthB * integral;
  }
  const half = lengthB / 2;
  // Its places are in pairs beside the middle, of one weight.
  for (let i = 0; i < fourteen.length; i += 4) {
    const s = fourteen[i]! * lengthA;
    const before = asinhRatio(onB - s * cosine, squared + s * (s - 2 * onA), half);
    const behind = asinhRatio(onB + s * cosine, squared + s * (s + 2 * onA), half);
    integral += fourteen[i + 1]! * Math.log(before * behind);
  }
  return cosine * lengthA * integral;
}

/**
 * What the integral of 1/distance from a point along a line, `half` to either side, is the logarithm of:
 * asinh u + asinh v, for u + v > 0; where one is negative, it is taken off. The point is `p` along the line from its
 * middle, and `squared` m2 from that.
 */
function asinhRatio(p: number, squared: number, half: number): number {
  const d = Math.sqrt(Math.max(squared - p * p, least2));
  const u = (half - p) / d;
  const v = (half + p) / d;
  const a = Math.abs(u) + Math.sqrt(u * u + 1);
  const b = Math.abs(v) + Math.sqrt(v * v + 1);
  return u < 0 ? b / a : v < 0 ? a / b : a * b;
}
