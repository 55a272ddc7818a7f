import { greatestCommonDivisor, modulo } from '../winding/integers.ts';
import type { Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';
import { type Coil, type CoilPlan, coilPlan } from './coils.ts';
import { type LikeUnits, possibleShares } from './unitShares.ts';

/** What limits the number of parallel paths. */
export interface PathLimits {
  /** gcd of the multiplicities of equal signed coil phasors over all phases. */
  readonly identicalGroups: number;
  /** Largest number of paths with equal voltages and equal use of the layers. */
  readonly largestParallelPaths: number;
  /**
   * Paths must use each slot angle in each layer equally often: a slot holds two phases, or the layers'
   * skew factors differ.
   */
  readonly strict: boolean;
}

/**
 * The limits on parallel paths, from integer angles: the largest number is that of `possibleShares` for the coils of
 * the table. A table without regular coils counts equal bars of a layer instead. Of slot table and origin alone, and of
 * `strict`.
 */
export function pathLimits(winding: Winding, strict: boolean = needsStrictBalance(winding)): PathLimits {
  const plan = coilPlan(winding);
  if (plan === null) {
    const identicalGroups = identicalBars(winding);
    return { identicalGroups, largestParallelPaths: identicalGroups, strict };
  }
  const phases = winding.phases.names.map((_, phase) => likeCoils(winding, plan, phase, strict));
  return {
    identicalGroups: commonCount(plan.coils, winding, phasorKey),
    largestParallelPaths: possibleShares(phases, strict).at(-1) ?? 0,
    strict,
  };
}

/** The coils of a phase by what their bars hold. */
function likeCoils(winding: Winding, { coils }: CoilPlan, phase: number, strict: boolean): LikeUnits[] {
  const { slots, polePairs } = winding;
  const like = new Map<string, LikeUnits & { count: number }>();
  for (const { slot, span, sign, pair, phase: own } of coils) {
    if (own !== phase) continue;
    const held = (of: number, negative: boolean, layer: number) =>
      modulo(2 * polePairs * of + (negative ? slots : 0), 2 * slots) + (strict ? 2 * slots * layer : 0);
    const alone = 2 * pair + 1 === winding.layers;
    const ends = [
      held(slot, sign < 0, 2 * pair),
      held(slot + span, sign > 0, alone ? 2 * pair : 2 * pair + 1),
    ] as const;
    const key = `${ends[0]} ${ends[1]} ${pair}`;
    const known = like.get(key);
    if (known) known.count++;
    else like.set(key, { ends, pair, count: 1 });
  }
  return [...like.values()];
}

/** gcd of how many coils of a phase share a key, over all keys and phases. */
function commonCount(
  coils: readonly Coil[],
  winding: Winding,
  keyOf: (coil: Coil, winding: Winding) => number,
): number {
  const counts = new Map<number, number>();
  const phases = winding.phases.names.length;
  for (const coil of coils) {
    const key = keyOf(coil, winding) * phases + coil.phase;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return gcdOf(counts.values());
}

/**
 * Equal for coils of equal fundamental phasors sign exp(-j p theta) (1 - exp(-j p span alpha)) =
 * 2 j sign sin(p span alpha / 2) exp(-j p (theta + span alpha / 2)), told apart by integers: the angle
 * of the coil's middle in units of half the slot angle, and the span folded into a quarter turn.
 */
function phasorKey(coil: Coil, winding: Winding): number {
  const { slots, polePairs } = winding;
  const reach = modulo(polePairs * coil.span, 2 * slots);
  const turns = (coil.sign < 0 ? slots : 0) + (reach > slots ? slots : 0);
  const middle = modulo(polePairs * (2 * (coil.slot - 1) + coil.span) + turns, 2 * slots);
  const within = reach % slots;
  return middle * (slots + 1) + Math.min(within, slots - within);
}

/** For tables without regular coils: gcd of the numbers of bars of equal angle, layer and sign. */
function identicalBars(winding: Winding): number {
  const { table, slots, polePairs } = winding;
  const counts = new Map<number, number>();
  table.cells.forEach((cell, place) => {
    if (cell === 0) return;
    const slot = place % slots;
    const layer = (place - slot) / slots;
    const key = (((polePairs * slot) % slots) * table.layers + layer) * 64 + cell + 32;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  });
  return gcdOf(counts.values());
}

function gcdOf(counts: Iterable<number>): number {
  let common = 0;
  for (const count of counts) common = greatestCommonDivisor(common, count);
  return common;
}
