import type { EndSide } from '../../winding/model.ts';
import type { EndUse } from '../ends/endForms.ts';
import { leadApart, lengthOf } from '../piece.ts';
import type { Space } from '../space.ts';

/** How ends of one ring are bent after the bars are in: the tool turns by the twist while it goes down by the stroke. */
export interface RingTwist {
  readonly side: EndSide;
  /** From 0. */
  readonly layer: number;
  readonly uses: readonly EndUse[];
  /** Slots of the bars that are turned together, rising. */
  readonly slots: readonly number[];
  /** Radians about the axis that the tips move, positive towards higher slots. */
  readonly twist: number;
  /** How much lower the tips stand above the stack than before, m. */
  readonly stroke: number;
}

const alikeAngle = 1e-5;
const alikeLength = 5e-6;

/** The twists of each side's layers; most bars first. Crowns are formed before, and ends that stay straight have none. */
export function ringTwists(space: Space): readonly RingTwist[] {
  const slotsOf = new Map<number, number[]>();
  for (const bar of space.bars)
    for (const end of bar ? [bar.connection, bar.far] : []) {
      const slots = slotsOf.get(end.index) ?? [];
      slots.push(bar!.bar.slot);
      slotsOf.set(end.index, slots);
    }
  const twists = new Map<string, RingTwist>();
  for (const end of space.ends) {
    const slots = slotsOf.get(end.index) ?? [];
    if (end.use === 'crown' || end.turn === null || slots.length === 0) continue;
    const { radius, lean } = space.layers[end.layer]!;
    const sign = end.side === 'far' ? 1 : -1;
    // Before, the end goes on along the bar's lean.
    const direction = Math.atan2(space.stack, sign * lean * radius);
    const before = (sign * lean) / 2 + (end.length * Math.cos(direction)) / radius;
    const twist = end.tip.angle - before;
    // Leads are bent to their rings afterwards.
    const top = end.reach ? end.plane + lengthOf(leadApart(end.pieces).lead) : end.top;
    const stroke = end.length * Math.sin(direction) - top;
    const key = [end.side, end.layer, Math.round(twist / alikeAngle), Math.round(stroke / alikeLength)].join(
      ' ',
    );
    const known = twists.get(key);
    const uses = known?.uses ?? [];
    twists.set(key, {
      side: end.side,
      layer: end.layer,
      uses: uses.includes(end.use) ? uses : [...uses, end.use],
      slots: [...(known?.slots ?? []), ...slots].sort((a, b) => a - b),
      twist,
      stroke,
    });
  }
  return [...twists.values()].sort(
    (a, b) =>
      a.side.localeCompare(b.side, 'en') ||
      a.layer - b.layer ||
      b.slots.length - a.slots.length ||
      a.twist - b.twist,
  );
}
