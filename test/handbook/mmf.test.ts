import { describe, expect, it } from 'vitest';
import { differentialLeakage } from '../../core/analysis/differentialLeakage.ts';
import { windingFactor } from '../../core/analysis/factors/factors.ts';
import { mmf } from '../../core/analysis/mmf.ts';
import { generated } from '../analysis/windings.ts';

// 3-phase MMF spectra: the orders and directions of integer-slot windings (1, -5, 7, -11, 13, ...) are common
// practice; the values were recomputed by an independent program from phasors. Directions are relative
// to the working wave.

type Line = readonly [order: number, relative: number, direction: '+' | '-', factor?: number];

const spectra: readonly (readonly [string, number, number, number, 1 | 2, readonly Line[]])[] = [
  [
    '12/10, two layers',
    12,
    10,
    1,
    2,
    [
      [1, 0.359, '-', 0.067],
      [5, 1, '+', 0.933],
      [7, 0.7143, '-', 0.933],
      [11, 0.0326, '+', 0.067],
      [13, 0.0276, '-', 0.067],
      [17, 0.2941, '+', 0.933],
      [19, 0.2632, '-', 0.933],
      [23, 0.0156, '+'],
      [25, 0.0144, '-'],
    ],
  ],
  [
    '12/10, one layer: order 1 is larger than the working wave',
    12,
    10,
    1,
    1,
    [
      [1, 1.3397, '-', 0.2588],
      [5, 1, '+', 0.9659],
      [7, 0.7143, '-', 0.9659],
      [11, 0.1218, '+'],
      [13, 0.1031, '-'],
      [17, 0.2941, '+'],
      [19, 0.2632, '-'],
    ],
  ],
  [
    '12/14, two layers',
    12,
    14,
    1,
    2,
    [
      [1, 0.5026, '+'],
      [5, 1.4, '-'],
      [7, 1, '+'],
      [11, 0.0457, '-'],
      [13, 0.0387, '+'],
      [17, 0.4118, '-'],
      [19, 0.3684, '+'],
    ],
  ],
  [
    '9/8, with even orders',
    9,
    8,
    1,
    2,
    [
      [1, 0.2567, '+', 0.0607],
      [2, 0.2959, '-', 0.1398],
      [4, 1, '+', 0.9452],
      [5, 0.8, '-', 0.9452],
      [7, 0.0845, '+'],
      [8, 0.0321, '-'],
      [10, 0.0257, '+'],
      [11, 0.0538, '-'],
      [13, 0.3077, '+'],
      [14, 0.2857, '-'],
    ],
  ],
  [
    '12/8, no orders below the working wave',
    12,
    8,
    1,
    2,
    [
      [4, 1, '+'],
      [8, 0.5, '-'],
      [16, 0.25, '+'],
      [20, 0.2, '-'],
    ],
  ],
  [
    'q = 2, pitch 5 of 6',
    12,
    2,
    5,
    2,
    [
      [1, 1, '+'],
      [5, 0.01436, '-'],
      [7, 0.01026, '+'],
      [11, 0.09091, '-'],
      [13, 0.07692, '+'],
      [17, 0.00422, '-'],
      [19, 0.00378, '+'],
    ],
  ],
];

describe.each(spectra)('%s', (_, slots, poles, span, layers, lines) => {
  it('has exactly the published waves', () => {
    const winding = generated(slots, poles, span, { layers });
    const highest = lines.at(-1)![0];
    const waves = mmf(winding, { orders: highest }).waves;
    expect(waves.map((wave) => `${wave.direction === 'forward' ? '+' : '-'}${wave.order}`)).toEqual(
      lines.map(([order, , direction]) => `${direction}${order}`),
    );
    waves.forEach((wave, i) => {
      const [order, relative, , factor] = lines[i]!;
      expect(Math.abs(wave.relative! - relative)).toBeLessThan(slots / poles >= 3 ? 5.1e-6 : 5.1e-5);
      if (factor !== undefined) {
        expect(Math.abs(windingFactor(winding, order) - factor)).toBeLessThan(5.1e-5);
      }
    });
  });
});

describe('directions of integer-slot windings', () => {
  it('6k + 1 run forward, 6k - 1 backward', () => {
    const waves = mmf(generated(36, 4, 7), { orders: 120 }).waves;
    expect(waves.length).toBeGreaterThan(15);
    for (const wave of waves) {
      const harmonic = Number(wave.harmonic);
      expect(harmonic % 6).toBe(wave.direction === 'forward' ? 1 : 5);
    }
  });

  it('12/10 and 12/14 run opposite ways for one order of the phases', () => {
    expect(mmf(generated(12, 10, 1)).runsWithSlotNumbers).toBe(true);
    expect(mmf(generated(12, 14, 1)).runsWithSlotNumbers).toBe(true);
    // The same coils under another number of poles: the working wave runs against the slot numbers.
    const coils = generated(12, 10, 1);
    expect(mmf({ ...coils, poles: 14, polePairs: 7 }).runsWithSlotNumbers).toBe(false);
  });
});

describe('amplitudes', () => {
  /** Amplitude of the working wave of an integer-slot winding with the book's turns and current. */
  const amplitude = (slots: number, poles: number, turns: number, current: number) => {
    const winding = generated(slots, poles, slots / poles);
    const barsASeriesTurn = (2 * slots) / 3 / 2;
    return mmf(winding, { orders: poles, current }).workingAmplitude * (turns / barsASeriesTurn);
  };

  it('Nagrath & Kothari, Electric Machines, 4th ed. 2010, ex. 5.9 p. 163: 2177.02 A a pole', () => {
    // 180 slots, 20 poles, N = 240, I = 400 kW / (sqrt 3 x 3.3 kV).
    expect(amplitude(180, 20, 240, 400 / (Math.sqrt(3) * 3.3))).toBeCloseTo(2177.02, 1);
  });

  it('Nagrath & Kothari, ex. 5.11 p. 165: 2864.3 A for one phase', () => {
    // 60 slots, 4 poles, N = 240, I = 48/sqrt 3 A. The resultant of three phases is 3/2 of it (4296.5).
    expect(amplitude(60, 4, 240, 48 / Math.sqrt(3)) / 1.5).toBeCloseTo(2864.326, 2);
    expect(amplitude(60, 4, 240, 48 / Math.sqrt(3))).toBeCloseTo(4296.489, 2);
  });

  it('is m sqrt 2 / pi N kw I / p, 1.3505 N kw I / p for three phases', () => {
    // The textbook form, e.g. Pyrhonen et al., ch. 2, from memory.
    const winding = generated(48, 8, 5, { parallelPaths: 2 });
    const turns = 32 / (2 * 2);
    expect((3 * Math.SQRT2) / Math.PI).toBeCloseTo(1.3505, 4);
    expect(mmf(winding, { current: 70 }).workingAmplitude).toBeCloseTo(
      ((3 * Math.SQRT2) / Math.PI) * ((turns * windingFactor(winding, 4)) / 4) * 70,
      9,
    );
  });

  it('the magnetizing inductance of an own case follows, with and without leakage', () => {
    // N = 32, q = 2, pitch 5 of 6, R = 80 mm, l = 100 mm, p = 4, gap 1 mm: 7.12769 A a peak ampere, 1.069686 mH,
    // 1.094868 mH with leakage; recomputed by an independent program (formula: Kirtley, MIT 6.685 notes, from memory).
    const winding = generated(48, 8, 5, { layers: 6, parallelPaths: 1 });
    const turns = (48 * 6) / 3 / 2;
    const peak = mmf(winding).workingAmplitude / Math.SQRT2 / turns;
    expect(peak * 32).toBeCloseTo(7.12769, 5);
    const factor = windingFactor(winding, 4);
    const inductance =
      (1.5 * (4 / Math.PI) * 4e-7 * Math.PI * (32 * factor) ** 2 * 0.08 * 0.1) / (16 * 0.001);
    expect(inductance * 1e3).toBeCloseTo(1.069686, 6);
    expect(inductance * (1 + differentialLeakage(winding)!) * 1e3).toBeCloseTo(1.094868, 6);
  });
});
