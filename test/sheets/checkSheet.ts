import { type Box, primitiveBox, textBox } from '../../core/picture/bounds.ts';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { flat } from '../picture/checkPicture.ts';

/** Words that stand on or at lines of these roles by their nature. */
const meant: Partial<Record<Primitive['role'], readonly Primitive['role'][]>> = {
  'cut-number': ['cut-leader'],
};

const descending = /[gjpqyQ,;()ß\u00c0-\uffff]/;

/** What a line of text inks: from its capitals' top to its base line, or to the feet of letters below it. */
export function inkBox(text: Text): Box {
  const box = textBox(text);
  const feet = descending.test(text.text) ? 0.22 * text.size : 0;
  return { ...box, top: text.y - 0.76 * text.size, bottom: text.y + feet };
}

/** Places where lines of a sheet run through words, in words; empty for a good one. */
export function crossedTexts(picture: Picture): readonly string[] {
  const items = flat(picture.items);
  const texts = items.filter((item): item is Text => item.kind === 'text');
  const boxes = texts.map((text) => ({ text, box: inkBox(text) }));
  // By the squares of a grid that they lie in, for there are thousands of stretches.
  const squares = new Map<number, (typeof boxes)[number][]>();
  for (const each of boxes)
    eachSquare(each.box, (square) => {
      const known = squares.get(square);
      if (known) known.push(each);
      else squares.set(square, [each]);
    });
  const troubles = new Set<string>();
  for (const item of items)
    eachStretch(item, (x1, y1, x2, y2) => {
      const [left, right] = x1 < x2 ? [x1, x2] : [x2, x1];
      const [top, bottom] = y1 < y2 ? [y1, y2] : [y2, y1];
      eachSquare({ left, right, top, bottom }, (square) => {
        for (const { text, box } of squares.get(square) ?? []) {
          if (box.left > right || box.right < left || box.bottom < top || box.top > bottom) continue;
          if (!passes(x1, y1, x2, y2, box) || meant[text.role]?.includes(item.role)) continue;
          troubles.add(`${item.id} runs through ${text.id} (${text.text})`);
        }
      });
    });
  return [...troubles];
}

/** Every square of a grid of 10 mm that a box reaches into, by a number of its own. */
function eachSquare({ left, right, top, bottom }: Box, take: (square: number) => void): void {
  const far = Math.floor(right / 10);
  const low = Math.floor(bottom / 10);
  for (let row = Math.floor(top / 10); row <= low; row++)
    for (let column = Math.floor(left / 10); column <= far; column++) take(row * 1_000_000 + column);
}

type TakeStretch = (x1: number, y1: number, x2: number, y2: number) => void;

/** Every straight stretch of what is drawn, from its beginning to its end. */
function eachStretch(item: Primitive, take: TakeStretch): void {
  switch (item.kind) {
    case 'line':
      take(item.x1, item.y1, item.x2, item.y2);
      break;
    case 'polyline':
      eachOfRun(item.points, false, take);
      break;
    case 'polygon':
      eachOfRun(item.points, true, take);
      break;
    case 'path':
      for (const part of item.parts) eachOfRun(part, item.filled === true, take);
      break;
    case 'arc': {
      const turns = Array.from({ length: 73 }, (_, step) => (step * Math.PI) / 36);
      const { x, y, radius } = item;
      const points = turns.flatMap((turn) => [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]);
      eachOfRun(points, false, take);
    }
  }
}

function eachOfRun(points: readonly number[], closed: boolean, take: TakeStretch): void {
  for (let at = 0; at + 3 < points.length; at += 2)
    take(points[at]!, points[at + 1]!, points[at + 2]!, points[at + 3]!);
  if (closed) take(points.at(-2)!, points.at(-1)!, points[0]!, points[1]!);
}

/** Liang and Barsky's test of a stretch against a box (ACM Transactions on Graphics 3, 1984). */
function passes(x1: number, y1: number, x2: number, y2: number, box: Box): boolean {
  let [enter, leave] = [0, 1];
  const cut = (step: number, room: number): boolean => {
    if (step === 0) return room >= 0;
    if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
    return true;
  };
  return (
    cut(x1 - x2, x1 - box.left) &&
    cut(x2 - x1, box.right - x1) &&
    cut(y1 - y2, y1 - box.top) &&
    cut(y2 - y1, box.bottom - y1) &&
    enter < leave
  );
}

/** Contents that reach out of the frame, in words. The frame is the drawing space of ISO 5457. */
export function outsideFrame(picture: Picture): readonly string[] {
  const frame = { left: 20, top: 10, right: picture.width - 10, bottom: picture.height - 10 };
  return picture.items.flatMap((item) => {
    if (item.id === 'sheet' || item.id === 'title-block' || item.id === 'foot-rule') return [];
    const box = primitiveBox(item);
    if (box === null) return [];
    const inside =
      box.left >= frame.left &&
      box.top >= frame.top &&
      box.right <= frame.right &&
      box.bottom <= frame.bottom;
    return inside ? [] : [`${item.id} reaches out of the frame`];
  });
}

/** Groups of a sheet that lie over each other, in words: parts, title block, foot, band. */
export function overlappingGroups(picture: Picture): readonly string[] {
  const groups = picture.items.filter((item) => item.kind === 'group' && item.id !== 'sheet');
  const boxes = groups.map((item) => ({ id: item.id, box: primitiveBox(item)! }));
  return boxes.flatMap(({ id, box }, index) =>
    boxes.slice(index + 1).flatMap((other) => {
      const apart =
        box.right <= other.box.left ||
        other.box.right <= box.left ||
        box.bottom <= other.box.top ||
        other.box.bottom <= box.top;
      return apart ? [] : [`${id} and ${other.id} overlap`];
    }),
  );
}
