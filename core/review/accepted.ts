import type { Reviewed } from './reviewed.ts';
import type { ComparedAccept, Comparison } from './schema.ts';

/** The codes that one side accepts and the other does not, whether there is such a warning at present or not. */
export function changedAccepts(old: Reviewed | null, now: Reviewed | null): Comparison['accepted'] {
  return { new: acceptsWithout(now, old), gone: acceptsWithout(old, now) };
}

function acceptsWithout(study: Reviewed | null, other: Reviewed | null): ComparedAccept[] {
  if (!study) return [];
  const told = new Set(other?.specification.accepts.map(({ value }) => value.code));
  return study.specification.accepts.flatMap(({ value: { code, reason } }) => {
    // Of a code that is accepted twice the first reason counts.
    if (told.has(code)) return [];
    told.add(code);
    const met = study.accepted.find((each) => each.code === code)?.findings ?? [];
    return [{ code, reason, messages: met.map(({ message }) => message) }];
  });
}
