import { describe, expect, it } from 'vitest';
import { differentialLeakage } from '../../core/analysis/differentialLeakage.ts';
import { toothMmf, workingWaveAmplitude } from '../../core/analysis/mmf.ts';
import { generated } from '../analysis/windings.ts';

describe('integer-slot windings, full pitch', () => {
  // Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical Machines, 2nd ed., Wiley 2014, ch. 4; Richter;
  // Boldea & Nasar: 0.0966, 0.0284 (printed 0.0285 by some), 0.0141, 0.0089, 0.0065, 0.0052; from memory,
  // recomputed to 6 digits.
  it.each([
    [1, 0.0966, 0.096623],
    [2, 0.0284, 0.028437],
    [3, 0.0141, 0.014061],
    [4, 0.0089, 0.008896],
    [5, 0.0065, 0.006481],
    [6, 0.0052, 0.005163],
    [7, 0.0044, 0.004366],
    [8, 0.0038, 0.003848],
  ])('q = %d', (q, printed, recomputed) => {
    const leakage = differentialLeakage(generated(6 * q, 2, 3 * q))!;
    expect(Math.abs(leakage - printed)).toBeLessThan(5.1e-5);
    expect(leakage).toBeCloseTo(recomputed, 6);
    expect(differentialLeakage(generated(48 * q, 16, 3 * q, { layers: 1 }))).toBeCloseTo(leakage, 12);
  });
});

describe('integer-slot windings, short pitch', () => {
  // Short pitch by c slots: recomputed table.
  it.each([
    [1, 1, 0.096623],
    [2, 1, 0.023542],
    [2, 2, 0.028437],
    [3, 1, 0.011495],
    [3, 2, 0.01109],
    [3, 3, 0.014061],
    [4, 1, 0.007375],
    [4, 2, 0.006239],
    [4, 3, 0.006885],
    [4, 4, 0.008896],
    [5, 1, 0.005485],
    [5, 2, 0.004366],
    [5, 3, 0.004114],
    [5, 5, 0.006481],
    [6, 1, 0.004463],
    [6, 2, 0.00349],
    [6, 3, 0.002929],
    [6, 6, 0.005163],
  ])('q = %d, shorter by %d', (q, c, recomputed) => {
    expect(differentialLeakage(generated(24 * q, 8, 3 * q - c))).toBeCloseTo(recomputed, 6);
  });

  it('the closed form in q and the shortening', () => {
    // pi^2/(54 q^2 kw^2) (5 q^2 + 1 - 1.5 c^2 + (c^3 - c)/(4 q)) - 1, with the handbook's closed form of kw.
    for (let q = 1; q <= 12; q++) {
      for (let c = 0; c <= q; c++) {
        const kd = 0.5 / (q * Math.sin(Math.PI / (6 * q)));
        const kw = kd * Math.cos((Math.PI * c) / (6 * q));
        const bracket = 5 * q * q + 1 - 1.5 * c * c + (c ** 3 - c) / (4 * q);
        const closed = (Math.PI ** 2 / (54 * q * q * kw * kw)) * bracket - 1;
        expect(differentialLeakage(generated(12 * q, 4, 3 * q - c))).toBeCloseTo(closed, 10);
      }
    }
  });
});

describe('tooth coils in closed form', () => {
  const square = Math.PI ** 2;
  it.each([
    ['q = 1/2', 6, 4, 2, (4 * square) / 27 - 1],
    ['q = 1/4', 6, 8, 2, (16 * square) / 27 - 1],
    ['12/10, two layers', 12, 10, 2, ((square / 144) * 25) / ((2 + Math.sqrt(3)) / 4) ** 2 - 1],
    ['12/10, one layer', 12, 10, 1, (2 * (square / 144) * 25) / Math.cos(Math.PI / 12) ** 2 - 1],
  ] as const)('%s', (_, slots, poles, layers, closed) => {
    expect(differentialLeakage(generated(slots, poles, 1, { layers }))).toBeCloseTo(closed, 12);
  });

  it('12/10 and 12/8 as published, 12/14', () => {
    // 0.97 and 0.46: Pyrhonen et al. as above, from memory; the others recomputed.
    expect(differentialLeakage(generated(12, 10, 1))).toBeCloseTo(0.97, 2);
    expect(differentialLeakage(generated(12, 8, 1))).toBeCloseTo(0.46, 2);
    expect(differentialLeakage(generated(12, 14, 1))).toBeCloseTo(2.857964, 6);
    expect(differentialLeakage(generated(12, 14, 1, { layers: 1 }))).toBeCloseTo(6.19906, 6);
  });
});

describe('phasor polygons', () => {
  // With 1 A amplitude a conductor; by hand from the polygon: R = z_Q Q kw / (2 pi p).
  const amplitude = 1 / Math.SQRT2;

  it('q = 1, one layer: a regular hexagon', () => {
    const winding = generated(6, 2, 3, { layers: 1 });
    const teeth = toothMmf(winding, amplitude)!;
    for (let tooth = 0; tooth < 6; tooth++) {
      expect(Math.hypot(teeth.re[tooth]!, teeth.im[tooth]!)).toBeCloseTo(1, 12);
    }
    expect(workingWaveAmplitude(winding, amplitude)).toBeCloseTo(3 / Math.PI, 12);
  });

  it('q = 2: radii sqrt 12 and 4 in turn', () => {
    const winding = generated(24, 4, 6);
    const teeth = toothMmf(winding, amplitude)!;
    const radii = Array.from(teeth.re, (re, tooth) => Math.hypot(re, teeth.im[tooth]!));
    radii.forEach((radius, tooth) => {
      expect(radius).toBeCloseTo(tooth % 2 === 1 ? 4 : Math.sqrt(12), 12);
    });
    expect(workingWaveAmplitude(winding, amplitude)).toBeCloseTo(3.689565, 6);
  });

  it('12/10 in two layers: all radii 1', () => {
    const winding = generated(12, 10, 1);
    const teeth = toothMmf(winding, amplitude)!;
    teeth.re.forEach((re, tooth) => {
      expect(Math.hypot(re, teeth.im[tooth]!)).toBeCloseTo(1, 12);
    });
    expect(workingWaveAmplitude(winding, amplitude)).toBeCloseTo(0.712769, 6);
  });
});
