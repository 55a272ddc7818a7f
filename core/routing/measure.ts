import type { Bends } from '../winding/joints/bends.ts';
import { jointReason, kindOfReason } from '../winding/joints/joints.ts';
import type { EndSide } from '../winding/model.ts';
import type { Strand } from './units.ts';

/** Special joints, jumpers among them, and shapes of special joints, of one phase. */
export interface RouteCounts {
  readonly specialJoints: number;
  readonly jumpers: number;
  readonly jointShapes: number;
}

/** What routings of one phase are ranked by. */
export interface RouteMeasure extends RouteCounts {
  /** Smallest distance between neighboring joint tips of all phases, in slots; the bore without any. */
  readonly tipGap: number;
  /** Smallest arc, in slots, that holds the first bars of all paths of the phase. */
  readonly startWindow: number;
}

export type RouteObjective = 'fewest-jumpers' | 'fewest-joints';

export interface RouteRanking {
  readonly objective: RouteObjective;
  /** Smallest distance between joint tips, in slots, with which they can be joined. */
  readonly leastTipGap: number;
}

/** Counts a phase's joints with the definitions of joints.ts. */
export function countStrands(bends: Bends, strands: readonly Strand[]): RouteCounts {
  let specialJoints = 0;
  let jumpers = 0;
  const shapes = new Set<number>();
  for (const strand of strands) {
    strand.spans.forEach((span, index) => {
      const side = index % 2 === 0 ? 'far' : 'connection';
      const from = strand.bars[index]!;
      const to = strand.bars[index + 1]!;
      const kind = kindOfReason(jointReason(bends, side, from, to, span), false);
      if (kind === 'regular') return;
      specialJoints++;
      if (kind === 'jumper') jumpers++;
      shapes.add(shapeOf(side, from.layer, to.layer, span));
    });
  }
  return { specialJoints, jumpers, jointShapes: shapes.size };
}

// Parts of a shape's key: far more layers and slots than a winding can have, and together less than 2^53.
const mostLayers = 1024;
const mostOffsets = 2 ** 21;

/** Key of a joint's shape: side, lower and upper layer, offset seen from the lower layer. */
export function shapeOf(side: EndSide, from: number, to: number, span: number): number {
  const offset = from === to ? Math.abs(span) : from < to ? span : -span;
  const layers = Math.min(from, to) * mostLayers + Math.max(from, to);
  const place = (side === 'far' ? mostLayers * mostLayers : 0) + layers;
  return place * mostOffsets + offset + mostOffsets / 2;
}

/** Whether joint tips lie far enough apart to be joined. */
export function tipsFit({ tipGap }: RouteMeasure, { leastTipGap }: RouteRanking): boolean {
  return tipGap > rounding && tipGap >= leastTipGap - rounding;
}

// Distances between tips are multiples of half a slot, but for leaning bars.
const rounding = 1e-6;

/**
 * Negative when a is the better routing: first that its tips can be joined at all, then the counts in
 * the order of the objective, then a full slot between tips, then the closest terminals.
 */
export function compareMeasures(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): number {
  const counts =
    ranking.objective === 'fewest-jumpers'
      ? [a.jumpers - b.jumpers, a.jointShapes - b.jointShapes, a.specialJoints - b.specialJoints]
      : [a.specialJoints - b.specialJoints, a.jumpers - b.jumpers, a.jointShapes - b.jointShapes];
  const fit = Number(tipsFit(b, ranking)) - Number(tipsFit(a, ranking));
  const tips = Math.min(1, b.tipGap) - Math.min(1, a.tipGap);
  return [fit, ...counts, tips].find((difference) => difference !== 0) ?? a.startWindow - b.startWindow;
}
