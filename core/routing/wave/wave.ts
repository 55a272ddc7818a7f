import { modulo } from '../../winding/integers.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Bar, Winding } from '../../winding/model.ts';
import { shapeOf } from '../jointKind.ts';
import type { Strand, Unit } from '../units/units.ts';
import { foldSlot, shortestSpan } from '../units/units.ts';

/**
 * Units of a phase that regular joints close into a loop round the bore: one unit in every pole pair.
 * Forward loops have their + bars in the pair's lower layer, backward loops in its upper layer.
 */
export interface Loop {
  /** Index of the pair of layers it lies in, from 0. */
  readonly pair: number;
  readonly sense: 1 | -1;
  /** Slot of the + bar in pole pair 0. */
  readonly slot: number;
  /** Class of its units. */
  readonly content: number;
}

/** A phase as loops of a wave winding. */
export interface WaveLoops {
  readonly slots: number;
  /** Slots of a pole pair. */
  readonly period: number;
  /** Pole pairs: units of a loop. */
  readonly stages: number;
  /** Pairs of layers. */
  readonly pairs: number;
  /**
   * Far-side span of each pair of layers, signed, in slots: from the + bar of a forward loop to its - bar; of a
   * backward loop the opposite.
   */
  readonly far: readonly number[];
  /** Pole pairs are counted towards higher slots (1) or lower ones (-1). */
  readonly direction: 1 | -1;
  readonly loops: readonly Loop[];
  /** Half a period on, the phase is there with opposite sense, so each path has a mirrored twin. */
  readonly mirrored: boolean;
}

/** One unit of a loop: the pole pair is counted in the winding's direction, modulo the pole pairs. */
export interface LoopUnit {
  /** Index in `WaveLoops.loops`. */
  readonly loop: number;
  /** Pole pair, from 0. */
  readonly stage: number;
}

/** A connection-side joint between loops: how many pole pairs on, its span, and a key of its shape. */
export interface Transition {
  /** Pole pairs on, as the loop that it leaves runs: 0, 1 or 2. */
  readonly advance: number;
  /** Signed, in slots. */
  readonly span: number;
  readonly shape: number;
}

/** The loops of a phase, or null where regular joints do not close into loops of one unit a pole pair. */
export function waveLoops(
  winding: Winding,
  bends: Bends,
  units: readonly Unit[],
  classes: readonly number[],
): WaveLoops | null {
  const { slots, polePairs } = winding;
  const period = slots / polePairs;
  if (bends.base !== 'wave' || winding.layers % 2 === 1 || !Number.isInteger(period)) return null;
  if (bends.far.some((y) => y === 0 || Math.abs(y) >= period)) return null;
  const loops: Loop[] = [];
  const seen = new Int32Array(winding.layers * period);
  units.forEach((unit, index) => {
    const sense = unit.go.layer % 2 === 0 ? 1 : -1;
    const place = modulo(unit.go.slot - 1, period);
    const key = unit.go.layer * period + place;
    seen[key]!++;
    if (seen[key] === 1) loops.push({ pair: unit.pair, sense, slot: place + 1, content: classes[index]! });
  });
  if (seen.some((count) => count !== 0 && count !== polePairs)) return null;
  const mirrored = period % 2 === 0 && isAntiperiodic(units, winding, period / 2);
  return {
    slots,
    period,
    stages: polePairs,
    pairs: bends.far.length,
    far: bends.far,
    direction: bends.direction,
    loops: inBeltOrder(loops, period),
    mirrored,
  };
}

function isAntiperiodic(units: readonly Unit[], { slots, layers }: Winding, half: number): boolean {
  const goes = new Uint8Array(slots * layers);
  for (const { go } of units) goes[go.layer * slots + go.slot - 1] = 1;
  return units.every(({ back }) => goes[back.layer * slots + foldSlot(back.slot + half, slots) - 1] === 1);
}

/** Loops by pair and sense, each group in belt order: starting after its widest gap. */
function inBeltOrder(loops: readonly Loop[], period: number): Loop[] {
  const groups = new Map<number, Loop[]>();
  for (const loop of loops) {
    const key = 2 * loop.pair + (loop.sense === 1 ? 0 : 1);
    const group = groups.get(key);
    if (group) group.push(loop);
    else groups.set(key, [loop]);
  }
  return [...groups.values()].flatMap((group) => {
    group.sort((a, b) => a.slot - b.slot);
    const gap = (index: number) =>
      index === 0
        ? group[0]!.slot + period - group.at(-1)!.slot
        : group[index]!.slot - group[index - 1]!.slot;
    let first = 0;
    group.forEach((_, index) => {
      if (gap(index) > gap(first)) first = index;
    });
    return [...group.slice(first), ...group.slice(0, first)];
  });
}

/**
 * The lean-legal connection-side joint from a unit of one loop to one of another, its span as near the
 * regular one as possible: within the pair, or one pair up for forward and one down for backward loops.
 */
export function transition(wave: WaveLoops, from: Loop, to: Loop): Transition | null {
  if (from.sense !== to.sense) return null;
  const step = (to.pair - from.pair) * from.sense;
  if (step !== 0 && step !== 1) return null;
  const sign = wave.direction * from.sense;
  const nominal = sign * wave.period - from.sense * wave.far[from.pair]!;
  const shift = to.slot - from.slot;
  let best: Transition | null = null;
  for (const advance of [1, 0, 2]) {
    const span = nominal + shift + (advance - 1) * sign * wave.period;
    if (Math.sign(span) !== sign || Math.abs(span) >= wave.slots) continue;
    if (best && Math.abs(best.span - nominal) <= Math.abs(span - nominal)) continue;
    const offset = step === 0 ? -from.sense * span : from.sense * span;
    const lower = step === 0 ? 2 * from.pair : 2 * Math.min(from.pair, to.pair) + 1;
    best = { advance, span, shape: shapeOf('connection', lower, lower + 1, offset) };
  }
  return best;
}

/** Bars and spans of units walked in order; joints that no transition describes go the shorter way. */
export function strandOf(wave: WaveLoops, units: readonly LoopUnit[]): Strand {
  const bars: Bar[] = [];
  const spans: number[] = [];
  // Most units follow another of the same loop, so the last transition mostly serves again.
  let known: { from: number; to: number; joint: Transition | null } = { from: -1, to: -1, joint: null };
  units.forEach((unit, index) => {
    const { sense, pair, slot } = wave.loops[unit.loop]!;
    const far = sense * wave.far[pair]!;
    const go = foldSlot(slot + wave.direction * wave.period * unit.stage, wave.slots);
    if (index > 0) {
      const before = units[index - 1]!;
      if (before.loop !== known.from || unit.loop !== known.to) {
        const joint = transition(wave, wave.loops[before.loop]!, wave.loops[unit.loop]!);
        known = { from: before.loop, to: unit.loop, joint };
      }
      const runsOn = known.joint && leadsOn(wave, before, unit, known.joint);
      spans.push(runsOn ? known.joint!.span : shortestSpan(bars.at(-1)!.slot, go, wave.slots));
    }
    const lower = 2 * pair;
    bars.push({ slot: go, layer: sense === 1 ? lower : lower + 1 });
    spans.push(far);
    bars.push({ slot: foldSlot(go + far, wave.slots), layer: sense === 1 ? lower + 1 : lower });
  });
  return { bars, spans };
}

function leadsOn(wave: WaveLoops, from: LoopUnit, to: LoopUnit, joint: Transition): boolean {
  const { sense } = wave.loops[from.loop]!;
  return modulo((to.stage - from.stage) * sense - joint.advance, wave.stages) === 0;
}

/** The twin of a strand: walked backward, moved half a period and `stages` whole periods on. */
export function mirrorStrand(wave: WaveLoops, strand: Strand, stages: number): Strand {
  const move = wave.period / 2 + stages * wave.period;
  return {
    bars: strand.bars
      .map((bar) => ({ slot: foldSlot(bar.slot + move, wave.slots), layer: bar.layer }))
      .reverse(),
    spans: strand.spans.map((span) => -span).reverse(),
  };
}

/** One strand after another, joined the shorter way. */
export function joinStrands(first: Strand, second: Strand, slots: number): Strand {
  const reversal = shortestSpan(first.bars.at(-1)!.slot, second.bars[0]!.slot, slots);
  return {
    bars: [...first.bars, ...second.bars],
    spans: [...first.spans, reversal, ...second.spans],
  };
}
