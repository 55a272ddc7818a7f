import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sortedByKey } from '../../core/winding/joints/order.ts';

describe('sorting by key', () => {
  it('agrees with a stable comparing sort', () => {
    const items = fc.array(fc.record({ key: fc.nat(9), name: fc.nat() }), { maxLength: 40 });
    fc.assert(
      fc.property(items, (list) => {
        const compared = [...list].sort((a, b) => a.key - b.key);
        expect(sortedByKey(list, 10, (item) => item.key)).toEqual(compared);
      }),
      { seed: 20260501 },
    );
  });

  it('refuses keys out of range', () => {
    for (const key of [-1, 3, 0.5, Number.NaN]) {
      expect(() => sortedByKey([key], 3, (item) => item)).toThrow(RangeError);
    }
  });
});
