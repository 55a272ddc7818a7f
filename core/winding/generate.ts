import {
  type BalanceRule,
  balanceRule,
  isToothCoilSingleLayer,
  nearestSlotCounts,
  spanLinksFundamental,
} from './feasibility.ts';
import { greatestCommonDivisor, modulo, requireInteger } from './integers.ts';
import type { PhaseSystem, SlotTable } from './model.ts';

/** A layout to be generated from the star of slots. */
export interface LayoutRequest {
  readonly slots: number;
  readonly poles: number;
  readonly phases: PhaseSystem;
  /** 1, or an even number. */
  readonly layers: number;
  /** Coil span in slots. */
  readonly span: number;
  /** Slots by which each further layer pair is moved against the one before. */
  readonly stagger: number;
  /** Width of a phase belt in electrical degrees: 180/m, or 360/m for an odd number of phases. */
  readonly belt: number;
}

/** Why a layout cannot be generated, as data for a finding. */
export type LayoutRefusal =
  | { readonly kind: 'unbalanced'; readonly rule: BalanceRule; readonly nearestSlots: readonly number[] }
  | { readonly kind: 'slots-odd'; readonly slots: number; readonly nearestSlots: readonly number[] }
  | { readonly kind: 'odd-layers'; readonly layers: number }
  | { readonly kind: 'belt-refused'; readonly belt: number; readonly allowed: readonly number[] }
  | { readonly kind: 'two-sets-need-30'; readonly apart: number }
  | { readonly kind: 'span-out-of-range'; readonly span: number; readonly slots: number }
  | { readonly kind: 'span-does-not-close'; readonly span: number; readonly spansThatDo: readonly number[] }
  | { readonly kind: 'span-links-no-fundamental'; readonly span: number; readonly polePitch: number }
  | { readonly kind: 'stagger-cancels-fundamental'; readonly stagger: number; readonly pairs: number };

export type GeneratedLayout =
  | { readonly ok: true; readonly table: SlotTable }
  | { readonly ok: false; readonly reason: LayoutRefusal };

/** The belt that stands where none is written: 180/m electrical degrees. */
export function defaultBelt(phases: PhaseSystem): number {
  return 180 / phases.names.length;
}

/**
 * The slot table of a generated layout, or the reason why there is none. Go sides (layer a, then the
 * first layer of each further pair, staggered) take their phase and sign from half-open sectors of
 * the star of slots; return sides lie `span` slots on in the pair's other layer with inverted sign.
 * One layer: `span` 1 is tooth coils with their go sides in odd slots; a greater span must lead each
 * + bar to a - bar of its phase. Throws RangeError for counts that are no positive integers and for
 * an odd number of poles.
 */
export function generateTable(request: LayoutRequest): GeneratedLayout {
  requireCounts(request);
  const reason = refusal(request);
  if (reason !== null) return { ok: false, reason };
  return { ok: true, table: layoutTable(request) };
}

function requireCounts(request: LayoutRequest): void {
  requireInteger('slots', request.slots, 1);
  requireInteger('poles', request.poles, 2);
  requireInteger('layers', request.layers, 1);
  if (request.poles % 2 !== 0) throw new RangeError(`poles must be even, got ${request.poles}`);
  if (!Number.isInteger(request.span)) throw new RangeError(`span must be an integer, got ${request.span}`);
  if (!Number.isInteger(request.stagger)) {
    throw new RangeError(`stagger must be an integer, got ${request.stagger}`);
  }
}

function refusal(request: LayoutRequest): LayoutRefusal | null {
  const { slots, poles, layers, span, phases } = request;
  if (layers > 1 && layers % 2 !== 0) return { kind: 'odd-layers', layers };
  if (span < 1 || span >= slots) return { kind: 'span-out-of-range', span, slots };
  const apart = modulo((phases.axes[3] ?? 0) - (phases.axes[0] ?? 0), 360);
  if (phases.sets === 2 && Math.abs(apart - 30) > 1e-9) return { kind: 'two-sets-need-30', apart };
  const allowed = allowedBelts(request);
  if (!allowed.some((belt) => sameBelt(belt, request.belt))) {
    return { kind: 'belt-refused', belt: request.belt, allowed };
  }
  const unbalanced = balanceRefusal(request);
  if (unbalanced !== null) return unbalanced;
  if (layers === 1 && span > 1) return closingRefusal(request);
  if (!spanLinksFundamental(slots, poles, span)) {
    return { kind: 'span-links-no-fundamental', span, polePitch: slots / poles };
  }
  return staggerRefusal(request);
}

function allowedBelts(request: LayoutRequest): number[] {
  const phases = request.phases.names.length;
  const narrow = 180 / phases;
  // Wide belts have go sides only, so in one layer there is no bar for a longer coil to return in.
  const wideFits = request.phases.sets === 1 && (request.layers > 1 || request.span === 1);
  return wideFits ? [narrow, 2 * narrow] : [narrow];
}

// 180/7 cannot be written exactly: two decimals are enough to tell the two belts apart.
function sameBelt(belt: number, written: number): boolean {
  return Math.abs(belt - written) < 0.0051;
}

function balanceRefusal(request: LayoutRequest): LayoutRefusal | null {
  const rule = balanceRule(request);
  if (rule.met) return null;
  const nearestSlots = nearestSlotCounts(request);
  if (!Number.isInteger(rule.coils)) return { kind: 'slots-odd', slots: request.slots, nearestSlots };
  return { kind: 'unbalanced', rule, nearestSlots };
}

function closingRefusal(request: LayoutRequest): LayoutRefusal | null {
  const row = ownSectorRow(request);
  if (spanCloses(row, request.span)) return null;
  return { kind: 'span-does-not-close', span: request.span, spansThatDo: closingSpans(request, row) };
}

/** Spans of 2 up to half the slots that lead each + bar to a - bar of its phase, rising. */
function closingSpans(request: LayoutRequest, row: Int8Array): number[] {
  const spans: number[] = [];
  const step = request.slots / greatestCommonDivisor(request.slots, request.poles / 2);
  // The star repeats after `step` slots, and so do the spans that close.
  for (let first = 1; first <= step; first++) {
    if (!spanCloses(row, first)) continue;
    for (let span = first; span <= request.slots / 2; span += step) if (span > 1) spans.push(span);
  }
  return spans.sort((a, b) => a - b);
}

function spanCloses(row: Int8Array, span: number): boolean {
  for (let slot = 0; slot < row.length; slot++) {
    const cell = row[slot]!;
    if (cell > 0 && row[(slot + span) % row.length] !== -cell) return false;
  }
  return true;
}

function staggerRefusal(request: LayoutRequest): LayoutRefusal | null {
  const pairs = request.layers / 2;
  const turn = modulo((request.poles / 2) * request.stagger, request.slots);
  if (pairs > 1 && turn !== 0 && (pairs * turn) % request.slots === 0) {
    return { kind: 'stagger-cancels-fundamental', stagger: request.stagger, pairs };
  }
  return null;
}

function layoutTable(request: LayoutRequest): SlotTable {
  const { slots, layers } = request;
  const cells = new Int8Array(slots * layers);
  if (layers === 1) {
    if (isToothCoilSingleLayer(request)) {
      for (let slot = 0; slot < slots; slot += 2) {
        const cell = starCell(request, slot);
        cells[slot] = cell;
        cells[slot + 1] = -cell;
      }
    } else {
      cells.set(ownSectorRow(request));
    }
    return { slots, layers, cells };
  }
  for (let layer = 0; layer < layers; layer += 2) layPair(request, cells, layer);
  return { slots, layers, cells };
}

function layPair(request: LayoutRequest, cells: Int8Array, goLayer: number): void {
  const { slots, span } = request;
  const moved = (goLayer / 2) * request.stagger;
  for (let slot = 0; slot < slots; slot++) {
    const cell = starCell(request, modulo(slot - moved, slots));
    cells[goLayer * slots + slot] = cell;
    cells[(goLayer + 1) * slots + ((slot + span) % slots)] = -cell;
  }
}

function ownSectorRow(request: LayoutRequest): Int8Array {
  return Int8Array.from({ length: request.slots }, (_, slot) => starCell(request, slot));
}

/**
 * Phase and sign of a go side from its place on the star of slots, as a cell code. `slot` counts
 * from 0. The angle is the integer p slot mod Q in units of 360/Q electrical degrees, so that a slot
 * on a sector's edge is always told the same way.
 */
function starCell(request: LayoutRequest, slot: number): number {
  const { slots, phases } = request;
  const angle = ((request.poles / 2) * slot) % slots;
  if (phases.sets === 2) {
    const sector = Math.floor((12 * angle) / slots);
    const cell = narrowSectorCell(Math.floor(sector / 2), 3);
    return sector % 2 === 0 ? cell : cell + 3 * Math.sign(cell);
  }
  const count = phases.names.length;
  if (sameBelt(360 / count, request.belt)) return Math.floor((count * angle) / slots) + 1;
  return narrowSectorCell(Math.floor((2 * count * angle) / slots), count);
}

/** Sectors of 180/m degrees: the even ones begin at the axes, the odd ones opposite an axis. */
function narrowSectorCell(sector: number, phases: number): number {
  return sector % 2 === 0 ? sector / 2 + 1 : -(((sector + phases) / 2) % phases) - 1;
}
