import type { SlotTable } from '../winding/model.ts';

/** The smallest rotation that maps a slot table on itself or, `negated`, on its negative. */
export interface TableRotation {
  /** In slots; equal to the table's slots when only the full turn does it. */
  readonly slots: number;
  readonly negated: boolean;
}

/** Reads the rotational symmetry off a table, phases keeping their names. */
export function tableRotation(table: SlotTable): TableRotation {
  const { cells } = table;
  for (let slots = 1; slots <= table.slots / 2; slots++) {
    // The first bar tells of most rotations at once that they are none, sooner than a division.
    if (Math.abs(cells[slots]!) !== Math.abs(cells[0]!) || table.slots % slots !== 0) continue;
    if (mapsOnto(table, slots, 1)) return { slots, negated: false };
    if (mapsOnto(table, slots, -1)) return { slots, negated: true };
  }
  return { slots: table.slots, negated: false };
}

/** Slots after which the table repeats with all its signs. */
export function tablePeriod(rotation: TableRotation): number {
  return rotation.negated ? 2 * rotation.slots : rotation.slots;
}

function mapsOnto(table: SlotTable, by: number, sign: 1 | -1): boolean {
  const { cells, slots, layers } = table;
  for (let layer = 0; layer < layers; layer++) {
    const row = layer * slots;
    for (let slot = 0; slot < slots; slot++) {
      const moved = slot + by < slots ? slot + by : slot + by - slots;
      if (cells[row + moved]! !== sign * cells[row + slot]!) return false;
    }
  }
  return true;
}
