import { fractionText, modulo, requireInteger } from '../../winding/integers.ts';
import type { SlotTable, Winding } from '../../winding/model.ts';
import { sinc, skewFactor } from '../../winding/skew.ts';
import { type TableRotation, tableRotation } from '../rotation.ts';
import { type GroupSums, type Numbers, phasorSums, snapToZero } from '../spectrum.ts';

/** The factors of one order; a factor whose denominator vanishes is null. */
export interface FactorRow {
  /** Mechanical order: pole pairs round the bore. */
  readonly order: number;
  /** The order relative to the fundamental, as a reduced fraction: `1`, `5`, `7/5`. */
  readonly harmonic: string;
  /** Of the layers by themselves, at least 0. */
  readonly distribution: number | null;
  /** Of the layers against each other, at least 0; 1 in one layer. */
  readonly pitch: number | null;
  /** Of the lean of the layers and the skew of the rotor, at least 0. */
  readonly skew: number | null;
  /** Product of the three, at least 0. */
  readonly winding: number;
  /** abs(sin(order x span x pi / Q)) of a generated layout's coil. */
  readonly coilPitch?: number;
}

/**
 * All of a phase's factors before skew, for every order, its layers in groups. Entry k belongs to order
 * k x spacing and to its mirror images; all other orders are zero.
 */
export interface GroupedSpectrum {
  /** Bars of the phase. */
  readonly bars: number;
  /** Orders from one entry to the next. */
  readonly spacing: number;
  /** Sum over layers of abs(G) / bars. */
  readonly distribution: Numbers;
  /** abs(sum over layers of G) / bars. */
  readonly unskewed: Numbers;
  /** Sums of G over the layers of each group. */
  readonly groups: readonly GroupSums[];
}

/** The same with its layers in groups of equal lean. */
export interface FactorSpectrum extends GroupedSpectrum {
  /** Sums of G over the layers of equal lean, in mechanical radians over the stack, in the order the leans first occur. */
  readonly byLean: readonly { readonly lean: number; readonly sum: GroupSums }[];
}

/** The number of orders a report lists unless told otherwise: max(4 Q, 20 p). */
export function defaultOrders(winding: Winding): number {
  return Math.max(4 * winding.slots, 20 * winding.polePairs);
}

/** The factors of one phase for every order, to be read with `factorRow`. `phase` counts from 0. */
export function factorSpectrum(
  winding: Winding,
  phase = 0,
  rotation: TableRotation = tableRotation(winding.table),
): FactorSpectrum {
  const { leans, groupOfLayer } = leanGroups(winding);
  return spectrumOf(groupedSpectrum(winding.table, phase, rotation, groupOfLayer, leans.length), leans);
}

/** The leans of a winding's layers, mechanical radians over the stack, in the order they first occur, and which each layer has. */
export function leanGroups({ table, lean }: Pick<Winding, 'table' | 'lean'>): {
  readonly leans: readonly number[];
  readonly groupOfLayer: readonly number[];
} {
  const leans: number[] = [];
  const groupOfLayer: number[] = [];
  for (let layer = 0; layer < table.layers; layer++) {
    const own = lean[layer] ?? 0;
    if (!leans.includes(own)) leans.push(own);
    groupOfLayer.push(leans.indexOf(own));
  }
  return { leans, groupOfLayer };
}

/** The factors before skew of one phase, counted from 0, with the layers in groups; see `phasorSums`. */
export function groupedSpectrum(
  table: SlotTable,
  phase: number,
  rotation: TableRotation,
  groupOfLayer: readonly number[],
  groupCount: number,
): GroupedSpectrum {
  const { bars, spacing, magnitudes, total, groups } = phasorSums(
    table,
    phase,
    rotation,
    groupOfLayer,
    groupCount,
  );
  const scale = bars === 0 ? 0 : 1 / bars;
  for (let k = 0; k < magnitudes.length; k++) {
    magnitudes[k]! *= scale;
    total[k]! *= scale;
  }
  return { bars, spacing, distribution: magnitudes, unskewed: total, groups };
}

/** A spectrum whose groups of layers have these leans. */
export function spectrumOf(grouped: GroupedSpectrum, leans: readonly number[]): FactorSpectrum {
  const { bars, spacing, distribution, unskewed, groups } = grouped;
  const byLean = leans.map((lean, group) => ({ lean, sum: groups[group]! }));
  return { bars, spacing, distribution, unskewed, groups, byLean };
}

/** Number of bars of a phase in a table. `phase` counts from 0. */
export function barsOfPhase(table: SlotTable, phase: number): number {
  let bars = 0;
  for (const cell of table.cells) if (cell === phase + 1 || cell === -phase - 1) bars++;
  return bars;
}

/** One row of a spectrum. Throws RangeError unless `order` is an integer of at least 1. */
export function factorRow(winding: Winding, spectrum: FactorSpectrum, order: number): FactorRow {
  requireInteger('order', order, 1);
  const k = entryOf(winding.slots, spectrum.spacing, order);
  const distribution = k < 0 ? 0 : snapToZero(spectrum.distribution[k]!);
  const unskewed = k < 0 ? 0 : snapToZero(spectrum.unskewed[k]!);
  const skewed = k < 0 ? 0 : snapToZero(skewedMagnitude(winding, spectrum, order, k));
  const harmonic = fractionText(order, winding.polePairs);
  const pitch = distribution === 0 ? null : snapToZero(unskewed / distribution);
  const skew = unskewed === 0 ? null : snapToZero(skewed / unskewed);
  const ofBars = spectrum.bars === 0 ? null : distribution;
  // Written out twice: spreading an object costs more than all the rest of a row.
  if (winding.origin.kind !== 'generated') {
    return { order, harmonic, distribution: ofBars, pitch, skew, winding: skewed };
  }
  const ofCoil = coilPitch(order, winding.origin.span, winding.slots);
  return { order, harmonic, distribution: ofBars, pitch, skew, winding: skewed, coilPitch: ofCoil };
}

/**
 * Mean over the stack of the square of a winding factor, abs(sum of G exp(j order lean zeta))^2 / bars^2
 * with zeta from -1/2 to 1/2: what the winding's own field at that order goes by, whatever the rotor's
 * skew. Layers of one lean keep the square of the factor without skew. Throws RangeError unless `order`
 * is an integer of at least 1.
 */
export function meanSquareFactor(winding: Winding, spectrum: FactorSpectrum, order: number): number {
  requireInteger('order', order, 1);
  const k = entryOf(winding.slots, spectrum.spacing, order);
  if (k < 0 || spectrum.bars === 0) return 0;
  let sum = 0;
  for (const one of spectrum.byLean) {
    for (const other of spectrum.byLean) {
      const product = one.sum.re[k]! * other.sum.re[k]! + one.sum.im[k]! * other.sum.im[k]!;
      sum += product * sinc((order * (one.lean - other.lean)) / 2);
    }
  }
  return snapToZero(sum / spectrum.bars ** 2);
}

/** Rows of orders 1 .. `orders` of one phase (default: the first, max(4 Q, 20 p) orders). */
export function factorRows(
  winding: Winding,
  orders: number = defaultOrders(winding),
  spectrum: FactorSpectrum = factorSpectrum(winding),
): FactorRow[] {
  requireInteger('number of orders', orders, 1);
  const rows: FactorRow[] = [];
  for (let order = 1; order <= orders; order++) rows.push(factorRow(winding, spectrum, order));
  return rows;
}

/**
 * The winding factor of one phase at one order, summed directly: abs(sum of S G) / bars, 0 for a phase
 * without bars. Angles come from the integer order x (slot - 1) mod Q. `phase` counts from 0.
 */
export function windingFactor(winding: Winding, order: number, phase = 0): number {
  requireInteger('order', order, 1);
  const { table, slots } = winding;
  let re = 0;
  let im = 0;
  let bars = 0;
  for (let layer = 0; layer < table.layers; layer++) {
    const skew = skewFactor(order, winding.lean[layer] ?? 0, winding.rotorSkew);
    for (let slot = 0; slot < slots; slot++) {
      const cell = table.cells[layer * slots + slot]!;
      if (cell !== phase + 1 && cell !== -phase - 1) continue;
      const angle = (2 * Math.PI * ((order * slot) % slots)) / slots;
      re += Math.sign(cell) * skew * Math.cos(angle);
      im -= Math.sign(cell) * skew * Math.sin(angle);
      bars++;
    }
  }
  return bars === 0 ? 0 : snapToZero(Math.hypot(re, im) / bars);
}

/** abs(sin(order x span x pi / Q)), the pitch factor of a single coil. */
function coilPitch(order: number, span: number, slots: number): number {
  const turn = modulo(order * span, slots);
  return snapToZero(Math.sin((Math.PI * Math.min(turn, slots - turn)) / slots));
}

/** Entry of the spectrum that belongs to an order, or -1 where all sums vanish by symmetry. */
function entryOf(slots: number, spacing: number, order: number): number {
  const residue = order % slots;
  const folded = Math.min(residue, slots - residue);
  return folded % spacing === 0 ? folded / spacing : -1;
}

function skewedMagnitude(winding: Winding, spectrum: FactorSpectrum, order: number, k: number): number {
  const { byLean } = spectrum;
  if (byLean.length === 1) {
    return Math.abs(skewFactor(order, byLean[0]!.lean, winding.rotorSkew)) * spectrum.unskewed[k]!;
  }
  let re = 0;
  let im = 0;
  for (const { lean, sum } of byLean) {
    const skew = skewFactor(order, lean, winding.rotorSkew);
    re += skew * sum.re[k]!;
    im += skew * sum.im[k]!;
  }
  return Math.sqrt(re * re + im * im) / (spectrum.bars || 1);
}
