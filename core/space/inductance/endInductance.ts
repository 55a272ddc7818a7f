import type { Steps } from '../../figures/steps.ts';
import type { Bar, EndSide, Path } from '../../winding/model.ts';
import type { Piece } from '../piece.ts';
import type { Section } from '../section.ts';
import type { Space } from '../space.ts';
import { type Filament, mirrored } from './filaments.ts';
import { type Make, makesOfEnds } from './makes.ts';
import { anglesOf, mutualInductances } from './mutualInductance.ts';

/**
 * What the ends are taken with: each other, in air; or their images in the faces of the stack, which add fully
 * for faces of iron, and subtract for flux lines.
 */
export type EndsAgainst = 'ends' | 'images';

/** The stretches of paths beyond a side of the stack, and what makes of ends there are. */
type SideStretches = readonly [
  /** Lines of pieces that the same makes share. */
  runs: readonly Filament[],
  makes: readonly Make[],
  /**
   * Three numbers a stretch, slot by slot from slot 1 on: of its make and of its path, and 1 where the path's current runs
   * outwards from the stack while it runs along the bars' + sense, else -1.
   */
  stretches: Int32Array,
  /** By slot where its stretches begin, and where the last ones end. */
  starts: Int32Array,
];

/**
 * Inductances of the ends of all paths by their center lines, H, some at a time: bar ends and connecting
 * pieces, without leads beyond the joints and without rings. Entry i n + j is the flux linkage of path i for one
 * ampere in path j; positive current runs as the cells' signs have it. Every two runs of their pieces are computed once
 * for each number of slots between them, whatever ends share them.
 */
export function* endInductanceSteps(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  against: EndsAgainst,
  finer = 1,
): Steps<Float64Array> {
  const count = paths.length;
  const sums = new Float64Array(count * count);
  for (const side of ['connection', 'far'] as const) {
    const ends = sideStretches(space, paths, cells, side, finer);
    yield;
    const face = ((side === 'far' ? 1 : -1) * space.stack) / 2;
    yield* addSide(sums, count, ends, against === 'images' ? face : null);
  }
  // Every two stretches were met one way round.
  return sums.map((value, entry) => value + sums[(entry % count) * count + Math.floor(entry / count)]!);
}

/** Work between two yields, in pairs of nodes: some milliseconds. */
const slice = 100_000;
/** What else takes its time, counted so: the stretches of a slot looked up. */
const workOfSlot = 20;
/** Two numbers of parts at an angle, as ends of a machine have them. */
const workOfNumbers = 0.25;

/**
 * Adds what every two stretches of a side link to an entry of their paths, the one way round or the other: as the sum
 * over the runs of their makes, for one number of slots between them after another.
 */
function* addSide(
  sums: Float64Array,
  count: number,
  [runs, makes, stretches, starts]: SideStretches,
  mirror: number | null,
): Steps<void> {
  const slots = starts.length - 1;
  const steps = Math.floor(slots / 2) + 1;
  const angles = anglesOf(steps, (2 * Math.PI) / slots);
  const backwards = anglesOf(steps, (-2 * Math.PI) / slots);
  const others = mirror === null ? runs : runs.map((run) => mirrored(run, mirror));
  // Of pairs of runs: from some number of slots between them on, which stands first.
  const known = new Array<readonly number[] | undefined>(runs.length ** 2);
  const ofMakes = new Float64Array(makes.length ** 2);
  let rest = slice;
  let apart = 0;
  // In one slot, and opposite each other, two are met both ways round: of their runs, that of lower number is the first.
  let share = 0.5;
  const linked = (make: number, across: number): number => {
    const isOwn = apart === 0 && make === across && mirror === null;
    let sum = 0;
    for (const a of makes[make]!.runs)
      for (const b of makes[across]!.runs) {
        const isTurned = share < 1 && b < a;
        const low = isTurned ? b : a;
        const high = isTurned ? a : b;
        const at = low * runs.length + high;
        let found = known[at];
        if (!found || apart - found[0]! >= found.length - 1) {
          // Where lines come nearest, the outer integral is that along the one of lower number.
          const isFirst = low < high;
          const first = isFirst ? runs[low]! : others[high]!;
          const second = isFirst ? others[high]! : runs[low]!;
          const mean = isOwn ? makes[make]!.meanDistance : 0;
          // Two that are met again are found for many distances at once.
          const end = found ? Math.min(steps, apart + 64) : apart + 1;
          found = mutualInductances(first, second, mean, isFirst ? angles : backwards, apart, end);
          known[at] = found;
          rest -= workOfNumbers * first.parts.length * second.parts.length * found.length;
        }
        sum += found[apart - found[0]! + 1]!;
      }
    return sum;
  };
  const addSlot = (slot: number, across: number): void => {
    for (let one = starts[slot]!; one < starts[slot + 1]!; one += 3) {
      const make = stretches[one]!;
      const size = make * makes.length;
      const from = starts[across]!;
      const end = starts[across + 1]!;
      // Not in one loop with the next, which is faster without calls.
      for (let other = from; other < end; other += 3) {
        const at = size + stretches[other]!;
        if (Number.isNaN(ofMakes[at]!)) ofMakes[at] = linked(make, stretches[other]!);
      }
      const row = stretches[one + 1]! * count;
      const own = share * stretches[one + 2]!;
      for (let other = from; other < end; other += 3)
        sums[row + stretches[other + 1]!]! +=
          own * stretches[other + 2]! * ofMakes[size + stretches[other]!]!;
    }
  };
  for (; apart < steps; apart++) {
    ofMakes.fill(Number.NaN);
    share = apart === 0 || 2 * apart === slots ? 0.5 : 1;
    for (let slot = 0; slot < slots; slot++) {
      addSlot(slot, (slot + apart) % slots);
      rest -= workOfSlot;
      if (rest > 0) continue;
      rest = slice;
      yield;
    }
  }
}

function sideStretches(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  side: EndSide,
  finer: number,
): SideStretches {
  const { slots } = space;
  const placeOf = ({ slot, layer }: Bar) => layer * slots + slot - 1;
  const owner = new Int32Array(cells.length).fill(-1);
  paths.forEach(({ bars }, index) => {
    for (const bar of bars) owner[placeOf(bar)] = index;
  });
  const { makeOf, makes, runs } = makesOfEnds();
  const stretches = Array.from({ length: slots }, (): number[] => []);
  const add = (bar: Bar, pieces: readonly Piece<string>[], section: Section) => {
    const place = placeOf(bar);
    const path = owner[place]!;
    if (path < 0) return;
    // Outwards from the stack: with the bar's current on the far side, against it on the connection side.
    const sense = cells[place]! > 0 === (side === 'far') ? 1 : -1;
    stretches[bar.slot - 1]!.push(makeOf(pieces, section), path, sense);
  };
  for (const bar of space.bars) if (bar) add(bar.bar, bar[side].pieces, space.layers[bar.bar.layer]!.section);
  for (const link of space.links) if (link.side === side) add(link.from, link.pieces, link.section);
  const starts = new Int32Array(slots + 1);
  for (let slot = 0; slot < slots; slot++) starts[slot + 1] = starts[slot]! + stretches[slot]!.length;
  return [runs(finer), makes, Int32Array.from(stretches.flat()), starts];
}

/** Leakage of the end windings of one phase in air, H. */
export interface PhaseEndInductance {
  /** What balanced currents see. */
  readonly phase: number;
  /** Between phases, a row a phase. */
  readonly matrix: readonly (readonly number[])[];
}

/**
 * What balanced currents on the phases' axes (electrical degrees) see, each phase's shared equally by its paths:
 * (1/m) times the sum of Re(i_f conj i_g) M_fg. With images in the faces of the stack they see as much more or less
 * as this gives for them.
 */
export function phaseEndInductance(
  inductances: Float64Array,
  phaseOf: readonly number[],
  axes: readonly number[],
): PhaseEndInductance {
  const matrix = axes.map(() => axes.map(() => 0));
  const parallel = (phase: number) => phaseOf.filter((other) => other === phase).length;
  phaseOf.forEach((f, i) => {
    phaseOf.forEach((g, j) => {
      matrix[f]![g]! += inductances[i * phaseOf.length + j]! / (parallel(f) * parallel(g));
    });
  });
  let phase = 0;
  matrix.forEach((row, f) => {
    row.forEach((value, g) => {
      phase += (value * Math.cos(((axes[f]! - axes[g]!) * Math.PI) / 180)) / axes.length;
    });
  });
  return { phase, matrix };
}
