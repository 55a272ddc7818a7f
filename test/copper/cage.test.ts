import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CageLayer, cageStiffness, cageStress } from '../../core/copper/cage.ts';
import { copperCurves } from '../../core/copper/curves.ts';
import { copperInput, crossedDrive, examine, ferryDrive, withLine } from './machines.ts';

const elasticity = 117e9;

/**
 * A pin-jointed space truss in the large: each bar is a straight line between two pins on a cylinder.
 * Twisting one end ring by a small angle stretches it; the strain energy gives stiffness and force.
 */
function trussEnergy(layers: readonly CageLayer[], stack: number, twist: number): number {
  let energy = 0;
  for (const { bars, radius, area, lean } of layers) {
    // The developed cylinder: along the circumference and the axis.
    const before = Math.hypot(radius * lean, stack);
    const after = Math.hypot(radius * (lean + twist), stack);
    energy += (bars * 0.5 * elasticity * area * (after - before) ** 2) / before;
  }
  return energy;
}

const layer = fc.record({
  bars: fc.integer({ min: 1, max: 96 }),
  radius: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
  area: fc.double({ min: 5e-6, max: 5e-5, noNaN: true }),
  secondMoment: fc.double({ min: 1e-12, max: 1e-10, noNaN: true }),
  lean: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
});

describe('crossed bars against the strain energy of a truss', () => {
  it('stiffness is the second derivative of the energy', () => {
    fc.assert(
      fc.property(
        fc.array(layer, { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        (layers, stack) => {
          fc.pre(layers.some(({ lean }) => Math.abs(lean) > 0.02));
          const { stiffness } = cageStiffness(layers, stack, elasticity);
          const twist = 1e-6;
          const energies = trussEnergy(layers, stack, twist) + trussEnergy(layers, stack, -twist);
          expect(energies / twist ** 2 / stiffness).toBeCloseTo(1, 3);
        },
      ),
      { seed: 4141, numRuns: 60 },
    );
  });

  it('stress is the elongation at the twist that the torque makes', () => {
    const layers = [
      { bars: 48, radius: 0.09, area: 1e-5, secondMoment: 1e-11, lean: 0.13 },
      { bars: 48, radius: 0.1, area: 1e-5, secondMoment: 1e-11, lean: -0.13 },
    ];
    const torque = 0.06;
    const twist = torque / cageStiffness(layers, 0.1, elasticity).stiffness;
    const stresses = layers.map(({ radius, lean }) => {
      const before = Math.hypot(radius * lean, 0.1);
      return (elasticity * Math.abs(Math.hypot(radius * (lean + twist), 0.1) - before)) / before;
    });
    expect(cageStress(layers, 0.1, elasticity, torque)! / Math.max(...stresses)).toBeCloseTo(1, 3);
  });

  it('the bars carry the torque: forces times lever arms add up to it', () => {
    const layers = [
      { bars: 40, radius: 0.09, area: 1e-5, secondMoment: 1e-11, lean: 0.2 },
      { bars: 40, radius: 0.09, area: 1e-5, secondMoment: 1e-11, lean: -0.2 },
    ];
    const stress = cageStress(layers, 0.12, elasticity, 75)!;
    const lambda = Math.atan((0.2 * 0.09) / 0.12);
    expect(80 * stress * 1e-5 * Math.sin(lambda) * 0.09).toBeCloseTo(75, 9);
  });
});

describe('straight clamped bars against a beam integrated numerically', () => {
  it('12 E I/l^3 at each bar', () => {
    const stack = 0.12;
    const secondMoment = 3.9e-12;
    // Clamped at both ends, one end moved sideways by 1: w'''' = 0, integrated from shear and moment.
    // Unit shear: M(x) = l/2 - x, deflection by integrating the curvature twice.
    const steps = 20_000;
    const dx = stack / steps;
    let slope = 0;
    let deflection = 0;
    for (let i = 0; i < steps; i++) {
      const moment = stack / 2 - (i + 0.5) * dx;
      const next = slope + (moment / (elasticity * secondMoment)) * dx;
      deflection += ((slope + next) / 2) * dx;
      slope = next;
    }
    expect(slope * 1e3).toBeCloseTo(0, 9);
    const layers = [{ bars: 48, radius: 0.09, area: 1e-5, secondMoment, lean: 0 }];
    const { straight, stiffness } = cageStiffness(layers, stack, elasticity);
    expect(straight / ((48 * 0.09 ** 2) / deflection)).toBeCloseTo(1, 6);
    expect(stiffness).toBe(0);
    expect(cageStress(layers, stack, elasticity, 50)).toBeNull();
  });
});

describe('cage of a machine', () => {
  it('written out bar by bar', () => {
    const { input, copper, emf } = examine(crossedDrive);
    const area = (3.6 * 3 - (4 - Math.PI) * 0.25) * 1e-6;
    const lean = (2 * Math.PI) / 48;
    let stiffness = 0;
    for (const radius of copper.radii!) {
      const lambda = Math.atan((lean * radius) / 0.096);
      stiffness += (48 * 117e9 * area * radius ** 2 * Math.sin(lambda) ** 2 * Math.cos(lambda)) / 0.096;
    }
    expect(copper.cage.stiffness! / stiffness).toBeCloseTo(1, 12);
    const stresses = copper.radii!.map((radius) => {
      const lambda = Math.atan((lean * radius) / 0.096);
      return (emf.torque! * 117e9 * radius * Math.sin(lambda) * Math.cos(lambda)) / (stiffness * 0.096);
    });
    expect(copper.cage.stress! / Math.max(...stresses)).toBeCloseTo(1, 12);
    expect(input.winding.lean).toEqual([lean, lean, -lean, -lean]);
  });

  it('families on different radii do not balance axially: an upper bound, and said so', () => {
    const line = /upper bound; the ends must be held axially/;
    expect(examine(crossedDrive).copper.assumptions.join('\n')).toMatch(line);
    const cage = (radius: number) => [
      { bars: 48, radius: 0.09, area: 1e-5, secondMoment: 0, lean: 0.13 },
      { bars: 48, radius, area: 1e-5, secondMoment: 0, lean: -0.13 },
    ];
    expect(cageStiffness(cage(0.09), 0.1, elasticity).balanced).toBe(true);
    expect(cageStiffness(cage(0.1), 0.1, elasticity).balanced).toBe(false);
    expect(examine(ferryDrive).copper.assumptions.join('\n')).not.toContain('crossed-bar cage');
  });

  it('the trade over the lean: stiffer, longer, less EMF', () => {
    const rows = copperCurves(copperInput(crossedDrive)).leanTrade;
    expect(rows.map(({ slots }) => slots)).toEqual([0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2]);
    expect(rows[0]).toMatchObject({ skewFactor: 1, resistanceRatio: 1, stiffness: 0, stress: null });
    const { copper } = examine(crossedDrive);
    expect(rows[4]!.stiffness).toBeCloseTo(copper.cage.stiffness!, 3);
    expect(rows[4]!.stress).toBeCloseTo(copper.cage.stress!, 3);
    expect(rows[4]!.barLength).toBeCloseTo(copper.length.bars!, 12);
    // Fundamental of 4 pole pairs: sinc(p gamma/2), the handbook's skew factor for bars leaning by gamma.
    rows.slice(1).forEach(({ slots, skewFactor }) => {
      const x = (4 * slots * 2 * Math.PI) / 48 / 2;
      expect(skewFactor).toBeCloseTo(Math.sin(x) / x, 12);
    });
    for (let i = 1; i < rows.length; i++) {
      expect(rows[i]!.stiffness!).toBeGreaterThan(rows[i - 1]!.stiffness!);
      expect(rows[i]!.barLength!).toBeGreaterThan(rows[i - 1]!.barLength!);
    }
  });

  it('the trade is offered for straight bars too, and shows what data allow', () => {
    const rows = copperCurves(copperInput(withLine(ferryDrive, 'end-straight', null))).leanTrade;
    expect(rows[4]!.stiffness!).toBeGreaterThan(0);
    expect(rows[4]!.barLength).toBeNull();
    expect(rows[4]!.resistanceRatio).toBeNull();
  });
});
