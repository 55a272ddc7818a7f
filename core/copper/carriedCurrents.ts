import { type Figure, known } from '../figures/figure.ts';
import type { Path, Winding } from '../winding/model.ts';

/** A current as a phasor. */
export interface CurrentPhasor {
  readonly re: number;
  readonly im: number;
}

/**
 * What the paths carry, in units of an equal share of the rms phase current (phase current over paths).
 * One list a way to run, motor and generator, in the order of the paths; a figure takes the larger of
 * them. No list: all paths carry equal, balanced currents.
 */
export interface CarriedCurrents {
  readonly runs: readonly (readonly CurrentPhasor[])[];
}

/** Equal and balanced currents, for windings without parallel paths or not yet joined. */
export const equalCurrents: Figure<CarriedCurrents> = known({ runs: [] });

/** A current for every place of the slot table, sense included, in units of an equal share; 0 without a bar. */
export interface PlacedCurrents {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Phasor of a phase current in the reference of phase 0, unit size; of an order of the fundamental. */
export function phasePhasors(winding: Winding, order = 1): readonly CurrentPhasor[] {
  return winding.phases.axes.map((axis) => {
    const angle = (-((order * axis) % 360) * Math.PI) / 180;
    return { re: Math.cos(angle), im: Math.sin(angle) };
  });
}

/** Currents of all bars where every path carries an equal share. */
export function equalBarCurrents(winding: Winding): PlacedCurrents {
  return barCurrentsOfOrder(winding, 1);
}

/** The same of an order of the fundamental, the phases as far apart as the order puts them. */
export function barCurrentsOfOrder(winding: Winding, order: number): PlacedCurrents {
  const phasors = phasePhasors(winding, order);
  return placed(winding, (_, cell) => phasors[Math.abs(cell) - 1]!);
}

/** Currents of all bars for each way to run; of one way where all paths carry alike, or there are none. */
export function barCurrents(
  winding: Winding,
  paths: readonly Path[],
  { runs }: CarriedCurrents,
): readonly PlacedCurrents[] {
  if (runs.length === 0 || paths.length === 0) return [equalBarCurrents(winding)];
  const { slots } = winding.table;
  const pathOf = new Int32Array(winding.table.cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const bar of path.bars) pathOf[bar.layer * slots + bar.slot - 1] = index;
  });
  return runs.map((currents) => placed(winding, (place) => currents[pathOf[place]!] ?? { re: 0, im: 0 }));
}

function placed(winding: Winding, currentOf: (place: number, cell: number) => CurrentPhasor): PlacedCurrents {
  const { cells } = winding.table;
  const re = new Float64Array(cells.length);
  const im = new Float64Array(cells.length);
  cells.forEach((cell, place) => {
    if (cell === 0) return;
    const current = currentOf(place, cell);
    re[place] = Math.sign(cell) * current.re;
    im[place] = Math.sign(cell) * current.im;
  });
  return { re, im };
}

/** Largest current of a path, in units of an equal share. */
export function largestCarried({ runs }: CarriedCurrents): number {
  return Math.max(...runs.flatMap((currents) => currents.map(({ re, im }) => Math.hypot(re, im))), 0) || 1;
}
