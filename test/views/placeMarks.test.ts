import { expect, test } from 'vitest';
import type { NearPlace } from '../../core/views/space/nearPlaces.ts';
import { type MarkGround, placeMarks } from '../../core/views/space/placeMarks.ts';

const place = (letter: string) => ({ letter, collides: true, judged: true }) as NearPlace;
/** Places that stand at these spots, with room for letters where it is said to be. */
const marksAt = (spots: readonly (readonly [number, number])[], clear: MarkGround['clear']) => {
  const places = spots.map((_, index) => place('ABC'[index]!));
  const { letters } = placeMarks(places, {
    spotOf: (each) => spots[places.indexOf(each)]!,
    inSight: () => true,
    clear,
  });
  return letters.map(({ text, x, y }) => [text, Math.round(x), Math.round(y)]);
};

test('letters stand above their places, and where one stands already, beside it', () => {
  const letters = marksAt(
    [
      [0, 0],
      [2, 0],
    ],
    () => true,
  );
  expect(letters[0]).toEqual(['A', 0, -6]);
  expect(letters.map(([letter]) => letter)).toEqual(['A', 'B']);
});

test('no line leads through a letter: where there is no other way, a place has none', () => {
  const inLine = [
    [0, 0],
    [0, 8],
  ] as const;
  // Room above alone, where the letter of the first stands in the way of the second.
  expect(marksAt(inLine, ([x, y]) => Math.abs(x) < 0.5 && y < 0)).toEqual([['A', 0, -6]]);
  expect(marksAt(inLine, ([, y]) => y < 0)).toHaveLength(2);
});
