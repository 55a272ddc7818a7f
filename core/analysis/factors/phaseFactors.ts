import type { SlotTable, Winding } from '../../winding/model.ts';
import { type TableRotation, tableRotation } from '../rotation.ts';
import { defaultOrders, type FactorRow, factorRow, factorRows, factorSpectrum } from './factors.ts';

const tolerance = 1e-9;

/**
 * The factor rows of every phase where the phases differ in any order by more than 1e-9, else null:
 * the rows of the first phase then stand for all.
 */
export function factorRowsByPhase(
  winding: Winding,
  orders: number = defaultOrders(winding),
): FactorRow[][] | null {
  const rotation = tableRotation(winding.table);
  if (!phasesDiffer(winding, orders, rotation)) return null;
  return winding.phases.names.map((_, phase) =>
    factorRows(winding, orders, factorSpectrum(winding, phase, rotation)),
  );
}

/** True when some factor of some phase differs from the first phase's in one of the orders 1 .. `orders`. */
export function phasesDiffer(
  winding: Winding,
  orders: number = defaultOrders(winding),
  rotation: TableRotation = tableRotation(winding.table),
): boolean {
  const first = signedPlaces(winding.table, 0);
  const others = winding.phases.names
    .map((_, phase) => phase)
    .filter((phase) => phase > 0 && !isMovedCopy(first, signedPlaces(winding.table, phase), winding.slots));
  if (others.length === 0) return false;
  const own = factorSpectrum(winding, 0, rotation);
  return others.some((phase) => {
    const other = factorSpectrum(winding, phase, rotation);
    for (let order = 1; order <= orders; order++) {
      if (rowsDiffer(factorRow(winding, own, order), factorRow(winding, other, order))) return true;
    }
    return false;
  });
}

function rowsDiffer(a: FactorRow, b: FactorRow): boolean {
  return (
    valuesDiffer(a.distribution, b.distribution) ||
    valuesDiffer(a.pitch, b.pitch) ||
    valuesDiffer(a.skew, b.skew) ||
    valuesDiffer(a.winding, b.winding)
  );
}

function valuesDiffer(a: number | null, b: number | null): boolean {
  if (a === null || b === null) return a !== b;
  return Math.abs(a - b) > tolerance;
}

/** A phase's bars as one row of signs a layer. */
function signedPlaces(table: SlotTable, phase: number): Int8Array {
  return table.cells.map((cell) => (cell === phase + 1 ? 1 : cell === -phase - 1 ? -1 : 0));
}

/** True when `other` is `first` moved round the bore, with all signs kept or all inverted. */
function isMovedCopy(first: Int8Array, other: Int8Array, slots: number): boolean {
  const start = first.findIndex((sign) => sign !== 0);
  if (start < 0) return other.every((sign) => sign === 0);
  const row = start - (start % slots);
  for (let slot = 0; slot < slots; slot++) {
    const there = other[row + slot]!;
    if (there === 0) continue;
    const by = slot - (start - row) + (slot < start - row ? slots : 0);
    if (matches(first, other, slots, by, there === first[start] ? 1 : -1)) return true;
  }
  return false;
}

function matches(first: Int8Array, other: Int8Array, slots: number, by: number, sign: 1 | -1): boolean {
  for (let row = 0; row < first.length; row += slots) {
    for (let slot = 0; slot < slots; slot++) {
      const moved = slot + by < slots ? slot + by : slot + by - slots;
      if (other[row + moved]! !== sign * first[row + slot]!) return false;
    }
  }
  return true;
}
