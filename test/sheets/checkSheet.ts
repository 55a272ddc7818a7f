import { type Box, primitiveBox, textBox } from '../../core/picture/bounds.ts';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { flat } from '../picture/checkPicture.ts';

/** A straight stretch of a line. */
interface Stretch {
  readonly id: string;
  readonly role: Primitive['role'];
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

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
  const boxes = texts.map((text) => ({ text, box: inkBox(text) })).sort((a, b) => a.box.left - b.box.left);
  const troubles: string[] = [];
  for (const stretch of items.flatMap(stretchesOf)) {
    const [left, right] = [
      Math.min(stretch.from[0], stretch.to[0]),
      Math.max(stretch.from[0], stretch.to[0]),
    ];
    for (const { text, box } of boxes) {
      if (box.left > right) break;
      if (box.right < left || meant[text.role]?.includes(stretch.role)) continue;
      if (passes(stretch, box)) troubles.push(`${stretch.id} runs through ${text.id} (${text.text})`);
    }
  }
  return [...new Set(troubles)];
}

function stretchesOf(item: Primitive): readonly Stretch[] {
  const { id, role } = item;
  const runs = (points: readonly number[]): readonly Stretch[] =>
    Array.from({ length: Math.max(0, points.length / 2 - 1) }, (_, index) => ({
      id,
      role,
      from: [points[2 * index]!, points[2 * index + 1]!] as const,
      to: [points[2 * index + 2]!, points[2 * index + 3]!] as const,
    }));
  switch (item.kind) {
    case 'line':
      return runs([item.x1, item.y1, item.x2, item.y2]);
    case 'polyline':
      return runs(item.points);
    case 'polygon':
      return runs([...item.points, ...item.points.slice(0, 2)]);
    case 'path':
      return item.parts.flatMap((part) => runs(item.filled ? [...part, ...part.slice(0, 2)] : part));
    case 'arc':
      return runs(
        Array.from({ length: 73 }, (_, step) => (step * Math.PI) / 36).flatMap((turn) => [
          item.x + item.radius * Math.cos(turn),
          item.y + item.radius * Math.sin(turn),
        ]),
      );
    default:
      return [];
  }
}

/** Liang and Barsky's test of a stretch against a box (ACM Transactions on Graphics 3, 1984). */
function passes({ from, to }: Stretch, box: Box): boolean {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [-dx, from[0] - box.left],
    [dx, box.right - from[0]],
    [-dy, from[1] - box.top],
    [dy, box.bottom - from[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false;
      continue;
    }
    if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  return enter < leave;
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
