import { modulo } from '../winding/integers.ts';
import { sideOfJoint } from '../winding/joints/bends.ts';
import type { Bar, EndSide, Path, Winding } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import { divide, multiply, size, subtract, unit, zero } from './complex.ts';
import { type OrderVoltages, orderVoltages, sumAlong } from './voltages.ts';

/** How the phases are connected, as far as potentials between them depend on it. */
export type PotentialReference = 'star' | 'delta' | 'open';

/** A voltage between two neighboring bars on one side, relative to the phase voltage. */
export interface BarGap {
  /** Share of the phase voltage, at least 0. */
  readonly value: number;
  readonly bars: readonly [Bar, Bar];
  readonly side: EndSide;
}

/** Largest voltages between neighboring bars; null where there are no such neighbors. */
export interface BarGaps {
  /** Bars one above the other in a slot; empty places take no room, so bars lie on each other across them. */
  readonly inSlot: BarGap | null;
  readonly inSlotSamePhase: BarGap | null;
  readonly inSlotTwoPhases: BarGap | null;
  /** Bars of one layer whose end bends pass each other: in neighboring slots, or with only empty places between. */
  readonly betweenSlots: BarGap | null;
  /** The largest of all of them between bars of different sets; null for one set. */
  readonly betweenSets: BarGap | null;
}

/**
 * Voltages between radially and tangentially neighboring bars at the working harmonic, from the node
 * potentials along each path, relative to the phase voltage. Separate star points (and the centers of
 * separate deltas) are taken at one potential. Open phases float, so only bars of one phase are compared
 * then. Null where some path has no voltage.
 */
export function voltagesBetweenBars(
  winding: Winding,
  paths: readonly Path[],
  reference: PotentialReference,
): BarGaps | null {
  const potentials = barPotentials(winding, paths, reference);
  if (!potentials) return null;
  const { slots, layers } = winding;
  const { phase } = potentials;
  const inSlot = noGap();
  const inSlotSamePhase = noGap();
  const inSlotTwoPhases = noGap();
  const betweenSlots = noGap();
  const betweenSets = noGap();
  const perSet = winding.phases.names.length / winding.phases.sets;
  const setOf = (place: number) => Math.floor(phase[place]! / perSet);
  const compare = (gaps: readonly WidestGap[], a: number, b: number, on: readonly EndSide[]) => {
    if (reference === 'open' && phase[a] !== phase[b]) return;
    for (const gap of gaps) widen(gap, potentials, a, b, on);
    if (setOf(a) !== setOf(b)) widen(betweenSets, potentials, a, b, on);
  };
  for (let slot = 1; slot <= slots; slot++) {
    let below = -1;
    for (let place = slot - 1; place < slots * layers; place += slots) {
      if (phase[place]! < 0) continue;
      if (below >= 0) {
        const kind = phase[place] === phase[below] ? inSlotSamePhase : inSlotTwoPhases;
        compare([inSlot, kind], below, place, sides);
      }
      below = place;
    }
  }
  const reaches = endReaches(winding, paths);
  for (let layer = 0; layer < layers; layer++) {
    for (const [place, beside, apart] of neighborsInLayer(phase, layer * slots, slots)) {
      const passing =
        apart === 1 ? sides : sides.filter((side) => endsPass(reaches[side], place, beside, apart));
      compare([betweenSlots], place, beside, passing);
    }
  }
  return {
    inSlot: gapFrom(inSlot, slots),
    inSlotSamePhase: gapFrom(inSlotSamePhase, slots),
    inSlotTwoPhases: gapFrom(inSlotTwoPhases, slots),
    betweenSlots: gapFrom(betweenSlots, slots),
    betweenSets: gapFrom(betweenSets, slots),
  };
}

/** Each bar of a layer with the next one round the bore, and the slots from one to the other. */
function neighborsInLayer(
  phase: Int16Array,
  first: number,
  slots: number,
): readonly (readonly [number, number, number])[] {
  const filled: number[] = [];
  for (let place = first; place < first + slots; place++) if (phase[place]! >= 0) filled.push(place);
  if (filled.length < 2) return [];
  return filled.map((place, index) => {
    const next = filled[(index + 1) % filled.length]!;
    return [place, next, modulo(next - place, slots)] as const;
  });
}

/** How far each bar's end reaches round the bore on each side, in signed slots: half its joint's span. */
function endReaches({ slots, layers }: Winding, paths: readonly Path[]): Record<EndSide, Float64Array> {
  const reaches = {
    connection: new Float64Array(slots * layers),
    far: new Float64Array(slots * layers),
  };
  for (const path of paths) {
    path.spans.forEach((span, index) => {
      const on = reaches[sideOfJoint(path, index)];
      const from = path.bars[index]!;
      const to = path.bars[index + 1]!;
      on[from.layer * slots + from.slot - 1] = span / 2;
      on[to.layer * slots + to.slot - 1] = -span / 2;
    });
  }
  return reaches;
}

/** Whether the ends of two bars, `apart` slots from each other, stand side by side somewhere. */
function endsPass(reach: Float64Array, place: number, beside: number, apart: number): boolean {
  return apart + Math.min(0, reach[beside]!) <= Math.max(0, reach[place]!);
}

// A hair's breadth decides nothing: the first of equal gaps is kept.
const hair = 1e-9;

/** The widest gap so far, between two places; value -1 for none. */
interface WidestGap {
  value: number;
  /** Squares up to this are not worth a root. */
  square: number;
  places: readonly [number, number];
  side: EndSide;
}

function noGap(): WidestGap {
  return { value: -1, square: -1, places: [0, 0], side: 'connection' };
}

function widen(
  widest: WidestGap,
  potentials: BarPotentials,
  a: number,
  b: number,
  on: readonly EndSide[],
): void {
  for (const side of on) {
    const { re, im } = potentials[side];
    const alongRe = re[a]! - re[b]!;
    const alongIm = im[a]! - im[b]!;
    if (alongRe * alongRe + alongIm * alongIm <= widest.square) continue;
    const value = Math.hypot(alongRe, alongIm);
    if (value <= widest.value + hair) continue;
    widest.value = value;
    widest.square = (value + hair / 2) ** 2;
    widest.places = [a, b];
    widest.side = side;
  }
}

const sides = ['connection', 'far'] as const;

function gapFrom({ value, places, side }: WidestGap, slots: number): BarGap | null {
  const bar = (place: number): Bar => ({ slot: (place % slots) + 1, layer: Math.floor(place / slots) });
  return value < 0 ? null : { value, bars: [bar(places[0]), bar(places[1])], side };
}

/** A complex number for each place: slot s of layer l at l x slots + s - 1. */
export interface PlacedNumbers {
  /** Relative to the phase voltage. */
  readonly re: Float64Array;
  /** The same. */
  readonly im: Float64Array;
}

/** Potentials of all bars' two ends, relative to the phase voltage, star point (or delta's center) zero. */
export interface BarPotentials {
  /** Phase of the bar at each place; -1 where no path has a bar. */
  readonly phase: Int16Array;
  readonly connection: PlacedNumbers;
  readonly far: PlacedNumbers;
}

/** Potentials of all bars' ends, by place; null where some path has no voltage. */
export function barPotentials(
  winding: Winding,
  paths: readonly Path[],
  reference: PotentialReference,
): BarPotentials | null {
  const places = winding.slots * winding.layers;
  const numbers = () => ({ re: new Float64Array(places), im: new Float64Array(places) });
  const potentials = {
    phase: new Int16Array(places).fill(-1),
    connection: numbers(),
    far: numbers(),
  };
  const voltages = orderVoltages(winding, winding.polePairs);
  for (const path of paths) {
    const total = sumAlong(voltages, path);
    if (size(total) < 1e-9 * Math.max(1, path.bars.length)) return null;
    const start = startPotential(winding, path.phase, reference);
    const own = unit(-(winding.phases.axes[path.phase] ?? 0));
    const potentialAfter = (drop: Complex) => subtract(start, multiply(own, divide(drop, total)));
    placePotentials(winding, path, voltages, potentialAfter, potentials);
  }
  return potentials;
}

/** Fills in the potentials of a path's bars; `potentialAfter` tells that beyond a drop of voltage. */
function placePotentials(
  winding: Winding,
  path: Path,
  { re, im, skews }: OrderVoltages,
  potentialAfter: (drop: Complex) => Complex,
  { phase, connection, far }: BarPotentials,
): void {
  let drop = zero;
  let before = potentialAfter(drop);
  let enters = !path.startsFar;
  for (const { slot, layer } of path.bars) {
    const factor = (enters ? 1 : -1) * (skews[layer] ?? 1);
    drop = { re: drop.re + re[slot - 1]! * factor, im: drop.im + im[slot - 1]! * factor };
    const after = potentialAfter(drop);
    const place = layer * winding.slots + slot - 1;
    phase[place] = path.phase;
    setAt(connection, place, enters ? before : after);
    setAt(far, place, enters ? after : before);
    before = after;
    enters = !enters;
  }
}

function setAt(numbers: PlacedNumbers, place: number, { re, im }: Complex): void {
  numbers.re[place] = re;
  numbers.im[place] = im;
}

/**
 * Potential of a phase's line terminal. Star: the phase voltage. Delta: the corner from which the phase
 * voltage leads to the next corner, of phases 360/m apart.
 */
function startPotential(winding: Winding, phase: number, reference: PotentialReference): Complex {
  const own = unit(-(winding.phases.axes[phase] ?? 0));
  if (reference !== 'delta') return own;
  const perSet = winding.phases.names.length / winding.phases.sets;
  return divide(own, subtract({ re: 1, im: 0 }, unit(-360 / perSet)));
}
