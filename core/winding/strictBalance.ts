import { cellAt, phaseOfCell, type Winding } from './model.ts';
import { layerSkews } from './skew.ts';

/**
 * Whether paths must agree in every cell: when a slot holds bars of two phases (slot leakage then
 * tells cells apart), or when layers lean so that their voltages differ in size.
 */
export function needsStrictBalance(winding: Winding): boolean {
  return layersDiffer(winding) || slotsHoldTwoPhases(winding);
}

/** Whether layers lean so that their voltages differ in size. */
export function layersDiffer(winding: Winding): boolean {
  const skews = layerSkews(winding, winding.polePairs);
  return skews.some((skew) => Math.abs(Math.abs(skew) - Math.abs(skews[0]!)) > 1e-9);
}

function slotsHoldTwoPhases(winding: Winding): boolean {
  for (let slot = 1; slot <= winding.slots; slot++) {
    let phase = -1;
    for (let layer = 0; layer < winding.layers; layer++) {
      const here = phaseOfCell(cellAt(winding.table, slot, layer));
      if (here < 0) continue;
      if (phase >= 0 && here !== phase) return true;
      phase = here;
    }
  }
  return false;
}
