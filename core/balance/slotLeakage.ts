import type { Path, Winding } from '../winding/model.ts';
import { cellAt } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import { add, size, solveComplex, subtract, unit, zero } from './complex.ts';
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
  /** Current of each path relative to an equal share, by index in the list of paths. */
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
  const inductance = leakageMatrix(winding, paths, field);
  const phases = [...new Set(paths.map((path) => path.phase))];
  const count = paths.length;
  const shares = phases.map((phase) => paths.filter((path) => path.phase === phase).length);
  // Rows: for each path, R I + j M I - U(phase) = 0; then for each phase, the sum of its currents.
  const matrix: Complex[][] = paths.map((path, row) => [
    ...inductance[row]!.map((value, column) => ({ re: row === column ? field.resistance : 0, im: value })),
    ...phases.map((phase) => ({ re: phase === path.phase ? -1 : 0, im: 0 })),
  ]);
  phases.forEach((phase) => {
    matrix.push([
      ...paths.map((path) => ({ re: path.phase === phase ? 1 : 0, im: 0 })),
      ...phases.map(() => zero),
    ]);
  });
  const right: Complex[] = [
    ...paths.map(() => zero),
    ...phases.map((phase, index) => {
      const current = unit(-(winding.phases.axes[phase] ?? 0));
      return { re: current.re * shares[index]!, im: current.im * shares[index]! };
    }),
  ];
  const solution = solveComplex(matrix, right);
  if (!solution) return null;
  const currents = solution.slice(0, count).map((current, index) => {
    const back = unit(winding.phases.axes[paths[index]!.phase] ?? 0);
    return {
      re: current.re * back.re - current.im * back.im,
      im: current.re * back.im + current.im * back.re,
    };
  });
  const deviation = Math.max(...currents.map((current) => size(subtract(current, { re: 1, im: 0 }))));
  return { currents, deviation: deviation < 1e-9 ? 0 : deviation };
}

/** Leakage permeance between paths, per unit of mu0 x length: the energy of the slot fields. */
export function leakageMatrix(winding: Winding, paths: readonly Path[], field: SlotField): number[][] {
  const matrix = paths.map(() => new Array<number>(paths.length).fill(0));
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
      const row = matrix[a.path]!;
      for (const b of bars) {
        row[b.path]! += a.sense * b.sense * permeances[a.layer * winding.layers + b.layer]!;
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

/** Sum of the path currents of a phase, for checks. */
export function phaseCurrent(split: CurrentSplit, paths: readonly Path[], phase: number): Complex {
  return split.currents.reduce(
    (sum, current, index) => (paths[index]!.phase === phase ? add(sum, current) : sum),
    zero,
  );
}
