// Takes its time: studies whole windings.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { copperCurves } from '../../core/copper/curves.ts';
import { tries } from '../support/tries.ts';
import { crossedDrive, examine, ferryDrive, partsOf } from './machines.ts';

// Statements that only widen or shrink a number; slots, poles, layers and the like stay.
const changeable =
  /^(bore|outside|stack|air-gap|magnet-height|speed|flux|current|winding-temperature|end-temperature|width|depth|opening|opening-height|wedge|liner|side-conductance|height|corner|coating|end-straight|end-clearance|joint-straight) /;

/** Every number found in a result, with its place. */
function numbersIn(value: unknown, place = ''): [string, number][] {
  if (typeof value === 'number') return [[place, value]];
  if (value === null || typeof value !== 'object' || place.endsWith('byPlace')) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${place}.${key}`));
}

describe('whatever a text says', () => {
  it('every figure is finite or missing, and nothing throws', () => {
    const machine = fc.constantFrom(ferryDrive, crossedDrive);
    const change = fc.constantFrom(null, 0, 1e-3, 0.1, 0.7, 1, 1, 1, 1.4, 10, 1000);
    fc.assert(
      fc.property(machine, fc.array(change, { minLength: 40, maxLength: 40 }), (text, changes) => {
        let next = 0;
        const changed = text
          .split('\n')
          .flatMap((line) => {
            if (!changeable.test(line.trim()) || line.includes('{')) return [line];
            const factor = changes[next++ % 40]!;
            if (factor === null) return [];
            return [
              line.replace(
                /(\d+(?:\.\d+)?) (mm|rpm|mWb|A|degC|W)/,
                (_, n, unit) => `${(Number(n) * factor).toFixed(6)} ${unit}`,
              ),
            ];
          })
          .join('\n');
        const { copper, emf, input } = examine(changed);
        const numbers = numbersIn({ copper, emf, curves: copperCurves(input, partsOf(input)) });
        expect(numbers.length).toBeGreaterThan(0);
        expect(numbers.filter(([, number]) => !Number.isFinite(number))).toEqual([]);
      }),
      { seed: 4151, numRuns: tries(40) },
    );
  });
});
