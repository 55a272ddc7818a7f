import type { Steps } from '../../figures/steps.ts';
import type { Bar, EndSide, Path } from '../../winding/model.ts';
import type { Piece } from '../piece.ts';
import type { Section } from '../section.ts';
import type { Space } from '../space.ts';
import { type Filament, move, roomFor } from './filaments.ts';
import { type Make, makesOfEnds } from './makes.ts';
import { mutualInductance } from './mutualInductance.ts';

/**
 * What the ends are taken with: each other, in air; or their images in the faces of the stack, which add fully
 * for faces of iron, and subtract for flux lines.
 */
export type EndsAgainst = 'ends' | 'images';

/** The stretch of a path beyond the stack. */
interface Stretch {
  /** By number. */
  readonly make: number;
  readonly path: number;
  /** 1 where the path's current runs outwards from the stack while it runs along the bars' + sense, else -1. */
  readonly sense: 1 | -1;
}

/** The stretches of a side, those of each slot from slot 1 on, and what makes of ends there are. */
interface SideStretches {
  /** Lines of pieces that the same makes share. */
  readonly runs: readonly Filament[];
  readonly makes: readonly Make[];
  readonly stretches: readonly (readonly Stretch[])[];
}

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
/** What else takes its time, counted so: the stretches of a slot looked up, and one filament moved. */
const workOfSlot = 50;
const workOfMove = 100;

/**
 * Adds what every two stretches of a side link to an entry of their paths, the one way round or the other: as the sum
 * over the runs of their makes, for one number of slots between them after another.
 */
function* addSide(
  sums: Float64Array,
  count: number,
  { runs, makes, stretches }: SideStretches,
  mirror: number | null,
): Steps<void> {
  const slots = stretches.length;
  const others = runs.map(roomFor);
  // With so many slots from the first to the second; NaN where nobody has asked yet.
  const ofRuns = new Float64Array(runs.length ** 2);
  const ofMakes = new Float64Array(makes.length ** 2);
  let rest = slice;
  const linked = (first: Make, second: Make, isOwn: boolean, bothWays: boolean): number => {
    let sum = 0;
    for (const a of first.runs)
      for (const b of second.runs) {
        const at = a * runs.length + b;
        if (Number.isNaN(ofRuns[at]!)) {
          const [one, other] = [runs[a]!, others[b]!];
          const apart = isOwn ? first.meanDistance : 0;
          ofRuns[at] = a < b ? mutualInductance(one, other, apart) : mutualInductance(other, one, apart);
          if (bothWays) ofRuns[b * runs.length + a] = ofRuns[at]!;
          rest -= workOf(one, other);
        }
        sum += ofRuns[at]!;
      }
    return sum;
  };
  for (let apart = 0; 2 * apart <= slots; apart++) {
    for (const [at, run] of runs.entries()) move(run, others[at]!, (2 * Math.PI * apart) / slots, mirror);
    rest -= runs.length * workOfMove;
    ofRuns.fill(Number.NaN);
    ofMakes.fill(Number.NaN);
    // In one slot, and opposite each other, two are met both ways round.
    const bothWays = apart === 0 || 2 * apart === slots;
    for (let slot = 0; slot < slots; slot++) {
      for (const one of stretches[slot]!) {
        const share = bothWays ? one.sense / 2 : one.sense;
        for (const other of stretches[(slot + apart) % slots]!) {
          const at = one.make * makes.length + other.make;
          if (Number.isNaN(ofMakes[at]!)) {
            const isOwn = one === other && mirror === null;
            ofMakes[at] = linked(makes[one.make]!, makes[other.make]!, isOwn, bothWays);
          }
          sums[one.path * count + other.path]! += share * other.sense * ofMakes[at]!;
        }
      }
      rest -= workOfSlot;
      if (rest > 0) continue;
      rest = slice;
      yield;
    }
  }
}

/** Of two filaments, counted in pairs of nodes, as ends of a machine have them. */
function workOf(first: Filament, second: Filament): number {
  return 4 * (first.firstChord.length - 1) * (second.firstChord.length - 1);
}

function sideStretches(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  side: EndSide,
  finer: number,
): SideStretches {
  const { slots } = space;
  const owner = new Int32Array(cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const { slot, layer } of path.bars) owner[layer * slots + slot - 1] = index;
  });
  const { makeOf, makes, runs } = makesOfEnds();
  const stretches = Array.from({ length: slots }, (): Stretch[] => []);
  const add = ({ slot, layer }: Bar, pieces: readonly Piece<string>[], section: Section) => {
    const place = layer * slots + slot - 1;
    const path = owner[place]!;
    if (path < 0) return;
    // Outwards from the stack: with the bar's current on the far side, against it on the connection side.
    const sense = cells[place]! > 0 === (side === 'far') ? 1 : -1;
    stretches[slot - 1]!.push({ make: makeOf(pieces, section), path, sense });
  };
  for (const bar of space.bars) if (bar) add(bar.bar, bar[side].pieces, space.layers[bar.bar.layer]!.section);
  for (const link of space.links) if (link.side === side) add(link.from, link.pieces, link.section);
  return { runs: runs(finer), makes, stretches };
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
  const matrix = phaseMatrix(inductances, phaseOf, axes.length);
  const phase = matrix.reduce(
    (sum, row, f) =>
      sum +
      row.reduce((own, value, g) => own + value * Math.cos(((axes[f]! - axes[g]!) * Math.PI) / 180), 0) /
        axes.length,
    0,
  );
  return { phase, matrix };
}

function phaseMatrix(paths: Float64Array, phaseOf: readonly number[], phases: number): readonly number[][] {
  const matrix = Array.from({ length: phases }, () => new Array<number>(phases).fill(0));
  const parallel = phaseOf.reduce<number[]>((counts, phase) => {
    counts[phase] = (counts[phase] ?? 0) + 1;
    return counts;
  }, []);
  phaseOf.forEach((f, i) => {
    phaseOf.forEach((g, j) => {
      matrix[f]![g]! += paths[i * phaseOf.length + j]! / (parallel[f]! * parallel[g]!);
    });
  });
  return matrix;
}
