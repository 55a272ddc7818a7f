import { describe, expect, it } from 'vitest';
import { factorRow, factorSpectrum, windingFactor } from '../../core/analysis/factors/factors.ts';
import { explicit, generated } from '../analysis/windings.ts';
import { farthest } from './near.ts';
import { signedFactors } from './signedFactors.ts';

const degree = Math.PI / 180;

describe('signed factors', () => {
  it('of one coil are the sine of half its span', () => {
    for (let span = 1; span < 24; span++) {
      const places = Array.from({ length: 24 }, (_, slot) =>
        slot === 2 ? '+U' : slot === (2 + span) % 24 ? '-U' : '.',
      );
      const coil = explicit(2, [places.join(' ')]);
      const orders = Array.from({ length: 60 }, (_, index) => index + 1);
      const factors = orders.map((order) => signedFactors(coil, order).winding!);
      const sines = orders.map((order) => Math.sin((order * span * Math.PI) / 24));
      expect(farthest(factors, sines)).toBeLessThan(5e-11);
    }
  });

  it.each([
    ['integer q', generated(48, 8, 5)],
    ['staggered', generated(48, 8, 6, { layers: 4, stagger: 1 })],
    ['fractional q', generated(30, 4, 7)],
    ['tooth coils', generated(12, 10, 1)],
    ['tooth coils in one layer', generated(12, 10, 1, { layers: 1 })],
    ['leaning bars', generated(48, 8, 5, { lean: [15 * degree, 15 * degree] })],
    ['crossed bars', generated(48, 8, 5, { lean: [15 * degree, -15 * degree] })],
  ])('%s: magnitudes are the factors, and the product holds with its signs', (_, winding) => {
    const spectrum = factorSpectrum(winding);
    expect(signedFactors(winding, winding.polePairs).winding).toBeCloseTo(
      windingFactor(winding, winding.polePairs),
      12,
    );
    let negative = 0;
    for (let order = 1; order <= 2 * winding.slots; order++) {
      const signed = signedFactors(winding, order);
      const plain = factorRow(winding, spectrum, order);
      expect(Math.abs(signed.winding!)).toBeCloseTo(plain.winding, 12);
      if (signed.winding! < 0) negative++;
      if (signed.distribution === null || signed.pitch === null || signed.skew === null) continue;
      expect(signed.distribution * signed.pitch * signed.skew).toBeCloseTo(signed.winding!, 12);
    }
    expect(negative).toBeGreaterThan(0);
  });

  it('are unknown where the phase has no axis', () => {
    const crooked = explicit(2, ['+U +U . -U +U . . -U . -U . .']);
    expect(signedFactors(crooked, 1)).toEqual({ distribution: null, pitch: null, skew: null, winding: null });
    // Layers weighed differently by a skewed rotor turn the axis from order to order.
    const crossed = generated(48, 8, 5, {
      lean: [15 * degree, -15 * degree],
      rotorSkew: { angle: 7.5 * degree, steps: null },
    });
    expect(signedFactors(crossed, 20).winding).toBeNull();
    expect(signedFactors(crossed, 20).distribution).not.toBeNull();
  });
});
