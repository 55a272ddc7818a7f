import { lowerBar, offsetOf, upperBar } from '../winding/joints/joints.ts';
import { spreadTips, type TipGroup, type TipSide } from '../winding/joints/tips.ts';
import type { Bar } from '../winding/model.ts';
import { routedKind, shapeOf } from './jointKind.ts';
import type { Strand } from './units/units.ts';
import { foldSlot } from './units/units.ts';

/** What it costs to find that paths cannot be built because their tips meet, in search nodes. */
export const nodesOfMisfit = 2000;

/** How the tips of joints lie when the strands of a phase are laid for each phase. */
export interface StrandTips {
  /** Smallest distance between neighboring joint tips, in slots. */
  readonly gap: number;
  /** Pairs of bars whose legs run through each other's joints. */
  readonly crossings: number;
  /** Path ends and ends below connecting pieces without a place among the tips. */
  readonly lostEnds: number;
}

/**
 * Joint tips of a side, when the strands are laid once for each of `shifts` (slots, one for each phase).
 * Tips of all phases share the rings.
 */
export function strandTips(
  tipSide: TipSide,
  strands: readonly Strand[],
  shifts: readonly number[],
): StrandTips {
  const { winding, bends, side } = tipSide;
  const groups = new Map<number, TipGroup & { readonly slots: number[] }>();
  const free: Bar[] = [];
  const turned = ({ slot, layer }: Bar) => {
    for (const shift of shifts) free.push({ slot: foldSlot(slot + shift, winding.slots), layer });
  };
  for (const { bars, spans } of strands) {
    if (side === 'connection') {
      turned(bars[0]!);
      turned(bars.at(-1)!);
    }
    for (let index = side === 'far' ? 0 : 1; index < spans.length; index += 2) {
      const joint = { from: bars[index]!, to: bars[index + 1]!, span: spans[index]! };
      if (routedKind(winding, bends, { side, ...joint }) === 'jumper') {
        turned(joint.from);
        turned(joint.to);
        continue;
      }
      const key = shapeOf(side, joint.from.layer, joint.to.layer, joint.span);
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
  const { gap, crossings, lost } = spreadTips(tipSide, [...groups.values()], free);
  return { gap, crossings: crossings.length, lostEnds: lost.length };
}
