import { fractionText, requireInteger } from '../winding/integers.ts';
import type { Winding } from '../winding/model.ts';
import { defaultOrders } from './factors/factors.ts';
import { type ComplexSeries, fourierTransform } from './fourier.ts';
import { slotOpeningFactor } from './gap/slotOpening.ts';
import { type TableRotation, tablePeriod, tableRotation } from './rotation.ts';
import { unitCircle } from './unitCircle.ts';

/** One traveling wave of the winding's MMF. */
export interface MmfWave {
  /** Mechanical order, at least 1. */
  readonly order: number;
  /** Order relative to the fundamental: `1`, `7/5`. */
  readonly harmonic: string;
  /** Against the working wave: the larger of the two waves of order p. */
  readonly direction: 'forward' | 'backward';
  /** Peak MMF across the gap per pole, A. */
  readonly amplitude: number;
  /** Amplitude against the working wave's; null when there is none. */
  readonly relative: number | null;
}

/** The waves of a winding carrying balanced currents. */
export interface Mmf {
  readonly waves: readonly MmfWave[];
  /** Amplitude of the working wave, A; 0 when the fundamental vanishes. */
  readonly workingAmplitude: number;
  /** The working wave runs towards higher slot numbers when the phases follow each other in their order. */
  readonly runsWithSlotNumbers: boolean;
}

/** What the waves are computed for. */
export interface MmfConditions {
  /** Highest order; default max(4 Q, 20 p). */
  readonly orders?: number;
  /** Rms current of a phase, A; default 1. */
  readonly current?: number;
  /** Slot opening and gap diameter, m: the waves are then weakened by the opening's width. */
  readonly opening?: { readonly width: number; readonly diameter: number };
  readonly rotation?: TableRotation;
}

// Waves below this part of the working wave are left out.
const smallestRelative = 1e-9;

/**
 * Ampere-conductors of each slot as peak phasors, A: phase k carries sqrt(2) I / a cos(omega t - axis k)
 * in each path. Entry s - 1 is slot s. `current` is the phase's rms current I in A.
 */
export function slotCurrents(winding: Winding, current = 1, count: number = winding.slots): ComplexSeries {
  const series = { re: new Float64Array(count), im: new Float64Array(count) };
  return currentsInto(winding, current, count, series);
}

/** Complex numbers in arrays of any kind. */
interface Numbered {
  readonly re: Float64Array | number[];
  readonly im: Float64Array | number[];
}

/** The same of the first `count` slots, written into a series of zeros. */
export function currentsInto<Series extends Numbered>(
  winding: Winding,
  current: number,
  count: number,
  series: Series,
): Series {
  const { re, im } = series;
  const { table, phases, slots } = winding;
  const peak = (Math.SQRT2 * current) / winding.parallelPaths;
  const circle = phases.axes.map((axis) => (axis * Math.PI) / 180);
  const phasorRe = circle.map((angle) => peak * Math.cos(angle));
  const phasorIm = circle.map((angle) => -peak * Math.sin(angle));
  for (let layer = 0; layer < table.layers; layer++) {
    for (let slot = 0; slot < count; slot++) {
      const cell = table.cells[layer * slots + slot]!;
      if (cell === 0) continue;
      const phase = Math.abs(cell) - 1;
      re[slot]! += cell > 0 ? phasorRe[phase]! : -phasorRe[phase]!;
      im[slot]! += cell > 0 ? phasorIm[phase]! : -phasorIm[phase]!;
    }
  }
  return series;
}

/**
 * All waves of orders 1 .. `orders`, both directions, smallest order first and the larger of two waves
 * of one order first. Waves below 1e-9 of the working wave are left out. Amplitude of the wave of signed
 * order nu: abs(C) / abs(nu) with C = (1 / 2 pi) sum of A_s exp(j nu theta_s), times the slot opening's
 * factor where an opening is given. Skew has no part in it.
 */
export function mmf(winding: Winding, conditions: MmfConditions = {}): Mmf {
  const orders = conditions.orders ?? defaultOrders(winding);
  requireInteger('number of orders', orders, 1);
  return wavesBetween(winding, conditions, 1, orders);
}

/** The waves of one order, the larger first; see `mmf`. Throws RangeError unless `order` is an integer of at least 1. */
export function wavesOfOrder(
  winding: Winding,
  order: number,
  conditions: MmfConditions = {},
): readonly MmfWave[] {
  requireInteger('order', order, 1);
  return wavesBetween(winding, conditions, order, order).waves;
}

/** The waves of orders `first` .. `last`. */
function wavesBetween(winding: Winding, conditions: MmfConditions, first: number, last: number): Mmf {
  const { slots, polePairs } = winding;
  const spectrum = currentSpectrum(winding, conditions);
  const opening = conditions.opening;
  const amplitude = (order: number, sense: 1 | -1): number => {
    const residue = order % slots;
    if (residue % spectrum.spacing !== 0) return 0;
    const entry = residue / spectrum.spacing;
    const size = spectrum.size[sense === 1 || entry === 0 ? entry : spectrum.size.length - entry]!;
    if (size === 0) return 0;
    const weakened = opening ? Math.abs(slotOpeningFactor(order, opening.width, opening.diameter)) : 1;
    return (weakened * size) / order;
  };
  const withNumbers = amplitude(polePairs, 1);
  const against = amplitude(polePairs, -1);
  const runsWithSlotNumbers = withNumbers >= against;
  const workingAmplitude = Math.max(withNumbers, against);
  const waves: MmfWave[] = [];
  const add = (order: number, harmonic: string, sense: 1 | -1, size: number) => {
    if (size === 0 || size < smallestRelative * workingAmplitude) return;
    waves.push({
      order,
      harmonic,
      direction: (sense === 1) === runsWithSlotNumbers ? 'forward' : 'backward',
      amplitude: size,
      relative: workingAmplitude === 0 ? null : size / workingAmplitude,
    });
  };
  const start = Math.ceil(first / spectrum.spacing) * spectrum.spacing;
  for (let order = start; order <= last; order += spectrum.spacing) {
    const forward = amplitude(order, 1);
    const backward = amplitude(order, -1);
    if (forward === 0 && backward === 0) continue;
    const harmonic = fractionText(order, polePairs);
    const larger = forward >= backward ? 1 : -1;
    add(order, harmonic, larger, Math.max(forward, backward));
    add(order, harmonic, larger === 1 ? -1 : 1, Math.min(forward, backward));
  }
  return { waves, workingAmplitude, runsWithSlotNumbers };
}

/** abs(C) in A at the orders k x spacing, k = 0 .. size.length - 1; it repeats with the slots. */
interface CurrentSpectrum {
  readonly spacing: number;
  readonly size: Float64Array;
}

function currentSpectrum(winding: Winding, conditions: MmfConditions): CurrentSpectrum {
  const length = tablePeriod(conditions.rotation ?? tableRotation(winding.table));
  const spacing = winding.slots / length;
  const currents = slotCurrents(winding, conditions.current, length);
  const { re, im } = fourierTransform(length)(currents.re, currents.im);
  const size = new Float64Array(length);
  let all = 0;
  for (let slot = 0; slot < length; slot++) all += Math.hypot(currents.re[slot]!, currents.im[slot]!);
  for (let k = 0; k < length; k++) {
    // The transform's exponent has the other sign: entry k holds order -k.
    const entry = k === 0 ? 0 : length - k;
    const magnitude = Math.sqrt(re[k]! * re[k]! + im[k]! * im[k]!);
    size[entry] = magnitude < 1e-12 * all ? 0 : (spacing * magnitude) / (2 * Math.PI);
  }
  return { spacing, size };
}

/**
 * MMF phasors of the teeth, zero mean, A: entry s - 1 is the tooth between slots s and s + 1, and each
 * slot's ampere-conductors raise the MMF by their value. Joined in order they are the phasor polygon
 * (Gorges diagram), one full turn. Null when the currents of all slots do not add up to zero. `currents`
 * are those of the slots at that rms current of a phase, A.
 */
export function toothMmf(
  winding: Winding,
  current = 1,
  currents: ComplexSeries = slotCurrents(winding, current),
): ComplexSeries | null {
  const re = runningSum(currents.re);
  const im = runningSum(currents.im);
  if (!closes(winding, current, re[re.length - 1]!, im[im.length - 1]!)) return null;
  return { re: zeroMean(re), im: zeroMean(im) };
}

/** Whether the currents of all slots add up to zero. */
function closes(winding: Winding, current: number, re: number, im: number): boolean {
  const bars = winding.slots * winding.layers;
  const peak = (Math.SQRT2 * Math.abs(current)) / winding.parallelPaths;
  return Math.hypot(re, im) <= 1e-12 * bars * peak;
}

/**
 * Mean square of the teeth's MMF phasors, A^2, without making them: as `toothMmf` has them for the currents of all
 * slots at 1 A.
 */
export function meanSquareMmf(winding: Winding, currents: Numbered): number | null {
  const { slots } = winding;
  let [re, im, sumRe, sumIm] = [0, 0, 0, 0];
  for (let tooth = 0; tooth < slots; tooth++) {
    re += currents.re[tooth]!;
    im += currents.im[tooth]!;
    sumRe += re;
    sumIm += im;
  }
  if (!closes(winding, 1, re, im)) return null;
  const [meanRe, meanIm] = [sumRe / slots, sumIm / slots];
  let squares = 0;
  [re, im] = [0, 0];
  for (let tooth = 0; tooth < slots; tooth++) {
    re += currents.re[tooth]!;
    im += currents.im[tooth]!;
    squares += (re - meanRe) ** 2 + (im - meanIm) ** 2;
  }
  return squares / slots;
}

function runningSum(values: Float64Array): Float64Array {
  const sums = new Float64Array(values.length);
  let sum = 0;
  for (let at = 0; at < values.length; at++) {
    sum += values[at]!;
    sums[at] = sum;
  }
  return sums;
}

/** Takes the mean off all values. */
function zeroMean(values: Float64Array): Float64Array {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += values[at]!;
  const mean = sum / values.length;
  for (let at = 0; at < values.length; at++) values[at]! -= mean;
  return values;
}

/**
 * The MMF staircase at one instant, A: the value over each tooth when the first phase's current is at
 * the angle `instant` (radians) past its peak. Steps lie at the slots, at (s - 1) 2 pi / Q.
 */
export function mmfWaveform(teeth: ComplexSeries, instant: number): Float64Array {
  const cos = Math.cos(instant);
  const sin = Math.sin(instant);
  return teeth.re.map((re, tooth) => re * cos - teeth.im[tooth]! * sin);
}

/** Amplitude of the working wave from point slots, A, from its one order alone; `currents` as for `toothMmf`. */
export function workingWaveAmplitude(
  winding: Winding,
  current = 1,
  { re, im }: Numbered = slotCurrents(winding, current),
): number {
  const { slots, polePairs } = winding;
  const circle = unitCircle(slots);
  let evenRe = 0;
  let evenIm = 0;
  let oddRe = 0;
  let oddIm = 0;
  for (let slot = 0; slot < slots; slot++) {
    const turn = (polePairs * slot) % slots;
    const c = circle.cos[turn]!;
    const s = circle.sin[turn]!;
    evenRe += re[slot]! * c;
    evenIm += im[slot]! * c;
    oddRe -= im[slot]! * s;
    oddIm += re[slot]! * s;
  }
  const withNumbers = Math.hypot(evenRe + oddRe, evenIm + oddIm);
  const against = Math.hypot(evenRe - oddRe, evenIm - oddIm);
  const bars = winding.slots * winding.layers;
  const peak = (Math.SQRT2 * Math.abs(current)) / winding.parallelPaths;
  const larger = Math.max(withNumbers, against);
  return larger < 1e-12 * bars * peak ? 0 : larger / (2 * Math.PI * polePairs);
}
