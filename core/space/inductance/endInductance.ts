import type { Steps } from '../../figures/steps.ts';
import type { EndSide, Path } from '../../winding/model.ts';
import type { Piece } from '../piece.ts';
import type { Section } from '../section.ts';
import type { Space } from '../space.ts';
import { type Filament, filamentOf, movable } from './filaments.ts';
import { rectangleMeanDistance } from './meanDistance.ts';
import { mutualInductance } from './mutualInductance.ts';

/**
 * What the ends are taken with: each other, in air; or their images in the faces of the stack, which add fully
 * for faces of iron, and subtract for flux lines.
 */
export type EndsAgainst = 'ends' | 'images';

/** Stretches of paths beyond the stack on one side, by place in the lists, and what makes of ends there are. */
interface SideStretches {
  readonly makes: readonly Make[];
  readonly make: Int32Array;
  /** From 0. */
  readonly slot: Int32Array;
  readonly path: Int32Array;
  /** 1 where the path's current runs outwards from the stack while it runs along the bars' + sense, else -1. */
  readonly sense: Int8Array;
}

/** Ends of one line up to their tips, and of one section. */
interface Make {
  readonly filament: Filament;
  readonly meanDistance: number;
}

/**
 * Inductances of the ends of all paths by their center lines, H, some at a time: bar ends and connecting
 * pieces, without leads beyond the joints and without rings. Entry i n + j is the flux linkage of path i for one
 * ampere in path j; positive current runs as the cells' signs have it. Every two makes of ends are computed once
 * for each number of slots between them.
 */
export function* endInductanceSteps(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  against: EndsAgainst,
  finer = 1,
): Steps<Float64Array> {
  const count = paths.length;
  const { slots, stack } = space;
  const sums = new Float64Array(count * count);
  for (const side of ['connection', 'far'] as const) {
    const stretches = sideStretches(space, paths, cells, side, finer);
    const { makes, make, slot, path, sense } = stretches;
    yield;
    const face = ((side === 'far' ? 1 : -1) * stack) / 2;
    const mutual = yield* mutualTable(slots, stretches, against === 'images' ? face : null);
    let rest = slice;
    for (let a = 0; a < make.length; a++) {
      const row = make[a]! * makes.length * slots;
      const own = path[a]! * count;
      for (let b = 0; b < a; b++) {
        const on = slot[b]! - slot[a]!;
        const value = mutual[row + make[b]! * slots + (on < 0 ? on + slots : on)]!;
        sums[own + path[b]!]! += sense[a]! * sense[b]! * value;
      }
      // Itself once, every other one the other way round too.
      sums[own + path[a]!]! += mutual[row + make[a]! * slots]! / 2;
      rest -= (a + 1) * workOfLookUp;
      if (rest > 0) continue;
      rest = slice;
      yield;
    }
  }
  return bothWays(sums, count);
}

/** Work between two yields, in pairs of nodes: some milliseconds. */
const slice = 200_000;
/** What else takes its time, counted so: one look into the table, and one filament moved. */
const workOfLookUp = 2;
const workOfMove = 300;

/**
 * Mutual inductances of makes by slots between them, those that any two stretches ask for, the one way round and the
 * other: of the makes i and j with k slots from the first to the second at (i n + j) slots + k.
 */
function* mutualTable(
  slots: number,
  { makes, make, slot }: SideStretches,
  mirror: number | null,
): Steps<Float64Array> {
  const count = makes.length;
  const asked = new Uint8Array(count * count * slots);
  for (let a = 0; a < make.length; a++) {
    const row = make[a]! * count * slots;
    for (let b = 0; b <= a; b++) {
      const on = slot[b]! - slot[a]!;
      asked[row + make[b]! * slots + (on < 0 ? on + slots : on)] = 1;
    }
  }
  yield;
  const found = new Float64Array(asked.length);
  let rest = slice;
  for (const [second, { filament, meanDistance }] of makes.entries()) {
    const { filament: other, move } = movable(filament);
    for (let apart = 0; apart < slots; apart++) {
      const back = apart === 0 ? 0 : slots - apart;
      let isPlaced = false;
      for (let first = 0; first <= second; first++) {
        const at = (first * count + second) * slots + apart;
        const round = (second * count + first) * slots + back;
        if (asked[at] === 0 && asked[round] === 0) continue;
        if (first === second && apart > back) {
          found[at] = found[round]!;
          continue;
        }
        if (!isPlaced) move((2 * Math.PI * apart) / slots, mirror);
        isPlaced = true;
        const isOwn = first === second && apart === 0 && mirror === null;
        const one = makes[first]!.filament;
        found[at] = mutualInductance(one, other, isOwn ? meanDistance : 0);
        found[round] = found[at]!;
        rest -= workOf(one, other);
      }
      if (isPlaced) rest -= workOfMove;
      if (rest > 0) continue;
      rest = slice;
      yield;
    }
  }
  return found;
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
  const owner = new Int32Array(cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const { slot, layer } of path.bars) owner[layer * space.slots + slot - 1] = index;
  });
  const makes: Make[] = [];
  const known = new Map<readonly Piece<string>[], number>();
  const byLine = new Map<string, number>();
  const makeOf = (pieces: readonly Piece<string>[], { width, height }: Section): number => {
    const before = known.get(pieces);
    if (before !== undefined) return before;
    // Beyond their tips ends may differ, as those of terminals and star points do.
    const joined = pieces.filter(({ kind }) => kind !== 'lead');
    const line = JSON.stringify([width, height, joined.map(({ curve, length }) => [curve, length])]);
    const index = byLine.get(line) ?? makes.length;
    if (index === makes.length) {
      makes.push({ filament: filamentOf(joined, finer), meanDistance: rectangleMeanDistance(width, height) });
      byLine.set(line, index);
    }
    known.set(pieces, index);
    return index;
  };
  const [make, slots, owners, senses]: [number[], number[], number[], number[]] = [[], [], [], []];
  const add = (index: number, slot: number, place: number) => {
    make.push(index);
    slots.push(slot - 1);
    owners.push(owner[place]!);
    // Outwards from the stack: with the bar's current on the far side, against it on the connection side.
    senses.push(cells[place]! > 0 === (side === 'far') ? 1 : -1);
  };
  space.bars.forEach((bar, place) => {
    if (!bar || owner[place]! < 0) return;
    const { section } = space.layers[bar.bar.layer]!;
    add(makeOf(bar[side].pieces, section), bar.bar.slot, place);
  });
  for (const link of space.links) {
    if (link.side !== side) continue;
    const { slot, layer } = link.from;
    add(makeOf(link.pieces, link.section), slot, layer * space.slots + slot - 1);
  }
  return {
    makes,
    make: Int32Array.from(make),
    slot: Int32Array.from(slots),
    path: Int32Array.from(owners),
    sense: Int8Array.from(senses),
  };
}

/** The sums the one way round and the other. */
function bothWays(sums: Float64Array, count: number): Float64Array {
  return sums.map((value, entry) => value + sums[(entry % count) * count + Math.floor(entry / count)]!);
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
