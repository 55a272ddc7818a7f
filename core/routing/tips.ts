import type { Bends } from '../winding/joints/bends.ts';
import { lowerBar, offsetOf, upperBar } from '../winding/joints/joints.ts';
import { spreadTips, type TipGroup } from '../winding/joints/tips.ts';
import type { Winding } from '../winding/model.ts';
import { routedKind, shapeOf } from './jointKind.ts';
import type { Strand } from './units/units.ts';
import { foldSlot } from './units/units.ts';

/** What it costs to find that paths cannot be built because their tips meet, in search nodes. */
export const nodesOfMisfit = 2000;

/**
 * Smallest distance between neighboring joint tips on the connection side, in slots, when the strands
 * are laid once for each of `shifts` (slots, one for each phase). Tips of all phases share the rings.
 */
export function strandTipGap(
  winding: Winding,
  bends: Bends,
  strands: readonly Strand[],
  shifts: readonly number[],
): number {
  const groups = new Map<number, TipGroup & { readonly slots: number[] }>();
  for (const { bars, spans } of strands) {
    for (let index = 1; index < spans.length; index += 2) {
      const joint = { from: bars[index]!, to: bars[index + 1]!, span: spans[index]! };
      if (routedKind(winding, bends, { side: 'connection', ...joint }) === 'jumper') continue;
      const key = shapeOf('connection', joint.from.layer, joint.to.layer, joint.span);
      const lower = lowerBar(joint);
      const group = groups.get(key) ?? {
        lowerLayer: lower.layer,
        upperLayer: upperBar(joint).layer,
        offset: offsetOf(joint),
        slots: [],
      };
      groups.set(key, group);
      for (const shift of shifts) group.slots.push(foldSlot(lower.slot + shift, winding.slots));
    }
  }
  return spreadTips(winding, bends, 'connection', [...groups.values()]).gap;
}
