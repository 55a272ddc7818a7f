import type { Comparison } from './schema.ts';

/** What makes a comparison fail: anything worse, errors of the new text, or nothing. */
export type FailOn = 'worse' | 'errors' | 'none';

/**
 * Whether a comparison fails. `errors`: the new text has findings of severity error, failed limits among
 * them. `worse`: also where a number moved the wrong way, or an error or warning is new.
 */
export function comparisonFails({ errors, numbers, findings }: Comparison, failOn: FailOn): boolean {
  if (failOn === 'none') return false;
  if (errors.new > 0) return true;
  if (failOn === 'errors') return false;
  return (
    numbers.some(({ better }) => better === false) || findings.new.some(({ severity }) => severity !== 'info')
  );
}
