import type { CopperInput } from '../../core/copper/geometryFigures.ts';
import { joinedIn } from './machines.ts';

interface Ends {
  readonly width: number;
  readonly height: number;
  readonly clearance: number;
  readonly endStraight: number;
  readonly jointStraight: number;
  readonly bendRadius: number;
  readonly stack: number;
}

/**
 * Lengths of straight bars both of whose joints are regular, walked out path by path: stack part,
 * straights along the lean, half the way between the ends of both straights, two rounded corners. A
 * second computation beside the engine's, from positions of bar ends. By place in the slot table.
 */
export function slotPitches(input: CopperInput, radii: readonly number[], ends: Ends): Map<number, number> {
  const { winding } = input;
  const { width, height, clearance, endStraight, jointStraight, bendRadius, stack } = ends;
  const rises = radii.map((radius) => {
    const pitch = (2 * Math.PI * (radius - height / 2)) / winding.slots;
    return radius * Math.tan(Math.asin((width + clearance) / pitch));
  });
  const lengths = new Map<number, number>();
  const { paths, connections } = joinedIn(input);
  for (const path of paths) {
    path.bars.forEach((bar, i) => {
      const { layer } = bar;
      const own = connections.joints.filter(({ from, to }) =>
        [from, to].some((end) => end.slot === bar.slot && end.layer === layer),
      );
      if (own.length < 2 || own.some(({ kind }) => kind !== 'regular')) return;
      const radius = radii[layer]!;
      const rise = Math.max(rises[layer]!, rises[layer % 2 === 0 ? layer + 1 : layer - 1]!);
      const slope = Math.atan2(rise, radius);
      const lean = Math.atan2(winding.lean[layer]! * radius, stack);
      let length = (stack + 2 * endStraight) / Math.cos(lean) + 2 * jointStraight;
      for (const j of [i - 1, i]) {
        const far = (j % 2 === 0) !== path.startsFar;
        const [from, to] = [path.bars[j]!, path.bars[j + 1]!];
        // Where the straights of both bars end, in radians from their slots.
        const shift = (each: number) => (far ? 1 : -1) * winding.lean[each]! * (0.5 + endStraight / stack);
        const angle = (path.spans[j]! * 2 * Math.PI) / winding.slots + shift(to.layer) - shift(from.layer);
        length += (Math.abs(angle) / 2) * Math.hypot(radius, rise);
        // From the lean to the slope and back to the axis: arcs in place of sharp corners.
        const sense = Math.sign(angle) * (j === i ? 1 : -1) * (far ? 1 : -1);
        for (const turn of [Math.PI / 2 - slope - sense * lean, Math.PI / 2 - slope]) {
          const middle = bendRadius + width / 2;
          length += middle * turn - 2 * middle * Math.tan(turn / 2);
        }
      }
      lengths.set(layer * winding.slots + bar.slot - 1, length);
    });
  }
  return lengths;
}
