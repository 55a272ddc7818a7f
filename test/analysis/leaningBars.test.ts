import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  differentialLeakage,
  differentialLeakageOverStack,
} from '../../core/analysis/differentialLeakage.ts';
import { factorSpectrum, meanSquareFactor, windingFactor } from '../../core/analysis/factors/factors.ts';
import { barOverlap, gapOverlaps } from '../../core/analysis/gap/gapField.ts';
import type { Winding } from '../../core/winding/model.ts';
import { crossedDrive, examine, ferryDrive, withLine } from '../copper/machines.ts';
import { phaseOwners, slicedMeanSquare, slicedOverlaps } from './slicedStack.ts';
import { explicit, generated } from './windings.ts';

const degree = Math.PI / 180;
const rotorSkew = { angle: 4 * degree, steps: 3 };

const leaning: readonly (readonly [string, Winding])[] = [
  ['layers crossing by two slots', generated(48, 8, 5, { layers: 4, lean: [0.13, 0.13, -0.13, -0.13] })],
  ['unlike leans', generated(36, 4, 9, { layers: 4, stagger: 1, lean: [0.1, -0.2, 0.05, 0] })],
  ['tooth coils', generated(12, 10, 1, { lean: [0.3, -0.1] })],
  ['more than a turn apart', generated(12, 2, 6, { lean: [4, -3.5] })],
];

describe('overlap of two bars in the gap', () => {
  it('is the integral of both sawtooth functions, sampled', () => {
    const sawtooth = (angle: number) => {
      const within = angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
      return (Math.PI - within) / (2 * Math.PI);
    };
    for (const apart of [0, 0.3, 2, Math.PI, 5]) {
      const samples = 20000;
      let sum = 0;
      for (let i = 0; i < samples; i++) {
        const angle = ((i + 0.5) * 2 * Math.PI) / samples;
        sum += (sawtooth(angle) * sawtooth(angle - apart) * 2 * Math.PI) / samples;
      }
      expect(barOverlap(apart, 0)).toBeCloseTo(sum, 3);
    }
  });

  it('is its mean over all places of a leaning bar', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -7, max: 7, noNaN: true }),
        fc.double({ min: -15, max: 15, noNaN: true }),
        (apart, lean) => {
          const samples = 4000;
          let sum = 0;
          for (let i = 0; i < samples; i++)
            sum += barOverlap(apart + lean * ((i + 0.5) / samples - 0.5), 0) / samples;
          expect(Math.abs(barOverlap(apart, lean) - sum)).toBeLessThan(1e-5);
        },
      ),
    );
  });
});

describe('winding functions of leaning bars', () => {
  it.each(leaning)('%s: products over bore and stack as in thin slices', (_, winding) => {
    const owners = phaseOwners(winding);
    const overlaps = gapOverlaps(winding, owners, 3);
    slicedOverlaps(winding, owners, 3).forEach((expected, entry) => {
      expect(Math.abs(overlaps[entry]! - expected)).toBeLessThan(2e-4 * overlaps[0]!);
    });
  });

  it('of straight bars: the integral of the staircases, exactly', () => {
    for (const winding of [generated(48, 8, 5, { layers: 4 }), generated(30, 8, 3), generated(12, 10, 1)]) {
      const owners = phaseOwners(winding);
      const overlaps = gapOverlaps(winding, owners, 3);
      slicedOverlaps(winding, owners, 3, 1).forEach((expected, entry) => {
        expect(overlaps[entry]! / overlaps[0]!).toBeCloseTo(expected / overlaps[0]!, 12);
      });
    }
  });

  it('all layers leaning alike: as straight, whatever the table', () => {
    const table = explicit(2, ['+U -U . +V -V . +W -W . +U -U .', '. . +V . . -V . . . . . .']);
    const owners = phaseOwners(table);
    const straight = gapOverlaps(table, owners, 3);
    const alike = gapOverlaps({ ...table, lean: [0.7, 0.7] }, owners, 3);
    straight.forEach((value, entry) => {
      expect(alike[entry]).toBeCloseTo(value, 12);
    });
  });
});

describe('mean square of the winding factor over the stack', () => {
  it.each(leaning)('%s: as in thin slices, the rotor skew without effect', (_, winding) => {
    const spectrum = factorSpectrum({ ...winding, rotorSkew });
    const square = meanSquareFactor(winding, spectrum, winding.polePairs);
    expect(square).toBeCloseTo(slicedMeanSquare(winding, winding.polePairs), 6);
  });

  it('of straight or equally leaning bars: the square of the factor without skew', () => {
    for (const lean of [0, 0.2]) {
      const straight = generated(48, 8, 5, { layers: 4 });
      const winding: Winding = { ...straight, lean: straight.lean.map(() => lean), rotorSkew };
      expect(meanSquareFactor(winding, factorSpectrum(winding), 4)).toBeCloseTo(
        windingFactor(straight, 4) ** 2,
        12,
      );
    }
  });
});

describe('differential leakage over the stack', () => {
  it('of bars without lean, or of one lean: the closed form of the polygon', () => {
    for (const winding of [generated(48, 8, 6, { layers: 4 }), generated(30, 8, 3), generated(12, 10, 1)]) {
      const closed = differentialLeakage(winding)!;
      const square = windingFactor(winding, winding.polePairs) ** 2;
      expect(differentialLeakageOverStack(winding, square)).toBe(closed);
      const alike = { ...winding, lean: winding.lean.map(() => 0.1) };
      expect(differentialLeakageOverStack(alike, square)).toBe(closed);
      // The other way to it, by bars that lean a hair apart.
      const hair = { ...winding, lean: winding.lean.map((_, layer) => 1e-9 * layer) };
      expect(differentialLeakageOverStack(hair, square)).toBeCloseTo(closed, 7);
    }
  });

  it.each(leaning.slice(0, 3))('%s: all waves in thin slices less the working wave', (_, winding) => {
    const square = slicedMeanSquare(winding, winding.polePairs);
    const overlaps = slicedOverlaps(winding, phaseOwners(winding), 3);
    const axes = winding.phases.axes.map((axis) => axis * degree);
    let all = 0;
    axes.forEach((own, i) => {
      axes.forEach((other, j) => {
        all += (overlaps[3 * i + j]! * Math.cos(own - other)) / 3;
      });
    });
    const bars = winding.table.cells.filter((cell) => Math.abs(cell) === 1).length;
    const working = (3 * bars ** 2 * square) / (2 * Math.PI * winding.polePairs ** 2);
    const share = differentialLeakageOverStack(winding, square)!;
    expect(Math.abs(share - (all / working - 1))).toBeLessThan(1e-3 * (1 + share));
  });

  it('null where slot currents do not add up to zero', () => {
    const open = explicit(1, ['+U +U +U +V +V +V', '+W . . . . .'], { lean: [0.1, -0.1] });
    expect(differentialLeakageOverStack(open, 0.5)).toBeNull();
  });
});

describe('inductances of leaning bars and skewed rotors', () => {
  const straight = examine(ferryDrive).emf;

  it.each([
    ['the rotor skewed in one piece', ferryDrive.replace('carter on', 'carter on\n  rotor-skew 7.5 deg')],
    [
      'the rotor skewed in steps',
      ferryDrive.replace('carter on', 'carter on\n  rotor-skew 7.5 deg in 4 steps'),
    ],
    ['all bars leaning by one slot', withLine(ferryDrive, 'skew', '  skew all 1 slot')],
  ])('%s: the EMF is less, the inductances stay', (_, text) => {
    const { emf } = examine(text);
    // One slot pitch, 30 electrical degrees: sin 15/15 degrees.
    const skew = Math.sin(15 * degree) / (15 * degree);
    expect(emf.phaseVoltage! / straight.phaseVoltage!).toBeCloseTo(skew, text.includes('steps') ? 2 : 9);
    expect(emf.phaseVoltage!).toBeLessThan(0.99 * straight.phaseVoltage!);
    expect(emf.magnetizingInductance! / straight.magnetizingInductance!).toBeCloseTo(1, 12);
    expect(emf.differentialLeakageInductance! / straight.differentialLeakageInductance!).toBeCloseTo(1, 12);
  });

  it('layers that cross: the mean over the stack of the squared sum', () => {
    const { emf } = examine(crossedDrive);
    const parallel = examine(crossedDrive.replace('skew c d -1 slot', 'skew c d +1 slot')).emf;
    // Half the bars at +x, half at -x, x from -15 to 15 electrical degrees: cos^2 x, mean (1 + sin 30/(pi/6))/2.
    const mean = (1 + 0.5 / (Math.PI / 6)) / 2;
    expect(emf.magnetizingInductance! / parallel.magnetizingInductance!).toBeCloseTo(mean, 9);
    // Each wave is weakened by its own measure, so the ratio is another.
    const share = (figures: typeof emf) =>
      figures.differentialLeakageInductance! / figures.magnetizingInductance!;
    expect(share(emf)).not.toBeCloseTo(share(parallel), 4);
  });
});
