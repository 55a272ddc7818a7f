import type { SlotTable } from '../winding/model.ts';
import { type ComplexSeries, fourierTransform, type Transform } from './fourier.ts';
import { type TableRotation, tablePeriod } from './rotation.ts';
import { unitCircle } from './unitCircle.ts';

// Up to this length making a transform ready costs more than the plain sums.
const longestPlainSum = 24;

/** Values below 1e-12 are rounding and count as zero. */
export function snapToZero(value: number): number {
  return Math.abs(value) < 1e-12 ? 0 : value;
}

/**
 * Phasor sums of one phase for all orders at once. With G(order) = sum of sign exp(-j order theta) over
 * the bars of one layer, theta the slot's mechanical angle and slot 1 at 0:
 *
 * The table repeats `spacing` times round the bore, so the sums vanish exactly at orders that are no
 * multiple of `spacing`. Entry k = 0 .. `entries` - 1 belongs to order k x spacing; orders repeat with
 * period Q, and order Q - k x spacing has the conjugate sums.
 */
export interface PhasorSums {
  /** Bars of the phase. */
  readonly bars: number;
  /** Orders from one that does not vanish to the next that need not. */
  readonly spacing: number;
  /** Sum over layers of abs(G). */
  readonly magnitudes: Numbers;
  /** Sum of G over the layers of each group. */
  readonly groups: readonly GroupSums[];
  /** abs(sum of G over all layers). */
  readonly total: Numbers;
}

/**
 * The phasor sums of a phase, counted from 0. `groupOfLayer` puts each layer into a group from 0 to
 * `groupCount` - 1.
 */
export function phasorSums(
  table: SlotTable,
  phase: number,
  rotation: TableRotation,
  groupOfLayer: readonly number[],
  groupCount: number,
): PhasorSums {
  const length = tablePeriod(rotation);
  const entries = (length >> 1) + 1;
  const spacing = table.slots / length;
  const magnitudes = zeros(entries);
  const groups: GroupSums[] = [];
  for (let group = 0; group < groupCount; group++) groups.push({ re: zeros(entries), im: zeros(entries) });
  const sums = { magnitudes, groups };
  const add = length <= longestPlainSum ? addPlainly : addTransformed;
  const bars = add(sums, table, phase, spacing, length, groupOfLayer);
  const total = magnitudeOfTotal(groups, zeros(entries));
  return { bars: bars * spacing, spacing, magnitudes, groups, total };
}

/** Numbers of a series by their index. */
export type Numbers = number[];

/** Sums of a group of layers, real and imaginary parts apart. */
export interface GroupSums {
  readonly re: Numbers;
  readonly im: Numbers;
}

/** Minus zeros, as V8 keeps a list of zeros as one of integers until a fraction is written. */
const longestZeros: number[] = [];

/**
 * A series of zeros. Plain, as asking for a typed array costs more than all sums of a usual length; a copy, as V8 makes
 * what is often kept for long at once among what is old, which takes several times as long where it is not kept.
 */
export function zeros(length: number): Numbers {
  while (longestZeros.length < length) longestZeros.push(-0);
  return longestZeros.slice(0, length);
}

function magnitudeOfTotal(groups: readonly GroupSums[], out: Numbers): Numbers {
  for (let k = 0; k < out.length; k++) {
    let re = 0;
    let im = 0;
    for (let group = 0; group < groups.length; group++) {
      re += groups[group]!.re[k]!;
      im += groups[group]!.im[k]!;
    }
    out[k] = Math.sqrt(re * re + im * im);
  }
  return out;
}

/** A transform made ready, with memory for its input and output that is written anew with every use. */
interface Plan {
  readonly transform: Transform;
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly result: ComplexSeries;
}

/** Plans by length, the oldest first: while a text is typed its length stays, and making one ready costs more than using it. */
const plans = new Map<number, Plan>();
const mostPlans = 8;

function planOf(length: number): Plan {
  const known = plans.get(length);
  if (known) return known;
  const series = () => new Float64Array(length);
  const result = { re: series(), im: series() };
  const plan = { transform: fourierTransform(length), first: series(), second: series(), result };
  plans.set(length, plan);
  if (plans.size > mostPlans) plans.delete(plans.keys().next().value as number);
  return plan;
}

type Totals = Pick<PhasorSums, 'magnitudes' | 'groups'>;

/** Adds all layers' sums by Fourier transforms; returns the bars within the length. */
function addTransformed(
  sums: Totals,
  table: SlotTable,
  phase: number,
  weight: number,
  length: number,
  groupOfLayer: readonly number[],
): number {
  const { transform, first, second, result } = planOf(length);
  let bars = 0;
  for (let layer = 0; layer < table.layers; layer += 2) {
    // Two real series travel as the parts of one complex series.
    bars += readSigns(first, table, phase, layer, weight);
    const single = layer + 1 === table.layers;
    if (single) second.fill(0);
    else bars += readSigns(second, table, phase, layer + 1, weight);
    const groupOfFirst = sums.groups[groupOfLayer[layer]!]!;
    const groupOfSecond = single ? groupOfFirst : sums.groups[groupOfLayer[layer + 1]!]!;
    addPair(sums.magnitudes, transform(first, second, result), groupOfFirst, groupOfSecond);
  }
  return bars;
}

/** The same, order by order and bar by bar. */
function addPlainly(
  sums: Totals,
  table: SlotTable,
  phase: number,
  weight: number,
  length: number,
  groupOfLayer: readonly number[],
): number {
  const { cos, sin } = unitCircle(length);
  const { slots, cells, layers } = table;
  const wanted = phase + 1;
  let bars = 0;
  for (let layer = 0; layer < layers; layer++) {
    const group = sums.groups[groupOfLayer[layer]!]!;
    for (let k = 0; k < sums.magnitudes.length; k++) {
      let re = 0;
      let im = 0;
      for (let slot = 0, turn = 0; slot < length; slot++) {
        const cell = cells[layer * slots + slot]!;
        if (cell === wanted) {
          re += cos[turn]!;
          im -= sin[turn]!;
        } else if (cell === -wanted) {
          re -= cos[turn]!;
          im += sin[turn]!;
        }
        turn += k;
        if (turn >= length) turn -= length;
      }
      sums.magnitudes[k]! += weight * Math.sqrt(re * re + im * im);
      group.re[k]! += weight * re;
      group.im[k]! += weight * im;
    }
    for (let slot = 0; slot < length; slot++) if (Math.abs(cells[layer * slots + slot]!) === wanted) bars++;
  }
  return bars;
}

/** Writes the signs of a layer's bars, times `weight`, and returns the number of bars. */
function readSigns(
  signs: Float64Array,
  table: SlotTable,
  phase: number,
  layer: number,
  weight: number,
): number {
  const row = layer * table.slots;
  const cells = table.cells;
  const wanted = phase + 1;
  let bars = 0;
  for (let slot = 0; slot < signs.length; slot++) {
    const cell = cells[row + slot]!;
    if (cell === wanted || cell === -wanted) {
      signs[slot] = cell > 0 ? weight : -weight;
      bars++;
    } else {
      signs[slot] = 0;
    }
  }
  return bars;
}

/** Takes the two layers' sums apart and adds them where they belong. */
function addPair(
  magnitudes: Numbers,
  packed: ComplexSeries,
  firstGroup: GroupSums,
  secondGroup: GroupSums,
): void {
  const { re, im } = packed;
  const length = re.length;
  const { re: firstRe, im: firstIm } = firstGroup;
  const { re: secondRe, im: secondIm } = secondGroup;
  for (let k = 0; k < magnitudes.length; k++) {
    const mirrored = k === 0 ? 0 : length - k;
    const aRe = 0.5 * (re[k]! + re[mirrored]!);
    const aIm = 0.5 * (im[k]! - im[mirrored]!);
    const bRe = 0.5 * (im[k]! + im[mirrored]!);
    const bIm = 0.5 * (re[mirrored]! - re[k]!);
    magnitudes[k]! += Math.sqrt(aRe * aRe + aIm * aIm) + Math.sqrt(bRe * bRe + bIm * bIm);
    firstRe[k]! += aRe;
    firstIm[k]! += aIm;
    secondRe[k]! += bRe;
    secondIm[k]! += bIm;
  }
}
