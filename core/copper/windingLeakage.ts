import { vacuumPermeability } from '../analysis/emf/gaps.ts';
import { innerGapShare } from '../analysis/gap/magneticGap.ts';
import { allOf, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barHeight } from '../sizes/barInputs.ts';
import { rowSpace, type SlotRow, slotLength } from '../sizes/slotRows.ts';
import type { Path, Winding } from '../winding/model.ts';
import { fieldRows } from './acLoss/acLoss.ts';
import { phasePhasors } from './carriedCurrents.ts';
import { type LeakageSlot, slotPermeances } from './slotLeakage.ts';

/** A slot row ready for its leakage: `slot.heights` holds all layers of the row. */
export interface LeakageRow {
  /** From 0, inner first. */
  readonly layers: readonly number[];
  readonly slot: LeakageSlot;
  /** Mean length of the row's bars in the stack, m. */
  readonly length: number;
}

/** The leakage rows of a winding, each row of leaning layers on its own. */
export function leakageRows(
  specification: Specification,
  winding: Winding,
  active: Figure<readonly number[]>,
): Figure<readonly LeakageRow[]> {
  return deriveFigure({ rows: fieldRows(specification, winding) }, ({ rows }) =>
    allOf(rows.map((row) => leakageRow(specification, winding, row, active))),
  );
}

function leakageRow(
  specification: Specification,
  winding: Winding,
  row: SlotRow,
  active: Figure<readonly number[]>,
): Figure<LeakageRow> {
  return derive(
    {
      space: rowSpace(specification, row),
      width: slotLength(row, 'width'),
      heights: allOf(row.layers.map((layer) => barHeight(specification, layer))),
      innerShare: innerGapShare(specification, winding),
      opening: slotOpening(row),
      active,
    },
    ({ space, width, heights, innerShare, opening, active: lengths }) => ({
      layers: row.layers,
      slot: { ...space, width, heights, innerShare, opening },
      length: row.layers.reduce((sum, layer) => sum + lengths[layer]!, 0) / row.layers.length,
    }),
  );
}

function slotOpening(row: SlotRow): Figure<NonNullable<LeakageSlot['opening']>> {
  return deriveFigure(
    { width: slotLength(row, 'opening'), height: slotLength(row, 'openingHeight') },
    (opening) =>
      opening.width > 0 || opening.height === 0
        ? known({ width: opening.width || 1, height: opening.height })
        : missing('slot opening wider than 0 mm'),
  );
}

/** Slot leakage of balanced currents. */
export interface SlotLeakage {
  /**
   * Permeance lambda of one slot, dimensionless, with L = 4 m mu0 l N^2 lambda/Q: of z bars in phase
   * the handbook's value, less where slots hold bars of different phases.
   */
  readonly permeance: number;
  /** Inductance of one phase, H. */
  readonly inductance: number;
}

/** Slot leakage inductance from the field energy of the actual phasors of every slot. */
export function slotLeakage(
  winding: Winding,
  rows: readonly LeakageRow[],
  stack: number,
  parallelPaths: number,
): SlotLeakage {
  const phasors = phasePhasors(winding);
  const { slots, cells } = winding.table;
  const phases = winding.phases.names.length;
  let sum = 0;
  let bars = 0;
  for (const row of rows) {
    bars += forEachPair(winding, row, (a, b, permeance) => {
      const first = phasors[Math.abs(cells[a]!) - 1]!;
      const second = phasors[Math.abs(cells[b]!) - 1]!;
      sum += row.length * permeance * (first.re * second.re + first.im * second.im);
    });
  }
  const inductance = (vacuumPermeability * sum) / (phases * parallelPaths ** 2);
  const turns = bars / phases / (2 * parallelPaths);
  const permeance = (inductance * slots) / (4 * phases * vacuumPermeability * stack * turns ** 2);
  return { permeance, inductance };
}

/**
 * Slot leakage of paths, H: entry i n + j is the flux linkage of path i for one ampere in path j,
 * from the places that their bars occupy. Bars outside the paths carry nothing.
 */
export function pathLeakage(
  winding: Winding,
  rows: readonly LeakageRow[],
  paths: readonly Path[],
): Float64Array {
  const { slots, cells } = winding.table;
  const n = paths.length;
  const matrix = new Float64Array(n * n);
  const pathOf = new Int32Array(cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const bar of path.bars) pathOf[bar.layer * slots + bar.slot - 1] = index;
  });
  for (const row of rows) {
    forEachPair(winding, row, (a, b, permeance) => {
      const first = pathOf[a]!;
      const second = pathOf[b]!;
      if (first >= 0 && second >= 0)
        matrix[first * n + second]! += vacuumPermeability * row.length * permeance;
    });
  }
  return matrix;
}

/**
 * Visits every pair of bars that share a slot of the row, each with itself too: their places as indices
 * of `cells`, and the permeance between them, negative where their senses differ. Returns the row's bars.
 */
function forEachPair(
  winding: Winding,
  row: LeakageRow,
  visit: (a: number, b: number, permeance: number) => void,
): number {
  const { slots, cells } = winding.table;
  const occupationOf = occupations(winding, row);
  let bars = 0;
  for (let slot = 0; slot < slots; slot++) {
    const { layers, permeances } = occupationOf(slot);
    bars += layers.length;
    for (let i = 0; i < layers.length; i++) {
      const a = layers[i]! * slots + slot;
      for (let j = 0; j < layers.length; j++) {
        const b = layers[j]! * slots + slot;
        const sign = cells[a]! > 0 === cells[b]! > 0 ? 1 : -1;
        visit(a, b, sign * permeances[i * layers.length + j]!);
      }
    }
  }
  return bars;
}

/** The layers of a row that hold bars in a slot, inner first, and the permeances between these bars. */
interface Occupation {
  readonly layers: readonly number[];
  readonly permeances: Float64Array;
}

/** The occupation of a row's slots, counted from 0; slots filled alike share one. */
function occupations(winding: Winding, row: LeakageRow): (slot: number) => Occupation {
  const { slots, cells } = winding.table;
  const computed = new Map<number, Occupation>();
  return (slot) => {
    let filled = 0;
    for (let index = 0; index < row.layers.length; index++)
      if (cells[row.layers[index]! * slots + slot] !== 0) filled += 2 ** index;
    const seen = computed.get(filled);
    if (seen) return seen;
    const isFilled = (layer: number) => cells[layer * slots + slot] !== 0;
    const heights = row.slot.heights.filter((_, index) => isFilled(row.layers[index]!));
    const occupation = {
      layers: row.layers.filter(isFilled),
      permeances: slotPermeances({ ...row.slot, heights }),
    };
    computed.set(filled, occupation);
    return occupation;
  };
}
