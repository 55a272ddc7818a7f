import { greatestCommonDivisor, modulo } from '../winding/integers.ts';
import type { Winding } from '../winding/model.ts';
import { type Coil, type CoilPlan, coilPlan } from './coils.ts';
import { skewFactor } from './factors/skew.ts';

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
 * The limits on parallel paths, from integer coil angles. With layer pairs, the paths must divide the
 * number of coils of each signed phasor and of each pair, where strict the number of coils of each
 * phasor in each pair; without layer pairs the identical groups decide. A table without regular coils
 * counts equal bars of a layer instead.
 */
export function pathLimits(winding: Winding): PathLimits {
  const strict = isStrict(winding);
  const plan = coilPlan(winding);
  const identicalGroups =
    plan === null ? identicalBars(winding) : commonCount(plan.coils, winding, phasorKey);
  if (plan === null || plan.pairSpans.length === 0) {
    return { identicalGroups, largestParallelPaths: identicalGroups, strict };
  }
  return { identicalGroups, largestParallelPaths: largestWithPairs(winding, plan, strict), strict };
}

function largestWithPairs(winding: Winding, plan: CoilPlan, strict: boolean): number {
  if (strict) {
    return commonCount(plan.coils, winding, (coil, of) => phasorKey(coil, of) * of.layers + coil.pair);
  }
  return greatestCommonDivisor(
    commonCount(plan.coils, winding, phasorKey),
    commonCount(plan.coils, winding, (coil) => coil.pair),
  );
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

function isStrict(winding: Winding): boolean {
  const { table, slots, polePairs } = winding;
  const factors = Array.from({ length: table.layers }, (_, layer) =>
    Math.abs(skewFactor(polePairs, winding.lean[layer] ?? 0, winding.rotorSkew)),
  );
  if (factors.some((factor) => Math.abs(factor - factors[0]!) > 1e-9)) return true;
  for (let slot = 0; slot < slots; slot++) {
    let held = 0;
    for (let layer = 0; layer < table.layers; layer++) {
      const phase = Math.abs(table.cells[layer * slots + slot]!);
      if (phase === 0) continue;
      if (held !== 0 && held !== phase) return true;
      held = phase;
    }
  }
  return false;
}
