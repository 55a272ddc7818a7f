import type { Winding } from '../winding/model.ts';
import { snapToZero } from './spectrum.ts';
import { unitCircle } from './unitCircle.ts';

/** How far one phase's fundamental lies from its place in the balanced star. */
export interface PhaseDeviation {
  readonly name: string;
  /** abs(sum of signs exp(-j p theta)) over all bars of the phase, before skew. */
  readonly magnitude: number;
  /** Magnitude against the mean of all phases, less 1, in percent; null without a common fundamental. */
  readonly percent: number | null;
  /** Angle against the declared axis turned with the common rotation, electrical degrees in -180 .. 180. */
  readonly degrees: number | null;
}

/** Whether the phases form a balanced system at the fundamental. */
export interface PhaseBalance {
  readonly balanced: boolean;
  readonly phases: readonly PhaseDeviation[];
  /** Largest deviation in percent and in electrical degrees, whichever phase it is; null as above. */
  readonly worstPercent: number | null;
  /** Without a sign. */
  readonly worstDegrees: number | null;
}

const tolerance = 1e-9;

/**
 * Compares the phases' fundamental phasors, without skew, with equal magnitudes on the declared axes
 * up to a common rotation, in either sense of rotation, within 1e-9 (of the mean, and in radians).
 */
export function phaseBalance(winding: Winding): PhaseBalance {
  const sums = fundamentalSums(winding);
  const { sense, mean } = commonRotation(winding, sums);
  const phases = sums.map((sum, phase) =>
    deviation(winding.phases.names[phase]!, sum, mean, sense * winding.phases.axes[phase]!, winding),
  );
  const worstPercent = largest(phases.map((phase) => phase.percent));
  const worstDegrees = largest(phases.map((phase) => phase.degrees));
  const balanced =
    phases.every((phase) => phase.percent !== null && phase.degrees !== null) &&
    worstPercent !== null &&
    worstPercent <= 100 * tolerance &&
    worstDegrees !== null &&
    worstDegrees <= (180 / Math.PI) * tolerance;
  return { balanced, phases, worstPercent, worstDegrees };
}

/**
 * The sense in which the phases' fundamental phasors follow each other on their axes: 1 where they lag
 * towards higher slot numbers, so that the field of currents U, V, W runs that way; -1 where against.
 */
export function phaseSense(winding: Winding): 1 | -1 {
  return commonRotation(winding, fundamentalSums(winding)).sense;
}

/** The sense that fits the phasors better, and their mean on the axes followed in that sense. */
function commonRotation(
  winding: Winding,
  sums: readonly [number, number][],
): { readonly sense: 1 | -1; readonly mean: readonly [number, number] } {
  const withNumbers = meanOnAxes(sums, winding.phases.axes, 1);
  const against = meanOnAxes(sums, winding.phases.axes, -1);
  return Math.hypot(...withNumbers) >= Math.hypot(...against)
    ? { sense: 1, mean: withNumbers }
    : { sense: -1, mean: against };
}

function fundamentalSums(winding: Winding): [number, number][] {
  const { table, slots, polePairs } = winding;
  const circle = unitCircle(slots);
  const sums = winding.phases.names.map((): [number, number] => [0, 0]);
  for (let layer = 0; layer < table.layers; layer++) {
    for (let slot = 0; slot < slots; slot++) {
      const cell = table.cells[layer * slots + slot]!;
      const sum = sums[Math.abs(cell) - 1];
      if (sum === undefined) continue;
      const turn = (polePairs * slot) % slots;
      sum[0] += Math.sign(cell) * circle.cos[turn]!;
      sum[1] -= Math.sign(cell) * circle.sin[turn]!;
    }
  }
  return sums;
}

/** Mean of the phasors, each turned back by its axis; `sense` -1 for phases that follow the other way. */
function meanOnAxes(sums: readonly [number, number][], axes: readonly number[], sense: 1 | -1) {
  let re = 0;
  let im = 0;
  sums.forEach(([sumRe, sumIm], phase) => {
    const angle = (sense * axes[phase]! * Math.PI) / 180;
    re += sumRe * Math.cos(angle) - sumIm * Math.sin(angle);
    im += sumRe * Math.sin(angle) + sumIm * Math.cos(angle);
  });
  return [re / sums.length, im / sums.length] as const;
}

function deviation(
  name: string,
  [re, im]: readonly [number, number],
  mean: readonly [number, number],
  axis: number,
  winding: Winding,
): PhaseDeviation {
  const bars = winding.slots * winding.layers;
  const magnitude = snapToZero(Math.hypot(re, im) / bars) * bars;
  const common = snapToZero(Math.hypot(...mean) / bars) * bars;
  if (common === 0) return { name, magnitude, percent: null, degrees: null };
  const percent = 100 * (magnitude / common - 1);
  if (magnitude === 0) return { name, magnitude, percent, degrees: null };
  const angle = (180 / Math.PI) * (Math.atan2(im, re) - Math.atan2(mean[1], mean[0])) + axis;
  return { name, magnitude, percent, degrees: angle - 360 * Math.round(angle / 360) };
}

function largest(values: readonly (number | null)[]): number | null {
  let worst: number | null = null;
  for (const value of values) if (value !== null) worst = Math.max(worst ?? 0, Math.abs(value));
  return worst;
}
