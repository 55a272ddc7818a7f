// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: values as the tables print them
import { describe, expect, it } from 'vitest';
import { factorRow, factorSpectrum } from '../../core/analysis/factors/factors.ts';
import { skewFactor } from '../../core/winding/skew.ts';
import { generated } from '../analysis/windings.ts';
import { signedFactors } from '../support/signedFactors.ts';

// Distribution and pitch tables as in Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical
// Machines, 2nd ed., Wiley 2014, ch. 2, and nearly every handbook: from memory, recomputed to 5 digits.
const harmonics = [1, 3, 5, 7, 9, 11, 13];

const distribution: readonly (readonly [q: number, ...values: number[]])[] = [
  [1, 1, 1, 1, 1, 1, 1, 1],
  [2, 0.96593, 0.70711, 0.25882, -0.25882, -0.70711, -0.96593, -0.96593],
  [3, 0.9598, 0.66667, 0.21757, -0.17736, -0.33333, -0.17736, 0.21757],
  [4, 0.95766, 0.65328, 0.20533, -0.15756, -0.2706, -0.12608, 0.12608],
  [5, 0.95668, 0.64721, 0.2, -0.14945, -0.24721, -0.10946, 0.10223],
  [6, 0.95614, 0.64395, 0.19718, -0.14529, -0.2357, -0.10173, 0.09195],
];

// Columns: coil span and pole pitch in slots, then the signed pitch factors.
const pitch: readonly (readonly [span: number, polePitch: number, ...values: number[]])[] = [
  [6, 6, 1, -1, 1, -1, 1, -1, 1],
  [11, 12, 0.99144, -0.92388, 0.79335, -0.60876, 0.38268, -0.13053, -0.13053],
  [8, 9, 0.98481, -0.86603, 0.64279, -0.34202, 0, 0.34202, -0.64279],
  [18, 21, 0.97493, -0.78183, 0.43388, 0, -0.43388, 0.78183, -0.97493],
  [5, 6, 0.96593, -0.70711, 0.25882, 0.25882, -0.70711, 0.96593, -0.96593],
  [12, 15, 0.95106, -0.58779, 0, 0.58779, -0.95106, 0.95106, -0.58779],
  [7, 9, 0.93969, -0.5, -0.17365, 0.76604, -1, 0.76604, -0.17365],
  [9, 12, 0.92388, -0.38268, -0.38268, 0.92388, -0.92388, 0.38268, 0.38268],
  [6, 9, 0.86603, 0, -0.86603, 0.86603, 0, -0.86603, 0.86603],
];

describe('distribution factors of integer-slot windings', () => {
  it.each(distribution)('q = %d', (q, ...values) => {
    const winding = generated(24 * q, 8, 3 * q);
    const spectrum = factorSpectrum(winding);
    harmonics.forEach((harmonic, i) => {
      const row = factorRow(winding, spectrum, 4 * harmonic);
      expect(row.harmonic).toBe(String(harmonic));
      expect(row.distribution).toBeCloseTo(Math.abs(values[i]!), 5);
      expect(row.pitch).toBeCloseTo(1, 12);
      expect(row.coilPitch).toBeCloseTo(1, 12);
      expect(signedFactors(winding, 4 * harmonic).distribution).toBeCloseTo(values[i]!, 5);
    });
  });

  it('narrow towards the limit of many slots', () => {
    // The same tables' last row, q infinite: sin(nu 30 deg)/(nu 30 deg); 200 slots a belt come within 5e-5.
    const limit = [0.95493, 0.63662, 0.19099, -0.13642, -0.21221, -0.08681, 0.07346];
    const winding = generated(1200, 2, 600);
    harmonics.forEach((harmonic, i) => {
      expect(Math.abs(signedFactors(winding, harmonic).distribution! - limit[i]!)).toBeLessThan(5e-5);
    });
  });
});

describe('pitch factors of short-pitched windings', () => {
  it.each(pitch)('span %d of %d slots', (span, polePitch, ...values) => {
    const winding = generated(8 * polePitch, 8, span);
    const spectrum = factorSpectrum(winding);
    harmonics.forEach((harmonic, i) => {
      const row = factorRow(winding, spectrum, 4 * harmonic);
      expect(row.pitch).toBeCloseTo(Math.abs(values[i]!), 5);
      expect(row.coilPitch).toBeCloseTo(Math.abs(values[i]!), 5);
      const signed = signedFactors(winding, 4 * harmonic);
      expect(signed.pitch).toBeCloseTo(values[i]!, 5);
      expect(signed.winding).toBeCloseTo(signed.distribution! * values[i]!, 5);
    });
  });

  it('slot orders keep the fundamental factor at any pitch', () => {
    // Common practice; abs(kw) at 6 q k +- 1 equals the fundamental's.
    for (const q of [2, 3, 4]) {
      for (const span of [3 * q, 3 * q - 1, 2 * q]) {
        const winding = generated(24 * q, 8, span);
        const spectrum = factorSpectrum(winding);
        const fundamental = factorRow(winding, spectrum, 4).winding;
        for (const harmonic of [6 * q - 1, 6 * q + 1, 12 * q - 1, 12 * q + 1]) {
          expect(factorRow(winding, spectrum, 4 * harmonic).winding).toBeCloseTo(fundamental, 12);
        }
      }
    }
  });
});

describe('belts of 120 degrees', () => {
  it('distribution of six coils 20 degrees apart', () => {
    // Theraja, A Textbook of Electrical Technology, AC and DC Machines, ch. 37, ex. 37.4, p. 1414: 0.831206922
    // for this belt; the harmonics recomputed.
    const winding = generated(36, 4, 9, { belt: 120 });
    const spectrum = factorSpectrum(winding);
    expect(factorRow(winding, spectrum, 2).distribution).toBeCloseTo(0.831206922, 8);
    expect(factorRow(winding, spectrum, 6).distribution).toBe(0);
    expect(factorRow(winding, spectrum, 10).distribution).toBeCloseTo(0.18842, 5);
    expect(factorRow(winding, spectrum, 14).distribution).toBeCloseTo(0.1536, 5);
  });
});

describe('skew by one slot pitch', () => {
  // sin(nu pi/6q)/(nu pi/6q): Pyrhonen et al. as above, ch. 2, from memory, recomputed.
  it.each([
    [1, 0.95493, 0.19099, -0.13642, 0.19099, -0.13642],
    [2, 0.98862, 0.73791, 0.52708, 0.08987, -0.07605],
    [3, 0.99493, 0.87782, 0.76915, 0.05853, -0.05236],
    [4, 0.99715, 0.93012, 0.86582, 0.04335, -0.03989],
  ])('continuous, q = %d', (q, ...values) => {
    const slots = 24 * q;
    const pitchAngle = (2 * Math.PI) / slots;
    const leaning = generated(slots, 8, 3 * q, { lean: [pitchAngle, pitchAngle] });
    const rotor = generated(slots, 8, 3 * q, { rotorSkew: { angle: pitchAngle, steps: null } });
    [1, 5, 7, 6 * q - 1, 6 * q + 1].forEach((harmonic, i) => {
      for (const winding of [leaning, rotor]) {
        const row = factorRow(winding, factorSpectrum(winding), 4 * harmonic);
        expect(row.skew).toBeCloseTo(Math.abs(values[i]!), 5);
        expect(signedFactors(winding, 4 * harmonic).skew).toBeCloseTo(values[i]!, 5);
      }
    });
    // One slot of skew removes the order of the slots exactly, not the slot harmonics beside it.
    expect(skewFactor(slots, pitchAngle, { angle: 0, steps: null })).toBeCloseTo(0, 12);
  });

  it.each([
    [2, 0.99144],
    [3, 0.98987],
    [4, 0.98932],
    [5, 0.98907],
  ])('in %d rotor steps, q = 2', (steps, value) => {
    // Segments step by total/n. Recomputed; the form as in Pyrhonen et al., ch. 2, from memory.
    const winding = generated(48, 8, 6, { rotorSkew: { angle: (2 * Math.PI) / 48, steps } });
    expect(factorRow(winding, factorSpectrum(winding), 4).skew).toBeCloseTo(value, 5);
  });

  it('many steps come to continuous skew, on either side of where the sum is taken in closed form', () => {
    for (const order of [1, 4, 20, 28, 44, 52, 92]) {
      const continuous = skewFactor(order, 0.03, { angle: 0.1309, steps: null });
      expect(skewFactor(order, 0.03, { angle: 0.1309, steps: 3000 })).toBeCloseTo(continuous, 5);
      expect(skewFactor(order, 0.03, { angle: 0.1309, steps: 1 })).toBeCloseTo(
        skewFactor(order, 0.03, { angle: 0, steps: null }),
        14,
      );
    }
    expect(() => skewFactor(1, 0, { angle: 0.1, steps: 0 })).toThrow(RangeError);
  });
});
