import { derive, type Figure } from '../../figures/figure.ts';
import { stated } from '../../language/specification/defaults.ts';
import type { SlotSpecification, Specification } from '../../language/specification/specification.ts';
import { slotStatements } from '../../language/vocabulary/blocks/copper.ts';
import { type GapSide, gapDiameter, gapSides, slotOfLayer } from '../machineInputs.ts';

/** Width of a slot opening and diameter of its gap, m. */
export interface GapOpening {
  /** Along the gap. */
  readonly width: number;
  /** Of the stator at the gap. */
  readonly diameter: number;
}

/** The slot openings at the gap, or at the inner and the outer one. */
export function gapOpenings(specification: Specification): readonly Figure<GapOpening>[] {
  const sides = gapSides(specification);
  return sides.known ? sides.value.map((side) => openingAt(specification, side)) : [];
}

function openingAt(specification: Specification, side: GapSide): Figure<GapOpening> {
  const slot = side === 'inner' ? slotOfLayer(specification, 0) : outermostSlot(specification);
  return derive(
    { diameter: gapDiameter(specification, side), width: stated(slotStatements, slot, 'opening') },
    (given) => given,
  );
}

function outermostSlot({ slots }: Specification): SlotSpecification | undefined {
  const highest = (slot: SlotSpecification) => Math.max(...slot.layers.map(({ layer }) => layer));
  return [...slots].sort((a, b) => highest(b) - highest(a))[0];
}
