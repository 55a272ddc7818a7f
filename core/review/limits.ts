import { type LimitResult, limitName } from '../findings/limits.ts';
import { quantityValue } from '../findings/quantities.ts';
import { type Reviewed, wound } from './reviewed.ts';
import type { ComparedLimit } from './schema.ts';

/** Every acceptance limit of either text, the new one's first: what is asked, and how both sides stand to it. */
export function comparedLimits(old: Reviewed | null, now: Reviewed | null): readonly ComparedLimit[] {
  const before = new Map((old?.limits ?? []).map((limit) => [limitKey(limit), limit]));
  const after = new Map((now?.limits ?? []).map((limit) => [limitKey(limit), limit]));
  const keys = new Set([...after.keys(), ...before.keys()]);
  return [...keys].map((key) => comparedLimit(before.get(key), after.get(key), old, now));
}

function limitKey(limit: LimitResult): string {
  return `${limitName(limit)} ${limit.relation}`;
}

function comparedLimit(
  before: LimitResult | undefined,
  after: LimitResult | undefined,
  old: Reviewed | null,
  now: Reviewed | null,
): ComparedLimit {
  const limit = (after ?? before)!;
  const actual = before ? before.actual : valueIn(limit, old);
  const newActual = after ? after.actual : valueIn(limit, now);
  const room = (value: number) => (limit.relation === '<=' ? limit.limit - value : value - limit.limit);
  return {
    quantity: limit.quantity,
    harmonic: limit.harmonic,
    order: limit.order,
    relation: limit.relation,
    limit: after?.limit ?? null,
    oldLimit: before?.limit ?? null,
    old: actual,
    new: newActual,
    margin: after && newActual !== null ? room(newActual) : null,
    heldBefore: before?.met ?? null,
    holds: after?.met ?? null,
  };
}

/** The limit's quantity in a text that has no such limit. */
function valueIn(limit: LimitResult, study: Reviewed | null): number | null {
  const side = wound(study);
  const found = side && quantityValue(limit.source, side.facts);
  return found?.kind === 'value' ? found.value : null;
}
