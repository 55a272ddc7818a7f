import { barsOfPhase, factorRow, factorSpectrum } from '../../core/analysis/factors/factors.ts';
import { modulo, requireInteger } from '../../core/winding/integers.ts';
import type { Winding } from '../../core/winding/model.ts';
import { skewFactor } from '../../core/winding/skew.ts';

/**
 * Real factors with their signs, the phase axis as reference. The winding factor is positive at the
 * fundamental. Distribution and pitch carry the signs of the handbook's closed forms
 * sin(q x)/(q sin x) and sin(order y pi / Q); in one layer the pitch is +1. Null where the phase (for
 * the distribution: its first layer) has no axis of symmetry, or where the factor is undefined.
 */
export interface SignedFactors {
  readonly distribution: number | null;
  readonly pitch: number | null;
  readonly skew: number | null;
  /** Product of the three. */
  readonly winding: number | null;
}

/** The signed factors of one phase at one order. `phase` counts from 0. */
export function signedFactors(winding: Winding, order: number, phase = 0): SignedFactors {
  requireInteger('order', order, 1);
  const plain = factorRow(winding, factorSpectrum(winding, phase), order);
  const skews = Array.from({ length: winding.layers }, (_, layer) =>
    skewFactor(order, winding.lean[layer] ?? 0, winding.rotorSkew),
  );
  const ones = skews.map(() => 1);
  const rows = layerSigns(winding, phase);
  const bars = barsOfPhase(winding.table, phase);
  const axis = mirrorAxis(winding, add(rows, ones), -1);
  if (axis === null || bars === 0) return { distribution: null, pitch: null, skew: null, winding: null };
  const signed = alongAxis(winding, add(rows, skews), axis, order);
  const unskewed = alongAxis(winding, add(rows, ones), axis, order);
  const real = Math.abs(Math.abs(signed) / bars - plain.winding) < 1e-9;
  const skew = plain.skew === null ? null : signLike(plain.skew, signed * unskewed);
  const distribution = signedDistribution(winding, rows, unskewed, order, plain.distribution);
  return {
    distribution,
    pitch:
      plain.pitch === null || distribution === null ? null : signLike(plain.pitch, unskewed * distribution),
    skew: real ? skew : null,
    winding: real ? signLike(plain.winding, signed) : null,
  };
}

function signedDistribution(
  winding: Winding,
  rows: readonly Float64Array[],
  unskewed: number,
  order: number,
  magnitude: number | null,
): number | null {
  if (magnitude === null || magnitude === 0) return magnitude;
  if (rows.length === 1) return signLike(magnitude, unskewed);
  const axis = mirrorAxis(winding, rows[0]!, 1);
  return axis === null ? null : signLike(magnitude, alongAxis(winding, rows[0]!, axis, order));
}

function signLike(magnitude: number, sign: number): number {
  return magnitude === 0 ? 0 : sign < 0 ? -magnitude : magnitude;
}

function layerSigns(winding: Winding, phase: number): Float64Array[] {
  const { slots, table } = winding;
  return Array.from({ length: table.layers }, (_, layer) =>
    Float64Array.from({ length: slots }, (_, slot) => {
      const cell = table.cells[layer * slots + slot]!;
      return cell === phase + 1 ? 1 : cell === -phase - 1 ? -1 : 0;
    }),
  );
}

function add(rows: readonly Float64Array[], weights: readonly number[]): Float64Array {
  const sum = new Float64Array(rows[0]!.length);
  rows.forEach((row, layer) => {
    for (let slot = 0; slot < sum.length; slot++) sum[slot]! += weights[layer]! * row[slot]!;
  });
  return sum;
}

/** An axis of symmetry, in half slot pitches from slot 1, and whether mirroring inverts signs there. */
interface MirrorAxis {
  readonly halfSlots: number;
  readonly parity: 1 | -1;
}

/** The first axis about which the row is even (1) or odd (-1) and that sees a positive fundamental. */
function mirrorAxis(winding: Winding, row: Float64Array, parity: 1 | -1): MirrorAxis | null {
  const { slots, polePairs } = winding;
  for (let halfSlots = 0; halfSlots < 2 * slots; halfSlots++) {
    if (!isMirrored(row, halfSlots % slots, parity)) continue;
    const axis: MirrorAxis = { halfSlots, parity };
    if (alongAxis(winding, row, axis, polePairs) > 1e-9) return axis;
  }
  return null;
}

function isMirrored(row: Float64Array, halfSlots: number, parity: 1 | -1): boolean {
  for (let slot = 0; slot < row.length; slot++) {
    if (row[modulo(halfSlots - slot, row.length)] !== parity * row[slot]!) return false;
  }
  return true;
}

/** The part of the phasor sum along the axis: the cosine part of an even row, the sine part of an odd one. */
function alongAxis(winding: Winding, row: Float64Array, axis: MirrorAxis, order: number): number {
  const { slots } = winding;
  let sum = 0;
  for (let slot = 0; slot < slots; slot++) {
    if (row[slot] === 0) continue;
    const turn = modulo(order * (axis.halfSlots - 2 * slot), 2 * slots);
    const angle = (Math.PI * turn) / slots;
    sum += row[slot]! * (axis.parity === 1 ? Math.cos(angle) : Math.sin(angle));
  }
  return sum;
}
