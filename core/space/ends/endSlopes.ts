import { type Bends, regularPartner } from '../../winding/joints/bends.ts';
import type { EndSide } from '../../winding/model.ts';
import { endRoom } from './endRoom.ts';
import type { EndSizes } from './endSizes.ts';

/** How the bar ends of one layer rise on a side: the ring of legs that pass each other side by side. */
export interface EndSlope {
  /** Height for each radian round the axis, m. */
  readonly rise: number;
  /** Angle of the legs from the circumferential direction, radians. */
  readonly angle: number;
}

/** The layers whose bends cannot pass each other: coated width and clearance fill the slot pitch. */
export function layersThatCannotPass(sizes: EndSizes): readonly number[] {
  return sizes.layers.flatMap((_, layer) => (sineOf(sizes, layer) < 1 ? [] : [layer]));
}

/**
 * The slopes of a side's rings, one a layer: sin(angle) = (coated width + clearance)/slot pitch at the
 * inner faces, then both layers of a regular pair take the steeper rise, so that the two legs of their
 * joints end at one height. Only for layers whose bends can pass each other, else RangeError.
 */
export function endSlopes(sizes: EndSizes, bends: Bends, side: EndSide): readonly EndSlope[] {
  const own = sizes.layers.map(({ radius }, layer) => {
    const sine = sineOf(sizes, layer);
    if (!(sine < 1)) throw new RangeError(`the bends of layer ${layer} cannot pass: sine ${sine}`);
    return (radius * sine) / Math.sqrt(1 - sine * sine);
  });
  return sizes.layers.map(({ radius }, layer): EndSlope => {
    const partner = regularPartner(bends, side, layer);
    const rise = Math.max(own[layer]!, partner === null ? 0 : (own[partner] ?? 0));
    return { rise, angle: Math.atan2(rise, radius) };
  });
}

function sineOf({ slots, layers, endClearance }: EndSizes, layer: number): number {
  const { radius, section } = layers[layer]!;
  const room = endRoom(slots, radius, section, endClearance);
  return (room.coatedWidth + room.clearance) / room.slotPitch;
}
