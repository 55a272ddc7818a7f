import { vacuumPermeability } from '../../analysis/emf/gaps.ts';
import { innerGapShare } from '../../analysis/gap/magneticGap.ts';
import {
  allOf,
  assuming,
  derive,
  deriveFigure,
  type Figure,
  known,
  missing,
  orNull,
} from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { barHeight, barStrands, barStrandsOfLayers, barWidth } from '../../sizes/barInputs.ts';
import { type SlotRow, slotLength, slotRows } from '../../sizes/slotRows.ts';
import type { Winding } from '../../winding/model.ts';
import { equalBarCurrents, type PlacedCurrents } from '../carriedCurrents.ts';
import { type Metal, resistivity } from '../metals.ts';
import { fieldWeight, phi, psi } from './skinEffect.ts';

/**
 * How strongly the other currents of its slot reach each bar: the weight of psi, by place as in the
 * slot table's `cells`; NaN for empty places. It depends on the table and the strands alone.
 */
export interface FieldWeights {
  /** Dimensionless. */
  readonly byPlace: Float64Array;
  /** Mean over the slots, one a layer; null for layers without bars. */
  readonly layers: readonly (number | null)[];
  /** Largest of each layer. */
  readonly largest: readonly (number | null)[];
  /** Slots whose bars are loaded alike. */
  readonly kinds: readonly SlotKind[];
}

/** Slots that hold the same mixture of phases, and the weights of their layers (null: empty place). */
export interface SlotKind {
  /** Numbers from 1. */
  readonly slots: readonly number[];
  /** One a layer. */
  readonly weights: readonly (number | null)[];
}

const equalPaths = 'AC ratios and slot leakage are for equal path currents, balanced and sinusoidal';
const crossingRows =
  'slot rows of leaning layers: each row on its own, mutual slot leakage between rows taken as zero, their neighbors are not fixed';

/** The weights of every bar from the actual phasors of its slot row. */
export function fieldWeights(specification: Specification, winding: Winding): Figure<FieldWeights> {
  return deriveFigure({ rows: fieldRows(specification, winding) }, ({ rows }) => {
    const strands = barStrandsOfLayers(specification, winding.layers);
    const weights = derive({ strands, share: innerGapShare(specification, winding) }, (given) =>
      weighTable(winding, rows, given.strands, given.share),
    );
    return assuming(weights, equalPaths, ...fieldAssumptions(rows, orNull(strands) ?? []));
  });
}

function fieldAssumptions(rows: readonly SlotRow[], strands: readonly number[]): string[] {
  const lines = rows.length > 1 ? [crossingRows] : [];
  if (strands.some((count) => count > 1)) lines.push('strands perfectly transposed');
  return lines;
}

/** The slot rows, each of layers of one lean; else missing, as such layers share no straight slot. */
export function fieldRows(specification: Specification, winding: Winding): Figure<readonly SlotRow[]> {
  return deriveFigure({ rows: slotRows(specification, winding) }, ({ rows }) => {
    const mixed = rows.some(({ layers }) =>
      layers.some((layer) => Math.abs(winding.lean[layer]! - winding.lean[layers[0]!]!) > 1e-12),
    );
    return mixed ? missing('a slot block for each run of layers of equal lean') : known(rows);
  });
}

/**
 * Weights for every bar of a table. `share` is the share of the slot's ampere-conductors that acts on
 * the inner mouth: counted from there outwards, the current below the first bar is -share times the
 * slot's total.
 */
function weighTable(
  winding: Winding,
  rows: readonly SlotRow[],
  strands: readonly number[],
  share: number,
): FieldWeights {
  const { slots } = winding.table;
  const { square, field } = barLoads(winding, rows, strands, share, equalBarCurrents(winding));
  const byPlace = field.map((weight, place) => (square[place] === 0 ? Number.NaN : weight));
  return { byPlace, ...summarize(byPlace, slots, winding.layers) };
}

/** What loads each bar, by place: its current squared and the weight of psi; 0 without a current. */
export interface BarLoads {
  /** Of an equal share of the phase current: dimensionless. */
  readonly square: Float64Array;
  /** In the same unit. */
  readonly field: Float64Array;
}

/** The loads of all bars for any currents; their loss is square x phi + field x psi times that of a unit current. */
export function barLoads(
  winding: Winding,
  rows: readonly SlotRow[],
  strands: readonly number[],
  share: number,
  { re: currentRe, im: currentIm }: PlacedCurrents,
): BarLoads {
  const { slots, cells } = winding.table;
  const square = new Float64Array(cells.length);
  const field = new Float64Array(cells.length);
  for (const { layers } of rows) {
    for (let slot = 0; slot < slots; slot++) {
      let re = 0;
      let im = 0;
      for (const layer of layers) {
        re -= share * currentRe[layer * slots + slot]!;
        im -= share * currentIm[layer * slots + slot]!;
      }
      for (const layer of layers) {
        const place = layer * slots + slot;
        if (cells[place] === 0) continue;
        const own = { re: currentRe[place]!, im: currentIm[place]! };
        square[place] = own.re * own.re + own.im * own.im;
        field[place] = fieldWeight({ re, im }, own, strands[layer]!);
        re += own.re;
        im += own.im;
      }
    }
  }
  return { square, field };
}

function summarize(
  byPlace: Float64Array,
  slots: number,
  layers: number,
): Pick<FieldWeights, 'layers' | 'largest' | 'kinds'> {
  const means: (number | null)[] = [];
  const largest: (number | null)[] = [];
  for (let layer = 0; layer < layers; layer++) {
    let sum = 0;
    let count = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let slot = 0; slot < slots; slot++) {
      const weight = byPlace[layer * slots + slot]!;
      if (Number.isNaN(weight)) continue;
      sum += weight;
      count++;
      most = Math.max(most, weight);
    }
    means.push(count === 0 ? null : sum / count);
    largest.push(count === 0 ? null : most);
  }
  return { layers: means, largest, kinds: slotKinds(byPlace, slots, layers) };
}

/** Slots whose bars are loaded alike, to nine decimals. */
function slotKinds(byPlace: Float64Array, slots: number, layers: number): SlotKind[] {
  const kinds: { slots: number[]; weights: (number | null)[] }[] = [];
  const byHash = new Map<number, number[]>();
  const rounded = (slot: number, layer: number): number => {
    const weight = byPlace[layer * slots + slot]!;
    return Number.isNaN(weight) ? -1e9 : Math.round(weight * 1e9);
  };
  for (let slot = 0; slot < slots; slot++) {
    let hash = 0;
    for (let layer = 0; layer < layers; layer++) hash = (hash * 31 + rounded(slot, layer)) % 1_000_003;
    const candidates = byHash.get(hash) ?? [];
    const known = candidates.find((kind) => {
      const first = kinds[kind]!.slots[0]! - 1;
      for (let layer = 0; layer < layers; layer++) {
        if (rounded(slot, layer) !== rounded(first, layer)) return false;
      }
      return true;
    });
    if (known !== undefined) {
      kinds[known]!.slots.push(slot + 1);
      continue;
    }
    byHash.set(hash, [...candidates, kinds.length]);
    const weights = Array.from({ length: layers }, (_, layer) => {
      const weight = byPlace[layer * slots + slot]!;
      return Number.isNaN(weight) ? null : weight;
    });
    kinds.push({ slots: [slot + 1], weights });
  }
  return kinds;
}

/** What makes a layer's reduced height: the strand height in m and the share of copper across the slot. */
export interface LayerSection {
  /** Along the slot depth, m. */
  readonly strandHeight: number;
  /** Of copper across the slot, 0 to 1. */
  readonly widthShare: number;
}

/** Each layer's strand height and copper share of the slot width. */
export function layerSections(
  specification: Specification,
  winding: Winding,
): Figure<readonly LayerSection[]> {
  return deriveFigure({ rows: slotRows(specification, winding) }, ({ rows }) =>
    allOf(
      rows.flatMap((row) =>
        row.layers.map((layer) =>
          derive(
            {
              height: barHeight(specification, layer),
              strands: barStrands(specification, layer),
              share: widthShare(specification, row, layer),
            },
            ({ height, strands, share }) => ({ strandHeight: height / strands, widthShare: share }),
          ),
        ),
      ),
    ),
  );
}

/** Copper width over slot width of a layer. */
export function widthShare(specification: Specification, row: SlotRow, layer: number): Figure<number> {
  return derive(
    { bar: barWidth(specification, layer), slot: slotLength(row, 'width') },
    ({ bar, slot }) => bar / slot,
  );
}

/** Reduced height of a strand, h sqrt(pi f mu0 kappa bc/bs), for a resistivity in ohm m. */
export function reducedHeight(section: LayerSection, frequency: number, rho: number): number {
  const wave = (Math.PI * frequency * vacuumPermeability * section.widthShare) / rho;
  return section.strandHeight * Math.sqrt(wave);
}

/** AC over DC resistance in the slot. */
export interface AcRatios {
  /** Mean over the slots, one a layer; null for a layer without bars. */
  readonly layers: readonly (number | null)[];
  /** Mean over all bars. */
  readonly slot: number;
  /** Of the bar with the largest. */
  readonly worst: number;
  /** Mean over the bars of each kind of slot. */
  readonly kinds: readonly { readonly slots: readonly number[]; readonly ratio: number }[];
}

/** The loss ratio of every layer at a frequency (Hz), phi + weight psi, for a resistivity in ohm m. */
export function acRatios(
  weights: FieldWeights,
  sections: readonly LayerSection[],
  frequency: number,
  rho: number,
): AcRatios {
  const parts = sections.map((section) => {
    const xi = reducedHeight(section, frequency, rho);
    return { phi: phi(xi), psi: psi(xi) };
  });
  const ratio = (layer: number, weight: number) => parts[layer]!.phi + weight * parts[layer]!.psi;
  const kinds = weights.kinds.map((kind) => {
    const present = kind.weights.flatMap((weight, layer) => (weight === null ? [] : [ratio(layer, weight)]));
    return { slots: kind.slots, sum: present.reduce((a, b) => a + b, 0), bars: present.length };
  });
  const bars = kinds.reduce((total, kind) => total + kind.bars * kind.slots.length, 0);
  const largest = weights.largest.flatMap((weight, layer) => (weight === null ? [] : [ratio(layer, weight)]));
  return {
    layers: weights.layers.map((weight, layer) => (weight === null ? null : ratio(layer, weight))),
    slot: kinds.reduce((total, kind) => total + kind.sum * kind.slots.length, 0) / bars,
    worst: Math.max(...largest),
    kinds: kinds
      .filter((kind) => kind.bars > 0)
      .map((kind) => ({ slots: kind.slots, ratio: kind.sum / kind.bars })),
  };
}

/** Conductivity-related state of the bars: metal and temperature (degC). */
export function resistivityAt(metal: Figure<Metal>, temperature: Figure<number>): Figure<number> {
  return derive({ metal, temperature }, (given) => resistivity(given.metal, given.temperature));
}
