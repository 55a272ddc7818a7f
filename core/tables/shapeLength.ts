import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import type { BarShape } from '../winding/joints/bars.ts';
import { barName } from '../winding/model.ts';

/**
 * Mean developed length of the pieces of a shape, m: both legs and the crown of a hairpin, the bar by itself
 * else; null where sizes are not given. Those that are bent otherwise at a free end are not equally long.
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

/** The developed length of the piece that each bar of a shape belongs to, m, by the bar's name; empty where sizes are not given. */
export function pieceLengths(
  { winding, copper }: Facts,
  { form, bars }: BarShape,
): readonly (readonly [bar: string, length: number])[] {
  const byPlace = orNull(copper().length.byPlace);
  if (!byPlace) return [];
  const legs = form === 'hairpin' ? 2 : 1;
  return bars.map((bar, index) => {
    const first = index - (index % legs);
    const own = bars.slice(first, first + legs);
    const length = own.reduce((sum, { slot, layer }) => sum + byPlace[layer * winding.slots + slot - 1]!, 0);
    return [barName(bar), length];
  });
}
