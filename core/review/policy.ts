import { limitWorse } from './limits.ts';
import type { Comparison } from './schema.ts';

/** What makes a comparison fail: anything worse, errors of the new text, or nothing. */
export type FailOn = 'worse' | 'errors' | 'none';

/**
 * Whether a comparison fails. `errors`: the new text has findings of severity error, failed limits among
 * them, and is not the old one written differently. `worse`: also where a number moved the wrong way, a
 * limit was loosened or dropped, an error or warning is new, or a warning is accepted that was not.
 */
export function comparisonFails(comparison: Comparison, failOn: FailOn): boolean {
  if (failOn === 'none' || unchanged(comparison)) return false;
  const { errors, numbers, limits, findings, accepted } = comparison;
  if (errors.new > 0) return true;
  if (failOn === 'errors') return false;
  return (
    numbers.some(({ better }) => better === false) ||
    limits.some(limitWorse) ||
    accepted.new.length > 0 ||
    findings.new.some(({ severity }) => severity !== 'info')
  );
}

/** Whether nothing but letters changed: errors that stay are none of this change. */
function unchanged({ equal, statements, findings }: Comparison): boolean {
  return equal && statements.length === 0 && findings.new.length === 0;
}
