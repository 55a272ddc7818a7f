import { describe, expect, it } from 'vitest';
import { mmf } from '../../core/analysis/mmf.ts';
import { noiseOrders } from '../../core/analysis/noise.ts';
import { generated } from './windings.ts';

describe('force waves', () => {
  const winding = generated(12, 10, 1);
  const { waves } = mmf(winding);

  it('12/10: two pole pairs from the working wave and order 7, as is well known of this machine', () => {
    // Common practice: 12/10 machines vibrate in their ovalising mode, r = 2.
    const forces = noiseOrders(waves, 5);
    const lowest = forces.filter((force) => force.order > 0)[0]!;
    expect(lowest.order).toBe(2);
    const seven = forces.find((force) => force.statorOrder === -7 && force.rotorOrder === 5)!;
    expect(seven).toMatchObject({ order: 2, frequencyMultiple: 2 });
    expect(seven.product).toBeCloseTo(5 / 7, 12);
  });

  it('are every pair within the limits, by plain search', () => {
    const expected = new Set<string>();
    for (const wave of waves) {
      const stator = wave.direction === 'forward' ? wave.order : -wave.order;
      for (let h = 1; h <= 41; h += 2) {
        if (wave.relative! / h < 1e-4) continue;
        if (Math.abs(stator + 5 * h) <= 8)
          expected.add(`${Math.abs(stator + 5 * h)} ${stator} ${5 * h} ${h + 1}`);
        if (Math.abs(5 * h - stator) <= 8)
          expected.add(`${Math.abs(5 * h - stator)} ${stator} ${5 * h} ${h - 1}`);
      }
    }
    const found = noiseOrders(waves, 5).map(
      (force) => `${force.order} ${force.statorOrder} ${force.rotorOrder} ${force.frequencyMultiple}`,
    );
    expect(new Set(found)).toEqual(expected);
    expect(found.length).toBe(expected.size);
    expect(found.length).toBeGreaterThan(10);
  });

  it('are sorted by order, then by falling product', () => {
    const forces = noiseOrders(waves, 5);
    for (let i = 1; i < forces.length; i++) {
      const [a, b] = [forces[i - 1]!, forces[i]!];
      expect(a.order < b.order || (a.order === b.order && a.product >= b.product)).toBe(true);
    }
  });

  it('take written rotor field harmonics instead of 1/h', () => {
    const of = (given: Parameters<typeof noiseOrders>[2]) =>
      noiseOrders(waves, 5, given).find((f) => f.statorOrder === -19 && f.rotorOrder === 15);
    const assumed = of([])!;
    expect(of([{ harmonic: 3, relative: 0.1 }])!.product).toBeCloseTo(0.3 * assumed.product, 12);
    expect(of([{ harmonic: 3, relative: 0 }])).toBeUndefined();
    const even = noiseOrders(waves, 5, [{ harmonic: 2, relative: 0.2 }]);
    expect(even.some((force) => force.rotorOrder === 10)).toBe(true);
    expect(() => noiseOrders(waves, 0)).toThrow(RangeError);
  });
});
