import { primitiveBox } from '../../core/picture/bounds.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import type { Box } from './viewport/viewport.ts';

/** Places of a picture that a reader asks for. */
export type Wanted =
  | { readonly kind: 'bar'; readonly bar: string }
  | { readonly kind: 'slots'; readonly first: number; readonly last: number };

/** Reads `7b` as a bar, `7` as a slot, `7-12` (or `7 to 12`) as slots in a row; null for anything else. */
export function readWanted(text: string): Wanted | null {
  const trimmed = text.trim().toLowerCase();
  const bar = /^(\d{1,4})\s*([a-z])$/.exec(trimmed);
  if (bar) return { kind: 'bar', bar: `${Number(bar[1])}${bar[2]}` };
  const slots = /^(\d{1,4})(?:\s*(?:-|–|to)\s*(\d{1,4}))?$/.exec(trimmed);
  if (!slots) return null;
  const [first, last] = [Number(slots[1]), Number(slots[2] ?? slots[1])];
  return { kind: 'slots', first: Math.min(first, last), last: Math.max(first, last) };
}

/** The box round everything that is wanted in a picture, in its millimeters; null where there is nothing of it. */
export function boxOfWanted({ items }: Picture, wanted: Wanted): Box | null {
  return boxAround(items, ({ subject }) => {
    if (subject === undefined || !('bar' in subject)) return false;
    if (wanted.kind === 'bar') return subject.bar === wanted.bar;
    const slot = Number.parseInt(subject.bar, 10);
    return wanted.first <= slot && slot <= wanted.last;
  });
}

/** The box round some bars and joints of a picture, in its millimeters; null where none of them is in it. */
export function boxOfSubjects(
  { items }: Picture,
  bars: readonly string[],
  joints: readonly number[],
): Box | null {
  return boxAround(items, ({ subject }) => {
    if (subject === undefined) return false;
    if ('bar' in subject) return bars.includes(subject.bar);
    return 'joint' in subject && subject.joint !== undefined && joints.includes(subject.joint);
  });
}

/** The bar that stands last in a picture; null where there is none. */
export function lastBar({ items }: Picture): string | null {
  let last: string | null = null;
  for (const { subject } of allPrimitives(items))
    if (subject !== undefined && 'bar' in subject) last = subject.bar;
  return last;
}

function boxAround(items: readonly Primitive[], isMeant: (primitive: Primitive) => boolean): Box | null {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const primitive of allPrimitives(items)) {
    const box = isMeant(primitive) ? primitiveBox(primitive) : null;
    if (box === null) continue;
    left = Math.min(left, box.left);
    top = Math.min(top, box.top);
    right = Math.max(right, box.right);
    bottom = Math.max(bottom, box.bottom);
  }
  return left > right ? null : { x: left, y: top, width: right - left, height: bottom - top };
}

function* allPrimitives(items: readonly Primitive[]): Generator<Primitive> {
  for (const item of items) {
    yield item;
    if (item.kind === 'group') yield* allPrimitives(item.items);
  }
}
