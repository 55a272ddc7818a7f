import type { Steps } from '../../figures/steps.ts';
import { modulo } from '../../winding/integers.ts';
import type { Bar } from '../../winding/model.ts';
import type { Strand } from '../units/units.ts';
import { foldSlot } from '../units/units.ts';
import { withTwins } from './helix.ts';
import type { WaveLoops } from './wave.ts';

/**
 * The helix with its special spans in the crowns: paths change between the loops of a layer pair on the
 * far side, each time one bar early, and a crown back to the first loop takes the bar that was left
 * there; all joints of the connection side keep the regular span, steps between pairs too where the
 * belts lie alike. Strictly balanced by construction. Null for odd `paths`, without mirrored twins, or
 * where `paths` does not divide the poles. Yields to give way.
 */
export function* crownHelix(wave: WaveLoops, paths: number): Steps<Strand[] | null> {
  const { stages, pairs } = wave;
  if (!wave.mirrored || paths % 2 === 1 || (2 * stages) % paths !== 0) return null;
  const units = (2 * stages) / paths;
  const groups = Array.from({ length: pairs }, (_, pair) =>
    wave.loops.flatMap((loop, index) => (loop.sense === 1 && loop.pair === pair ? [index] : [])),
  );
  const go = (loop: number, stage: number): Bar => {
    const { pair, slot } = wave.loops[loop]!;
    const moved = slot + wave.direction * wave.period * modulo(stage, stages);
    return { slot: foldSlot(moved, wave.slots), layer: 2 * pair };
  };
  const back = (loop: number, stage: number): Bar => {
    const { slot, layer } = go(loop, stage);
    return { slot: foldSlot(slot + wave.far[layer / 2]!, wave.slots), layer: layer + 1 };
  };
  const forward = Array.from({ length: paths / 2 }, (_, path): Strand => {
    const bars: Bar[] = [];
    let stage = path * units;
    for (const group of groups) {
      group.forEach((loop, index) => {
        // The bar that the loop before left over stands in this loop.
        if (index > 0) bars.push(back(loop, stage - 1));
        for (let unit = 0; unit < units; unit++, stage++) {
          bars.push(go(loop, stage));
          if (unit < units - 1) bars.push(back(loop, stage));
        }
      });
      bars.push(back(group[0]!, stage - 1));
    }
    return { bars, spans: [] };
  });
  yield;
  return yield* withTwins(wave, forward, () => false);
}
