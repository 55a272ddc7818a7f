import { emfParts } from '../../winding/angles.ts';
import { modulo } from '../../winding/integers.ts';
import { type Bar, cellAt, type Path, phaseOfCell, type Winding } from '../../winding/model.ts';
import { skewFactor } from '../../winding/skew.ts';

/** The fundamental EMF of a bar against that of one straight bar. */
export interface BarPhasor {
  readonly bar: Bar;
  /** In units of one bar without skew. */
  readonly re: number;
  /** The same; lagging is negative. */
  readonly im: number;
}

/** The bars of a path, or of a phase without paths, one after the other. */
export interface PhasorChain {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Number of the path within its phase; null for the bars of a whole phase, layer by layer. */
  readonly path: number | null;
  readonly steps: readonly BarPhasor[];
  /** Of all steps together, in units of one bar without skew. */
  readonly re: number;
  /** The same. */
  readonly im: number;
}

/** Electrical angle of a slot by which its EMF lags that of slot 1, degrees, 0 <= angle < 360: p (s - 1) 360/Q. */
export function slotAngle(winding: Winding, slot: number): number {
  const turn = 2 * winding.slots;
  return (360 * modulo(-emfParts(winding, { slot }, 1), turn)) / turn;
}

/** A bar's phasor: its sense and skew factor at the angle of its slot, lagging; (1, 0) for a straight + bar in slot 1. */
export function barPhasor(winding: Winding, bar: Bar): BarPhasor {
  const sense = Math.sign(cellAt(winding.table, bar.slot, bar.layer));
  const size = sense * skewFactor(winding.polePairs, winding.lean[bar.layer] ?? 0, winding.rotorSkew);
  const angle = (Math.PI * slotAngle(winding, bar.slot)) / 180;
  return { bar, re: size * Math.cos(angle), im: -size * Math.sin(angle) };
}

/** Chains of all paths, or of all phases where there are no paths, by phases. */
export function phasorChains(winding: Winding, paths: readonly Path[] | null): readonly PhasorChain[] {
  if (paths !== null && paths.length > 0)
    return [...paths]
      .sort((one, other) => one.phase - other.phase || one.number - other.number)
      .map(({ phase, number, bars }) => chainOf(winding, phase, number, bars));
  return winding.phases.names.map((_, phase) => chainOf(winding, phase, null, barsOf(winding, phase)));
}

function chainOf(winding: Winding, phase: number, path: number | null, bars: readonly Bar[]): PhasorChain {
  const steps = bars.map((bar) => barPhasor(winding, bar));
  return {
    phase,
    path,
    steps,
    re: steps.reduce((sum, { re }) => sum + re, 0),
    im: steps.reduce((sum, { im }) => sum + im, 0),
  };
}

function barsOf(winding: Winding, phase: number): readonly Bar[] {
  const bars: Bar[] = [];
  for (let layer = 0; layer < winding.layers; layer++)
    for (let slot = 1; slot <= winding.slots; slot++)
      if (phaseOfCell(cellAt(winding.table, slot, layer)) === phase) bars.push({ slot, layer });
  return bars;
}
