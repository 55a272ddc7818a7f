import type { Path, Winding } from '../winding/model.ts';
import { cellAt } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import { add, unit, zero } from './complex.ts';
import { pathCurrents, shareDeviation } from './pathCurrents.ts';
import { senseInPath } from './validity.ts';

/** The slot as the leakage sees it. All parts are ratios, so any unit of length will do. */
export interface SlotField {
  /** Share of a slot's current that closes through the inner mouth: 0 gap outer, 1 gap inner, between: both. */
  readonly innerShare: number;
  /** Height of each layer's bar over the slot's width. */
  readonly heights: readonly number[];
  /** Permeance ratio of the mouth and wedge region beyond the bars. */
  readonly mouth: number;
  /** Resistance of a path over its slot-leakage reactance scale (omega mu0 length); 0: upper estimate. */
  readonly resistance: number;
}

export interface CurrentSplit {
  /** Current of each path, by index in the list of paths, for one ampere a path in each phase. */
  readonly currents: readonly Complex[];
  /** Largest distance from an equal share, relative to it. */
  readonly deviation: number;
}

/**
 * The slot when the file says nothing of it: bars as high as the slot is wide, no mouth, no resistance.
 * Gives an upper estimate of how unequally slot leakage splits the current.
 */
export function plainSlot(winding: Winding, gap: 'inner' | 'outer' | 'both'): SlotField {
  const innerShare = gap === 'inner' ? 1 : gap === 'outer' ? 0 : 0.5;
  return { innerShare, heights: winding.lean.map(() => 1), mouth: 0, resistance: 0 };
}

/**
 * How the slot leakage alone splits the phase currents over parallel paths: the fluxes of all paths of
 * all phases under their declared currents, equal voltage across the paths of a phase, currents summing
 * to the phase current. Layers of unequal lean lie in slot rows of their own and do not couple. No end
 * winding, no air gap. Null when the paths do not determine the split (a path without bars, say).
 */
export function slotLeakageSplit(
  winding: Winding,
  paths: readonly Path[],
  field: SlotField,
): CurrentSplit | null {
  if (paths.length === 0 || paths.some((path) => path.bars.length === 0)) return null;
  const phases = paths.map(({ phase }) => phase);
  const shares = phases.map((phase) => unit(-(winding.phases.axes[phase] ?? 0)));
  const phaseCurrents = new Map<number, Complex>();
  phases.forEach((phase, path) => {
    phaseCurrents.set(phase, add(phaseCurrents.get(phase) ?? zero, shares[path]!));
  });
  const currents = pathCurrents({
    phases,
    resistances: paths.map(() => field.resistance),
    inductance: leakageMatrix(winding, paths, field),
    angularFrequency: 1,
    voltages: paths.map(() => zero),
    phaseCurrents,
  });
  if (!currents) return null;
  const deviation = shareDeviation({ phases, shares, phaseCurrents }, currents);
  return { currents, deviation: deviation < 1e-9 ? 0 : deviation };
}

/** Leakage permeance between paths, entry i n + j, per unit of mu0 x length: the energy of the slot fields. */
export function leakageMatrix(winding: Winding, paths: readonly Path[], field: SlotField): Float64Array {
  const matrix = new Float64Array(paths.length * paths.length);
  const known = new Map<number, Float64Array>();
  for (const bars of barsBySlot(winding, paths)) {
    const { slot } = bars[0]!;
    const filled = filledLayers(winding, slot);
    let permeances = known.get(filled);
    if (!permeances) {
      permeances = slotPermeances(winding, slot, field);
      known.set(filled, permeances);
    }
    for (const a of bars) {
      for (const b of bars) {
        matrix[a.path * paths.length + b.path]! +=
          a.sense * b.sense * permeances[a.layer * winding.layers + b.layer]!;
      }
    }
  }
  return matrix;
}

/** A bar of a path, and the sense in which the path passes it. */
interface SlotBar {
  readonly slot: number;
  readonly layer: number;
  readonly path: number;
  readonly sense: 1 | -1;
}

/** The bars of all paths, slot by slot; slots in the order in which the paths come to them. */
function barsBySlot(winding: Winding, paths: readonly Path[]): SlotBar[][] {
  const groups: SlotBar[][] = [];
  const groupOf = new Int32Array(winding.slots + 1).fill(-1);
  paths.forEach((path, index) => {
    path.bars.forEach(({ slot, layer }, position) => {
      if (groupOf[slot] === -1) groupOf[slot] = groups.push([]) - 1;
      groups[groupOf[slot]!]!.push({ slot, layer, path: index, sense: senseInPath(path, position) });
    });
  });
  return groups;
}

/** The layers of a slot that hold bars, as bits. */
function filledLayers(winding: Winding, slot: number): number {
  let filled = 0;
  for (let layer = 0; layer < winding.layers; layer++) {
    if (cellAt(winding.table, slot, layer) !== 0) filled += 2 ** layer;
  }
  return filled;
}

/** Permeance between any two layers of a slot, at one x layers + other; 0 for layers that do not couple. */
function slotPermeances(winding: Winding, slot: number, field: SlotField): Float64Array {
  const { layers } = winding;
  const permeances = new Float64Array(layers * layers);
  for (const row of slotRows(winding, slot)) {
    for (const a of row) {
      for (const b of row) permeances[a * layers + b] = permeance(row, a, b, field);
    }
  }
  return permeances;
}

/** Layers of one slot that share a slot row: consecutive layers of equal lean, empty places left out. */
function slotRows(winding: Winding, slot: number): number[][] {
  const rows: number[][] = [];
  let last: number | null = null;
  for (let layer = 0; layer < winding.layers; layer++) {
    const lean = winding.lean[layer] ?? 0;
    if (last === null || lean !== last) rows.push([]);
    last = lean;
    if (cellAt(winding.table, slot, layer) !== 0) rows.at(-1)!.push(layer);
  }
  return rows;
}

/**
 * Permeance of the flux that one bar's current drives past another's: the integral over the slot's height
 * of both field shapes. A bar's field, from the inner mouth outward, is -x below it and 1 - x beyond it.
 */
function permeance(row: readonly number[], a: number, b: number, field: SlotField): number {
  const x = field.innerShare;
  let sum = field.mouth * (x * x + (1 - x) * (1 - x));
  for (const layer of row) {
    const height = field.heights[layer] ?? 1;
    const mean = (bar: number) => (layer < bar ? -x : layer > bar ? 1 - x : 0.5 - x);
    const product = layer === a && layer === b ? 1 / 3 - x + x * x : mean(a) * mean(b);
    sum += height * product;
  }
  return sum;
}
