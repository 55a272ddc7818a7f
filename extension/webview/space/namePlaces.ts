import type { Pixels, Size } from '../viewport/viewport.ts';

/** An end that has a name, and how large the name is: pixels of the area. */
export interface NamedEnd {
  readonly text: string;
  readonly at: Pixels;
  readonly size: Size;
}

/** Where a name lies: its upper left corner, and where the line from its end meets it, if it stands off. */
export interface NamePlace {
  readonly corner: Pixels;
  readonly line: Pixels | null;
}

/** Pixels between an end and the foot of its name, and between names. */
const lift = 6;
const parted = 2;
/** Parts of a line between the points at which it is looked at. */
const linePoints = 12;

interface Box extends Pixels, Size {}

/**
 * A place for each name, none on another and all within the area where their ends are: above its end, or a little
 * aside so that it still stands over it, or higher up at a line. Null where the same name lies there already, or
 * where all is taken.
 */
export function placeNames(ends: readonly NamedEnd[], area: Size): readonly (NamePlace | null)[] {
  const taken: { readonly text: string; readonly box: Box }[] = [];
  return ends.map(({ text, at, size }) => {
    const { width, height } = size;
    const inside = at.x >= 0 && at.x <= area.width && at.y >= 0 && at.y <= area.height;
    const home = { x: at.x - width / 2, y: at.y - height - lift, width, height };
    const seen = inside ? within(home, area) : home;
    if (taken.some((other) => other.text === text && overlap(other.box, seen))) return null;
    const free = steps(size).flatMap(({ right, up }) => {
      const box = { ...seen, x: seen.x + right, y: seen.y - up };
      if ((inside && within(box, area) !== box) || taken.some((other) => overlap(other.box, box))) return [];
      const over = up === 0 && Math.abs(right) <= width / 2;
      return [{ box, line: over ? null : { x: clamped(at.x, box.x, box.x + width), y: box.y + height } }];
    });
    // An end behind another's name has a line under that name.
    const clear = free.find(({ line }) => !line || !taken.some((other) => crosses(other.box, at, line)));
    const place = clear ?? free[0];
    if (!place) return null;
    taken.push({ text, box: place.box });
    return { corner: { x: place.box.x, y: place.box.y }, line: place.line };
  });
}

/** Steps from above the end, the nearest first. */
function steps({ width, height }: Size): readonly { readonly right: number; readonly up: number }[] {
  const over = [0, 0.25, -0.25, 0.5, -0.5].map((share) => ({ right: share * width, up: 0 }));
  const off = [0, 1, 2, 3].flatMap((line) =>
    [0, 0.5, -0.5, 1, -1].map((share) => ({ right: share * (width + parted), up: line * (height + parted) })),
  );
  return [...over, ...off];
}

/** The box itself where it lies in the area, or moved into it. */
function within(box: Box, area: Size): Box {
  const x = clamped(box.x, 0, Math.max(area.width - box.width, 0));
  const y = clamped(box.y, 0, Math.max(area.height - box.height, 0));
  return x === box.x && y === box.y ? box : { ...box, x, y };
}

function clamped(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}

function overlap(one: Box, other: Box): boolean {
  return (
    one.x < other.x + other.width &&
    other.x < one.x + one.width &&
    one.y < other.y + other.height &&
    other.y < one.y + one.height
  );
}

/** Whether a line runs through a box, looked at in points closer than any name is high. */
function crosses(box: Box, from: Pixels, to: Pixels): boolean {
  for (let point = 0; point <= linePoints; point++) {
    const share = point / linePoints;
    const [x, y] = [from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)];
    if (x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height) return true;
  }
  return false;
}
