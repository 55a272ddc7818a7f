import { derive, type Figure } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { barCoating, barEndLength, barSize } from '../../sizes/barInputs.ts';
import { layerRadii } from '../../sizes/slotRows.ts';
import type { Winding } from '../../winding/model.ts';
import { coatedHeight, coatedWidth, type Section } from '../section.ts';

/** What the bent ends of a layer need and have round the axis, m, where their inner faces pass each other. */
export interface EndRoom {
  /** Of a bar across its own run. */
  readonly coatedWidth: number;
  readonly clearance: number;
  /** At the inner faces. */
  readonly slotPitch: number;
}

/** The room of bent ends of a section at a mean radius, m. */
export function endRoom(slots: number, radius: number, section: Section, clearance: number): EndRoom {
  return {
    coatedWidth: coatedWidth(section),
    clearance,
    slotPitch: (2 * Math.PI * (radius - coatedHeight(section) / 2)) / slots,
  };
}

/** The room of one layer's bent ends, layers from 0. */
export function endRoomOf(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
  layer: number,
): Figure<EndRoom> {
  return derive(
    {
      radii,
      size: barSize(specification, layer),
      coating: barCoating(specification),
      clearance: barEndLength(specification, 'endClearance'),
    },
    ({ radii: all, size, coating, clearance }) =>
      endRoom(winding.slots, all[layer]!, { ...size, coating, corner: 0 }, clearance),
  );
}

/**
 * Smallest distance between joint tips that lets them be joined in every layer, in slots: coated width
 * and clearance over the slot pitch, rounded up to half slots because tips lie in such steps. Null
 * where a size is not given.
 */
export function leastTipGap(specification: Specification, winding: Winding): number | null {
  const radii = layerRadii(specification, winding);
  let most = 0;
  for (let layer = 0; layer < winding.layers; layer++) {
    const room = endRoomOf(specification, winding, radii, layer);
    if (!room.known) return null;
    most = Math.max(most, (room.value.coatedWidth + room.value.clearance) / room.value.slotPitch);
  }
  return Math.ceil(2 * most) / 2;
}

/**
 * Joint tips and their room: a layer from 0, the distance there is and that needed, and the clearance
 * that is left there, negative where the coated bars do not pass; in meters.
 */
export interface TipRoom {
  readonly layer: number;
  readonly actual: number;
  readonly needed: number;
  readonly left: number;
}

/**
 * The layer whose joint tips have the least room beyond what they need, by the smallest distance of its tips in slots
 * (null: it has none); null where sizes are not given.
 */
export function narrowestTips(
  specification: Specification,
  winding: Winding,
  layerGaps: readonly (number | null)[],
): TipRoom | null {
  const radii = layerRadii(specification, winding);
  const rooms = layerGaps.flatMap((gap, layer): TipRoom[] => {
    const room = endRoomOf(specification, winding, radii, layer);
    if (gap === null || !room.known) return [];
    const { coatedWidth, clearance, slotPitch } = room.value;
    const [actual, needed] = [gap * slotPitch, coatedWidth + clearance];
    return [{ layer, actual, needed, left: actual - coatedWidth }];
  });
  return rooms.sort((a, b) => a.actual - a.needed - (b.actual - b.needed))[0] ?? null;
}
