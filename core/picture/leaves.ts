import type { Primitive } from './picture.ts';

/** A primitive that holds no others. */
export type Leaf = Exclude<Primitive, { readonly kind: 'group' }>;

/** What groups hold, in drawing order. */
export function* leaves(items: readonly Primitive[]): Generator<Leaf> {
  for (const item of items)
    if (item.kind === 'group') yield* leaves(item.items);
    else yield item;
}
