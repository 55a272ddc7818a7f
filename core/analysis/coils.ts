import { modulo } from '../winding/integers.ts';
import { phaseOfCell, type SlotTable, type Winding } from '../winding/model.ts';

/** A coil: a bar and the bar of opposite sign that its far-side joint leads to. */
export interface Coil {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Slot of the go side, from 1. */
  readonly slot: number;
  /** Sign of the go side. */
  readonly sign: 1 | -1;
  /** Slots from the go side to the return side. */
  readonly span: number;
  /** Layer pair, from 0. */
  readonly pair: number;
}

/** The coils of a table; `pairSpans` holds one span a layer pair, empty where layers do not pair. */
export interface CoilPlan {
  readonly coils: readonly Coil[];
  /** Slots, from the first layer of a pair to its second. */
  readonly pairSpans: readonly number[];
}

/**
 * Reads the coils off a slot table: in layer pairs (a b, c d, ...) the second layer must be the first
 * one moved by some span with inverted signs; a single layer, and the last of an odd number, must be
 * tooth coils or lead each + bar to a - bar of its phase by one span. Null where the table has no such
 * order.
 */
export function coilPlan(winding: Winding): CoilPlan | null {
  const { table } = winding;
  const coils: Coil[] = [];
  const pairSpans: number[] = [];
  const written = winding.origin.kind === 'generated' ? winding.origin.span : null;
  for (let layer = 0; layer + 1 < table.layers; layer += 2) {
    const span = pairSpan(table, layer, written);
    if (span === null) return null;
    pairSpans.push(span);
    addCoils(coils, table, layer, span, () => true);
  }
  if (table.layers % 2 === 1 && !addSingleLayer(coils, table, table.layers - 1, written)) return null;
  return { coils, pairSpans: table.layers % 2 === 0 ? pairSpans : [] };
}

function addCoils(
  coils: Coil[],
  table: SlotTable,
  layer: number,
  span: number,
  isGoSide: (slot: number, cell: number) => boolean,
): void {
  for (let slot = 0; slot < table.slots; slot++) {
    const cell = table.cells[layer * table.slots + slot]!;
    if (cell === 0 || !isGoSide(slot, cell)) continue;
    const sign = cell > 0 ? 1 : -1;
    coils.push({ phase: phaseOfCell(cell), slot: slot + 1, sign, span, pair: layer >> 1 });
  }
}

function pairSpan(table: SlotTable, layer: number, written: number | null): number | null {
  const { slots, cells } = table;
  const fits = (span: number) => {
    for (let slot = 0; slot < slots; slot++) {
      const back = slot + span < slots ? slot + span : slot + span - slots;
      if (cells[(layer + 1) * slots + back] !== -cells[layer * slots + slot]!) return false;
    }
    return true;
  };
  return firstSpan(1, slots, written, fits);
}

function addSingleLayer(coils: Coil[], table: SlotTable, layer: number, written: number | null): boolean {
  const offset = written === null || written === 1 ? toothCoilOffset(table, layer) : null;
  if (offset !== null) {
    addCoils(coils, table, layer, 1, (slot) => slot % 2 === offset);
    return true;
  }
  const { slots, cells } = table;
  const row = layer * slots;
  const bars = cells.slice(row, row + slots);
  const goSides = bars.filter((cell) => cell > 0).length;
  if (2 * goSides !== bars.filter((cell) => cell !== 0).length) return false;
  const span = firstSpan(2, slots, written, (candidate) =>
    bars.every((cell, slot) => cell <= 0 || bars[(slot + candidate) % slots] === -cell),
  );
  if (span === null) return false;
  addCoils(coils, table, layer, span, (_, cell) => cell > 0);
  return true;
}

/** 0 or 1: tooth coils whose go sides are in odd or even slots; null where the row is none. */
function toothCoilOffset(table: SlotTable, layer: number): 0 | 1 | null {
  const { slots, cells } = table;
  if (slots % 2 !== 0) return null;
  const row = layer * slots;
  for (const offset of [0, 1] as const) {
    let fits = true;
    for (let slot = offset; fits && slot < slots; slot += 2) {
      fits = cells[row + slot]! === -cells[row + modulo(slot + 1, slots)]!;
    }
    if (fits) return offset;
  }
  return null;
}

function firstSpan(
  from: number,
  slots: number,
  written: number | null,
  fits: (span: number) => boolean,
): number | null {
  if (written !== null && fits(written)) return written;
  for (let span = from; span < slots; span++) if (fits(span)) return span;
  return null;
}
