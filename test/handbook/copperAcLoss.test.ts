import { describe, expect, it } from 'vitest';
import { acRatios, reducedHeight } from '../../core/copper/acLoss/acLoss.ts';
import { criticalHeight } from '../../core/copper/acLoss/criticalHeight.ts';
import { phi, psi } from '../../core/copper/acLoss/skinEffect.ts';
import { copperMetal, resistivity } from '../../core/copper/metals.ts';
import { solvedLossRatio } from '../copper/acLoss/slotFieldSolver.ts';

// The functions are Field's (1905) and Emde's (1908); Pyrhonen, Jokinen, Hrabovcova, Design of Rotating
// Electrical Machines, 2nd ed., ch. 5, and Richter, Elektrische Maschinen I, print them (from memory).
// The figures were computed independently by integrating the one-dimensional diffusion equation, as
// test/copper/acLoss/slotFieldSolver.ts does here once more.

/** z bars in phase, as weights for the layer functions; the first lies at the closed end. */
function stack(bars: number) {
  const weights = Array.from({ length: bars }, (_, k) => k * (k + 1));
  return {
    byPlace: Float64Array.from(weights),
    layers: weights,
    largest: weights,
    kinds: [{ slots: [1], weights }],
  };
}

/** Ratios of bars of the reduced height at 50 Hz. */
function ratiosAt(bars: number, xi: number) {
  const rho = resistivity(copperMetal, 20);
  const strandHeight = xi / reducedHeight({ strandHeight: 1, widthShare: 1 }, 50, rho);
  const sections = Array.from({ length: bars }, () => ({ strandHeight, widthShare: 1 }));
  const { layers, slot } = acRatios(stack(bars), sections, 50, rho);
  return { layers: layers.map((ratio) => ratio!), slot };
}

describe('phi and psi (six decimals)', () => {
  it.each([
    [0.25, 1.000347, 0.001302],
    [0.5, 1.005542, 0.020781],
    [0.75, 1.02779, 0.104135],
    [1, 1.085636, 0.320373],
    [1.5, 1.378094, 1.401217],
    [2, 1.897806, 3.248683],
    [3, 3.010136, 6.528166],
    [4, 4.002264, 8.417828],
  ])('xi = %d', (xi, phiPrinted, psiPrinted) => {
    expect(phi(xi)).toBeCloseTo(phiPrinted, 6);
    expect(psi(xi)).toBeCloseTo(psiPrinted, 6);
    // Alone the loss is phi; on top of its own current once more, phi + 2 psi.
    const [own, none] = [
      { re: 1, im: 0 },
      { re: 0, im: 0 },
    ];
    expect(solvedLossRatio(xi, own, none)).toBeCloseTo(phiPrinted, 5);
    expect((solvedLossRatio(xi, own, own) - solvedLossRatio(xi, own, none)) / 2).toBeCloseTo(psiPrinted, 5);
  });
});

describe('stacks of bars in phase', () => {
  it.each([
    [1, 1, 1.085636],
    [2, 0.7, 1.100412],
    [4, 0.5, 1.109446],
    [4, 1, 2.687503],
    [6, 0.4, 1.101726],
    [8, 0.3, 1.057401],
  ])('%d bars at xi = %d: mean ratio %d', (bars, xi, printed) => {
    expect(ratiosAt(bars, xi).slot).toBeCloseTo(printed, 5);
    expect(phi(xi) + ((bars ** 2 - 1) / 3) * psi(xi)).toBeCloseTo(printed, 5);
  });

  it('bar by bar', () => {
    const four = ratiosAt(4, 0.7);
    [1.0211, 1.1797, 1.4967, 1.9723].forEach((printed, layer) => {
      expect(four.layers[layer]).toBeCloseTo(printed, 4);
    });
    expect(four.slot).toBeCloseTo(1.4175, 4);
    const six = ratiosAt(6, 0.5);
    [1.0055, 1.0471, 1.1302, 1.2549, 1.4212, 1.629].forEach((printed, layer) => {
      expect(six.layers[layer]).toBeCloseTo(printed, 4);
    });
    expect(six.slot).toBeCloseTo(1.248, 4);
  });

  it('small heights: 1 + (z^2 - 0.2)/9 xi^4', () => {
    for (const bars of [1, 2, 4, 8]) {
      expect((ratiosAt(bars, 0.05).slot - 1) / (((bars ** 2 - 0.2) / 9) * 0.05 ** 4)).toBeCloseTo(1, 3);
    }
  });
});

describe('four bars 3.0 x 4.0 mm in a slot of 4.8 mm, copper at 120 degC', () => {
  const rho = resistivity(copperMetal, 120);
  const section = { strandHeight: 3e-3, widthShare: 4 / 4.8 };
  it('has a resistivity of 2.40172e-8 ohm m', () => {
    expect(rho).toBeCloseTo(2.40172e-8, 13);
  });
  it.each([
    [50, 0.24828, 1.00667],
    [500, 0.78512, 1.65697],
    [1000, 1.11032, 3.51411],
  ])('%d Hz', (frequency, xi, printed) => {
    expect(reducedHeight(section, frequency, rho)).toBeCloseTo(xi, 5);
    const sections = [section, section, section, section];
    expect(acRatios(stack(4), sections, frequency, rho).slot).toBeCloseTo(printed, 5);
  });
  it('1 kHz, layer by layer', () => {
    const { layers } = acRatios(stack(4), [section, section, section, section], 1000, rho);
    [1.1277, 2.0823, 3.9914, 6.855].forEach((printed, layer) => {
      expect(layers[layer]).toBeCloseTo(printed, 4);
    });
  });
});

describe('critical height', () => {
  it.each([
    [1, 1.5708, 1.4407],
    [2, 0.9613, 1.3487],
    [3, 0.7704, 1.3397],
    [4, 0.6631, 1.3368],
    [6, 0.5391, 1.3349],
    [8, 0.4662, 1.3342],
  ])('%d bars', (bars, xi, ratio) => {
    const best = criticalHeight([{ share: 1, weight: (bars ** 2 - 1) / 3, scale: 1 }]);
    expect(best.height).toBeCloseTo(xi, 4);
    expect(best.ratio).toBeCloseTo(ratio, 4);
  });

  it('one bar: pi/2, where the ratio is pi/2 tanh(pi/2)', () => {
    const best = criticalHeight([{ share: 1, weight: 0, scale: 1 }]);
    expect(best.height).toBeCloseTo(Math.PI / 2, 6);
    expect(best.ratio).toBeCloseTo((Math.PI / 2) * Math.tanh(Math.PI / 2), 7);
  });

  it.each([
    [1, 14.68],
    [2, 8.98],
    [4, 6.2],
    [6, 5.04],
    [8, 4.36],
  ])('copper at 20 degC, 50 Hz, slot filled across: %d bars %d mm', (bars, millimeters) => {
    const rho = resistivity(copperMetal, 20);
    const scale = reducedHeight({ strandHeight: 1, widthShare: 1 }, 50, rho);
    const best = criticalHeight([{ share: 1, weight: (bars ** 2 - 1) / 3, scale }]);
    expect(best.height * 1e3).toBeCloseTo(millimeters, 2);
  });
});

describe('penetration depth, the height of reduced height 1 in a filled slot', () => {
  const depth = (frequency: number, rho: number) =>
    1e3 / reducedHeight({ strandHeight: 1, widthShare: 1 }, frequency, rho);
  it.each([
    [50, 20, 9.346],
    [50, 120, 11.03],
    [60, 20, 8.532],
    [400, 20, 3.304],
    [1000, 20, 2.09],
  ])('copper, %d Hz, %d degC: %d mm', (frequency, temperature, printed) => {
    const digits = printed >= 10 ? 2 : 3;
    expect(depth(frequency, resistivity(copperMetal, temperature))).toBeCloseTo(printed, digits);
  });
  it('copper of 1.678e-8 ohm m (encyclopedias): 9.220 mm at 50 Hz', () => {
    expect(depth(50, 1.678e-8)).toBeCloseTo(9.22, 3);
  });
});
