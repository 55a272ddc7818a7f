import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LeakageSlot, slotPermeances } from '../../core/copper/slotLeakage.ts';
import { tries } from '../support/tries.ts';
import { examine, ferryDrive, withLine } from './machines.ts';

const slot: LeakageSlot = {
  mouths: 'inner',
  innerShare: 1,
  depth: 15.2e-3,
  width: 4.6e-3,
  liner: 0.25e-3,
  coating: 0,
  heights: [3e-3, 3e-3, 3e-3, 3e-3],
  separators: [],
  opening: { width: 1.2e-3, height: 0.8e-3 },
};

const sum = (values: Iterable<number>) => [...values].reduce((a, b) => a + b, 0);

describe('slot permeance against handbook closed forms', () => {
  // Pyrhonen, Jokinen, Hrabovcova, ch. 4, and Richter, Elektrische Maschinen I (from memory):
  // lambda = h4/(3 b4) + h3/b4 + h1/b1 for a slot filled by one coil side of one phase.
  it('one coil side: h/(3b) of the copper, h/b of the room above, h/b of the opening', () => {
    const one = slotPermeances({ ...slot, heights: [12e-3] })[0]!;
    const above = 15.2e-3 - 0.25e-3 - 12e-3;
    expect(one).toBeCloseTo(12 / (3 * 4.6) + above / 4.6e-3 + 0.8 / 1.2, 12);
  });

  it('bars that fill the same copper height have the same permeance in phase', () => {
    const four = sum(slotPermeances(slot)) / 16;
    const one = slotPermeances({ ...slot, heights: [12e-3] })[0]!;
    expect(four).toBeCloseTo(one, 12);
  });

  it('layer by layer: h/b (1/3 + bars towards the mouth) with itself, h/b (1/2 + bars) with another', () => {
    const matrix = slotPermeances(slot);
    const above = (15.2e-3 - 0.25e-3 - 12e-3) / 4.6e-3 + 0.8 / 1.2;
    const h = 3 / 4.6;
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        // Layers count from the mouth (inner) here, so as many lie above as the smaller index says.
        const expected = i === j ? h * (1 / 3 + i) : h * (1 / 2 + Math.min(i, j));
        expect(matrix[i * 4 + j]).toBeCloseTo(expected + above, 12);
      }
    }
  });

  it('two-layer winding of short pitch: Richter factors (1 + 3 y)/4 and (7 + 9 y)/16, y from 2/3 to 1', () => {
    // 36 slots, 2 poles: q = 6; spans 12..18 are y = 2/3..1. No coating, no liner, bars touching.
    for (const span of [12, 13, 14, 15, 16, 17, 18]) {
      const y = span / 18;
      const { copper } = examine(twoLayers(span));
      const k1 = (1 + 3 * y) / 4;
      const k2 = (7 + 9 * y) / 16;
      const lambda = k2 * (12 / (3 * 4.6)) + k1 * ((15.2 - 12) / 4.6 + 0.8 / 1.2);
      expect(copper.leakage.slotPermeance).toBeCloseTo(lambda, 9);
    }
  });

  it('L = 4 m mu0 l N^2 lambda/Q ties permeance and inductance', () => {
    const { copper } = examine(ferryDrive);
    const turns = 192 / 3 / 4;
    const handbook = (12 * 4e-7 * Math.PI * 0.096 * turns ** 2 * copper.leakage.slotPermeance!) / 48;
    expect(copper.leakage.slotInductance).toBeCloseTo(handbook, 12);
  });
});

describe('slots with two mouths', () => {
  it('half the current to each side: a quarter of the leakage of one mouth at twice the height', () => {
    const two = slotPermeances({
      ...slot,
      mouths: 'both',
      innerShare: 0.5,
      depth: 12e-3,
      heights: [12e-3],
      opening: { width: 1.2e-3, height: 0.8e-3 },
    })[0]!;
    const half = slotPermeances({ ...slot, depth: 6e-3, liner: 0, heights: [6e-3] })[0]!;
    // Two slots of half the depth back to back, each with half the current.
    expect(two).toBeCloseTo(2 * 0.25 * half, 12);
  });

  it('mirror: outer mouth with bars counted from the other end', () => {
    const heights = [2e-3, 3e-3, 4e-3];
    const inner = slotPermeances({ ...slot, heights });
    const outer = slotPermeances({
      ...slot,
      mouths: 'outer',
      innerShare: 0,
      heights: [...heights].reverse(),
    });
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) expect(inner[i * 3 + j]).toBeCloseTo(outer[(2 - i) * 3 + (2 - j)]!, 12);
    }
  });
});

describe('field energy', () => {
  it('equals the energy integrated numerically for any bars, currents and share', () => {
    const height = fc.double({ min: 0.5e-3, max: 3e-3, noNaN: true });
    const current = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.record({ height, current }), { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (bars, innerShare) => {
          const heights = bars.map((bar) => bar.height);
          const both: LeakageSlot = { ...slot, mouths: 'both', innerShare, coating: 0.1e-3, heights };
          const matrix = slotPermeances(both);
          const n = bars.length;
          let quadratic = 0;
          for (let i = 0; i < n; i++) {
            for (let j = 0; j < n; j++) quadratic += matrix[i * n + j]! * bars[i]!.current * bars[j]!.current;
          }
          expect(quadratic).toBeCloseTo(integratedEnergy(both, bars), 5);
        },
      ),
      { seed: 4111, numRuns: tries(20) },
    );
  });
});

/** Midpoint sum of H^2 over the depth, bars centered, and over both openings. */
function integratedEnergy(
  { depth, width, innerShare, coating, opening }: LeakageSlot,
  bars: readonly { readonly height: number; readonly current: number }[],
): number {
  const total = sum(bars.map((bar) => bar.current));
  const stack = sum(bars.map((bar) => bar.height + 2 * coating));
  const samples = 40_000;
  const step = depth / samples;
  const below = (y: number) => {
    let at = (depth - stack) / 2;
    let current = -innerShare * total;
    for (const bar of bars) {
      at += coating;
      current += bar.current * Math.min(1, Math.max(0, (y - at) / bar.height));
      at += bar.height + coating;
    }
    return current;
  };
  let energy = 0;
  for (let i = 0; i < samples; i++) energy += (below((i + 0.5) * step) ** 2 * step) / width;
  const ends = (innerShare * total) ** 2 + ((1 - innerShare) * total) ** 2;
  return energy + (ends * opening!.height) / opening!.width;
}

describe('path impedances', () => {
  it('paths of a balanced route are alike, and their matrix is symmetric', () => {
    const { paths, inductance } = examine(ferryDrive).copper.leakage.pathImpedances!;
    expect(paths).toHaveLength(6);
    for (const path of paths) expect(path.resistance).toBeCloseTo(paths[0]!.resistance, 12);
    for (let i = 0; i < 6; i++) {
      expect(inductance[i * 7]).toBeCloseTo(inductance[0]!, 15);
      for (let j = 0; j < 6; j++) expect(inductance[i * 6 + j]).toBeCloseTo(inductance[j * 6 + i]!, 15);
    }
  });

  it('balanced path currents see the phase inductance', () => {
    for (const text of [ferryDrive, withLine(ferryDrive, 'span', 'span 5')]) {
      const { leakage } = examine(text).copper;
      const { paths, inductance } = leakage.pathImpedances!;
      const n = paths.length;
      // Flux linkage of path 0 with one ampere rms in every path, phases 120 degrees apart.
      const linkage = paths.reduce((part, { phase }, j) => {
        return part + inductance[j]! * Math.cos((2 * Math.PI * phase) / 3);
      }, 0);
      expect(n).toBe(6);
      expect(linkage / 2).toBeCloseTo(leakage.slotInductance!, 14);
    }
  });

  it('a path that stays at the closed end has more leakage than one at the mouth', () => {
    const text = ferryDrive
      .replace('slots 48', 'slots 12')
      .replace('poles 8', 'poles 2')
      .replace('route paths 2', unequalPaths);
    const { paths, inductance } = examine(text).copper.leakage.pathImpedances!;
    const n = paths.length;
    expect(paths.map(({ phase, number }) => `${phase} ${number}`)).toEqual([
      '0 1',
      '0 2',
      '1 1',
      '1 2',
      '2 1',
      '2 2',
    ]);
    // Path 1 of U in layers a and b (mouth), path 2 in c and d (closed end).
    expect(inductance[n + 1]!).toBeGreaterThan(1.3 * inductance[0]!);
  });
});

// Twelve slots, one pole pair: each path fills all places of its phase in one layer pair.
const unequalPaths = [1, 5, 9]
  .flatMap((first, k) => {
    const phase = ['U', 'V', 'W'][k]!;
    const at = (ahead: number) => ((first - 1 + ahead) % 12) + 1;
    return [['a', 'b'] as const, ['c', 'd'] as const].map(([lower, upper], pair) => {
      const there = `${first}${lower} ${at(6)}${upper} ${at(1)}${lower} ${at(7)}${upper}`;
      const back = `${first}${upper} ${at(6)}${lower} ${at(1)}${upper} ${at(7)}${lower}`;
      return `path ${phase} ${pair + 1} from ${phase}1 ${there} | ${back} to N`;
    });
  })
  .join('\n');

function twoLayers(span: number): string {
  return ferryDrive
    .replace('slots 48', 'slots 36')
    .replace('poles 8', 'poles 2')
    .replace('layers 4', 'layers 2')
    .replace('span 6', `span ${span}`)
    .replace('height 3 mm', 'height 6 mm')
    .replace('coating 0.09 mm', 'coating 0 mm')
    .replace('liner 0.25 mm', 'liner 0 mm')
    .replace('route paths 2', 'route paths 1');
}
