import type { Picture, Primitive } from '../picture/picture.ts';

/** Pictures one above the other, with ids that stay unique; `title` names them all, by default as the last. */
export function stacked(pictures: readonly Picture[], title?: string): Picture {
  const [first] = pictures;
  if (!first) throw new RangeError('at least one picture expected, got none');
  if (pictures.length === 1) return first;
  let top = 0;
  const items = pictures.flatMap((picture, i) => {
    const moved = picture.items.map((item) => movedDown(item, top, `part-${i + 1}-`));
    top += picture.height;
    return moved;
  });
  return {
    width: Math.max(...pictures.map(({ width }) => width)),
    height: top,
    title: title ?? pictures[pictures.length - 1]!.title,
    description: pictures.map(({ description }) => description).join(' '),
    items,
  };
}

function movedDown(item: Primitive, by: number, prefix: string): Primitive {
  const id = prefix + item.id;
  const down = (points: readonly number[]) => points.map((value, i) => (i % 2 === 0 ? value : value + by));
  switch (item.kind) {
    case 'line':
      return { ...item, id, y1: item.y1 + by, y2: item.y2 + by };
    case 'polyline':
    case 'polygon':
      return { ...item, id, points: down(item.points) };
    case 'path':
      return { ...item, id, parts: item.parts.map(down) };
    case 'text':
    case 'arc':
      return { ...item, id, y: item.y + by };
    case 'group':
      return { ...item, id, items: item.items.map((part) => movedDown(part, by, prefix)) };
  }
}
