import { layerLetter } from '../language/layerLetters.ts';
import type { Winding } from './model.ts';
import { cellAt, phaseOfCell } from './model.ts';

/** Where bars of two phases lie against each other, so that phase insulation is needed. */
export interface PhaseBoundaries {
  /** Between two layers in slots; empty places between them take no room. */
  readonly inSlots: readonly {
    readonly lower: number;
    readonly upper: number;
    readonly slots: readonly number[];
  }[];
  /** Between the ends of neighboring bars of a layer: the slot before the boundary. */
  readonly inEnds: readonly { readonly layer: number; readonly slots: readonly number[] }[];
}

/** Every boundary between phases, rising by layers and slots. Bars across empty places are neighbors. */
export function phaseBoundaries({ slots, layers, table }: Winding): PhaseBoundaries {
  const phaseAt = (slot: number, layer: number) => phaseOfCell(cellAt(table, slot, layer));
  const within = new Map<number, number[]>();
  for (let slot = 1; slot <= slots; slot++) {
    let below = -1;
    for (let layer = 0; layer < layers; layer++) {
      if (phaseAt(slot, layer) < 0) continue;
      if (below >= 0 && phaseAt(slot, below) !== phaseAt(slot, layer)) {
        const key = below * layers + layer;
        within.set(key, [...(within.get(key) ?? []), slot]);
      }
      below = layer;
    }
  }
  const inSlots = [...within]
    .sort(([a], [b]) => a - b)
    .map(([key, list]) => ({ lower: Math.floor(key / layers), upper: key % layers, slots: list }));
  const inEnds = Array.from({ length: layers }, (_, layer) => {
    const filled = Array.from({ length: slots }, (_, index) => index + 1).filter(
      (slot) => phaseAt(slot, layer) >= 0,
    );
    const before = filled.filter(
      (slot, index) => phaseAt(slot, layer) !== phaseAt(filled[(index + 1) % filled.length]!, layer),
    );
    return { layer, slots: before };
  }).filter((boundary) => boundary.slots.length > 0);
  return { inSlots, inEnds };
}

/** The boundaries in slots in words, those at the same slots together: `a–b, c–d: 1, 2 and every 6 slots on`. */
export function slotBoundaryWords(winding: Winding): readonly string[] {
  return grouped(
    phaseBoundaries(winding).inSlots.map(({ lower, upper, slots }) => ({
      name: `${layerLetter(lower)}–${layerLetter(upper)}`,
      slots,
    })),
    winding.slots,
  );
}

/** The boundaries in the ends in words, each by the slot before it. */
export function endBoundaryWords(winding: Winding): readonly string[] {
  return grouped(
    phaseBoundaries(winding).inEnds.map(({ layer, slots }) => ({ name: layerLetter(layer), slots })),
    winding.slots,
  );
}

function grouped(
  boundaries: readonly { readonly name: string; readonly slots: readonly number[] }[],
  slots: number,
): readonly string[] {
  const names = new Map<string, string[]>();
  for (const boundary of boundaries) {
    const words = repeatedSlots(boundary.slots, slots);
    names.set(words, [...(names.get(words) ?? []), boundary.name]);
  }
  return [...names].map(([words, list]) => `${list.join(', ')}: ${words}`);
}

/** Slot numbers, those that repeat round the bore told once. */
function repeatedSlots(list: readonly number[], slots: number): string {
  const held = new Set(list);
  const repeats = (step: number) => list.every((slot) => held.has(((slot - 1 + step) % slots) + 1));
  let step = 1;
  while (slots % step !== 0 || !repeats(step)) step++;
  if (step === slots) return list.join(', ');
  const own = list.filter((slot) => slot <= step).join(', ');
  return step === 1 ? 'all slots' : `${own} and every ${step} slots on`;
}
