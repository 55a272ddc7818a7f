import type { RequiredLimit } from '../language/specification/specification.ts';

/**
 * What a limit leaves a value, in the limit's SI unit; negative where the value fails it. Rounding in the
 * last digits never fails a limit: it counts as nothing.
 */
export function limitMargin(
  { relation, limit }: Pick<RequiredLimit, 'relation' | 'limit'>,
  value: number,
): number {
  const margin = relation === '<=' ? limit - value : value - limit;
  const rounding = 1e-9 * Math.abs(limit) + 1e-12;
  return Math.abs(margin) <= rounding ? 0 : margin;
}
