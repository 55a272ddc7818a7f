import type { Steps } from '../figures/steps.ts';
import { itemAmount, itemText } from '../language/specification/series.ts';
import type { SeriesItem } from '../language/text/document.ts';
import { type Collection, collection, type Kept, type Order } from './collect.ts';
import type { Evaluator, Looked } from './evaluate.ts';
import { type Shard, textHash } from './explore.ts';
import {
  type Column,
  keepName,
  limitMeasureName,
  measureName,
  orderOf,
  type Question,
  rankName,
} from './question.ts';
import type { VariantRow, Variants } from './schema.ts';

/** Rows, the first in the order, of which the limits are looked at, which can take a whole study each. */
const mostStudied = 200;

/** What is told of a run beside its candidates. */
export interface Told {
  readonly version: string;
  /** Rows that are listed at most. */
  readonly top: number;
  readonly complete: boolean;
  readonly shard: Shard | null;
}

/** The collection that a question's candidates go to. */
export function collectionFor(question: Question, top: number): Collection {
  return collection(orderOf(question), top);
}

/**
 * Candidates of which limits, and why figures are missing, are told beside their figures: each by a look at the whole
 * winding.
 */
export function lookedAt({ question }: Evaluator, collected: Collection): readonly number[] {
  const hasLimits = question.specification.limits.length > 0;
  // Without limits and with all figures there is nothing to look at.
  return listed(collected)
    .slice(0, mostStudied)
    .filter(({ figures }) => hasLimits || figures.includes(null))
    .map(({ number }) => number);
}

/**
 * The answer to a question from what was collected; gives way while the rows are looked at that `looks` has not. Of a
 * run that was stopped none is looked at.
 */
export function* answer(
  evaluator: Evaluator,
  collected: Collection,
  told: Told,
  looks: ReadonlyMap<number, Looked> = new Map(),
): Steps<Variants> {
  const { question, holding } = evaluator;
  const { leftOut, kept, refused } = collected.counts();
  const front = collected.front();
  const inFront = new Set((front ?? []).map(({ number }) => number));
  const required = question.specification.limits.map(({ value }) => value);
  const rows: VariantRow[] = [];
  const toLookAt = new Set(told.complete ? lookedAt(evaluator, collected) : []);
  for (const candidate of listed(collected)) {
    const { number } = candidate;
    const { limits, missing } = toLookAt.has(number)
      ? (looks.get(number) ?? (yield* evaluator.look(number)))
      : { limits: required.length === 0 ? [] : null, missing: {} };
    rows.push({
      number,
      values: rowValues(evaluator, number),
      figures: rowFigures(question, candidate),
      missing: { ...missing },
      limits: limits && [...limits],
      front: inFront.has(number),
    });
    yield;
  }
  return {
    schema: 'slotwright-variants/1',
    version: told.version,
    textHash: textHash(question.text),
    vary: question.rows.flatMap(({ columns }) =>
      columns.map((column, at) => ({
        word: column.name,
        unit: unitOf(column),
        values: column.values.map(amountOf),
        with: at === 0 ? null : columns[0]!.name,
      })),
    ),
    hold: {
      field: holding.field,
      load: holding.load,
      room: holding.room,
      torque: holding.torque,
      unsettled: [...holding.unsettled],
    },
    keep: question.keeps.map(keepName),
    rank: question.rank.map(rankName),
    figures: question.measures.map(measureName),
    limits: required.map(limitMeasureName),
    top: told.top,
    candidates: question.candidates,
    refused: [...refused].map(([reason, count]) => ({ reason, count })),
    leftOut,
    kept,
    complete: told.complete,
    ...(told.shard ? { shard: { index: told.shard.index, of: told.shard.of } } : {}),
    front: front === null ? null : { count: front.length, cut: collected.frontCut() },
    rows,
  };
}

/** The best and the front, each once, in their order. */
function listed(collected: Collection): readonly Kept[] {
  const best = collected.best();
  const has = new Set(best.map(({ number }) => number));
  // Whatever of the front is not among the best comes behind them: they are the first of the same order.
  return [...best, ...(collected.front() ?? []).filter(({ number }) => !has.has(number))];
}

/** A row's values by their words. */
export function rowValues({ question, values }: Evaluator, number: number): Record<string, number | string> {
  const items = values(number) ?? [];
  const names = question.rows.flatMap(({ columns }) => columns.map(({ name }) => name));
  return Object.fromEntries(items.map((item, at) => [names[at]!, amountOf(item)]));
}

function rowFigures({ measures }: Question, { figures }: Kept): Record<string, number | null> {
  return Object.fromEntries(measures.map((measure, at) => [measureName(measure), figures[at] ?? null]));
}

function amountOf(item: SeriesItem): number | string {
  return item.kind === 'number' ? itemAmount(item) : itemText(item);
}

function unitOf({ values }: Column): string | null {
  const first = values.find(({ kind }) => kind === 'number');
  return first?.kind === 'number' ? first.unit : null;
}

/** Why parts cannot be joined. */
export type MergeRefusal =
  | { readonly kind: 'none' }
  | { readonly kind: 'no-part'; readonly part: number }
  | { readonly kind: 'foreign'; readonly part: number; readonly what: string }
  | { readonly kind: 'double'; readonly part: number; readonly index: number }
  | { readonly kind: 'missing'; readonly indexes: readonly number[] };

/** Joins the answers of all shards of a question to that of the whole; in any order. */
export function mergeAnswers(parts: readonly Variants[]): Variants | MergeRefusal {
  const [first] = parts;
  if (!first) return { kind: 'none' };
  const seen = new Set<number>();
  for (const [part, one] of parts.entries()) {
    if (!one.shard) return { kind: 'no-part', part };
    const what = (['version', 'textHash', 'top', 'candidates'] as const).find(
      (key) => one[key] !== first[key],
    );
    if (what) return { kind: 'foreign', part, what };
    if (one.shard.of !== first.shard!.of) return { kind: 'foreign', part, what: 'shard' };
    if (seen.has(one.shard.index)) return { kind: 'double', part, index: one.shard.index };
    seen.add(one.shard.index);
  }
  const missing = Array.from({ length: first.shard!.of }, (_, index) => index + 1).filter(
    (index) => !seen.has(index),
  );
  if (missing.length > 0) return { kind: 'missing', indexes: missing };
  const order = first.rank.map((name): Order => {
    const [better, ...words] = name.split(' ');
    return { better: better as Order['better'], figure: first.figures.indexOf(words.join(' ')) };
  });
  const joined = collection(order, first.top);
  const rows = new Map<number, VariantRow>();
  for (const part of parts) {
    for (const { reason, count } of part.refused) joined.refused(reason, count);
    for (const row of part.rows) {
      rows.set(row.number, row);
      joined.kept({ number: row.number, figures: first.figures.map((name) => row.figures[name] ?? null) });
    }
  }
  const front = joined.front();
  const inFront = new Set((front ?? []).map(({ number }) => number));
  const sum = (key: 'leftOut' | 'kept') => parts.reduce((total, part) => total + part[key], 0);
  const { shard: _, ...whole } = first;
  return {
    ...whole,
    refused: [...joined.counts().refused].map(([reason, count]) => ({ reason, count })),
    leftOut: sum('leftOut'),
    kept: sum('kept'),
    complete: parts.every(({ complete }) => complete),
    front:
      front === null
        ? null
        : { count: front.length, cut: joined.frontCut() || parts.some((part) => part.front?.cut) },
    rows: listed(joined).map(({ number }, place) => {
      const row = rows.get(number)!;
      const limits = first.limits.length > 0 && place >= mostStudied ? null : row.limits;
      const missing = place >= mostStudied ? {} : row.missing;
      return { ...row, missing, limits, front: inFront.has(number) };
    }),
  };
}
