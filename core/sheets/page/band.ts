import { plural } from '../../language/lists.ts';
import { filledShape, pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { Area } from './format.ts';
import { line, widthOf } from './text.ts';

export const bandHeight = 10;

const stripe = 3;

/** A hatched band across the sheet that says, in words, that it is not released. */
export function notReleasedBand({ left, right, top }: Area, errors: number): readonly Primitive[] {
  const bottom = top + bandHeight;
  const words = `NOT RELEASED: ${plural(errors, 'error')}`;
  const middle = (left + right) / 2;
  // Room for bold letters, which are wider in some programs.
  const half = (1.15 * widthOf(words, 5)) / 2 + 3;
  const outline = [left, top, right, top, right, bottom, left, bottom, left, top];
  return [
    filledShape('band-hatch', 'band-hatch', [
      ...stripes(left, middle - half, top, bottom),
      ...stripes(middle + half, right, top, bottom),
    ]),
    pathShape('band-outline', 'band-line', [outline]),
    line('band-words', 'band-text', middle, (top + bottom) / 2 + 2.5, words, { height: 5, anchor: 'middle' }),
  ];
}

/** Slanting stripes between two heights, all wholly within left and right. */
function stripes(left: number, right: number, top: number, bottom: number): readonly PathPart[] {
  const slant = bottom - top;
  const parts: PathPart[] = [];
  for (let x = left; x + slant + stripe <= right; x += 2 * stripe)
    parts.push([x, bottom, x + slant, top, x + slant + stripe, top, x + stripe, bottom]);
  return parts;
}
