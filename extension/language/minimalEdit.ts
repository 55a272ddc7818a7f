/** A replacement of the stretch from `start` to `end` (UTF-16 code units, end exclusive) by `text`. */
export interface StretchEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The smallest single replacement that turns `before` into `after`, or null where they are equal. It never cuts
 * a surrogate pair or a CR LF line end in two.
 */
export function minimalEdit(before: string, after: string): StretchEdit | null {
  if (before === after) return null;
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  while (isInsidePair(before, start) || isInsidePair(after, start)) start--;
  let tail = 0;
  while (tail < shorter - start && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  while (isInsidePair(before, before.length - tail) || isInsidePair(after, after.length - tail)) tail--;
  return { start, end: before.length - tail, text: after.slice(start, after.length - tail) };
}

/** Whether a cut at `offset` would part two code units that belong together. */
function isInsidePair(text: string, offset: number): boolean {
  return /^(\r\n|[\uD800-\uDBFF][\uDC00-\uDFFF])$/.test(text.slice(Math.max(0, offset - 1), offset + 1));
}
