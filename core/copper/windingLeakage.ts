import { vacuumPermeability } from '../analysis/emfGaps.ts';
import { allOf, derive, deriveFigure, type Figure, known, missing } from '../analysis/figure.ts';
import { innerGapShare } from '../analysis/machineInputs.ts';
import type { Specification } from '../language/specification.ts';
import type { Path, Winding } from '../winding/model.ts';
import { fieldRows, phasePhasors } from './acLoss.ts';
import { barHeight } from './barInputs.ts';
import { type LeakageSlot, slotPermeances } from './slotLeakage.ts';
import { rowSpace, type SlotRow, slotLength } from './slotRows.ts';

/** A slot row ready for its leakage: `slot.heights` holds all layers of the row. */
export interface LeakageRow {
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
    allOf(rows.map((row) => leakageRow(specification, row, active))),
  );
}

function leakageRow(
  specification: Specification,
  row: SlotRow,
  active: Figure<readonly number[]>,
): Figure<LeakageRow> {
  return derive(
    {
      space: rowSpace(specification, row),
      width: slotLength(row, 'width'),
      heights: allOf(row.layers.map((layer) => barHeight(specification, layer))),
      innerShare: innerGapShare(specification),
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
    const permeances = permeancesByOccupation(row);
    for (let slot = 0; slot < slots; slot++) {
      const places = occupiedPlaces(winding, row, slot);
      const lambda = permeances(places.map((index) => row.layers.indexOf(Math.floor(index / slots))));
      bars += places.length;
      places.forEach((a, i) => {
        const first = phasors[Math.abs(cells[a]!) - 1]!;
        places.forEach((b, j) => {
          const second = phasors[Math.abs(cells[b]!) - 1]!;
          const cosine = first.re * second.re + first.im * second.im;
          sum += row.length * lambda[i * places.length + j]! * Math.sign(cells[a]! * cells[b]!) * cosine;
        });
      });
    }
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
    const permeances = permeancesByOccupation(row);
    for (let slot = 0; slot < slots; slot++) {
      const places = occupiedPlaces(winding, row, slot);
      const lambda = permeances(places.map((index) => row.layers.indexOf(Math.floor(index / slots))));
      places.forEach((a, i) => {
        const first = pathOf[a]!;
        if (first < 0) return;
        places.forEach((b, j) => {
          const second = pathOf[b]!;
          if (second < 0) return;
          matrix[first * n + second]! +=
            vacuumPermeability *
            row.length *
            lambda[i * places.length + j]! *
            Math.sign(cells[a]! * cells[b]!);
        });
      });
    }
  }
  return matrix;
}

/** Places of a slot's bars in a row, inner first, as indices of `cells`; empty places left out. */
function occupiedPlaces(winding: Winding, row: LeakageRow, slot: number): number[] {
  const { slots, cells } = winding.table;
  return row.layers.map((layer) => layer * slots + slot).filter((place) => cells[place] !== 0);
}

/** Permeances of a row's slot for the bars that are there, each occupation computed once. */
function permeancesByOccupation(row: LeakageRow): (present: readonly number[]) => Float64Array {
  const computed = new Map<string, Float64Array>();
  return (present) => {
    const key = present.join(' ');
    const seen = computed.get(key);
    if (seen) return seen;
    const heights = present.map((index) => row.slot.heights[index]!);
    const permeances = slotPermeances({ ...row.slot, heights });
    computed.set(key, permeances);
    return permeances;
  };
}
