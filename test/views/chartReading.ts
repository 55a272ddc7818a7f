import { expect } from 'vitest';
import type { Specification } from '../../core/language/specification/specification.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import type { PathShape, Picture, Text } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { flat, readXml, troublesOf } from '../picture/checkPicture.ts';

/** What a text says, typed. */
export function specificationOf(text: string): Specification {
  return specify(parse(text));
}

/** Fails for a picture with troubles, or one that is no SVG. */
export function expectGood(picture: Picture): Picture {
  expect(troublesOf(picture)).toEqual([]);
  readXml(pictureToSvg(picture));
  expect(picture.title).not.toBe('');
  expect(picture.description.length).toBeGreaterThan(40);
  return picture;
}

export function textsOf(picture: Picture): readonly Text[] {
  return flat(picture.items).filter((item): item is Text => item.kind === 'text');
}

export function textOf(picture: Picture, id: string): Text {
  const found = textsOf(picture).find((item) => item.id === id);
  if (!found) throw new RangeError(`no text ${id}`);
  return found;
}

export function pathOf(picture: Picture, id: string): PathShape {
  const found = flat(picture.items).find((item) => item.id === id);
  if (found?.kind !== 'path') throw new RangeError(`no path ${id}`);
  return found;
}

export function pathsOf(picture: Picture, start: string): readonly PathShape[] {
  return flat(picture.items).filter(
    (item): item is PathShape => item.kind === 'path' && item.id.startsWith(start),
  );
}

/** The value that a linear y axis has at a place on paper, read off the numbers beside it. */
export function valuesAtHeight(picture: Picture, id: string): (y: number) => number {
  const marks = textsOf(picture).filter(
    (item) => item.id.startsWith(`${id}-y-`) && item.role === 'axis-number',
  );
  const [low, high] = [marks[0]!, marks.at(-1)!].map((mark) => ({
    y: mark.y,
    value: Number(mark.text.replace('\u2212', '-')),
  }));
  // Numbers stand 0.9 mm below their line.
  return (y) => low!.value + ((y + 0.9 - low!.y) / (high!.y - low!.y)) * (high!.value - low!.value);
}
