import { type Stacking, stackBars } from '../sizes/slotRows.ts';

/** A slot for its leakage: lengths in m. */
export interface LeakageSlot extends Stacking {
  /** Of the slot, between its walls. */
  readonly width: number;
  /** Share of the slot's ampere-conductors that acts on the inner mouth: 1 for a closed outer end. */
  readonly innerShare: number;
  /** Slot opening; null leaves it out. */
  readonly opening: { readonly width: number; readonly height: number } | null;
}

/**
 * Slot permeance, dimensionless, of each bar with itself and with every other one: entry i n + j times
 * mu0 is the flux linkage of bar i per meter for one ampere in bar j. It is the field energy of
 * uniform currents, integrated across the stack: integral of h_i h_j dy/b, h the share of a bar's
 * current that lies below y, less the inner share; plus the openings. For one mouth this is the
 * handbook's h/b (1/3 + bars towards the mouth) + opening (Pyrhonen ch. 4; Richter; from memory).
 */
export function slotPermeances(slot: LeakageSlot): Float64Array {
  const bars = stackBars(slot);
  const n = bars.length;
  const permeances = new Float64Array(n * n);
  const enclosed = new Float64Array(n).fill(-slot.innerShare);
  let y = 0;
  bars.forEach((bar, index) => {
    addUniform(permeances, enclosed, Math.max(0, bar.from - y) / slot.width);
    const before = enclosed.slice();
    enclosed[index]! += 1;
    addLinear(permeances, before, enclosed, (bar.to - bar.from) / slot.width);
    y = bar.to;
  });
  addUniform(permeances, enclosed, Math.max(0, slot.depth - y) / slot.width);
  if (slot.opening) {
    const opening = slot.opening.height / slot.opening.width;
    addUniform(permeances, new Float64Array(n).fill(slot.innerShare), opening);
    addUniform(permeances, new Float64Array(n).fill(1 - slot.innerShare), opening);
  }
  return permeances;
}

function addUniform(permeances: Float64Array, field: Float64Array, ratio: number): void {
  addLinear(permeances, field, field, ratio);
}

/** Adds the integral of two fields that run linearly from `start` to `end` over a stretch. */
function addLinear(permeances: Float64Array, start: Float64Array, end: Float64Array, ratio: number): void {
  const n = start.length;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const product =
        2 * start[i]! * start[j]! + start[i]! * end[j]! + end[i]! * start[j]! + 2 * end[i]! * end[j]!;
      permeances[i * n + j]! += (ratio * product) / 6;
    }
  }
}
