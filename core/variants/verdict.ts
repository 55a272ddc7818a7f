/** What became of a candidate. Figures are those of the question's measures, SI units, null where missing. */
export type Verdict =
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'left-out' }
  | { readonly kind: 'kept'; readonly figures: readonly (number | null)[] };

/** A candidate that misses what is to be kept. */
export const leftOut: Verdict = { kind: 'left-out' };

/** A candidate that makes no winding, and why. */
export function refused(reason: string): Verdict {
  return { kind: 'refused', reason };
}
