import { modulo } from './integers.ts';
import type { SlotTable } from './model.ts';
import { cellAt, phaseOfCell } from './model.ts';

/** A coil with both sides in one layer, from its + bar; `span` is signed. */
export interface SingleLayerCoil {
  /** Of the + bar, from 1. */
  readonly slot: number;
  /** Slots to the - bar; negative: towards lower numbers. */
  readonly span: number;
}

/**
 * The coils of one phase that join bars `size` slots apart in a layer: tooth coils of opposite sense
 * run in opposite directions, so spans of both signs may occur. Bars that lie `size` slots apart with
 * opposite senses, one after another, are joined two by two from the first; a ring of them, closed
 * round the bore, from its lowest + bar in the direction of `size`'s sign. Null where a bar is left.
 */
export function singleLayerCoils(
  table: SlotTable,
  layer: number,
  phase: number,
  size: number,
): SingleLayerCoil[] | null {
  const { slots } = table;
  const ownCell = (place: number) => {
    const cell = cellAt(table, modulo(place, slots) + 1, layer);
    return phaseOfCell(cell) === phase ? cell : 0;
  };
  const follows = (place: number) => ownCell(place) !== 0 && ownCell(place) === -ownCell(place - size);
  const joined = new Uint8Array(slots);
  const coils: SingleLayerCoil[] = [];
  let bars = 0;
  const joinFrom = (first: number) => {
    let place = first;
    do {
      const go = ownCell(place) > 0 ? place : place + size;
      coils.push({ slot: modulo(go, slots) + 1, span: go === place ? size : -size });
      joined[modulo(place, slots)] = 1;
      joined[modulo(place + size, slots)] = 1;
      place += 2 * size;
    } while (joined[modulo(place, slots)] === 0 && follows(place) && follows(place + size));
  };
  const places = Array.from({ length: slots }, (_, place) => place);
  for (const place of places) {
    if (ownCell(place) === 0) continue;
    bars++;
    const [before, after] = [follows(place), follows(place + size)];
    if (!before && !after) return null;
    if (!before) joinFrom(place);
  }
  for (const place of places) {
    if (joined[place] === 0 && ownCell(place) > 0 && follows(place + size)) joinFrom(place);
  }
  return bars === 2 * coils.length ? coils : null;
}

/**
 * The coil span of a layer without a partner, where one fits all bars: that nearest to a pole pitch,
 * then one by which all coils run the same way, then the shorter. Null where none fits.
 */
export function singleLayerSpan(table: SlotTable, layer: number, polePairs: number): number | null {
  const polePitch = table.slots / (2 * polePairs);
  const phases = new Set(
    Array.from({ length: table.slots }, (_, place) => phaseOfCell(cellAt(table, place + 1, layer))),
  );
  phases.delete(-1);
  const sizes = Array.from({ length: Math.floor(table.slots / 2) }, (_, index) => index + 1);
  const missed = (size: number) => Math.abs(size - polePitch);
  let best: number | null = null;
  let bestRank = Number.POSITIVE_INFINITY;
  for (const size of sizes.sort((a, b) => missed(a) - missed(b) || a - b)) {
    if (missed(size) >= bestRank) break;
    for (const span of [size, -size]) {
      const coils = [...phases].map((phase) => singleLayerCoils(table, layer, phase, span));
      if (coils.some((list) => list === null)) continue;
      const sameWay = coils.every((list) => list!.every((coil) => coil.span === span));
      const rank = missed(size) + (sameWay ? 0 : 0.25);
      if (rank < bestRank) [best, bestRank] = [span, rank];
    }
  }
  return best;
}
