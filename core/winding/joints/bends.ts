import { cellAt, type EndSide, foldedSlot, type Path, type SlotTable, type Winding } from '../model.ts';
import { singleLayerSpan } from '../singleLayerCoils.ts';

/**
 * What counts as regular on each side of a winding, and which way each layer's bars lean there.
 * Offsets are in slots, seen from the lower layer of a layer pair (layers 2k and 2k + 1).
 */
export interface Bends {
  /** wave: the two sides of a bar lean opposite ways; lap: the same way; single: one layer, no lean. */
  readonly base: 'wave' | 'lap' | 'single';
  /** Sense of the far-side offset of the layer pairs: +1 when coils run towards higher slot numbers. */
  readonly direction: 1 | -1;
  /** Far-side offset of each layer pair; 0 where no constant offset is known. */
  readonly far: readonly number[];
  /** Connection-side offset of each layer pair; null where no such joint is regular. */
  readonly connection: readonly (number | null)[];
  /** Tooth coils: offset of the regular connection-side joint between two layer pairs, else null. */
  readonly betweenPairs: number | null;
  /**
   * Span of the coils of an unpaired layer (one layer, or the last of an odd number), else null. Coils
   * of opposite sense may run the other way.
   */
  readonly unpairedSpan: number | null;
}

/** Lean of a layer's bar ends on a side: the sign of a joint's span from that bar; 0 for an unpaired layer. */
export function leanOf(bends: Bends, side: EndSide, layer: number): -1 | 0 | 1 {
  if (layer >= 2 * bends.far.length) return 0;
  const lower = layer % 2 === 0 ? 1 : -1;
  const flip = side === 'connection' && bends.base === 'wave' ? -1 : 1;
  return (bends.direction * lower * flip) as 1 | -1;
}

/** The layer that a layer's regular joints on a side lead to; null for an unpaired one. */
export function regularPartner(bends: Bends, side: EndSide, layer: number): number | null {
  const layers = 2 * bends.far.length;
  if (layer >= layers) return null;
  const betweenPairs = side === 'connection' && bends.betweenPairs !== null;
  const partner = (layer % 2 === 0) === betweenPairs ? layer - 1 : layer + 1;
  return partner >= 0 && partner < layers ? partner : null;
}

/**
 * Reads what is regular from the winding: the declared span of a generated layout, else the far-side
 * joints most used in the paths, else the constant offset found in the slot table (the shortest).
 */
export function regularBends(winding: Winding, paths: readonly Path[] = []): Bends {
  const pairs = Math.floor(winding.layers / 2);
  const unpairedSpan = winding.layers % 2 === 1 ? unpairedCoilSpan(winding, paths) : null;
  if (pairs === 0) {
    const direction = (unpairedSpan ?? 1) < 0 ? -1 : 1;
    return { base: 'single', direction, far: [], connection: [], betweenPairs: null, unpairedSpan };
  }
  const far = farOffsets(winding, paths, pairs);
  const direction = far.reduce((sum, y) => sum + Math.sign(y), 0) < 0 ? -1 : 1;
  const base = baseOf(winding, paths, far, direction);
  return {
    base,
    direction,
    far,
    connection: far.map((y) => connectionOffset(winding, base, direction, y)),
    betweenPairs: base === 'lap' && Math.abs(far[0]!) === 1 ? -far[0]! + staggerOf(winding) : null,
    unpairedSpan,
  };
}

/**
 * The constant far-side offset of each layer pair that leads every bar of its lower layer to a bar
 * of the same phase and opposite sense in its upper layer: the shortest, towards higher slot numbers
 * where both ways are as short, one direction for all pairs. Null where some pair has none.
 */
function tableOffsets(table: SlotTable, polePairs: number): number[] | null {
  const pairs = Math.floor(table.layers / 2);
  const reach = Math.max(1, Math.min(table.slots - 1, Math.ceil(table.slots / polePairs) - 1));
  let best: number[] | null = null;
  let bestSum = Number.POSITIVE_INFINITY;
  for (const direction of [1, -1]) {
    const offsets: number[] = [];
    for (let pair = 0; pair < pairs; pair++) {
      for (let size = 1; size <= reach; size++) {
        if (!offsetFits(table, 2 * pair, 2 * pair + 1, direction * size)) continue;
        offsets.push(direction * size);
        break;
      }
    }
    const sum = offsets.reduce((total, y) => total + Math.abs(y), 0);
    if (offsets.length === pairs && sum < bestSum) {
      best = offsets;
      bestSum = sum;
    }
  }
  return best;
}

/** Whether every bar of layer `from` meets, `offset` slots on in layer `to`, its phase with opposite sense. */
function offsetFits(table: SlotTable, from: number, to: number, offset: number): boolean {
  const { slots } = table;
  for (let slot = 1; slot <= slots; slot++) {
    const other = foldedSlot(slot + offset, slots);
    if (cellAt(table, slot, from) !== -cellAt(table, other, to)) return false;
  }
  return true;
}

function unpairedCoilSpan(winding: Winding, paths: readonly Path[]): number | null {
  if (winding.origin.kind === 'generated') return winding.origin.span;
  const layer = winding.layers - 1;
  const voted = mostCommon(offsetsUsed(paths, 'far', layer, layer).map((offset) => Math.abs(offset)));
  return voted ?? singleLayerSpan(winding.table, layer, winding.polePairs);
}

function farOffsets(winding: Winding, paths: readonly Path[], pairs: number): number[] {
  const { origin } = winding;
  if (origin.kind === 'generated') return Array.from({ length: pairs }, () => origin.span);
  const fromTable = tableOffsets(winding.table, winding.polePairs);
  return Array.from({ length: pairs }, (_, pair) => {
    const voted = mostCommon(offsetsUsed(paths, 'far', 2 * pair, 2 * pair + 1));
    return voted ?? fromTable?.[pair] ?? 0;
  });
}

function staggerOf(winding: Winding): number {
  return winding.origin.kind === 'generated' ? winding.origin.stagger : 0;
}

function baseOf(
  winding: Winding,
  paths: readonly Path[],
  far: readonly number[],
  direction: 1 | -1,
): 'wave' | 'lap' {
  const wholePeriod = winding.slots % winding.polePairs === 0;
  if (!wholePeriod && far.every((y) => Math.abs(y) === 1)) return 'lap';
  let lapVotes = 0;
  let waveVotes = 0;
  far.forEach((_, pair) => {
    for (const offset of offsetsUsed(paths, 'connection', 2 * pair, 2 * pair + 1)) {
      if (offset === far[pair]! - direction) lapVotes++;
      else if (Math.sign(offset) === -direction) waveVotes++;
    }
  });
  return lapVotes > waveVotes ? 'lap' : 'wave';
}

function connectionOffset(
  winding: Winding,
  base: 'wave' | 'lap',
  direction: 1 | -1,
  y: number,
): number | null {
  if (base === 'lap') return Math.abs(y) === 1 ? null : y - Math.sign(y);
  // Without a whole number of slots in a pole pair the nearest whole span stands for regular.
  const offset = y - direction * Math.round(winding.slots / winding.polePairs);
  return Math.sign(offset) === -direction ? offset : null;
}

/** Offsets, seen from the lower layer, of all joints on a side between two layers; pieces tell nothing of bends. */
function offsetsUsed(paths: readonly Path[], side: EndSide, lower: number, upper: number): number[] {
  const offsets: number[] = [];
  for (const path of paths) {
    path.spans.forEach((span, index) => {
      if (sideOfJoint(path, index) !== side || path.pieces[index]) return;
      const from = path.bars[index]!.layer;
      const to = path.bars[index + 1]!.layer;
      if (Math.min(from, to) !== lower || Math.max(from, to) !== upper) return;
      offsets.push(from === lower ? span : -span);
    });
  }
  return offsets;
}

/** The side on which joint `index` (bar index to bar index + 1) of a path lies. */
export function sideOfJoint(path: Pick<Path, 'startsFar'>, index: number): EndSide {
  return (index % 2 === 0) !== path.startsFar ? 'far' : 'connection';
}

/** The most frequent value; of equally frequent ones the smallest in size, then the positive one. */
function mostCommon(values: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const value of values) {
    if (value !== 0) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  const ranked = [...counts].sort(
    ([a, countA], [b, countB]) => countB - countA || Math.abs(a) - Math.abs(b) || b - a,
  );
  return ranked[0]?.[0] ?? null;
}
