import { describe, expect, it } from 'vitest';
import { differentialLeakage } from '../../core/analysis/differentialLeakage.ts';
import { windingFactor } from '../../core/analysis/factors/factors.ts';
import { symmetryFigures } from '../../core/analysis/symmetry.ts';
import { asRows, generated, tryGenerate } from '../analysis/windings.ts';

// Winding factors: Magnussen & Sadarangani, IEMDC 2003; Libert & Soulard, ICEM 2004; Pyrhonen, Jokinen,
// Hrabovcova, Design of Rotating Electrical Machines, 2nd ed., Wiley 2014, ch. 2: from memory (3 digits),
// recomputed. Feasibility and single-layer rule: Bianchi & Dai Pre, IEE Proc. EPA 153(3), 2006, from memory.
// Identical groups and differential leakage: recomputed by an independent program (coil phasors, polygon).

interface Row {
  readonly slots: number;
  readonly poles: number;
  readonly q: string;
  readonly t: number;
  readonly double: readonly [factor: number, groups: number, leakage: number];
  readonly single: readonly [factor: number, groups: number, leakage: number] | null;
  readonly radialSymmetry: number;
  readonly coggingPeriods: number;
}

const rows: readonly Row[] = `
3/2   1/2  1 0.8660 1 0.4622 - - - 1 6
3/4   1/4  1 0.8660 1 4.8487 - - - 1 12
6/4   1/2  2 0.8660 2 0.4622 0.8660 1 1.9243 2 12
9/6   1/2  3 0.8660 3 0.4622 - - - 3 18
9/8   3/8  1 0.9452 1 1.1821 - - - 1 72
9/10  3/10 1 0.9452 1 2.4095 - - - 1 90
12/8  1/2  4 0.8660 4 0.4622 0.8660 2 1.9243 4 24
12/10 2/5  1 0.9330 2 0.9683 0.9659 2 2.6730 2 60
12/14 2/7  1 0.9330 2 2.8580 0.9659 2 6.1991 2 84
15/8  5/8  1 0.7109 1 0.3885 - - - 1 120
15/14 5/14 1 0.9514 1 1.3744 - - - 1 210
15/16 5/16 1 0.9514 1 2.1013 - - - 1 240
18/10 3/5  1 0.7352 2 0.4087 0.7352 1 1.8175 2 90
18/14 3/7  1 0.9019 2 0.8349 0.9019 1 2.6699 2 126
18/16 3/8  2 0.9452 2 1.1821 0.9452 1 3.3642 2 144
18/20 3/10 2 0.9452 2 2.4095 0.9452 1 5.8191 2 180
21/20 7/20 1 0.9531 1 1.4634 - - - 1 420
21/22 7/22 1 0.9531 1 1.9808 - - - 1 462
24/20 2/5  2 0.9330 4 0.9683 0.9659 4 2.6730 4 120
24/22 4/11 1 0.9495 2 1.2999 0.9577 2 3.5213 2 264
24/26 4/13 1 0.9495 2 2.2122 0.9577 2 5.3149 2 312
27/24 3/8  3 0.9452 3 1.1821 - - - 3 216
27/30 3/10 3 0.9452 3 2.4095 - - - 3 270
30/28 5/14 2 0.9514 2 1.3744 0.9514 1 3.7488 2 420
36/34 6/17 1 0.9525 2 1.4258 0.9561 2 3.8148 2 612
36/30 2/5  3 0.9330 6 0.9683 0.9659 6 2.6730 6 180`
  .trim()
  .split('\n')
  .map((line) => {
    const [name, q, t, kw, groups, leakage, kw1, groups1, leakage1, symmetry, periods] = line.split(/\s+/);
    const [slots, poles] = name!.split('/').map(Number);
    return {
      slots: slots!,
      poles: poles!,
      q: q!,
      t: Number(t),
      double: [Number(kw), Number(groups), Number(leakage)],
      single: kw1 === '-' ? null : [Number(kw1), Number(groups1), Number(leakage1)],
      radialSymmetry: Number(symmetry),
      coggingPeriods: Number(periods),
    };
  });

describe.each(rows)('$slots slots, $poles poles', (row) => {
  const check = (layers: 1 | 2, [factor, groups, leakage]: Row['double']) => {
    const winding = generated(row.slots, row.poles, 1, { layers });
    expect(Math.abs(windingFactor(winding, winding.polePairs) - factor)).toBeLessThan(5.1e-5);
    expect(Math.abs(differentialLeakage(winding)! - leakage)).toBeLessThan(5.1e-5);
    for (const read of [winding, asRows(winding)]) {
      const figures = symmetryFigures(read);
      expect(figures.identicalGroups).toBe(groups);
      expect(figures.largestParallelPaths).toBe(groups);
    }
  };

  it('two layers', () => {
    check(2, row.double);
    const figures = symmetryFigures(generated(row.slots, row.poles, 1));
    expect(figures).toMatchObject({
      slotsPerPolePerPhase: row.q,
      commonDivisor: row.t,
      basicSlots: row.slots / row.t,
      basicPolePairs: row.poles / 2 / row.t,
      radialSymmetry: row.radialSymmetry,
      coggingPeriods: row.coggingPeriods,
      unbalancedPull: row.radialSymmetry === 1,
    });
  });

  it('one layer', () => {
    if (row.single === null) expect(tryGenerate(row.slots, row.poles, 1, { layers: 1 }).ok).toBe(false);
    else check(1, row.single);
  });
});

describe('feasibility', () => {
  it.each([
    [12, 6],
    [15, 6],
    [21, 6],
    [24, 18],
    [12, 12],
    [18, 18],
    [9, 18],
    [10, 8],
  ])('%d/%d is refused as unbalanced', (slots, poles) => {
    const result = tryGenerate(slots, poles, 1);
    expect(result.ok ? null : result.reason.kind).toBe('unbalanced');
  });

  it.each([
    [18, 6],
    [27, 18],
  ])('%d/%d is accepted', (slots, poles) => {
    expect(tryGenerate(slots, poles, 1).ok).toBe(true);
  });
});

describe('one layer against two', () => {
  it('gains winding factor exactly when Q/t and Q/(2t) are even', () => {
    for (const row of rows) {
      if (row.single === null) continue;
      const basic = row.slots / row.t;
      const own = (layers: number) => {
        const winding = generated(row.slots, row.poles, 1, { layers });
        return windingFactor(winding, winding.polePairs);
      };
      if (basic % 4 === 0) expect(own(1)).toBeGreaterThan(own(2) + 1e-3);
      else expect(own(1)).toBeCloseTo(own(2), 12);
    }
  });
});
