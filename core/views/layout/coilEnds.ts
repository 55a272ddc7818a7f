import {
  type Bar,
  cellAt,
  foldedSlot,
  phaseOfCell,
  type SlotTable,
  type Winding,
} from '../../winding/model.ts';
import type { DrawnEnd } from './input.ts';

/** A coil of a generated layout: its go side leads, its return side lies `span` slots on. */
export interface Coil {
  readonly go: Bar;
  readonly back: Bar;
  readonly phase: number;
}

/**
 * The coils of a generated layout: with two layers and more, a go side in layer a, c, e ... and its
 * return side `span` slots on in layer b, d, f ...; with one layer both in it. Layouts of other origin
 * do not say which bars make a coil: none.
 */
export function generatedCoils(winding: Winding): readonly Coil[] {
  const { table, origin } = winding;
  if (origin.kind !== 'generated') return [];
  if (table.layers === 1) return singleLayerCoils(table, origin.span);
  const coils: Coil[] = [];
  for (let layer = 0; layer + 1 < table.layers; layer += 2)
    for (let slot = 1; slot <= table.slots; slot++) {
      const back = { slot: foldedSlot(slot + origin.span, table.slots), layer: layer + 1 };
      addCoil(coils, table, { slot, layer }, back);
    }
  return coils;
}

/** Both ends of every coil, in the order of the coils: connection side, then far side. */
export function coilEnds(winding: Winding): readonly DrawnEnd[] {
  if (winding.origin.kind !== 'generated') return [];
  const { span } = winding.origin;
  const coils = generatedCoils(winding);
  return (['connection', 'far'] as const).flatMap((side) =>
    coils.map(({ go, back, phase }) => ({
      side,
      from: go,
      to: back,
      span,
      kind: 'coil-end' as const,
      separatePiece: false,
      phase,
    })),
  );
}

/**
 * Slots s, s + span, s + 2 span ... form rings. In each, coils take neighbors two by two: from a bar that
 * carries its phase to the far side where that works for the whole ring, else from whichever start does.
 */
function singleLayerCoils(table: SlotTable, span: number): readonly Coil[] {
  const coils: Coil[] = [];
  const seen = new Set<number>();
  for (let first = 1; first <= table.slots; first++) {
    if (seen.has(first)) continue;
    const ring: number[] = [];
    for (let slot = first; !seen.has(slot); slot = foldedSlot(slot + span, table.slots)) {
      seen.add(slot);
      ring.push(slot);
    }
    const choices = [0, 1].map((start) => pairsOfRing(table, ring, start));
    const forward = choices.find((pairs) => pairs?.every(({ go }) => cellAt(table, go.slot, 0) > 0));
    coils.push(...(forward ?? choices.find((pairs) => pairs !== null) ?? []));
  }
  return coils.sort((one, other) => one.go.slot - other.go.slot);
}

function pairsOfRing(table: SlotTable, ring: readonly number[], start: number): readonly Coil[] | null {
  const pairs: Coil[] = [];
  if (ring.length % 2 !== 0) return null;
  for (let index = start; index < ring.length + start; index += 2) {
    const go = { slot: ring[index % ring.length]!, layer: 0 };
    const back = { slot: ring[(index + 1) % ring.length]!, layer: 0 };
    const empty = cellAt(table, go.slot, 0) === 0 && cellAt(table, back.slot, 0) === 0;
    if (!empty && !addCoil(pairs, table, go, back)) return null;
  }
  return pairs;
}

/** Adds the coil if both sides carry the same phase with opposite senses; says whether. */
function addCoil(coils: Coil[], table: SlotTable, go: Bar, back: Bar): boolean {
  const cell = cellAt(table, go.slot, go.layer);
  if (cell === 0 || cell !== -cellAt(table, back.slot, back.layer)) return false;
  coils.push({ go, back, phase: phaseOfCell(cell) });
  return true;
}
