import { greatestCommonDivisor } from '../../winding/integers.ts';
import type { RouteCounts } from '../ranking.ts';
import type { Content } from '../units/units.ts';
import type { WaveLoops } from './wave.ts';

/** Lower bounds of a phase's counts, and which hold for every routing with regular far-side joints. */
export type RouteBounds = RouteCounts;

/**
 * Lower bounds for wave windings. Jumpers: a lean-legal joint keeps the sense of travel, so an odd
 * number of equal paths needs one reversal, and with q = k/2 each path needs one. Special joints: n
 * equal loops cut for a equal paths need at least n + a - gcd(n, a) arcs, for every class and every
 * layer pair, and each path needs enough arcs to reach its classes and pairs. Shapes hold for routings
 * with the fewest jumpers: one for each step between layer pairs, one in each pair where no path gets
 * its share from one loop of a sense, and one reversal where there is any. Where paths may hold unequal numbers of
 * a class only the pairs are counted.
 */
export function waveBounds(wave: WaveLoops, content: Content, paths: number): RouteBounds {
  const jumpers = reversalsNeeded(wave, content, paths);
  const within = changesLoops(wave, content, paths, jumpers) ? wave.pairs : 0;
  return {
    specialJoints: arcsNeeded(wave, content, paths) - paths,
    jumpers,
    jointShapes: wave.pairs - 1 + within + (jumpers > 0 ? 1 : 0),
  };
}

/** Whether some path must change between loops of one pair and sense, in every pair. */
function changesLoops(wave: WaveLoops, content: Content, paths: number, jumpers: number): boolean {
  const unitsPerPair = content.pairCounts[0]! / paths;
  const cellsPerPair = content.classCounts.length / wave.pairs;
  // With fewer reversals than paths some path keeps one sense, else a path may use one loop of each.
  const senses = jumpers < paths ? 1 : 2;
  return unitsPerPair > senses * wave.stages || (content.strict && cellsPerPair > senses);
}

function reversalsNeeded(wave: WaveLoops, { forced }: Content, paths: number): number {
  const forward = wave.loops.some((loop) => loop.sense === 1);
  const backward = wave.loops.some((loop) => loop.sense === -1);
  if (!forward || !backward) return 0;
  return wave.mirrored ? paths % 2 : forced ? paths : 0;
}

function arcsNeeded(wave: WaveLoops, content: Content, paths: number): number {
  const cake = (loops: number) => loops + paths - greatestCommonDivisor(loops, paths);
  const classLoops = content.classCounts.map((count) => count / wave.stages);
  const pairLoops = content.pairCounts.map((count) => count / wave.stages);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const byPair = content.strict ? 0 : sum(pairLoops.map(cake));
  if (!content.forced) return Math.max(byPair, paths * pairLoops.length, wave.loops.length);
  const support = content.strict
    ? content.classCounts.length
    : leastSupport(content.classCounts, content.pairCounts);
  return Math.max(sum(classLoops.map(cake)), byPair, paths * support, wave.loops.length);
}

/** Fewest (class, pair) cells a path can do with: exact where all classes, and all pairs, are alike. */
function leastSupport(classCounts: readonly number[], pairCounts: readonly number[]): number {
  const even = (counts: readonly number[]) => counts.every((count) => count === counts[0]);
  const classes = classCounts.length;
  const pairs = pairCounts.length;
  if (!even(classCounts) || !even(pairCounts)) return Math.max(classes, pairs);
  return classes + pairs - greatestCommonDivisor(classes, pairs);
}

/** Units of a path of each class and layer pair, or null where the counts do not divide. */
export function quotaOf(
  classCounts: readonly number[],
  pairCounts: readonly number[],
  paths: number,
): { classes: number[]; pairs: number[] } | null {
  const classes = classCounts.map((count) => count / paths);
  const pairs = pairCounts.map((count) => count / paths);
  return [...classes, ...pairs].every(Number.isInteger) ? { classes, pairs } : null;
}
