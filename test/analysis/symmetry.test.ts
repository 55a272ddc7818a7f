import { describe, expect, it } from 'vitest';
import { coilPlan } from '../../core/analysis/coils.ts';
import { pathLimits } from '../../core/analysis/parallelPaths.ts';
import { phaseBalance } from '../../core/analysis/phaseBalance.ts';
import { tableRotation } from '../../core/analysis/rotation.ts';
import { symmetryFigures } from '../../core/analysis/symmetry.ts';
import { phaseSystem } from '../../core/winding/phases.ts';
import { asRows, explicit, generated, rowText } from './windings.ts';

describe('rotational symmetry of the table', () => {
  it('of generated layouts', () => {
    expect(tableRotation(generated(48, 8, 5).table)).toEqual({ slots: 6, negated: true });
    expect(tableRotation(generated(30, 4, 7).table)).toEqual({ slots: 15, negated: false });
    expect(tableRotation(generated(12, 10, 1).table)).toEqual({ slots: 6, negated: true });
    expect(tableRotation(generated(9, 8, 1).table)).toEqual({ slots: 9, negated: false });
    expect(tableRotation(generated(24, 4, 5, { belt: 120 }).table)).toEqual({ slots: 12, negated: false });
  });

  it('is lost with one changed bar', () => {
    const winding = generated(48, 8, 5);
    const cells = winding.table.cells.slice();
    cells[7] = -cells[7]!;
    const figures = symmetryFigures({ ...asRows(winding), table: { ...winding.table, cells } });
    expect(figures.rotationSlots).toBe(48);
    expect(figures.unbalancedPull).toBe(true);
    expect(figures.radialSymmetry).toBe(8);
  });
});

describe('counts', () => {
  it('of a two-layer winding in two paths', () => {
    expect(symmetryFigures(generated(48, 8, 5, { parallelPaths: 2 }))).toMatchObject({
      slotsPerPolePerPhase: '2',
      commonDivisor: 4,
      basicSlots: 12,
      basicPolePairs: 1,
      bars: 96,
      barsPerPhase: 32,
      barsOfPhases: [32, 32, 32],
      seriesTurns: 8,
      identicalGroups: 8,
      largestParallelPaths: 8,
      coggingPeriods: 48,
      radialSymmetry: 8,
      rotationSlots: 6,
      negated: true,
      unbalancedPull: false,
    });
  });

  it('two sets count six phases', () => {
    const figures = symmetryFigures(generated(24, 4, 5, { phases: phaseSystem(6, 30) }));
    expect(figures.slotsPerPolePerPhase).toBe('1');
    expect(figures.barsPerPhase).toBe(8);
  });
});

describe('parallel paths', () => {
  // Own counting rules, confirmed by exhaustive search on small machines: unmixed slots a | pL and a | 2pq,
  // strict a | 2p (integer q), a | p (q = k/2).
  it.each([
    ['48/8, four layers, full pitch', generated(48, 8, 6, { layers: 4 }), 16, false],
    ['48/8, four layers, short pitch', generated(48, 8, 5, { layers: 4 }), 8, true],
    ['36/4, six layers, full pitch', generated(36, 4, 9, { layers: 6 }), 12, false],
    ['36/4, six layers, short pitch', generated(36, 4, 8, { layers: 6 }), 4, true],
    ['72/8, six layers, full pitch', generated(72, 8, 9, { layers: 6 }), 24, false],
    ['48/8, pairs shifted', generated(48, 8, 6, { layers: 4, stagger: 1 }), 8, true],
    ['60/8, q = 5/2', generated(60, 8, 7), 4, true],
    ['45/6, q = 5/2, four layers', generated(45, 6, 7, { layers: 4 }), 3, true],
    ['12/10, four layers', generated(12, 10, 1, { layers: 4 }), 2, true],
    [
      'crossed bars against a skewed rotor',
      generated(48, 8, 6, {
        layers: 4,
        lean: [0.1, 0.1, -0.1, -0.1],
        rotorSkew: { angle: 0.1, steps: null },
      }),
      8,
      true,
    ],
    ['crossed bars alone', generated(48, 8, 6, { layers: 4, lean: [0.1, 0.1, -0.1, -0.1] }), 16, false],
  ] as const)('%s', (_, winding, largest, strict) => {
    for (const read of [winding, asRows(winding)]) {
      expect(pathLimits(read)).toMatchObject({ largestParallelPaths: largest, strict });
    }
  });

  it('3 divides neither poles nor pole pairs of 36/4 L6, yet is allowed with unmixed slots', () => {
    expect(pathLimits(generated(36, 4, 9, { layers: 6 })).largestParallelPaths % 3).toBe(0);
    expect(pathLimits(generated(36, 4, 9, { layers: 2 })).largestParallelPaths % 3).not.toBe(0);
  });

  it('layers without pairs count equal bars', () => {
    const row = rowText(generated(24, 4, 6), 0);
    const three = explicit(4, [row, row, row.replaceAll('U', 'x').replaceAll('V', 'U').replaceAll('x', 'V')]);
    const limits = pathLimits(three);
    expect(limits.largestParallelPaths).toBe(limits.identicalGroups);
    const crooked = explicit(2, ['+U +U -W -W +V . -U . -U +W +W -V']);
    expect(coilPlan(crooked)).toBeNull();
    expect(pathLimits(crooked).identicalGroups).toBe(1);
  });

  it('no bars, no paths', () => {
    expect(pathLimits(explicit(2, ['. . . . . .'])).identicalGroups).toBe(0);
  });
});

describe('coils', () => {
  it('are read off rows as they were generated', () => {
    const plan = coilPlan(asRows(generated(48, 8, 5, { layers: 4, stagger: 1 })))!;
    expect(plan.pairSpans).toEqual([5, 5]);
    expect(plan.coils.length).toBe(96);
    const single = coilPlan(asRows(generated(12, 10, 1, { layers: 1 })))!;
    expect(single.coils.map((coil) => [coil.slot, coil.sign, coil.span])).toEqual([
      [1, 1, 1],
      [3, -1, 1],
      [5, 1, 1],
      [7, -1, 1],
      [9, 1, 1],
      [11, -1, 1],
    ]);
    // Coils round the even teeth, the last one across slot 1; and single coils between gaps.
    const shifted = coilPlan(explicit(2, ['-V +U -U -V +V +U -U +V']))!;
    expect(shifted.coils.map((coil) => [coil.slot, coil.sign])).toEqual([
      [2, 1],
      [4, -1],
      [6, 1],
      [8, 1],
    ]);
    const gaps = coilPlan(explicit(2, ['+U +U -W -W +V . -U -U +W +W -V .']))!;
    expect(gaps.coils.map((coil) => [coil.slot, coil.span])).toEqual([
      [1, 6],
      [2, 6],
      [5, 6],
      [9, 6],
      [10, 6],
    ]);
  });
});

describe('balance of the phases', () => {
  it('holds for either order of the phases round the bore', () => {
    expect(phaseBalance(explicit(2, ['+U -W +V -U +W -V'])).balanced).toBe(true);
    expect(phaseBalance(explicit(2, ['+U -V +W -U +V -W'])).balanced).toBe(true);
  });

  it('tells magnitude and angle of each phase that is off', () => {
    // By hand: V has one full-pitch coil of its two, 15 degrees off the middle of its belt.
    const balance = phaseBalance(explicit(2, ['+U +U -W -W +V . -U -U +W +W -V .']));
    expect(balance.balanced).toBe(false);
    const [u, v, w] = balance.phases;
    expect(u!.magnitude).toBeCloseTo(4 * 0.9659258, 6);
    expect(v!.magnitude).toBeCloseTo(2, 12);
    expect((v!.percent! + 100) / (u!.percent! + 100)).toBeCloseTo(2 / (4 * 0.9659258), 6);
    expect(Math.abs(v!.degrees! - u!.degrees!)).toBeCloseTo(15, 9);
    expect(w!.degrees).toBeCloseTo(u!.degrees!, 9);
    expect(balance.worstPercent).toBeCloseTo(Math.abs(v!.percent!), 9);
    expect(balance.worstDegrees).toBeCloseTo(Math.abs(v!.degrees!), 9);
  });

  it('an absent phase is 100 percent low, with no angle', () => {
    const balance = phaseBalance(explicit(2, ['+U . +V -U . -V']));
    expect(balance.balanced).toBe(false);
    expect(balance.phases[2]).toMatchObject({ name: 'W', magnitude: 0, percent: -100, degrees: null });
  });

  it('without a fundamental nothing is balanced', () => {
    const balance = phaseBalance(explicit(4, ['+U -W +V -U +W -V']));
    expect(balance).toMatchObject({ balanced: false, worstPercent: null, worstDegrees: null });
  });

  it('two sets must be apart by the declared angle', () => {
    const right = generated(24, 4, 5, { phases: phaseSystem(6, 30) });
    expect(phaseBalance(right).balanced).toBe(true);
    const wrong = phaseBalance({ ...asRows(right), phases: phaseSystem(6, 40) });
    expect(wrong.balanced).toBe(false);
    expect(wrong.worstDegrees).toBeCloseTo(5, 9);
  });

  it('one changed sign is seen', () => {
    const winding = generated(48, 8, 5);
    const cells = winding.table.cells.slice();
    cells[0] = -cells[0]!;
    const balance = phaseBalance({ ...winding, table: { ...winding.table, cells } });
    expect(balance.balanced).toBe(false);
    expect(balance.phases[0]!.percent).toBeLessThan(-1);
  });
});
