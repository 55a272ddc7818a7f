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
  /** Of the same kinds from either end. */
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
  readonly means: readonly number[];
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
  /** Room for a solution under way, one number a cell. */
  readonly room: Room;
}

/** What solving a chain's balance takes, one number a cell. */
interface Room {
  /** How much each cell follows the next one towards the middle. */
  readonly inwards: Float64Array;
  /** How much each cell follows the core. */
  readonly follows: Float64Array;
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
  const room = { inwards: new Float64Array(count), follows: new Float64Array(count) };
  return { count, widths, places, pieceOf, along, room };
}

function meansOf({ pieces }: HeatChain, temperatures: Float64Array): readonly number[] {
  const means: number[] = [];
  let cell = 0;
  for (let piece = 0; piece < pieces.length; piece++) {
    const count = cells[pieces[piece]!.kind];
    let sum = 0;
    for (let each = 0; each < count; each++) sum += temperatures[cell++]!;
    means.push(sum / count);
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
  /** What it loses, by the losses that it was solved for. */
  readonly loads: { readonly losses: readonly LossOf[]; readonly loads: Loads };
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

/** Means of the pieces of all chains, and the losses that they give. */
interface Loads {
  readonly means: readonly (readonly number[])[];
  readonly losses: readonly PieceLosses[];
}

/** Losses of the pieces of a chain, as `PieceLoss` has them. */
interface PieceLosses {
  readonly at: readonly number[];
  readonly slope: readonly number[];
}

/** The balance of a chain at its losses, to be solved. */
interface Balance {
  readonly chain: HeatChain;
  readonly grid: Grid;
  readonly losses: PieceLosses;
  readonly means: readonly number[];
  readonly old: Float64Array;
  readonly step: number;
  /** A core takes part: how the cells follow it is solved for, too. */
  readonly coupled: boolean;
  /** What is solved for: temperatures with a core at 0 degC. */
  readonly alone: Float64Array;
  /** Whether it has a solution. */
  solved: boolean;
}

/**
 * Solves the balance of a chain from both its ends towards its middle, and from there back to them: each cell waits for
 * the divisions of the one before it, and meanwhile those of the other half are done.
 */
function solveChain(balance: Balance): void {
  const { chain, grid, old, alone, coupled } = balance;
  const { along, widths, count } = grid;
  const { inwards, follows } = grid.room;
  const ends = chain.ends ?? 0;
  const half = count / 2;
  // Of the cell before, in the first half and in the second: how it follows the next, what it is without, and of the core.
  let [on1, own1, pull1] = [0, ends, 0];
  let [on2, own2, pull2] = [0, ends, 0];
  let solved = true;
  let cell = 0;
  for (let at = 0; cell < half; at++) {
    const back = chain.pieces.length - 1 - at;
    const first = pieceTerms(balance, at, widths[cell]!);
    const second = pieceTerms(balance, back, widths[count - 1 - cell]!);
    const end = Math.min(half, cell + cells[chain.pieces[at]!.kind]);
    for (; cell < end; cell++) {
      const other = count - 1 - cell;
      const behind1 = along[cell]!;
      const behind2 = along[other + 1]!;
      const ahead1 = along[cell + 1]!;
      const ahead2 = along[other]!;
      const diagonal1 = behind1 + ahead1 + first.own - behind1 * on1;
      const diagonal2 = behind2 + ahead2 + second.own - behind2 * on2;
      if (!(diagonal1 > 0 && diagonal2 > 0)) solved = false;
      own1 = (first.given + first.stored * old[cell]! + behind1 * own1) / diagonal1;
      own2 = (second.given + second.stored * old[other]! + behind2 * own2) / diagonal2;
      on1 = ahead1 / diagonal1;
      on2 = ahead2 / diagonal2;
      alone[cell] = own1;
      alone[other] = own2;
      inwards[cell] = on1;
      inwards[other] = on2;
      if (!coupled) continue;
      pull1 = (first.pulled + behind1 * pull1) / diagonal1;
      pull2 = (second.pulled + behind2 * pull2) / diagonal2;
      follows[cell] = pull1;
      follows[other] = pull2;
    }
  }
  // The two cells in the middle follow each other.
  const rest = 1 - on1 * on2;
  if (!(rest > 0)) solved = false;
  [own1, own2] = [(own1 + on1 * own2) / rest, (own2 + on2 * own1) / rest];
  [pull1, pull2] = [(pull1 + on1 * pull2) / rest, (pull2 + on2 * pull1) / rest];
  for (let back = half - 1; ; back--) {
    const other = count - 1 - back;
    alone[back] = own1;
    alone[other] = own2;
    if (coupled) {
      follows[back] = pull1;
      follows[other] = pull2;
    }
    if (back === 0) break;
    const [share1, share2] = [inwards[back - 1]!, inwards[other + 1]!];
    own1 = alone[back - 1]! + share1 * own1;
    own2 = alone[other + 1]! + share2 * own2;
    pull1 = follows[back - 1]! + share1 * pull1;
    pull2 = follows[other + 1]! + share2 * pull2;
  }
  balance.solved = solved;
}

/** What all cells of a piece have in their balances: heat kept, the diagonal, the right side, the pull of the core. */
function pieceTerms({ chain, losses, means, step }: Balance, at: number, width: number) {
  const { conductance, surroundings, area } = chain.pieces[at]!;
  const kept = step === Number.POSITIVE_INFINITY ? 0 : chain.heatCapacity / step;
  const slope = losses.slope[at]!;
  const toCore = surroundings === 'core';
  const stored = kept * area * width;
  return {
    stored,
    own: width * (conductance - slope) + stored,
    given: width * ((toCore ? 0 : conductance * surroundings) + losses.at[at]! - slope * means[at]!),
    pulled: toCore ? width * conductance : 0,
  };
}

/**
 * Solves the balance of all cells and of the core for a given loss: conduction, conductance to the surroundings, and
 * for a step of `step` s (Infinity: steady) the heat that metal and core take up since `old`. The chains are solved
 * each by itself as they follow the core, whose balance then tells its temperature, with losses as they are at a
 * first `guess`, then at what is found. Null where there is no solution below the melting of metals.
 */
export function solveHeat(
  system: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState,
  step: number,
  guess: HeatState | SolvedHeat = old,
): SolvedHeat | null {
  const { chains } = system;
  const steady = step === Number.POSITIVE_INFINITY;
  let { fields: before, core: coreBefore } = guess;
  let loads = loadsAt(system, losses, guess);
  for (let round = 0; round < mostRounds; round++) {
    const balances = balancesOf(system, grids, old, step, loads);
    for (const balance of balances) solveChain(balance);
    const node = coreTemperature(system, balances, old, step);
    if (node === null || !followCore(balances, node)) return null;
    const fields = balances.map(({ alone }) => alone);
    const next = loadsOf(chains, losses, fields);
    const change = steady
      ? Math.max(Math.abs(node - coreBefore), largestChange(before, fields))
      : strayed(chains, loads, next) * step;
    if (change < (steady ? settled.steady : settled.step)) {
      const solved = loads;
      return {
        fields,
        core: node,
        loads: { losses, loads: next },
        powers: () => powersOf(system, grids, solved, { fields, core: node }),
      };
    }
    [before, coreBefore, loads] = [fields, node, next];
  }
  return null;
}

/** The balances of all chains, none of them solved. */
function balancesOf(
  { chains, core }: HeatSystem,
  grids: readonly Grid[],
  { fields }: HeatState,
  step: number,
  { losses, means }: Loads,
): readonly Balance[] {
  return chains.map((chain, index) => ({
    chain,
    grid: grids[index]!,
    losses: losses[index]!,
    means: means[index]!,
    old: fields[index]!,
    step,
    coupled: core !== null,
    alone: new Float64Array(grids[index]!.count),
    solved: false,
  }));
}

/** The core's temperature by its own balance, that of `old` where there is none; null where it has no solution. */
function coreTemperature(
  { chains, counts, core }: HeatSystem,
  balances: readonly Balance[],
  old: HeatState,
  step: number,
): number | null {
  if (!balances.every(({ solved }) => solved)) return null;
  if (core === null) return old.core;
  const kept = step === Number.POSITIVE_INFINITY ? 0 : (core.heatCapacity ?? 0) / step;
  let diagonal = core.cooling + kept;
  let right = core.cooling * core.coolant + kept * old.core;
  for (let index = 0; index < chains.length; index++) {
    if (counts[index] === 0) continue;
    const { grid, alone } = balances[index]!;
    const { follows } = grid.room;
    let cell = 0;
    for (const { kind, surroundings, conductance } of chains[index]!.pieces) {
      const end = cell + cells[kind];
      const flow = counts[index]! * grid.widths[cell]! * conductance;
      for (; surroundings === 'core' && cell < end; cell++) {
        diagonal += flow * (1 - follows[cell]!);
        right += flow * alone[cell]!;
      }
      cell = end;
    }
  }
  return diagonal > 0 ? right / diagonal : null;
}

/** Adds what coupled cells follow of the core. False where metal would melt; what is no number is caught here too. */
function followCore(balances: readonly Balance[], core: number): boolean {
  if (!(Math.abs(core) < noSolidMetal)) return false;
  let solid = true;
  for (const { alone, grid, coupled } of balances) {
    const { follows } = grid.room;
    for (let cell = 0; cell < alone.length; cell++) {
      const temperature = coupled ? alone[cell]! + follows[cell]! * core : alone[cell]!;
      alone[cell] = temperature;
      if (!(Math.abs(temperature) < noSolidMetal)) solid = false;
    }
  }
  return solid;
}

/** The loads of a state, which may have been solved for with the same losses. */
function loadsAt({ chains }: HeatSystem, losses: readonly LossOf[], state: HeatState | SolvedHeat): Loads {
  return 'loads' in state && state.loads.losses === losses
    ? state.loads.loads
    : loadsOf(chains, losses, state.fields);
}

function loadsOf(
  chains: readonly HeatChain[],
  losses: readonly LossOf[],
  fields: readonly Float64Array[],
): Loads {
  const means: (readonly number[])[] = [];
  const found: PieceLosses[] = [];
  for (let index = 0; index < chains.length; index++) {
    const ofPieces = meansOf(chains[index]!, fields[index]!);
    const lossOf = losses[index]!;
    const [at, slope]: [number[], number[]] = [[], []];
    for (let piece = 0; piece < ofPieces.length; piece++) {
      const loss = lossOf(piece, ofPieces[piece]!);
      at.push(loss.at);
      slope.push(loss.slope);
    }
    means.push(ofPieces);
    found.push({ at, slope });
  }
  return { means, losses: found };
}

/** By how much the losses that were solved for miss those of the solution, as a rise of the metal, K/s. */
function strayed(chains: readonly HeatChain[], before: Loads, after: Loads): number {
  let most = 0;
  for (let index = 0; index < chains.length; index++) {
    const { pieces, heatCapacity } = chains[index]!;
    const { at, slope } = before.losses[index]!;
    const [means, nextMeans] = [before.means[index]!, after.means[index]!];
    const next = after.losses[index]!.at;
    for (let piece = 0; piece < pieces.length; piece++) {
      const told = at[piece]! + slope[piece]! * (nextMeans[piece]! - means[piece]!);
      most = Math.max(most, Math.abs(next[piece]! - told) / (heatCapacity * pieces[piece]!.area));
    }
  }
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

/** Power put in and power that leaves in a state, with the losses as they were when it was solved for, W. */
function powersOf(
  { chains, counts, core }: HeatSystem,
  grids: readonly Grid[],
  { losses, means }: Loads,
  { fields, core: node }: HeatState,
): Powers {
  let put = 0;
  let away = core ? core.cooling * (node - core.coolant) : 0;
  for (let index = 0; index < chains.length; index++) {
    const { pieces, ends } = chains[index]!;
    const { count, widths, along } = grids[index]!;
    const { at, slope } = losses[index]!;
    const [field, mean, weight] = [fields[index]!, means[index]!, counts[index]!];
    for (let piece = 0, cell = 0; piece < pieces.length; piece++) {
      const { kind, surroundings, conductance } = pieces[piece]!;
      const end = cell + cells[kind];
      for (; cell < end; cell++) {
        put += weight * widths[cell]! * (at[piece]! + slope[piece]! * (field[cell]! - mean[piece]!));
        if (surroundings !== 'core')
          away += weight * widths[cell]! * conductance * (field[cell]! - surroundings);
      }
    }
    if (ends !== null)
      away += weight * (along[0]! * (field[0]! - ends) + along[count]! * (field[count - 1]! - ends));
  }
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
