import { expect, it } from 'vitest';
import { farthest } from './near.ts';

it('the largest difference of two lists is that of their worst place, and none where they cannot be compared', () => {
  expect(farthest([1, 2, 3], [1, 2.5, 2.75])).toBe(0.5);
  expect(farthest([1, 2], [1, 2])).toBe(0);
  expect(farthest([1], [1, 2])).toBeNaN();
  expect(farthest([], [])).toBeNaN();
  expect(farthest([Number.NaN, 1], [1, 5])).toBeNaN();
  expect(farthest([1, 1], [5, undefined as unknown as number])).toBeNaN();
});
