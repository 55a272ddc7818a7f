import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { collection, type Kept, type Order } from '../../core/variants/collect.ts';

const order: readonly Order[] = [
  { better: 'least', figure: 0 },
  { better: 'most', figure: 1 },
];
const rows = fc
  .array(fc.tuple(fc.option(fc.integer({ min: 0, max: 6 })), fc.integer({ min: 0, max: 6 })), {
    maxLength: 40,
  })
  .map((pairs) => pairs.map((figures, at): Kept => ({ number: at + 1, figures })));

const worth = ({ figures: [a, b] }: Kept) => [a ?? Number.POSITIVE_INFINITY, -b!] as const;
const inOrder = (a: Kept, b: Kept) => {
  const [x, y] = [worth(a), worth(b)];
  return (x[0] === y[0] ? 0 : x[0] - y[0]) || x[1] - y[1] || a.number - b.number;
};
const beats = (a: Kept, b: Kept) => {
  const [x, y] = [worth(a), worth(b)];
  return x[0] <= y[0] && x[1] <= y[1] && (x[0] < y[0] || x[1] < y[1]);
};
const numbers = (kept: readonly Kept[] | null) => kept!.map(({ number }) => number);

describe('a collection', () => {
  it('holds the best, and the front, of whatever came in whatever order', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 0, max: 8 }), (all, top) => {
        const collected = collection(order, top);
        for (const row of [...all].reverse()) collected.kept(row);
        const sorted = [...all].sort(inOrder);
        expect(numbers(collected.best())).toEqual(numbers(sorted.slice(0, top)));
        expect(numbers(collected.front())).toEqual(
          numbers(sorted.filter((row) => !all.some((other) => beats(other, row)))),
        );
        expect(collected.frontCut()).toBe(false);
      }),
      { seed: 20260501, numRuns: 60 },
    );
  });

  it('tells a front that is larger than it can hold, and holds the first of it', () => {
    const all = Array.from({ length: 30 }, (_, at): Kept => ({ number: at + 1, figures: [at, at] }));
    const collected = collection(order, 3, 10);
    for (const row of [...all].reverse()) collected.kept(row);
    expect(collected.frontCut()).toBe(true);
    expect(numbers(collected.front())).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(collected.counts().kept).toBe(30);
  });

  it('has no front where one quantity ranks, and the order of numbers where none does', () => {
    const one = collection(order.slice(0, 1), 2);
    const none = collection([], 2);
    for (const collected of [one, none])
      for (const row of [3, 1, 2]) collected.kept({ number: row, figures: [-row] });
    expect(one.front()).toBeNull();
    expect(numbers(one.best())).toEqual([3, 2]);
    expect(numbers(none.best())).toEqual([1, 2]);
  });

  it('does not tell apart what differs by rounding', () => {
    const collected = collection(order, 5);
    collected.kept({ number: 2, figures: [0.3, 1] });
    collected.kept({ number: 1, figures: [0.1 + 0.2, 1] });
    expect(numbers(collected.front())).toEqual([1, 2]);
  });
});
