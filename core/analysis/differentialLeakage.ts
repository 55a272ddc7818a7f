import type { Winding } from '../winding/model.ts';
import { gapOverlaps } from './gap/gapField.ts';
import { currentsInto, meanSquareMmf, workingWaveAmplitude } from './mmf.ts';
import { zeros } from './spectrum.ts';

/**
 * Differential (harmonic) leakage of the working wave, a ratio: all other waves' field energy against
 * its own, in closed form from the phasor polygon: mean abs(F_s)^2 over the teeth / F_p^2 - 1, with
 * point slots and without skew or damping (Gorges; Richter, Lehrbuch der Wicklungen elektrischer
 * Maschinen). Null when there is no fundamental or the slot currents do not add up to zero.
 */
export function differentialLeakage(winding: Winding): number | null {
  const currents = currentsInto(winding, 1, winding.slots, {
    re: zeros(winding.slots),
    im: zeros(winding.slots),
  });
  const square = meanSquareMmf(winding, currents);
  const working = workingWaveAmplitude(winding, 1, currents);
  return square === null || working === 0 ? null : square / working ** 2 - 1;
}

/**
 * The same as a mean over the stack: where layers lean apart, each wave is weakened by its own measure,
 * and what all waves together store is compared with the working wave's share. `square` is the mean
 * square of the winding factor at the working wave (factors.ts). For layers of one lean it is the closed
 * form above, `closed` where it has been computed.
 */
export function differentialLeakageOverStack(
  winding: Winding,
  square: number,
  closed: number | null = differentialLeakage(winding),
): number | null {
  if (closed === null || winding.lean.every((lean) => lean === winding.lean[0])) return closed;
  const { cells } = winding.table;
  const axes = winding.phases.axes.map((axis) => (axis * Math.PI) / 180);
  const phases = Int32Array.from(cells, (cell) => Math.abs(cell) - 1);
  const overlaps = gapOverlaps(winding, phases, axes.length);
  let all = 0;
  axes.forEach((own, i) => {
    axes.forEach((other, j) => {
      all += overlaps[i * axes.length + j]! * Math.cos(own - other);
    });
  });
  const bars = phases.reduce((count, phase) => count + (phase === 0 ? 1 : 0), 0);
  const working = ((axes.length * bars) ** 2 * square) / (2 * Math.PI * winding.polePairs ** 2);
  return working === 0 ? null : all / working - 1;
}
