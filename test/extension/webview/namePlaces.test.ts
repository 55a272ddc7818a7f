import { expect, test } from 'vitest';
import { type NamedEnd, placeNames } from '../../../extension/webview/space/namePlaces.ts';

// Names of terminals over the bars in space: 24 x 16 pixels each, in an area of 400 x 300.

const area = { width: 400, height: 300 };
const size = { width: 24, height: 16 };
const named = (text: string, x: number, y = 150): NamedEnd => ({ text, at: { x, y }, size });

const box = ({ corner }: { readonly corner: { readonly x: number; readonly y: number } }) => ({
  left: corner.x,
  right: corner.x + size.width,
  top: corner.y,
  bottom: corner.y + size.height,
});

test('a name stands over its end', () => {
  expect(placeNames([named('U1', 100)], area)).toEqual([{ corner: { x: 88, y: 128 }, line: null }]);
});

test('names of ends that stand near each other are all shown, and none on another', () => {
  // Of a delta: each finish is a slot from the start that it is joined with, and another end far off.
  for (const apart of [2, 6, 9, 12, 15, 20, 24]) {
    const ends = [
      named('U2', 200),
      named('V1', 200 + apart),
      named('W1', 300),
      named('W2', 300 + apart, 152),
    ];
    const places = placeNames(ends, area).map((place) => box(place!));
    for (const [index, one] of places.entries())
      for (const other of places.slice(0, index))
        expect(
          one.right <= other.left ||
            other.right <= one.left ||
            one.bottom <= other.top ||
            other.bottom <= one.top,
          `${apart} pixels apart`,
        ).toBe(true);
  }
});

test('a name that does not stand over its end has a line to it, and lines keep off names', () => {
  const ends = [named('U2', 200), named('V1', 203)];
  const [first, second] = placeNames(ends, area);
  expect(first!.line).toBeNull();
  const [line, names] = [second!.line!, box(first!)];
  expect(line.y).toBe(box(second!).bottom);
  expect(line.x).toBeGreaterThanOrEqual(box(second!).left);
  expect(line.x).toBeLessThanOrEqual(box(second!).right);
  const middle = (203 + line.x) / 2;
  expect(middle > names.left && middle < names.right && line.y < names.top).toBe(false);
});

test('an end behind the name of another is named all the same', () => {
  const places = placeNames([named('U1', 226, 140), named('U2', 200), named('V1', 206, 138)], area);
  expect(places.every((place) => place !== null)).toBe(true);
});

test('the same name is shown once where its ends stand together', () => {
  expect(placeNames([named('U1', 200), named('U1', 210)], area).map((place) => place === null)).toEqual([
    false,
    true,
  ]);
});

test('a name is whole at the edge of the area, and follows its end out of it', () => {
  const [atTop, atLeft, gone] = placeNames([named('U1', 100, 5), named('V1', 2), named('W1', -40)], area);
  expect(atTop!.corner.y).toBe(0);
  expect(atLeft!.corner.x).toBe(0);
  expect(gone!.corner.x).toBe(-52);
});
