import type { EndSide, Path } from '../../winding/model.ts';
import type { Piece } from '../piece.ts';
import type { Section } from '../section.ts';
import type { Space } from '../space.ts';
import { type Filament, filamentOf, moved, mutualInductance, segmentSize } from './filaments.ts';
import { rectangleMeanDistance } from './meanDistance.ts';

/** Inductances of the end windings, H; entry i n + j is the flux linkage of path i for one ampere in path j. */
export interface EndInductances {
  /** In air. */
  readonly air: Float64Array;
  /** Of the ends with their images in the faces of the stack: adds fully for faces of iron, subtracts for flux lines. */
  readonly image: Float64Array;
}

/** A stretch of a path beyond the stack. */
interface Stretch {
  readonly make: number;
  readonly slot: number;
  /** Path that it is part of, and 1 where its current runs along it as the bars' + sense has it, else -1. */
  readonly path: number;
  readonly sense: 1 | -1;
}

interface Make {
  readonly filament: Filament;
  readonly meanDistance: number;
}

/**
 * Inductances of the ends of all paths by their center lines, some at a time: bar ends and connecting
 * pieces, without leads beyond the joints and without rings. Positive current runs as the cells' signs have
 * it. Every two makes of ends are computed once for each number of slots between them.
 */
export function* endInductanceSteps(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  finer = 1,
): Generator<undefined, EndInductances> {
  const count = paths.length;
  const sums = { air: new Float64Array(count * count), image: new Float64Array(count * count) };
  for (const side of ['connection', 'far'] as const) {
    const { stretches, makes } = sideStretches(space, paths, cells, side, finer);
    yield;
    const face = ((side === 'far' ? 1 : -1) * space.stack) / 2;
    const table = mutualTable(space.slots, makes, face);
    let rest = slice;
    for (const a of stretches) {
      for (const b of stretches) {
        const at = table.at(a.make, b.make, (b.slot - a.slot + space.slots) % space.slots);
        const entry = a.path * count + b.path;
        const sign = a.sense * b.sense;
        sums.air[entry]! += sign * table.air[at]!;
        sums.image[entry]! += sign * table.image[at]!;
        rest -= 1 + table.spent();
        if (rest > 0) continue;
        rest = slice;
        yield;
      }
    }
  }
  return { air: symmetrized(sums.air, count), image: symmetrized(sums.image, count) };
}

/** Pairs of segments, or of ends that are known already, between two yields: some milliseconds. */
const slice = 10_000;

/** Filaments kept as they stand in other slots. */
const mostTurned = 4096;

/** Mutual inductances of makes by slots between them, computed when first asked for. */
function mutualTable(slots: number, makes: readonly Make[], face: number) {
  const entries = makes.length * makes.length * slots;
  const air = new Float64Array(entries).fill(Number.NaN);
  const image = new Float64Array(entries);
  const turned = new Map<number, { readonly direct: Filament; readonly mirrored: Filament }>();
  const turnedBy = (make: number, apart: number) => {
    const key = make * slots + apart;
    const known = turned.get(key);
    if (known) return known;
    const turn = (2 * Math.PI * apart) / slots;
    const { filament } = makes[make]!;
    const found = { direct: moved(filament, turn, null), mirrored: moved(filament, turn, face) };
    if (turned.size >= mostTurned) turned.clear();
    turned.set(key, found);
    return found;
  };
  let pairs = 0;
  /** Pairs of segments computed since it was asked last. */
  const spent = () => {
    const since = pairs;
    pairs = 0;
    return since;
  };
  const at = (first: number, second: number, apart: number): number => {
    const index = (first * makes.length + second) * slots + apart;
    if (!Number.isNaN(air[index]!)) return index;
    const [a, b] = [makes[first]!, makes[second]!];
    const placed = turnedBy(second, apart);
    pairs += (2 * a.filament.length * b.filament.length) / segmentSize ** 2;
    const own = first === second && apart === 0 ? a.meanDistance : 0;
    const direct = mutualInductance(a.filament, placed.direct, own);
    const mirrored = mutualInductance(a.filament, placed.mirrored, 0);
    // The same the other way round.
    const other = (second * makes.length + first) * slots + ((slots - apart) % slots);
    for (const place of [index, other]) {
      air[place] = direct;
      image[place] = mirrored;
    }
    return index;
  };
  return { air, image, at, spent };
}

function sideStretches(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  side: EndSide,
  finer: number,
): { readonly stretches: readonly Stretch[]; readonly makes: readonly Make[] } {
  const owner = new Int32Array(cells.length).fill(-1);
  paths.forEach((path, index) => {
    for (const { slot, layer } of path.bars) owner[layer * space.slots + slot - 1] = index;
  });
  const makes: Make[] = [];
  const known = new Map<readonly Piece<string>[], number>();
  const makeOf = (pieces: readonly Piece<string>[], { width, height }: Section): number => {
    const index = known.get(pieces) ?? makes.length;
    if (index === makes.length) {
      const joined = pieces.filter(({ kind }) => kind !== 'lead');
      makes.push({
        filament: filamentOf(joined, finer),
        meanDistance: rectangleMeanDistance(width, height),
      });
      known.set(pieces, index);
    }
    return index;
  };
  const stretches: Stretch[] = [];
  // Outwards from the stack: with the bar's current on the far side, against it on the connection side.
  const outwards = (place: number): 1 | -1 => (cells[place]! > 0 === (side === 'far') ? 1 : -1);
  space.bars.forEach((bar, place) => {
    const path = owner[place]!;
    if (!bar || path < 0) return;
    const make = makeOf(bar[side].pieces, space.layers[bar.bar.layer]!.section);
    stretches.push({ make, slot: bar.bar.slot, path, sense: outwards(place) });
  });
  for (const link of space.links) {
    if (link.side !== side) continue;
    const { slot, layer } = link.from;
    const place = layer * space.slots + slot - 1;
    const make = makeOf(link.pieces, link.section);
    stretches.push({ make, slot, path: owner[place]!, sense: outwards(place) });
  }
  return { stretches, makes };
}

/** Exactly symmetric, as it is but for rounding and the order of the outer integral. */
function symmetrized(matrix: Float64Array, count: number): Float64Array {
  return matrix.map((value, entry) => {
    const other = matrix[(entry % count) * count + Math.floor(entry / count)]!;
    return (value + other) / 2;
  });
}

/** Leakage of the end windings of one phase, H, and between phases. */
export interface PhaseEndInductance {
  /** In air; and the least and most with the images of the ends in faces of iron or of flux lines. */
  readonly phase: number;
  /** The least of the two images. */
  readonly low: number;
  /** The most of the two images. */
  readonly high: number;
  /** In air, a row a phase. */
  readonly matrix: readonly (readonly number[])[];
}

/**
 * What balanced currents on the phases' axes (electrical degrees) see, each phase's shared equally by its paths:
 * (1/m) times the sum of Re(i_f conj i_g) M_fg.
 */
export function phaseEndInductance(
  { air, image }: EndInductances,
  phaseOf: readonly number[],
  axes: readonly number[],
): PhaseEndInductance {
  const inAir = phaseMatrix(air, phaseOf, axes.length);
  const imaged = phaseMatrix(image, phaseOf, axes.length);
  const seen = (matrix: readonly (readonly number[])[]) =>
    matrix.reduce(
      (sum, row, f) =>
        sum +
        row.reduce((own, value, g) => own + value * Math.cos(((axes[f]! - axes[g]!) * Math.PI) / 180), 0) /
          axes.length,
      0,
    );
  const [phase, change] = [seen(inAir), seen(imaged)];
  return { phase, low: phase - Math.abs(change), high: phase + Math.abs(change), matrix: inAir };
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
