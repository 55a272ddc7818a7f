import type { Picture, Primitive } from '../picture.ts';

/** A picture that is to scale, in the size of what it shows; any other as it is on paper. */
export function fullSize(picture: Picture): Picture {
  const factor = fullSizeFactor(picture);
  if (factor === 1) return picture;
  return {
    ...picture,
    width: picture.width * factor,
    height: picture.height * factor,
    items: picture.items.map((item) => sized(item, factor)),
  };
}

/** What lengths on paper are multiplied by: one over the scale. Throws RangeError for a scale that is not above 0. */
export function fullSizeFactor({ scale }: Picture): number {
  if (scale === undefined) return 1;
  if (!(scale > 0)) throw new RangeError(`a picture's scale must be above 0, got ${scale}`);
  return 1 / scale;
}

function sized(item: Primitive, factor: number): Primitive {
  const all = (lengths: readonly number[]) => lengths.map((length) => length * factor);
  switch (item.kind) {
    case 'line':
      return {
        ...item,
        x1: item.x1 * factor,
        y1: item.y1 * factor,
        x2: item.x2 * factor,
        y2: item.y2 * factor,
      };
    case 'polyline':
    case 'polygon':
      return { ...item, points: all(item.points) };
    case 'path':
      return { ...item, parts: item.parts.map(all) };
    case 'arc':
      return { ...item, x: item.x * factor, y: item.y * factor, radius: item.radius * factor };
    case 'text':
      return {
        ...item,
        x: item.x * factor,
        y: item.y * factor,
        size: item.size * factor,
        width: item.width * factor,
      };
    case 'group':
      return { ...item, items: item.items.map((part) => sized(part, factor)) };
  }
}
