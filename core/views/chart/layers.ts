import { layerLetter } from '../../language/layerLetters.ts';
import { cellAt, type Winding } from '../../winding/model.ts';

/** Layers with the same phases and senses in all slots; `layer` is the first of them, from 0. */
export interface AlikeLayers {
  /** `a c`. */
  readonly letters: string;
  readonly layer: number;
}

/** The layers of a winding, those put together that are alike. */
export function alikeLayers(winding: Winding): readonly AlikeLayers[] {
  const { slots, layers, table } = winding;
  const groups = new Map<string, { letters: string; layer: number }>();
  for (let layer = 0; layer < layers; layer++) {
    const key = table.cells.slice(layer * slots, (layer + 1) * slots).join();
    const group = groups.get(key);
    if (group) group.letters += ` ${layerLetter(layer)}`;
    else groups.set(key, { letters: layerLetter(layer), layer });
  }
  return [...groups.values()];
}

/** Neighboring slots of a layer with one phase and sense. */
export interface SlotRun {
  /** Its code in the slot table. */
  readonly cell: number;
  /** Slot, from 1. */
  readonly first: number;
  /** Slots. */
  readonly count: number;
}

/** The runs of slots 1 .. `count` of a layer; empty places are left out. */
export function slotRuns(winding: Winding, layer: number, count: number): readonly SlotRun[] {
  const runs: SlotRun[] = [];
  for (let slot = 1; slot <= count; slot++) {
    const cell = cellAt(winding.table, slot, layer);
    const last = runs.at(-1);
    if (last && last.cell === cell) runs[runs.length - 1] = { ...last, count: last.count + 1 };
    else runs.push({ cell, first: slot, count: 1 });
  }
  return runs.filter(({ cell }) => cell !== 0);
}
