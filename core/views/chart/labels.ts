import { type Box, textBox } from '../../picture/bounds.ts';
import type { Text } from '../../picture/picture.ts';

/** Whether two boxes have common ground. */
export function boxesMeet(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/** A box with room all round. */
function widened({ left, top, right, bottom }: Box, by: number): Box {
  return { left: left - by, top: top - by, right: right + by, bottom: bottom + by };
}

/**
 * The texts that can stand together: each is kept if it stays clear of those kept before it and of
 * `taken`, by `gap` millimeters. Put the important ones first.
 */
export function clearTexts(texts: readonly Text[], taken: readonly Text[] = [], gap = 0.3): readonly Text[] {
  // Boxes by columns of paper, so that a thousand texts need no million comparisons.
  const column = 20;
  const columns = new Map<number, Box[]>();
  const columnsOf = (box: Box): readonly number[] => {
    const first = Math.floor(box.left / column);
    return Array.from({ length: Math.floor(box.right / column) - first + 1 }, (_, index) => first + index);
  };
  const place = (box: Box): void => {
    for (const key of columnsOf(box)) {
      const boxes = columns.get(key);
      if (boxes) boxes.push(box);
      else columns.set(key, [box]);
    }
  };
  for (const text of taken) place(textBox(text));
  return texts.filter((text) => {
    const box = textBox(text);
    const wide = widened(box, gap);
    if (columnsOf(wide).some((key) => columns.get(key)?.some((other) => boxesMeet(wide, other))))
      return false;
    place(box);
    return true;
  });
}

/** Every n-th text, n the smallest of 1, 2, 5, 10, 20 ... at which all stay clear of each other. */
export function thinnedTexts(texts: readonly Text[], gap = 0.3): readonly Text[] {
  for (let index = 0, step = 1; ; step *= stepFactors[index % 3]!, index++) {
    const some = texts.filter((_, place) => place % step === 0);
    if (some.length <= 1 || clearTexts(some, [], gap).length === some.length) return some;
  }
}

const stepFactors = [2, 2.5, 2];

/** A straight stretch of a line: from and to. */
export type Stretch = readonly [x1: number, y1: number, x2: number, y2: number];

/** The straight stretches of a run of points. */
export function stretchesOf(points: readonly number[]): readonly Stretch[] {
  return Array.from({ length: Math.max(0, points.length / 2 - 1) }, (_, index): Stretch => {
    const at = 2 * index;
    return [points[at]!, points[at + 1]!, points[at + 2]!, points[at + 3]!];
  });
}

/** Whether a stretch has a point in a box: what Liang and Barsky's clipping leaves of it (ACM TOG 3, 1984). */
export function stretchMeets([x1, y1, x2, y2]: Stretch, box: Box): boolean {
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [x1 - x2, x1 - box.left],
    [x2 - x1, box.right - x1],
    [y1 - y2, y1 - box.top],
    [y2 - y1, box.bottom - y1],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false;
    } else if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  return enter <= leave;
}

/**
 * The first of some places of each text that is clear of all lines, of the texts before it and of `standing` ones;
 * without one it is left out.
 */
export function placedTexts(
  choices: readonly (readonly Text[])[],
  lines: readonly Stretch[],
  gap = 0.2,
  standing: readonly Text[] = [],
): readonly Text[] {
  const taken = standing.map(textBox);
  return choices.flatMap((places) => {
    for (const text of places) {
      const box = textBox(text);
      const wide = widened(box, gap);
      if (taken.some((other) => boxesMeet(wide, other))) continue;
      if (lines.some((stretch) => stretchMeets(stretch, wide))) continue;
      taken.push(box);
      return [text];
    }
    return [];
  });
}
