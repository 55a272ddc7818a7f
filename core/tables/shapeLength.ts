import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import type { BarShape } from '../winding/joints/bars.ts';

/**
 * Developed length of one piece of a shape, m: both legs and the crown of a hairpin, the bar by itself
 * else; null where sizes are not given. Pieces of one shape lie in the same layers and have the same
 * spans, so they are equally long.
 */
export function shapeLength({ winding, copper }: Facts, shape: BarShape): number | null {
  const byPlace = orNull(copper().length.byPlace);
  if (!byPlace) return null;
  const total = shape.bars.reduce(
    (sum, { slot, layer }) => sum + byPlace[layer * winding.table.slots + slot - 1]!,
    0,
  );
  return total / shape.count;
}
