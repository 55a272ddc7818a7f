import { describe, expect, it } from 'vitest';
import { route } from '../../core/routing/route.ts';
import { withMore } from '../support/tries.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';

// Whether legs cross depends on the heights of joints. Where a text gives no sizes of its bar ends, the
// counts of the studied cases hold (routingCases.ts).

const nodeBudget = 400_000;

describe('without sizes of bar ends, counts go before legs that might pass above joints', () => {
  const cases: readonly [MachineRequest, number, { jumpers: number; specialJoints: number }][] = withMore(
    [[{ slots: 48, poles: 8, layers: 6 }, 4, { jumpers: 0, specialJoints: 12 }]],
    [
      [{ slots: 54, poles: 6, layers: 8 }, 3, { jumpers: 1, specialJoints: 27 }],
      [{ slots: 72, poles: 8, layers: 6 }, 6, { jumpers: 0, specialJoints: 12 }],
    ],
  );
  for (const [request, paths, counts] of cases)
    it(`${request.slots} slots, ${request.poles} poles, ${request.layers} layers, ${paths} paths`, () => {
      const result = route(machine(request), { paths, nodeBudget });
      if (!result.ok) throw new Error('refused');
      expect(result.explanation.measure.jumpers).toBeLessThanOrEqual(counts.jumpers);
      expect(result.explanation.measure.specialJoints).toBeLessThanOrEqual(counts.specialJoints);
    });
});
