import { type Bends, regularPartner } from '../winding/joints/bends.ts';
import type { EndSide } from '../winding/model.ts';
import type { EndSizes } from './endSizes.ts';
import { coatedHeight, coatedWidth } from './section.ts';

/** How the bar ends of one layer rise on a side: the ring of legs that pass each other side by side. */
export interface EndSlope {
  /** Height for each radian round the axis, m. */
  readonly rise: number;
  /** Angle of the legs from the circumferential direction, radians. */
  readonly angle: number;
}

/** What the bent ends of a layer need and have round the axis, m, where their inner faces pass each other. */
export interface EndRoom {
  readonly coatedWidth: number;
  readonly clearance: number;
  readonly slotPitch: number;
}

/** The room of a layer's bent ends: parallel legs one pitch apart keep the clearance at their inner faces. */
export function endRoom(
  { layers, slots, endClearance }: Pick<EndSizes, 'layers' | 'slots' | 'endClearance'>,
  layer: number,
): EndRoom {
  const { radius, section } = layers[layer]!;
  return {
    coatedWidth: coatedWidth(section),
    clearance: endClearance,
    slotPitch: (2 * Math.PI * (radius - coatedHeight(section) / 2)) / slots,
  };
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

function sineOf(sizes: EndSizes, layer: number): number {
  const room = endRoom(sizes, layer);
  return (room.coatedWidth + room.clearance) / room.slotPitch;
}
