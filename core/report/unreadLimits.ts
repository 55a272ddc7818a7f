import type { Range } from '../language/finding.ts';
import type { Specification } from '../language/specification/specification.ts';

/** A statement of the require block that could not be read: a limit all the same, and one that is not met. */
export interface UnreadLimit {
  /** The word it begins with, as written. */
  readonly quantity: string;
  readonly range: Range;
}

/** Limits that an error of form keeps from being evaluated; the error has its own finding. */
export function unreadLimits({ broken }: Specification): readonly UnreadLimit[] {
  return broken.flatMap(({ block, word, range }) =>
    block === 'require' && /^[a-z]/.test(word) && word !== 'accept' ? [{ quantity: word, range }] : [],
  );
}
