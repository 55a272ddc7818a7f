import { noSolidMetal } from '../metals.ts';

/** A stretch of bar that is alike all along. SI units, temperatures in degC. */
export interface ChainPiece {
  readonly kind: 'slot' | 'overhang';
  /** From 0. */
  readonly layer: number;
  /** Along the bar. */
  readonly length: number;
  /** Copper area. */
  readonly area: number;
  /** To its surroundings, W per meter and kelvin, and their temperature, or the core that takes part. */
  readonly conductance: number;
  /** degC, or the core. */
  readonly surroundings: number | 'core';
}

/** Loss of a piece at its mean temperature, W/m, and how it grows with the local one, W/(m K). */
export interface PieceLoss {
  /** W/m. */
  readonly at: number;
  /** W/(m K). */
  readonly slope: number;
}

/** Bars one behind the other; heat flows along them and to their surroundings. */
export interface HeatChain {
  readonly pieces: readonly ChainPiece[];
  /** The temperature both ends are held at; null: no heat leaves by the ends. */
  readonly ends: number | null;
  /** Of the metal, W/(m K) and J/(m3 K). */
  readonly conductivity: number;
  /** Of a volume. */
  readonly heatCapacity: number;
}

/** A core of one temperature that the bars heat and a coolant cools. */
export interface CoreNode {
  /** J/K; null where it is not told, which steady states do not need. */
  readonly heatCapacity: number | null;
  /** To the coolant, W/K. */
  readonly cooling: number;
  /** Temperature of the coolant, degC. */
  readonly coolant: number;
}

/** Chains that share a core. */
export interface HeatSystem {
  readonly chains: readonly HeatChain[];
  /** How many of each chain heat the core; 0 for one that is only looked at. */
  readonly counts: readonly number[];
  /** Null where every piece has surroundings that are held. */
  readonly core: CoreNode | null;
}

/** Temperatures along a chain, at the middle of each of its cells. */
export interface ChainHeat {
  /** degC. */
  readonly temperatures: Float64Array;
  /** Distance from the chain's start, and the piece each cell is part of. */
  readonly places: Float64Array;
  readonly pieceOf: Int32Array;
  /** Mean temperature of each piece. */
  readonly means: Float64Array;
}

/** Loss of a piece of the chain, by its place in the list, at its mean temperature. */
export type LossOf = (piece: number, mean: number) => PieceLoss;

const cells = { slot: 40, overhang: 20 };
/** A round that changes less than this is the last, K: of a steady state, of a step in time. */
const settled = { steady: 1e-7, step: 1e-3 };
const mostRounds = 60;

/** A chain cut into cells. */
export interface Grid {
  /** Cells. */
  readonly count: number;
  /** Of the cells along the bar, m. */
  readonly widths: Float64Array;
  /** Their middles from the start of the chain, m. */
  readonly places: Float64Array;
  readonly pieceOf: Int32Array;
  /** Conductance from each cell to the one before, W/K; the first and last entry lead to the ends. */
  readonly along: Float64Array;
  /** Room for a solution under way. */
  readonly upper: Float64Array;
}

/** The cells of a chain: 40 within the stack and 20 in each bar end. */
export function gridOf({ pieces, ends, conductivity }: HeatChain): Grid {
  const count = pieces.reduce((sum, { kind }) => sum + cells[kind], 0);
  const widths = new Float64Array(count);
  const places = new Float64Array(count);
  const pieceOf = new Int32Array(count);
  const along = new Float64Array(count + 1);
  let at = 0;
  let cell = 0;
  let before = 0;
  pieces.forEach(({ kind, length, area }, index) => {
    const width = length / cells[kind];
    const half = width / 2 / (conductivity * area);
    for (let each = 0; each < cells[kind]; each++, cell++) {
      widths[cell] = width;
      places[cell] = at + width * (each + 0.5);
      pieceOf[cell] = index;
      along[cell] = cell === 0 && ends === null ? 0 : 1 / (before + half);
      before = half;
    }
    at += length;
  });
  along[count] = ends === null ? 0 : 1 / before;
  return { count, widths, places, pieceOf, along, upper: new Float64Array(count) };
}

function meansOf({ pieces }: HeatChain, temperatures: Float64Array): Float64Array {
  const means = new Float64Array(pieces.length);
  let cell = 0;
  for (let piece = 0; piece < pieces.length; piece++) {
    const count = cells[pieces[piece]!.kind];
    let sum = 0;
    for (let each = 0; each < count; each++) sum += temperatures[cell++]!;
    means[piece] = sum / count;
  }
  return means;
}

/** Temperatures of all cells, one list a chain, and of the core. */
export interface HeatState {
  /** degC. */
  readonly fields: readonly Float64Array[];
  /** DegC; without meaning where there is none. */
  readonly core: number;
}

/** Power that is put in, and that leaves to ends, surroundings and coolant, W. */
export interface Powers {
  /** By losses. */
  readonly put: number;
  /** To all of them. */
  readonly away: number;
}

/** A state that was solved for, with its powers. */
export interface SolvedHeat extends HeatState {
  readonly powers: () => Powers;
}

/** Everything at the temperature of what is coolest. */
export function coolState({ chains, core }: HeatSystem, grids: readonly Grid[]): HeatState {
  const held = chains.flatMap(({ ends, pieces }) => [
    ends ?? Number.POSITIVE_INFINITY,
    ...pieces.map(({ surroundings }) => (surroundings === 'core' ? Number.POSITIVE_INFINITY : surroundings)),
  ]);
  const coolest = held.reduce((a, b) => Math.min(a, b), core?.coolant ?? Number.POSITIVE_INFINITY);
  return { fields: grids.map(({ count }) => new Float64Array(count).fill(coolest)), core: coolest };
}

/** Temperatures of a chain as they follow the core. */
interface Balance {
  /** With a core at 0 degC, and how much each cell follows it; empty where none takes part. */
  readonly alone: Float64Array;
  readonly follows: Float64Array;
}

/** Solves one chain's balance for its losses; null where it has no solution. */
function balanceOf(
  chain: HeatChain,
  { count, widths, along, upper }: Grid,
  losses: readonly PieceLoss[],
  means: Float64Array,
  old: Float64Array,
  step: number,
  coupled: boolean,
): Balance | null {
  const alone = new Float64Array(count);
  const follows = new Float64Array(coupled ? count : 0);
  const ends = chain.ends ?? 0;
  const kept = step === Number.POSITIVE_INFINITY ? 0 : chain.heatCapacity / step;
  let [above, last, lastFollows] = [0, 0, 0];
  let cell = 0;
  for (let at = 0; at < chain.pieces.length; at++) {
    const { kind, conductance, surroundings, area } = chain.pieces[at]!;
    const { at: loss, slope } = losses[at]!;
    const width = widths[cell]!;
    const toCore = surroundings === 'core';
    const stored = kept * area * width;
    const own = width * (conductance - slope) + stored;
    const given = width * ((toCore ? 0 : conductance * surroundings) + loss - slope * means[at]!);
    const pulled = toCore ? width * conductance : 0;
    for (let each = 0; each < cells[kind]; each++, cell++) {
      const behind = along[cell]!;
      const ahead = along[cell + 1]!;
      let right = given + stored * old[cell]! + behind * last;
      if (cell === 0) right += behind * ends;
      if (cell === count - 1) right += ahead * ends;
      const diagonal = behind + ahead + own - behind * above;
      if (!(diagonal > 0)) return null;
      above = cell < count - 1 ? ahead / diagonal : 0;
      upper[cell] = above;
      last = right / diagonal;
      alone[cell] = last;
      if (!coupled) continue;
      lastFollows = (pulled + behind * lastFollows) / diagonal;
      follows[cell] = lastFollows;
    }
  }
  for (let back = count - 2; back >= 0; back--) {
    last = alone[back]! + upper[back]! * last;
    alone[back] = last;
    if (!coupled) continue;
    lastFollows = follows[back]! + upper[back]! * lastFollows;
    follows[back] = lastFollows;
  }
  return { alone, follows };
}

/**
 * Solves the balance of all cells and of the core for a given loss: conduction, conductance to the
 * surroundings, and for a step of `step` s (Infinity: steady) the heat that metal and core take up since
 * `old`. The chains are solved each by itself as they follow the core, whose balance then tells its
 * temperature. Null where there is no solution below the melting of metals.
 */
export function solveHeat(
  { chains, counts, core }: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState,
  step: number,
): SolvedHeat | null {
  const steady = step === Number.POSITIVE_INFINITY;
  const kept = steady || core === null ? 0 : (core.heatCapacity ?? 0) / step;
  let fields = old.fields;
  let means = chains.map((chain, index) => meansOf(chain, fields[index]!));
  let loads = lossesAt(chains, losses, means);
  let node = old.core;
  for (let round = 0; round < mostRounds; round++) {
    const balances: Balance[] = [];
    let [diagonal, right] = core
      ? [core.cooling + kept, core.cooling * core.coolant + kept * old.core]
      : [1, 0];
    for (let index = 0; index < chains.length; index++) {
      const chain = chains[index]!;
      const grid = grids[index]!;
      const balance = balanceOf(
        chain,
        grid,
        loads[index]!,
        means[index]!,
        old.fields[index]!,
        step,
        core !== null,
      );
      if (balance === null) return null;
      balances.push(balance);
      if (core === null || counts[index] === 0) continue;
      for (let cell = 0; cell < grid.count; cell++) {
        const { surroundings, conductance } = chain.pieces[grid.pieceOf[cell]!]!;
        if (surroundings !== 'core') continue;
        const flow = counts[index]! * grid.widths[cell]! * conductance;
        diagonal += flow * (1 - balance.follows[cell]!);
        right += flow * balance.alone[cell]!;
      }
    }
    if (!(diagonal > 0)) return null;
    const nextNode = core ? right / diagonal : old.core;
    const next = balances.map(({ alone, follows }) => {
      for (let cell = 0; cell < follows.length; cell++) alone[cell]! += follows[cell]! * nextNode;
      return alone;
    });
    // Above melting nothing is solid; what is no number is caught here too.
    if (!(Math.abs(nextNode) < noSolidMetal) || tooHot(next)) return null;
    const nextMeans = chains.map((chain, index) => meansOf(chain, next[index]!));
    const nextLoads = lossesAt(chains, losses, nextMeans);
    const change = steady
      ? Math.max(Math.abs(nextNode - node), largestChange(fields, next))
      : strayed(chains, loads, means, nextLoads, nextMeans) * step;
    if (change < (steady ? settled.steady : settled.step)) {
      const [put, at] = [loads, means];
      return {
        fields: next,
        core: nextNode,
        powers: () => powersOf({ chains, counts, core }, grids, put, at, { fields: next, core: nextNode }),
      };
    }
    [fields, means, loads, node] = [next, nextMeans, nextLoads, nextNode];
  }
  return null;
}

function lossesAt(
  chains: readonly HeatChain[],
  losses: readonly LossOf[],
  means: readonly Float64Array[],
): readonly (readonly PieceLoss[])[] {
  return chains.map(({ pieces }, index) =>
    pieces.map((_, piece) => losses[index]!(piece, means[index]![piece]!)),
  );
}

/** By how much the losses that were solved for miss those of the solution, as a rise of the metal, K/s. */
function strayed(
  chains: readonly HeatChain[],
  loads: readonly (readonly PieceLoss[])[],
  means: readonly Float64Array[],
  nextLoads: readonly (readonly PieceLoss[])[],
  nextMeans: readonly Float64Array[],
): number {
  let most = 0;
  chains.forEach(({ pieces, heatCapacity }, index) => {
    pieces.forEach(({ area }, piece) => {
      const { at, slope } = loads[index]![piece]!;
      const told = at + slope * (nextMeans[index]![piece]! - means[index]![piece]!);
      most = Math.max(most, Math.abs(nextLoads[index]![piece]!.at - told) / (heatCapacity * area));
    });
  });
  return most;
}

function largestChange(fields: readonly Float64Array[], next: readonly Float64Array[]): number {
  let most = 0;
  next.forEach((field, index) => {
    const before = fields[index]!;
    for (let cell = 0; cell < field.length; cell++)
      most = Math.max(most, Math.abs(field[cell]! - before[cell]!));
  });
  return most;
}

function tooHot(fields: readonly Float64Array[]): boolean {
  for (const field of fields)
    for (let cell = 0; cell < field.length; cell++) if (!(Math.abs(field[cell]!) < noSolidMetal)) return true;
  return false;
}

/** Power put in and power that leaves in a state, with the losses as they were when it was solved for, W. */
function powersOf(
  { chains, counts, core }: HeatSystem,
  grids: readonly Grid[],
  losses: readonly (readonly PieceLoss[])[],
  means: readonly Float64Array[],
  { fields, core: node }: HeatState,
): Powers {
  let put = 0;
  let away = core ? core.cooling * (node - core.coolant) : 0;
  chains.forEach((chain, index) => {
    const { count, widths, pieceOf, along } = grids[index]!;
    const field = fields[index]!;
    const weight = counts[index]!;
    for (let cell = 0; cell < count; cell++) {
      const at = pieceOf[cell]!;
      const { surroundings, conductance } = chain.pieces[at]!;
      const { at: loss, slope } = losses[index]![at]!;
      put += weight * widths[cell]! * (loss + slope * (field[cell]! - means[index]![at]!));
      if (surroundings !== 'core')
        away += weight * widths[cell]! * conductance * (field[cell]! - surroundings);
    }
    if (chain.ends !== null)
      away +=
        weight * (along[0]! * (field[0]! - chain.ends) + along[count]! * (field[count - 1]! - chain.ends));
  });
  return { put, away };
}

/** Heat that metal and core hold more in one state than in another, J. */
export function storedBetween(
  { chains, counts, core }: HeatSystem,
  grids: readonly Grid[],
  from: HeatState,
  to: HeatState,
): number {
  let stored = core ? (core.heatCapacity ?? 0) * (to.core - from.core) : 0;
  chains.forEach((chain, index) => {
    const { count, widths, pieceOf } = grids[index]!;
    for (let cell = 0; cell < count; cell++) {
      const volume = chain.pieces[pieceOf[cell]!]!.area * widths[cell]!;
      const change = to.fields[index]![cell]! - from.fields[index]![cell]!;
      stored += counts[index]! * chain.heatCapacity * volume * change;
    }
  });
  return stored;
}

/** Steady temperatures of all chains, and of the core: null where there is none. */
export interface SystemHeat {
  readonly chains: readonly ChainHeat[];
  /** degC. */
  readonly core: number | null;
}

/**
 * Steady temperatures along chains: k A T'' = G (T - Ts) - p'(T), by finite volumes, the loss iterated with the
 * temperature. Null where none is reached.
 */
export function steadySystem(system: HeatSystem, losses: readonly LossOf[]): SystemHeat | null {
  const grids = system.chains.map(gridOf);
  const state = solveHeat(system, grids, losses, coolState(system, grids), Number.POSITIVE_INFINITY);
  if (state === null) return null;
  return {
    chains: state.fields.map((temperatures, index) => {
      const { places, pieceOf } = grids[index]!;
      return {
        temperatures,
        places,
        pieceOf,
        means: meansOf(system.chains[index]!, temperatures),
      };
    }),
    core: system.core ? state.core : null,
  };
}

/** The same of one chain whose surroundings are held. */
export function steadyChain(chain: HeatChain, lossOf: LossOf): ChainHeat | null {
  return steadySystem({ chains: [chain], counts: [1], core: null }, [lossOf])?.chains[0] ?? null;
}
