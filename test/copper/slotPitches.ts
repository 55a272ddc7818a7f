import type { CopperInput } from '../../core/copper/geometryFigures.ts';

interface Ends {
  readonly width: number;
  readonly clearance: number;
  readonly endStraight: number;
  readonly jointStraight: number;
  /** Far-side joints are the crowns of hairpins, which nothing is joined at. */
  readonly hairpins: boolean;
  readonly stack: number;
}

/**
 * Bar lengths walked out path by path: stack part, straights, and at each joint half the way to the
 * other bar's end, which leaning bars shift. A second computation beside the engine's, from positions
 * of bar ends instead of true spans.
 */
export function slotPitches(
  input: CopperInput,
  radii: readonly number[],
  { width, clearance, endStraight, jointStraight, hairpins, stack }: Ends,
): Map<number, number> {
  const { winding } = input;
  const lengths = new Map<number, number>();
  for (const path of input.paths!) {
    path.bars.forEach((bar, i) => {
      const radius = radii[bar.layer]!;
      const pitch = (2 * Math.PI * radius) / winding.slots;
      const lean = winding.lean[bar.layer]!;
      let length = Math.sqrt(stack ** 2 + (lean * radius) ** 2) + 2 * endStraight;
      let joined = 2;
      for (const j of [i - 1, i]) {
        if (j < 0 || j >= path.spans.length) continue;
        const far = (j % 2 === 0) !== path.startsFar;
        const [from, to] = [path.bars[j]!, path.bars[j + 1]!];
        // Positions of the two ends in slots: half the lean ahead on the far side, behind on the other.
        const shift = (layer: number) =>
          ((far ? 1 : -1) * winding.lean[layer]! * winding.slots) / (4 * Math.PI);
        const distance = Math.abs(path.spans[j]! + shift(to.layer) - shift(from.layer));
        const slope = Math.sqrt(1 - ((width + clearance) / pitch) ** 2);
        length += ((distance / 2) * pitch) / slope;
        if (far && hairpins) joined--;
      }
      length += joined * jointStraight;
      lengths.set(bar.layer * winding.slots + bar.slot - 1, length);
    });
  }
  return lengths;
}
