import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { copperCurves } from '../../../core/copper/curves.ts';
import { barHeat, type HeatedBar, riseAlongBar, steadyHeat } from '../../../core/copper/heat/barHeat.ts';
import { orNull } from '../../../core/figures/figure.ts';
import { tries } from '../../support/tries.ts';
import { copperInput, examine, ferryDrive, partsOf, withLine } from '../machines.ts';

/**
 * Steady heat balance of a bar cut into cells: conduction to the neighbors, loss in, side cooling out,
 * ends held at zero. Solved by elimination; no hyperbolic function in it.
 */
function cellTemperatures(bar: HeatedBar, loss: number, cells: number): number[] {
  const dx = bar.length / cells;
  const conductance = (bar.conductivity * bar.area) / dx;
  const upper: number[] = [];
  const right: number[] = [];
  for (let i = 0; i < cells; i++) {
    // Half a cell lies between the outermost cell centers and the ends.
    const toLower = i === 0 ? 2 * conductance : conductance;
    const toUpper = i === cells - 1 ? 2 * conductance : conductance;
    const lower = i === 0 ? 0 : toLower;
    const pivot = toLower + toUpper + bar.sideConductance * dx - lower * (upper[i - 1] ?? 0);
    upper.push(i === cells - 1 ? 0 : toUpper / pivot);
    right.push((loss * dx + lower * (right[i - 1] ?? 0)) / pivot);
  }
  const temperatures = new Array<number>(cells).fill(0);
  for (let i = cells - 1; i >= 0; i--) temperatures[i] = right[i]! + upper[i]! * (temperatures[i + 1] ?? 0);
  return temperatures;
}

const bars = fc.record({
  length: fc.double({ min: 0.02, max: 1, noNaN: true }),
  area: fc.double({ min: 2e-6, max: 1e-4, noNaN: true }),
  conductivity: fc.double({ min: 100, max: 400, noNaN: true }),
  sideConductance: fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: 50, noNaN: true })),
});

describe('fin formulas against a bar cut into cells', () => {
  it('mid-bar rise, mean rise, share by the ends and the whole profile', () => {
    fc.assert(
      fc.property(bars, fc.double({ min: 0.1, max: 500, noNaN: true }), (bar, loss) => {
        const cells = 16_001;
        const solved = cellTemperatures(bar, loss, cells);
        const heat = barHeat(bar, loss);
        const middle = solved[(cells - 1) / 2]!;
        expect(heat.rise / middle).toBeCloseTo(1, 4);
        const mean = solved.reduce((sum, value) => sum + value, 0) / cells;
        expect(heat.meanRise / mean).toBeCloseTo(1, 4);
        const byEnds = 1 - (bar.sideConductance * mean) / loss;
        expect(heat.endShare).toBeCloseTo(byEnds, 4);
        for (const i of [0, 2000, 7100, 14_400]) {
          const distance = bar.length * ((i + 0.5) / cells - 0.5);
          expect(Math.abs(riseAlongBar(bar, loss, distance) - solved[i]!)).toBeLessThan(1e-4 * middle);
        }
      }),
      { seed: 4131, numRuns: tries(20) },
    );
  });

  it('weak side cooling runs into none without a step', () => {
    const bar = { length: 0.1, area: 1e-5, conductivity: 394, sideConductance: 0 };
    const none = barHeat(bar, 40);
    expect(none.rise).toBeCloseTo((40 * 0.01) / (8 * 394 * 1e-5), 9);
    expect(none.meanRise / none.rise).toBeCloseTo(2 / 3, 12);
    expect(none.endShare).toBe(1);
    for (const sideConductance of [1e-12, 1e-9, 1e-7, 1e-5]) {
      const weak = barHeat({ ...bar, sideConductance }, 40);
      // First order in G: the rise falls by 5/12 u^2, u^2 = G L^2/(4 k A).
      const u2 = (sideConductance * 0.01) / (4 * 394 * 1e-5);
      expect(weak.rise / none.rise).toBeCloseTo(1 - (5 / 12) * u2, 9);
      expect(weak.endShare).toBeCloseTo(1 - u2 / 3, 9);
    }
  });

  it('strong side cooling: loss over conductance, hardly any heat by the ends', () => {
    const bar = { length: 2, area: 1e-6, conductivity: 394, sideConductance: 1e4 };
    expect(barHeat(bar, 100).rise).toBeCloseTo(0.01, 12);
    expect(barHeat(bar, 100).endShare).toBeLessThan(1e-3);
    expect(riseAlongBar(bar, 100, 0)).toBeCloseTo(0.01, 12);
    expect(riseAlongBar(bar, 100, 1)).toBeCloseTo(0, 12);
  });
});

describe('steady heat', () => {
  const bar = { length: 0.2, area: 1e-5, conductivity: 394, sideConductance: 0 };

  it('loss rising linearly with temperature: the balance solved for the mean in one step', () => {
    const loss = (temperature: number) => 30 * (1 + 0.004 * (temperature - 20));
    const heat = steadyHeat(bar, 80, loss)!;
    const perWatt = (2 / 3) * (bar.length ** 2 / (8 * bar.conductivity * bar.area));
    const mean = (80 + perWatt * 30 * (1 - 0.08)) / (1 - perWatt * 30 * 0.004);
    expect(heat.mean).toBeCloseTo(mean, 6);
    expect(heat.hotSpot).toBeCloseTo(80 + heat.rise, 12);
    expect(heat.loss).toBeCloseTo(loss(mean), 6);
  });

  it('says so where no steady temperature exists', () => {
    expect(steadyHeat(bar, 80, (temperature) => 400 * (1 + 0.004 * (temperature - 20)))).toBeNull();
  });
});

describe('heat of a machine', () => {
  it('without side cooling the hot spot rises, and all heat leaves by the ends', () => {
    const cooled = examine(ferryDrive).copper;
    const bare = examine(withLine(ferryDrive, 'side-conductance', null)).copper;
    expect(bare.heat.endShare).toBe(1);
    expect(bare.heat.rise!).toBeGreaterThan(cooled.heat.rise!);
    expect(cooled.heat.layer).toBe(0);
    expect(cooled.heat.hotSpot).toBeCloseTo(90 + cooled.heat.rise!, 12);
  });

  it('the curve runs from end to end through the hot spot', () => {
    const { copper } = examine(ferryDrive);
    const curves = copperCurves(copperInput(ferryDrive), partsOf(copperInput(ferryDrive)));
    const { samples } = orNull(curves.heat)!;
    expect(samples[0]!.temperature).toBeCloseTo(90, 9);
    expect(samples.at(-1)!.temperature).toBeCloseTo(90, 9);
    expect(samples[0]!.position).toBeCloseTo(-0.048, 12);
    expect(Math.max(...samples.map(({ temperature }) => temperature))).toBeCloseTo(copper.heat.hotSpot!, 9);
  });

  it('a bar that runs away is a problem, not a number', () => {
    const text = withLine(withLine(ferryDrive, 'side-conductance', null), 'current', '  current 9 kA');
    const { copper, problems } = examine(text);
    expect(copper.heat.hotSpot).toBeNull();
    expect(problems.map(({ kind }) => kind)).toContain('no-steady-temperature');
    expect(copper.missing.find(({ quantity }) => quantity === 'copper.heat.rise')?.needs[0]).toContain(
      'less current',
    );
  });
});
