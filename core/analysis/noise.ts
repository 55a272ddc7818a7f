import { requireInteger } from '../winding/integers.ts';
import type { MmfWave } from './mmf.ts';

/** A radial force wave from one stator and one rotor field wave. */
export interface NoiseOrder {
  /** Pole pairs of the force wave, r >= 0. */
  readonly order: number;
  /** Mechanical order of the stator wave, negative when it runs against the working wave. */
  readonly statorOrder: number;
  /** Mechanical order of the rotor field wave, p x harmonic. */
  readonly rotorOrder: number;
  /** Frequency as a multiple of the current's: harmonic + 1 or harmonic - 1. */
  readonly frequencyMultiple: number;
  /** Product of the two waves' relative amplitudes. */
  readonly product: number;
}

/** A rotor field harmonic's amplitude relative to the fundamental's. */
export interface RotorFieldHarmonic {
  /** Of the fundamental. */
  readonly harmonic: number;
  /** Of the fundamental amplitude; without a sign. */
  readonly relative: number;
}

export const largestForceOrder = 8;
/** Pairs with a smaller product of relative amplitudes are left out. */
const smallestProduct = 1e-4;

/**
 * Force waves of order 0 .. 8: stator order + rotor order at (h + 1) f and rotor order - stator order at
 * (h - 1) f, for the rotor field harmonics h = 1, 3, 5, ... of relative amplitude 1 / h unless `given`
 * says otherwise (even harmonics count only when given), with a product of relative amplitudes of at
 * least 1e-4. Sorted by order, then by falling product. It makes no claim about sound pressure.
 */
export function noiseOrders(
  waves: readonly MmfWave[],
  polePairs: number,
  given: readonly RotorFieldHarmonic[] = [],
): NoiseOrder[] {
  requireInteger('pole pairs', polePairs, 1);
  const written = new Map(given.map((field) => [field.harmonic, field.relative]));
  const found: NoiseOrder[] = [];
  for (const wave of waves) {
    if (wave.relative === null) continue;
    const stator = wave.direction === 'forward' ? wave.order : -wave.order;
    // Only rotor orders near the stator order make a force of few pole pairs.
    const lowest = Math.max(1, Math.ceil((wave.order - largestForceOrder) / polePairs));
    const highest = Math.floor((wave.order + largestForceOrder) / polePairs);
    for (let harmonic = lowest; harmonic <= highest; harmonic++) {
      const relative = written.get(harmonic) ?? (harmonic % 2 === 1 ? 1 / harmonic : 0);
      const product = wave.relative * relative;
      if (product < smallestProduct) continue;
      const rotor = polePairs * harmonic;
      addForce(found, Math.abs(stator + rotor), stator, rotor, harmonic + 1, product);
      addForce(found, Math.abs(rotor - stator), stator, rotor, harmonic - 1, product);
    }
  }
  return found.sort(
    (a, b) =>
      a.order - b.order ||
      b.product - a.product ||
      a.rotorOrder - b.rotorOrder ||
      a.statorOrder - b.statorOrder ||
      a.frequencyMultiple - b.frequencyMultiple,
  );
}

function addForce(
  found: NoiseOrder[],
  order: number,
  statorOrder: number,
  rotorOrder: number,
  frequencyMultiple: number,
  product: number,
): void {
  if (order <= largestForceOrder) {
    found.push({ order, statorOrder, rotorOrder, frequencyMultiple, product });
  }
}
