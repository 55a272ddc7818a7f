import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spreadApart } from '../../core/sheets/sketches/dimension.ts';

// Texts of 2.5 mm need 4.1 mm from base line to base line.
const pitch = 4.1;

test('words that all belong at one height stand evenly about it, however many', () => {
  // Found by making sheets of generated windings: nine heights at one place still overlapped.
  for (const count of [2, 9, 40]) {
    const bases = spreadApart(new Array<number>(count).fill(7));
    bases.forEach((base, i) => {
      expect(base).toBeCloseTo(7 + (i - (count - 1) / 2) * pitch, 9);
    });
  }
});

test('the order stays, none overlaps the next, and what has room is not moved', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -300, max: 300 }), { maxLength: 12 }), (tenths) => {
      const wanted = tenths.map((tenth) => tenth / 10);
      const bases = spreadApart(wanted);
      const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]!);
      for (let i = 1; i < order.length; i++)
        expect(bases[order[i]!]! - bases[order[i - 1]!]!).toBeGreaterThan(pitch - 1e-9);
      const sum = (list: readonly number[]) => list.reduce((total, each) => total + each, 0);
      expect(sum(bases)).toBeCloseTo(sum(wanted), 6);
    }),
    { seed: 4, numRuns: 60 },
  );
  expect(spreadApart([20, 0, 4.1])).toEqual([20, 0, 4.1]);
});
