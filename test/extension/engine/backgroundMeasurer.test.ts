import { expect, test } from 'vitest';
import type { NearEnds } from '../../../core/facts/ends.ts';
import type { Work } from '../../../core/figures/work.ts';
import { createBackgroundMeasurer } from '../../../extension/engine/backgroundMeasurer.ts';

const measured: NearEnds = { places: [], freed: new Map() };

/** Work of some steps, each of which takes a millisecond of a clock of its own. */
function clockwork() {
  const waiting: (() => void)[] = [];
  const clock = { time: 0 };
  const ends = (name: string, count: number): Work<NearEnds> => ({
    kind: 'near-ends',
    key: () => name,
    *steps() {
      for (let step = 0; step < count; step++) {
        clock.time++;
        yield;
      }
      return measured;
    },
  });
  const surroundings = { now: () => clock.time, later: (work: () => void) => void waiting.push(work) };
  return { waiting, clock, ends, surroundings };
}

test('measures after the keystroke, in slices of eight milliseconds, and tells when it is done', () => {
  const { waiting, clock, ends, surroundings } = clockwork();
  let found = 0;
  const measure = createBackgroundMeasurer(surroundings, () => found++);
  expect(measure(ends('a', 20))).toBeNull();
  expect(clock.time).toBe(0);
  const slices: number[] = [];
  while (waiting.length > 0) {
    const before = clock.time;
    waiting.shift()!();
    slices.push(clock.time - before);
  }
  expect(slices).toEqual([8, 8, 4]);
  expect(found).toBe(1);
  expect(measure(ends('a', 20))).toBe(measured);
});

test('drops the work at hand for other bar ends, and measures none twice', () => {
  const { waiting, ends, surroundings } = clockwork();
  let found = 0;
  const measure = createBackgroundMeasurer(surroundings, () => found++);
  measure(ends('a', 3));
  measure(ends('b', 3));
  measure(ends('b', 3));
  expect(waiting).toHaveLength(2);
  while (waiting.length > 0) waiting.shift()!();
  expect(found).toBe(1);
  expect(measure(ends('b', 3))).toBe(measured);
  expect(measure(ends('a', 3))).toBeNull();
});

test('throws what the work threw at who asks, instead of letting wait for ever', () => {
  const { waiting, ends, surroundings } = clockwork();
  let found = 0;
  const measure = createBackgroundMeasurer(surroundings, () => found++);
  const broken: Work<NearEnds> = {
    ...ends('a', 1),
    *steps() {
      yield;
      throw new Error('no bars');
    },
  };
  expect(measure(broken)).toBeNull();
  while (waiting.length > 0) waiting.shift()!();
  expect(found).toBe(1);
  expect(() => measure(broken)).toThrow('no bars');
});

test('keeps of each kind what was asked for last, however long it has been there', () => {
  const { waiting, ends, surroundings } = clockwork();
  const measure = createBackgroundMeasurer(surroundings, () => {});
  const measureAll = (name: string) => {
    measure(ends(name, 1));
    while (waiting.length > 0) waiting.shift()!();
  };
  // A text, and one step after the other of a number in it: the text is asked for again after each.
  measureAll('text');
  for (let step = 0; step < 12; step++) {
    measureAll(`step ${step}`);
    expect(measure(ends('text', 1)), `after step ${step}`).toBe(measured);
  }
  expect(measure(ends('step 11', 1))).toBe(measured);
  expect(measure(ends('step 5', 1))).toBe(measured);
  expect(measure(ends('step 4', 1))).toBeNull();
});
