import { describe, expect, it } from 'vitest';
import { aluminiumMetal, copperMetal, resistivity } from '../../core/copper/metals.ts';
import { roundedArea } from '../../core/sizes/section.ts';

describe('metals', () => {
  it('copper: K. C. Agrawal, Industrial Power Engineering and Applications Handbook, Table 30.1', () => {
    expect(copperMetal.resistivity20 * 1e8).toBeCloseTo(1.7241, 4); // uOhm cm
    expect(1e-6 / copperMetal.resistivity20).toBeCloseTo(58, 9); // m/(ohm mm2)
    expect(copperMetal.temperatureCoefficient).toBe(3.93e-3);
    // Mass resistivity, ohm g/m2: 0.15328 (the same table, 15.328 in its units).
    expect(copperMetal.resistivity20 * 1e6 * (copperMetal.density / 1e3)).toBeCloseTo(0.15328, 5);
  });

  it('copper is heated from 20 to 120 degC: resistance 1.3930 times (IEC 60028 coefficient)', () => {
    expect(resistivity(copperMetal, 120) / resistivity(copperMetal, 20)).toBeCloseTo(1.393, 6);
  });

  it('aluminium: IEC 60889 (from memory): 61 % of annealed copper', () => {
    expect(aluminiumMetal.resistivity20).toBeCloseTo(copperMetal.resistivity20 / 0.61, 11);
    expect(aluminiumMetal.density).toBe(2703);
    // Depth of penetration at 50 Hz, 61 % IACS: 11.97 mm.
    const depth = Math.sqrt(aluminiumMetal.resistivity20 / (Math.PI * 50 * 4e-7 * Math.PI));
    expect(depth * 1e3).toBeCloseTo(11.97, 2);
  });
});

describe('sections of rectangular wire, mm2 (IEC 60317-0-2, from memory)', () => {
  it.each([
    [2, 5, 0.65, 9.637],
    [2, 4, 0.65, 7.637],
    [1.6, 3.15, 0.5, 4.825],
    [2.5, 8, 0.8, 19.451],
    [3.15, 10, 0.8, 30.951],
    [4, 5, 1, 19.142],
    [1, 2, 0.5, 1.785],
  ])('%d x %d, corner %d', (height, width, corner, printed) => {
    expect(Math.abs(roundedArea(width * 1e-3, height * 1e-3, corner * 1e-3) * 1e6 - printed)).toBeLessThan(
      6e-4,
    );
  });

  it('own case: 32 turns of 0.5 m, 2 paths, bar 3.0 x 4.0 corner 0.8: 12.0457 and 16.7797 milliohm', () => {
    const area = roundedArea(4e-3, 3e-3, 0.8e-3);
    expect(area * 1e6).toBeCloseTo(11.4506, 4);
    const lengthOverArea = (32 * 0.5) / (2 * area);
    expect(resistivity(copperMetal, 20) * lengthOverArea).toBeCloseTo(0.0120457, 7);
    expect(resistivity(copperMetal, 120) * lengthOverArea).toBeCloseTo(0.0167797, 7);
  });
});
