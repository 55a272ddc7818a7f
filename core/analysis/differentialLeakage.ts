import type { Winding } from '../winding/model.ts';
import { toothMmf, workingWaveAmplitude } from './mmf.ts';

/**
 * Differential (harmonic) leakage of the working wave, a ratio: all other waves' field energy against
 * its own, in closed form from the phasor polygon: mean abs(F_s)^2 over the teeth / F_p^2 - 1, with
 * point slots and without skew or damping (Gorges; Richter, Lehrbuch der Wicklungen elektrischer
 * Maschinen). Null when there is no fundamental or the slot currents do not add up to zero.
 */
export function differentialLeakage(winding: Winding): number | null {
  const teeth = toothMmf(winding);
  const working = workingWaveAmplitude(winding);
  if (teeth === null || working === 0) return null;
  let squares = 0;
  for (let tooth = 0; tooth < winding.slots; tooth++) {
    squares += teeth.re[tooth]! ** 2 + teeth.im[tooth]! ** 2;
  }
  return squares / winding.slots / working ** 2 - 1;
}
