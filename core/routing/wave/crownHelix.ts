import type { Steps } from '../../figures/steps.ts';
import { modulo } from '../../winding/integers.ts';
import type { Bar } from '../../winding/model.ts';
import type { Strand } from '../units/units.ts';
import { foldSlot } from '../units/units.ts';
import { nearestStage, withTwins } from './helix.ts';
import { joinStrands, mirrorStrand, type WaveLoops } from './wave.ts';

/**
 * The helix with its special spans in the crowns: paths change between the loops of a layer pair on the
 * far side, each time one bar early, and a crown back to the first loop takes the bar that was left
 * there; all joints of the connection side keep the regular span, steps between pairs too where the
 * belts lie alike. Strictly balanced by construction. An even number of paths has mirrored twins of half
 * of them, an odd number runs on into its own twins; without mirrored twins, all run on through the
 * backward loops. Null where the poles (paths that run on: the pole pairs) cannot be dealt out so. Yields
 * to give way.
 */
export function* crownHelix(wave: WaveLoops, paths: number): Steps<Strand[] | null> {
  const { stages, mirrored } = wave;
  const runOn = !mirrored || paths % 2 === 1;
  const climbing = runOn ? paths : paths / 2;
  if (stages % climbing !== 0) return null;
  const units = stages / climbing;
  const climbs = (sense: 1 | -1, firstStage: number) => {
    const { groups, go, back } = loopsOf(wave, sense);
    return Array.from({ length: climbing }, (_, path): Strand => {
      const bars: Bar[] = [];
      let stage = firstStage + path * units;
      for (const group of groups) {
        group.forEach((loop, index) => {
          // The bar that the loop before left over stands in this loop.
          if (index > 0) bars.push(back(loop, stage - sense));
          for (let unit = 0; unit < units; unit++, stage += sense) {
            bars.push(go(loop, stage));
            if (unit < units - 1) bars.push(back(loop, stage));
          }
        });
        if (group.length > 0) bars.push(back(group[0]!, stage - sense));
      }
      return { bars, spans: [] };
    });
  };
  const forward = climbs(1, 0);
  yield;
  if (mirrored) return yield* withTwins(wave, forward, () => runOn);
  const [entry] = loopsOf(wave, -1).groups.flat();
  const end = forward[0]?.bars.at(-1);
  if (entry === undefined) return forward;
  if (!end) return climbs(-1, 0);
  const down = climbs(-1, nearestStage(wave, end.slot, entry));
  return forward.map((strand, index) => joinStrands(strand, down[index]!, wave.slots));
}

/**
 * Paths that take whole loops, equally many in every layer pair: where `paths` does not divide the pole
 * pairs, each takes the next loops in the next pair, so that all have been in all. The change is a crown
 * behind the first bar of a pair, which the path that takes those loops leaves over. Half of an even number
 * are mirrored twins of the others; an odd number runs on into its twins, which change before the last bar
 * of a pair, so that the first one needs no change. Angles and layers are balanced, not each cell. Null
 * where loops and layer pairs are not such numbers. Yields to give way.
 */
export function* crownRounds(wave: WaveLoops, paths: number): Steps<Strand[] | null> {
  const { slots, stages, pairs } = wave;
  const odd = paths % 2 === 1;
  const climbing = odd ? paths : paths / 2;
  const { groups, go, back } = loopsOf(wave, 1);
  if (!wave.mirrored || pairs % climbing !== 0) return null;
  if (groups.some((group) => group.length === 0 || group.length % climbing !== 0)) return null;
  const taken = (path: number, pair: number): number[] => {
    const group = groups[pair]!;
    const share = group.length / climbing;
    const first = modulo(path + pair, climbing) * share;
    return group.slice(first, first + share);
  };
  /** Changes behind the first bar of the pairs from `entries` on, and before the last one of those below `exits`. */
  const climb = (path: number, entries: number, exits: number): Strand => {
    const bars: Bar[] = [];
    for (let pair = 0; pair < pairs; pair++) {
      const loops = taken(path, pair);
      loops.forEach((loop, index) => {
        for (let stage = 0; stage < stages; stage++) {
          const enters = index === 0 && stage === 0 && pair >= entries;
          bars.push(go(enters ? taken(path - 1, pair)[0]! : loop, stage));
          const leaves = stage === stages - 1;
          const next = leaves ? (loops[index + 1] ?? taken(pair < exits ? path + 1 : path, pair)[0]!) : loop;
          bars.push(back(next, stage));
        }
      });
    }
    return { bars, spans: [] };
  };
  const up = Array.from({ length: climbing }, (_, path) => climb(path, odd ? 1 : 0, 0));
  yield;
  if (!odd) return yield* withTwins(wave, up, () => false);
  const twins = up.map((_, path) => climb(path, pairs, pairs - 1));
  return up.map((strand, path) => joinStrands(strand, mirrorStrand(wave, twins[path]!, 0), slots));
}

/** The loops of a sense, layer pair by layer pair as they are climbed, and the bars of one in a pole pair. */
function loopsOf(wave: WaveLoops, sense: 1 | -1) {
  const groups = Array.from({ length: wave.pairs }, (_, step) => {
    const pair = sense === 1 ? step : wave.pairs - 1 - step;
    return wave.loops.flatMap((loop, index) => (loop.sense === sense && loop.pair === pair ? [index] : []));
  });
  const go = (loop: number, stage: number): Bar => {
    const { pair, slot } = wave.loops[loop]!;
    const moved = slot + wave.direction * wave.period * modulo(stage, wave.stages);
    return { slot: foldSlot(moved, wave.slots), layer: 2 * pair + (sense === 1 ? 0 : 1) };
  };
  const back = (loop: number, stage: number): Bar => {
    const { pair } = wave.loops[loop]!;
    const slot = go(loop, stage).slot + sense * wave.far[pair]!;
    return { slot: foldSlot(slot, wave.slots), layer: 2 * pair + (sense === 1 ? 1 : 0) };
  };
  return { groups, go, back };
}
