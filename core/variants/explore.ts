import type { Steps } from '../figures/steps.ts';
import type { Collection, Kept } from './collect.ts';
import type { Evaluator } from './evaluate.ts';

/** A part of a question's candidates: the i-th of n shards, cut by the layouts. */
export interface Shard {
  /** From 1. */
  readonly index: number;
  /** How many shards there are. */
  readonly of: number;
}

/** Candidates judged between two chances to give way, where their layouts decide. */
const stride = 64;

/**
 * Judges candidates one after the other, from `first` up to `last`, and tells the collection of each; gives
 * way every few milliseconds at most sizes. Those of other shards are passed over. `heard` hears every one kept.
 */
export function* explore(
  evaluator: Evaluator,
  collection: Collection,
  range: { readonly first: number; readonly last: number },
  shard: Shard | null = null,
  heard: (candidate: Kept) => void = () => undefined,
): Steps<void> {
  for (let number = range.first; number <= range.last; number++) {
    if (number % stride === 0) yield;
    if (shard && shardOf(evaluator.layoutKey(number), shard.of) !== shard.index) continue;
    let verdict = evaluator.byLayout(number);
    if (verdict === null) {
      verdict = yield* evaluator.byWhole(number);
      yield;
    }
    if (verdict.kind === 'refused') collection.refused(verdict.reason);
    else if (verdict.kind === 'left-out') collection.leftOut();
    else {
      const candidate = { number, figures: verdict.figures };
      collection.kept(candidate);
      heard(candidate);
    }
  }
}

/** The shard of a layout, from 1: FNV-1a of what it is written as. */
function shardOf(layout: string, of: number): number {
  return (hashOf(layout) % of) + 1;
}

/** FNV-1a, 32 bits, over UTF-16 units. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/** Eight characters that tell a text from others. */
export function textHash(text: string): string {
  return hashOf(text).toString(16).padStart(8, '0');
}
