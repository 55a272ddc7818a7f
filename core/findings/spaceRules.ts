import type { Facts } from '../facts/facts.ts';
import { type Finding, finding } from '../language/finding.ts';
import { layerOutside } from '../language/textFindingKinds.ts';
import { layerLetter } from '../winding/model.ts';
import * as kinds from './spaceKinds.ts';

/** Separators between layers that exist, lie next to each other and in their slot, one between each two. */
export function checkSeparators({ specification, winding }: Facts): readonly Finding[] {
  return specification.slots.flatMap((slot) => {
    const seen = new Set<number>();
    return slot.separators.flatMap(({ value, statement }): Finding[] => {
      const { layers } = value;
      const outside = layers.find((layer) => layer >= winding.layers);
      if (outside !== undefined) {
        const data = { layer: layerLetter(outside), layers: winding.layers };
        return [finding(layerOutside, statement, data)];
      }
      const inner = Math.min(...layers);
      const misplaced = (reason: 'not-neighbors' | 'other-slot' | 'repeated') => [
        finding(kinds.separatorMisplaced, statement, { layers, reason }),
      ];
      if (Math.abs(layers[0] - layers[1]) !== 1) return misplaced('not-neighbors');
      const held = (layer: number) =>
        slot.layers.length === 0 || slot.layers.some((named) => named.layer === layer);
      if (!layers.every(held)) return misplaced('other-slot');
      if (seen.has(inner)) return misplaced('repeated');
      seen.add(inner);
      return [];
    });
  });
}
