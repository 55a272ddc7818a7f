import { expect, it } from 'vitest';
import { keeping } from './keeping.ts';

it('what is dear outlives what is asked for once, and goes when it is not asked for any more', () => {
  let clock = 0;
  const keep = keeping<string>(3, () => clock);
  const made: string[] = [];
  const ask = (key: string, cost: number) =>
    keep(key, () => {
      clock += cost;
      made.push(key);
      return `made ${key}`;
    });
  expect(ask('dear', 10)).toBe('made dear');
  for (const key of ['a', 'b', 'c', 'd']) ask(key, 1);
  expect(ask('dear', 10)).toBe('made dear');
  expect(ask('d', 1)).toBe('made d');
  expect(made).toEqual(['dear', 'a', 'b', 'c', 'd']);
  // Each that goes raises what the next one is worth, until that is more than the dear one is.
  for (let index = 0; index < 40; index++) ask(`${index}`, 1);
  ask('dear', 10);
  expect(made.filter((key) => key === 'dear')).toHaveLength(2);
});
