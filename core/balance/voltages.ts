import { phaseSense } from '../analysis/phaseBalance.ts';
import { fixed } from '../language/numbers.ts';
import { greatestCommonDivisor } from '../winding/integers.ts';
import type { Path, Winding } from '../winding/model.ts';
import { layerSkews } from '../winding/skew.ts';
import type { Complex } from './complex.ts';
import { add, degrees, divide, multiply, scale, size, subtract, unit, zero } from './complex.ts';

/** A path's voltage against the mean of its phase's paths. */
export interface PathVoltage {
  /** Index in the list of paths. */
  readonly path: number;
  /** Sum of bar voltages at the working order, in units of one bar without skew. */
  readonly sum: Complex;
  /** Size relative to the mean path, and angle from it in electrical degrees; null when the mean is zero. */
  readonly relative: number | null;
  /** Positive where it leads. */
  readonly angle: number | null;
}

/** How equal the parallel paths of a phase are. */
export interface PhaseBalance {
  /** Index of the phase, from 0. */
  readonly phase: number;
  readonly paths: readonly PathVoltage[];
  /** Largest distance of a path's voltage from the mean, relative to the mean; null when the mean is zero. */
  readonly difference: number | null;
  /** Every path has bars at the same electrical angles: equal at all orders, exactly. */
  readonly sameAngles: boolean;
}

/** Spread of path voltages at one harmonic. */
export interface HarmonicSpread {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Of the fundamental. */
  readonly harmonic: number;
  /** Largest distance from the mean path, per bar of the path at full voltage: a winding-factor measure. */
  readonly spread: number;
}

/** Path voltages of every phase at the working order; phases without paths are left out. */
export function phaseBalances(winding: Winding, paths: readonly Path[]): PhaseBalance[] {
  const voltages = orderVoltages(winding, winding.polePairs);
  return phasesOf(paths).map((phase) => {
    const own = indexesOf(paths, phase);
    const sums = own.map((index) => sumAlong(voltages, paths[index]!));
    const mean = meanOf(sums);
    const none = size(mean) < 1e-9 * Math.max(1, ...own.map((index) => paths[index]!.bars.length));
    const pathVoltages = own.map((index, place): PathVoltage => {
      const sum = sums[place]!;
      const ratio = none ? null : divide(sum, mean);
      const angle = ratio && degrees(ratio);
      return { path: index, sum, relative: ratio && size(ratio), angle };
    });
    const difference = none ? null : Math.max(...sums.map((sum) => size(subtract(sum, mean)))) / size(mean);
    const sameAngles = anglesAgree(
      winding,
      own.map((index) => paths[index]!),
    );
    return { phase, paths: pathVoltages, difference, sameAngles };
  });
}

/**
 * Spread of the path voltages at harmonics of the working order (default 1, 3, 5 ... 19): one entry a
 * phase and harmonic, in order.
 */
export function harmonicSpreads(
  winding: Winding,
  paths: readonly Path[],
  harmonics: readonly number[] = [1, 3, 5, 7, 9, 11, 13, 15, 17, 19],
): HarmonicSpread[] {
  const sense = phaseSense(winding);
  const voltages = harmonics.map((harmonic) => orderVoltages(winding, harmonic * winding.polePairs, sense));
  return phasesOf(paths).flatMap((phase) =>
    harmonics.map((harmonic, index) => {
      const own = paths.filter((path) => path.phase === phase);
      const sums = own.map((path) => sumAlong(voltages[index]!, path));
      const mean = meanOf(sums);
      const bars = own.reduce((sum, path) => sum + path.bars.length, 0) / own.length;
      const spread = Math.max(...sums.map((sum) => size(subtract(sum, mean)))) / Math.max(1, bars);
      return { phase, harmonic, spread: spread < 1e-12 ? 0 : spread };
    }),
  );
}

/** A phase's voltage against phase 0 turned to its declared axis. */
export interface PhasePattern {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Distance relative to phase 0; null when phase 0 has no voltage. */
  readonly difference: number | null;
}

/** Mean path voltages of the phases against their axes. */
export function phasePatterns(winding: Winding, paths: readonly Path[]): PhasePattern[] {
  const voltages = orderVoltages(winding, winding.polePairs);
  const means = new Map(
    phasesOf(paths).map((phase) => [
      phase,
      meanOf(paths.filter((path) => path.phase === phase).map((path) => sumAlong(voltages, path))),
    ]),
  );
  const first = means.get(0);
  return [...means].map(([phase, mean]) => {
    if (!first || size(first) < 1e-9) return { phase, difference: null };
    const expected = multiply(first, unit(-winding.phases.axes[phase]!));
    const difference = size(subtract(mean, expected)) / size(first);
    return { phase, difference: difference < 1e-12 ? 0 : difference };
  });
}

/** What one bar contributes at a mechanical order, by where it lies, passed away from the connection side. */
export interface OrderVoltages {
  /** exp(-j order theta), theta in the sense of rotation, of each slot; slot s at s - 1. */
  readonly re: Float64Array;
  /** The same. */
  readonly im: Float64Array;
  /** Skew factor of each layer. */
  readonly skews: readonly number[];
}

/**
 * Bar voltages of a winding at a mechanical order, in units of one bar without skew. The field turns in
 * the sense in which the phases follow each other as U, V, W; a caller that asks for several orders
 * passes that sense.
 */
export function orderVoltages(
  winding: Winding,
  order: number,
  sense: 1 | -1 = phaseSense(winding),
): OrderVoltages {
  const { slots } = winding;
  const re = new Float64Array(slots);
  const im = new Float64Array(slots);
  const period = Number.isInteger(order) ? slots / greatestCommonDivisor(order, slots) : slots;
  for (let place = 0; place < slots; place++) {
    const phasor = place < period ? unit(-sense * 360 * (((order * place) % slots) / slots)) : null;
    re[place] = phasor?.re ?? re[place - period]!;
    im[place] = phasor?.im ?? im[place - period]!;
  }
  return { re, im, skews: layerSkews(winding, order) };
}

/** Sum of the bar voltages along a path, each in the sense it is passed. */
export function sumAlong({ re, im, skews }: OrderVoltages, path: Pick<Path, 'bars' | 'startsFar'>): Complex {
  let sumRe = 0;
  let sumIm = 0;
  let sense = path.startsFar ? -1 : 1;
  for (const { slot, layer } of path.bars) {
    const factor = sense * (skews[layer] ?? 1);
    sumRe += re[slot - 1]! * factor;
    sumIm += im[slot - 1]! * factor;
    sense = -sense;
  }
  return { re: sumRe, im: sumIm };
}

/**
 * Induced voltage of each path in V from the path sums: one bar without skew gives pi f flux / sqrt 2
 * (frequency in Hz, fundamental flux per pole in Wb).
 */
export function inducedVoltages(sums: readonly Complex[], frequency: number, flux: number): Complex[] {
  return sums.map((sum) => scale(sum, (Math.PI * frequency * flux) / Math.SQRT2));
}

/**
 * Whether all paths hold equally many bars at each angle (an integer in turns / 2Q); where layers differ
 * in skew factor, of each factor.
 */
function anglesAgree(winding: Winding, paths: readonly Path[]): boolean {
  const [first, ...others] = paths;
  if (!first || others.length === 0) return true;
  const skews = layerSkews(winding, winding.polePairs).map((skew) => fixed(skew, 9));
  const kinds = skews.map((skew) => skews.indexOf(skew));
  const left = new Int32Array(2 * winding.slots * winding.layers);
  countAngles(left, winding, kinds, first, 1);
  return others.every((other) => {
    if (other.bars.length !== first.bars.length) return false;
    const agrees = countAngles(left, winding, kinds, other, -1);
    countAngles(left, winding, kinds, other, 1);
    return agrees;
  });
}

/** Adds `change` for each bar of a path; tells whether no count became negative. */
function countAngles(
  counts: Int32Array,
  winding: Winding,
  kinds: readonly number[],
  path: Path,
  change: 1 | -1,
): boolean {
  const { slots, polePairs } = winding;
  let negative = false;
  let half = path.startsFar ? slots : 0;
  for (const { slot, layer } of path.bars) {
    const angle = (2 * polePairs * slot + half) % (2 * slots);
    const cell = kinds[layer]! * 2 * slots + angle;
    counts[cell]! += change;
    if (counts[cell]! < 0) negative = true;
    half = slots - half;
  }
  return !negative;
}

function meanOf(values: readonly Complex[]): Complex {
  return scale(values.reduce(add, zero), 1 / Math.max(1, values.length));
}

function phasesOf(paths: readonly Path[]): number[] {
  return [...new Set(paths.map((path) => path.phase))].sort((a, b) => a - b);
}

function indexesOf(paths: readonly Path[], phase: number): number[] {
  return paths.flatMap((path, index) => (path.phase === phase ? [index] : []));
}
