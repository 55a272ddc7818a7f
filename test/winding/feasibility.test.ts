import { describe, expect, it } from 'vitest';
import { balanceRule, nearestSlotCounts } from '../../core/winding/feasibility.ts';
import { phaseSystem } from '../../core/winding/phases.ts';
import { tryGenerate } from '../analysis/windings.ts';

const three = phaseSystem(3);

describe('nearest slot counts', () => {
  it('are the closest ones that can be generated, found by trying every count', () => {
    for (const [slots, poles, layers, span] of [
      [24, 18, 2, 1],
      [12, 12, 2, 1],
      [10, 8, 2, 1],
      [9, 8, 1, 1],
      [50, 8, 2, 5],
      [25, 4, 4, 6],
    ] as const) {
      const tried = Array.from({ length: 300 }, (_, i) => i + 3).filter((count) => {
        if (layers === 1 && count % 2 !== 0) return false;
        return tryGenerate(count, poles, span, { layers }).ok;
      });
      const expected = [
        ...tried.filter((count) => count < slots).slice(-2),
        ...tried.filter((count) => count > slots).slice(0, 2),
      ];
      expect(nearestSlotCounts({ slots, poles, phases: three, layers, span })).toEqual(expected);
    }
  });

  it('stop at the largest machine', () => {
    const nearest = nearestSlotCounts({ slots: 2399, poles: 2, phases: three, layers: 2, span: 4 });
    expect(nearest).toEqual([2394, 2397, 2400]);
  });
});

describe('the rule of balance', () => {
  it('is stated with its numbers', () => {
    expect(balanceRule({ slots: 48, poles: 8, phases: three, layers: 2, span: 5 })).toEqual({
      coilsAre: 'slots',
      coils: 48,
      share: 3,
      commonDivisor: 4,
      quotient: '4',
      met: true,
    });
    expect(balanceRule({ slots: 18, poles: 16, phases: three, layers: 1, span: 1 })).toEqual({
      coilsAre: 'half-the-slots',
      coils: 9,
      share: 3,
      commonDivisor: 1,
      quotient: '3',
      met: true,
    });
  });
});
