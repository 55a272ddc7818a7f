import type { Steps } from '../../figures/steps.ts';
import { coveringArc } from '../../winding/coveringArc.ts';
import { modulo } from '../../winding/integers.ts';
import type { Strand } from '../units/units.ts';
import { foldSlot, shortestSpan } from '../units/units.ts';
import type { LoopUnit, WaveLoops } from './wave.ts';
import { joinStrands, mirrorStrand, strandOf, transition } from './wave.ts';

const startsBetweenYields = 10_000;

/** In which order a path visits the belt positions of each layer pair. */
const orders = [
  { reset: true, falling: false },
  { reset: true, falling: true },
  { reset: false, falling: false },
  { reset: false, falling: true },
] as const;

/**
 * Paths that climb through all loops of a phase, each taking the same number of pole pairs of every
 * loop: strictly balanced by construction. Backward loops are covered by mirrored twins of forward
 * paths (even `paths`), or walked down after a reversal in the outermost layer. Yields one candidate for
 * each order of the belt positions; none where `paths` does not divide the pole pairs (mirrored: the
 * poles). Nothing is yielded between them to give way.
 */
export function* helixCandidates(wave: WaveLoops, paths: number): Generator<Strand[] | undefined> {
  if (wave.mirrored && paths % 2 === 0) {
    if ((2 * wave.stages) % paths !== 0) return;
    const units = (2 * wave.stages) / paths;
    for (const upward of loopOrders(wave, 1)) {
      const up = climbs(wave, upward, paths / 2, units, 0);
      const forward = up.map((path) => strandOf(wave, path));
      yield;
      yield yield* withTwins(wave, forward, () => false);
    }
    return;
  }
  if (wave.stages % paths !== 0) return;
  const units = wave.stages / paths;
  const downOrders = loopOrders(wave, -1);
  for (const upward of loopOrders(wave, 1)) {
    const up = climbs(wave, upward, paths, units, 0);
    const forward = up.map((path) => strandOf(wave, path));
    yield;
    for (const downward of downOrders) yield withReversals(wave, forward, downward, units);
  }
}

/**
 * Forward strands and their mirrored twins. Where `joined` says so a strand runs on into its own twin
 * by a reversal, else the twin is a path by itself. The twins are turned, all together, to the place
 * where reversals are shortest and the paths start closest together. Yields to give way.
 */
export function* withTwins(
  wave: WaveLoops,
  forward: readonly Strand[],
  joined: (index: number) => boolean,
): Steps<Strand[]> {
  const anyJoined = forward.some((_, index) => joined(index));
  const moves = anyJoined ? [0, wave.stages - 1] : Array.from({ length: wave.stages }, (_, move) => move);
  const starts = forward.map((strand) => strand.bars[0]!.slot);
  const ends = forward.flatMap((strand, index) => (joined(index) ? [] : [strand.bars.at(-1)!.slot]));
  let best = moves[0]!;
  let smallest = Number.POSITIVE_INFINITY;
  let sinceYield = 0;
  for (const move of moves) {
    const turned = ends.map((end) => foldSlot(end + (move + 0.5) * wave.period, wave.slots));
    const window = coveringArc([...starts, ...turned], wave.slots);
    if (window < smallest) {
      smallest = window;
      best = move;
    }
    sinceYield += forward.length;
    if (sinceYield < startsBetweenYields) continue;
    sinceYield = 0;
    yield;
  }
  const twins = forward.map((strand) => mirrorStrand(wave, strand, best));
  return [
    ...forward.map((strand, index) =>
      joined(index) ? joinStrands(strand, twins[index]!, wave.slots) : strand,
    ),
    ...twins.filter((_, index) => !joined(index)),
  ];
}

/** The different orders in which a path can visit the loops of a sense, layer pair by layer pair. */
function loopOrders(wave: WaveLoops, sense: 1 | -1): number[][] {
  const groups: number[][] = Array.from({ length: wave.pairs }, () => []);
  wave.loops.forEach((loop, index) => {
    if (loop.sense === sense) groups[sense === 1 ? loop.pair : wave.pairs - 1 - loop.pair]!.push(index);
  });
  const sequences = orders.map(({ reset, falling }) =>
    groups.flatMap((group, step) => (falling !== (!reset && step % 2 === 1) ? [...group].reverse() : group)),
  );
  return sequences.filter(
    (sequence, index) =>
      sequences.findIndex((other) => other.every((loop, place) => loop === sequence[place])) === index,
  );
}

/** Paths of `units` consecutive units in each loop; path n starts n x units pole pairs after the first. */
function climbs(
  wave: WaveLoops,
  loops: readonly number[],
  paths: number,
  units: number,
  firstStage: number,
): LoopUnit[][] {
  return Array.from({ length: paths }, (_, path) => {
    const list: LoopUnit[] = [];
    let stage = firstStage + path * units;
    loops.forEach((loop, index) => {
      const { sense } = wave.loops[loop]!;
      if (index > 0) {
        const before = wave.loops[loops[index - 1]!]!;
        const joint = transition(wave, before, wave.loops[loop]!);
        stage += sense * ((joint?.advance ?? 1) - 1);
      }
      for (let unit = 0; unit < units; unit++) {
        list.push({ loop, stage: modulo(stage, wave.stages) });
        stage += sense;
      }
    });
    return list;
  });
}

/** Forward paths continued downward; the backward part is turned to where the reversal is shortest. */
function withReversals(
  wave: WaveLoops,
  forward: readonly Strand[],
  down: readonly number[],
  units: number,
): Strand[] {
  if (down.length === 0) return [...forward];
  const downFrom = (stage: number) =>
    climbs(wave, down, forward.length, units, stage).map((path) => strandOf(wave, path));
  const [first] = forward;
  if (!first || first.bars.length === 0) return downFrom(0);
  const end = first.bars.at(-1)!.slot;
  const backward = downFrom(nearestStage(wave, end, down[0]!));
  return forward.map((strand, index) => joinStrands(strand, backward[index]!, wave.slots));
}

/** The pole pair in which a loop, by index, has its + bar the nearest to a slot. */
export function nearestStage(wave: WaveLoops, slot: number, loop: number): number {
  const entry = wave.loops[loop]!;
  let nearest = 0;
  let shortest = Number.POSITIVE_INFINITY;
  for (let stage = 0; stage < wave.stages; stage++) {
    const start = foldSlot(entry.slot + wave.direction * wave.period * stage, wave.slots);
    const reversal = Math.abs(shortestSpan(slot, start, wave.slots));
    if (reversal < shortest) {
      shortest = reversal;
      nearest = stage;
    }
  }
  return nearest;
}
