import { limitMargin } from '../facts/limitMargin.ts';
import { orNull } from '../figures/figure.ts';
import { isUnderWay, type LimitResult, limitName } from '../findings/limits.ts';
import { quantityValue } from '../findings/quantities.ts';
import { moved } from './numbers/numbers.ts';
import { type Reviewed, wound } from './reviewed.ts';
import type { ComparedLimit, LimitChange } from './schema.ts';

/**
 * Every acceptance limit of either text, the new one's first: what is asked, what became of it, and how
 * both sides stand to it. Of several limits of one quantity and relation the strictest counts; those of what is still
 * being computed on either side are left out.
 */
export function comparedLimits(old: Reviewed | null, now: Reviewed | null): readonly ComparedLimit[] {
  return pairs(strictest(old?.limits ?? []), strictest(now?.limits ?? [])).flatMap(([before, after]) =>
    [before, after].some((limit) => limit && isUnderWay(limit))
      ? []
      : [comparedLimit(before, after, old, now)],
  );
}

/** How many limits became what. */
export function limitChanges(limits: readonly ComparedLimit[]): Readonly<Record<LimitChange, number>> {
  const counts = { loosened: 0, dropped: 0, tightened: 0, new: 0 };
  for (const { change } of limits) if (change !== null) counts[change]++;
  return counts;
}

/** A limit that asks for less, or is asked no more, is worse. */
export function limitWorse({ change }: ComparedLimit): boolean {
  return change === 'loosened' || change === 'dropped';
}

function strictest(limits: readonly LimitResult[]): readonly LimitResult[] {
  const kept = new Map<string, LimitResult>();
  for (const limit of limits) {
    const key = writtenKey(limit);
    const known = kept.get(key);
    if (!known || limitMargin(limit, known.limit) < 0) kept.set(key, limit);
  }
  return [...kept.values()];
}

type Pair = readonly [LimitResult | undefined, LimitResult | undefined];

/**
 * Limits of one quantity, relation and order: first those that name the order in the same way, then
 * those that mean the same order (`harmonic 1` and `order 4` of eight poles).
 */
function pairs(old: readonly LimitResult[], now: readonly LimitResult[]): readonly Pair[] {
  const partners = new Map<LimitResult, LimitResult>();
  let left = old;
  for (const keyOf of [writtenKey, orderKey]) {
    const before = new Map(left.map((limit) => [keyOf(limit), limit]));
    for (const limit of now) {
      const key = keyOf(limit);
      const partner = partners.has(limit) ? undefined : before.get(key);
      if (partner) partners.set(limit, partner);
      if (partner) before.delete(key);
    }
    const taken = new Set(partners.values());
    left = left.filter((limit) => !taken.has(limit));
  }
  return [
    ...now.map((limit): Pair => [partners.get(limit), limit]),
    ...left.map((limit): Pair => [limit, undefined]),
  ];
}

function writtenKey(limit: LimitResult): string {
  // Without a scope the working harmonic is meant.
  const plain = limit.source.entry.perOrder && !limit.source.scope ? ' harmonic 1' : '';
  return `${limitName(limit)}${plain} ${limit.relation}`;
}

function orderKey(limit: LimitResult): string {
  return `${limit.quantity} ${limit.order ?? writtenKey(limit)} ${limit.relation}`;
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
  return {
    quantity: limit.quantity,
    ...(limit.source.point === null ? {} : { point: limit.source.point }),
    harmonic: limit.harmonic,
    order: limit.order,
    relation: limit.relation,
    limit: after?.limit ?? null,
    oldLimit: before?.limit ?? null,
    change: old && now ? changeOf(before, after) : null,
    old: actual,
    new: newActual,
    margin: after && newActual !== null ? limitMargin(after, newActual) : null,
    heldBefore: before?.met ?? null,
    holds: after?.met ?? null,
  };
}

function changeOf(before: LimitResult | undefined, after: LimitResult | undefined): LimitChange | null {
  if (!before) return 'new';
  if (!after) return 'dropped';
  if (!moved(before.limit, after.limit)) return null;
  return limitMargin(before, after.limit) > 0 ? 'tightened' : 'loosened';
}

/** The limit's quantity in a text that has no such limit. */
function valueIn(limit: LimitResult, study: Reviewed | null): number | null {
  const side = wound(study);
  const found = side && quantityValue(limit.source, side.facts);
  return found && orNull(found);
}
