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
  /** The kinds of its pieces, a letter each. */
  readonly form: string;
  /** Room for two solutions under way. */
  readonly rooms: readonly [Room, Room];
}

/** What solving a chain's balance takes, one number a cell. */
interface Room {
  /** Of a solution that nobody keeps. */
  readonly field: Float64Array;
  readonly upper: Float64Array;
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
  const form = pieces.map(({ kind }) => kind[0]).join('');
  return { count, widths, places, pieceOf, along, form, rooms: [roomFor(count), roomFor(count)] };
}

function roomFor(count: number): Room {
  return {
    field: new Float64Array(count),
    upper: new Float64Array(count),
    follows: new Float64Array(count),
  };
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
  readonly room: Room;
  /** What is solved for: temperatures with a core at 0 degC. */
  readonly alone: Float64Array;
  /** Whether it has a solution. */
  solved: boolean;
}

/**
 * Solves the balances of two chains of one form, because each cell waits for the divisions of the cell before it, and
 * meanwhile those of another chain are done; both may be the same one. With `coupled` how they follow the core too.
 */
function solveTwo(a: Balance, b: Balance, coupled: boolean): void {
  const { alone, old } = a;
  const { upper, follows } = a.room;
  const { along, widths, count } = a.grid;
  const { alone: alone2, old: old2 } = b;
  const { upper: upper2, follows: follows2 } = b.room;
  const { along: along2, widths: widths2 } = b.grid;
  const [ends, ends2] = [a.chain.ends ?? 0, b.chain.ends ?? 0];
  let above = 0;
  let last = 0;
  let lastFollows = 0;
  let above2 = 0;
  let last2 = 0;
  let lastFollows2 = 0;
  let [solved, solved2] = [true, true];
  let cell = 0;
  for (let at = 0; at < a.chain.pieces.length; at++) {
    const { stored, own, given, pulled } = pieceTerms(a, at, widths[cell]!);
    const { stored: stored2, own: own2, given: given2, pulled: pulled2 } = pieceTerms(b, at, widths2[cell]!);
    const end = cell + cells[a.chain.pieces[at]!.kind];
    for (; cell < end; cell++) {
      const behind = along[cell]!;
      const ahead = along[cell + 1]!;
      const behind2 = along2[cell]!;
      const ahead2 = along2[cell + 1]!;
      let right = given + stored * old[cell]! + behind * last;
      let right2 = given2 + stored2 * old2[cell]! + behind2 * last2;
      if (cell === 0) {
        right += behind * ends;
        right2 += behind2 * ends2;
      }
      if (cell === count - 1) {
        right += ahead * ends;
        right2 += ahead2 * ends2;
      }
      const diagonal = behind + ahead + own - behind * above;
      const diagonal2 = behind2 + ahead2 + own2 - behind2 * above2;
      if (!(diagonal > 0)) solved = false;
      if (!(diagonal2 > 0)) solved2 = false;
      above = ahead / diagonal;
      above2 = ahead2 / diagonal2;
      upper[cell] = above;
      upper2[cell] = above2;
      last = right / diagonal;
      last2 = right2 / diagonal2;
      alone[cell] = last;
      alone2[cell] = last2;
      if (!coupled) continue;
      lastFollows = (pulled + behind * lastFollows) / diagonal;
      lastFollows2 = (pulled2 + behind2 * lastFollows2) / diagonal2;
      follows[cell] = lastFollows;
      follows2[cell] = lastFollows2;
    }
  }
  for (let back = count - 2; back >= 0; back--) {
    // Both are read before either is written: they may be one.
    const share = upper[back]!;
    const share2 = upper2[back]!;
    const before = alone[back]!;
    const before2 = alone2[back]!;
    last = before + share * last;
    last2 = before2 + share2 * last2;
    alone[back] = last;
    alone2[back] = last2;
    if (!coupled) continue;
    const pull = follows[back]!;
    const pull2 = follows2[back]!;
    lastFollows = pull + share * lastFollows;
    lastFollows2 = pull2 + share2 * lastFollows2;
    follows[back] = lastFollows;
    follows2[back] = lastFollows2;
  }
  a.solved = solved;
  b.solved = solved2;
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

function solveAll(balances: readonly Balance[], coupled: boolean): void {
  for (let at = 0; at < balances.length; ) {
    const first = balances[at]!;
    const next = balances[at + 1];
    const second = next?.grid.form === first.grid.form ? next : first;
    solveTwo(first, second, coupled);
    at += second === first ? 1 : 2;
  }
}

/** A solution that is looked for, round by round. */
interface Attempt {
  readonly step: number;
  /** Which room of the grids it takes. */
  readonly room: 0 | 1;
  fields: readonly Float64Array[];
  core: number;
  loads: Loads;
}

/**
 * Solves the balance of all cells and of the core for a given loss: conduction, conductance to the
 * surroundings, and for a step of `step` s (Infinity: steady) the heat that metal and core take up since
 * `old`. The chains are solved each by itself as they follow the core, whose balance then tells its
 * temperature. Null where there is no solution below the melting of metals.
 */
export function solveHeat(
  system: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState | SolvedHeat,
  step: number,
): SolvedHeat | null {
  const attempt = attemptFrom(old, loadsAt(system, losses, old), step, 0);
  const balances = balancesOf(system, grids, old, attempt);
  solveAll(balances, system.core !== null);
  return goOn(system, grids, losses, old, attempt, balances);
}

/**
 * The same for two steps from one state on, which is quicker than each alone. Their fields hold until two others are
 * solved for.
 */
export function solveTwoSteps(
  system: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState | SolvedHeat,
  steps: readonly [number, number],
): readonly [SolvedHeat | null, SolvedHeat | null] {
  const loads = loadsAt(system, losses, old);
  const [one, other] = [attemptFrom(old, loads, steps[0], 0), attemptFrom(old, loads, steps[1], 1)];
  const balances = balancesOf(system, grids, old, one, 'room');
  const others = balancesOf(system, grids, old, other, 'room');
  solveAll(
    balances.flatMap((balance, index) => [balance, others[index]!]),
    system.core !== null,
  );
  return [goOn(system, grids, losses, old, one, balances), goOn(system, grids, losses, old, other, others)];
}

function attemptFrom({ fields, core }: HeatState, loads: Loads, step: number, room: 0 | 1): Attempt {
  return { step, room, fields, core, loads };
}

/** The balances of all chains, none of them solved; solutions take arrays of their own, or those of the grids' rooms. */
function balancesOf(
  { chains }: HeatSystem,
  grids: readonly Grid[],
  old: HeatState,
  { step, room, loads }: Attempt,
  place: 'own' | 'room' = 'own',
): readonly Balance[] {
  return chains.map((chain, index) => ({
    chain,
    grid: grids[index]!,
    losses: loads.losses[index]!,
    means: loads.means[index]!,
    old: old.fields[index]!,
    step,
    room: grids[index]!.rooms[room],
    alone: place === 'own' ? new Float64Array(grids[index]!.count) : grids[index]!.rooms[room].field,
    solved: false,
  }));
}

/** Goes on by rounds, from the solved balances of the first one, until the losses are those of the solution. */
function goOn(
  system: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState,
  attempt: Attempt,
  first: readonly Balance[],
): SolvedHeat | null {
  const { chains, core } = system;
  const steady = attempt.step === Number.POSITIVE_INFINITY;
  let balances = first;
  for (let round = 0; round < mostRounds; round++) {
    if (round > 0) {
      balances = balancesOf(system, grids, old, attempt);
      solveAll(balances, core !== null);
    }
    const node = coreTemperature(system, balances, old, attempt.step);
    if (node === null || !followCore(balances, node, core !== null)) return null;
    const fields = balances.map(({ alone }) => alone);
    const loads = loadsOf(chains, losses, fields);
    const change = steady
      ? Math.max(Math.abs(node - attempt.core), largestChange(attempt.fields, fields))
      : strayed(chains, attempt.loads, loads) * attempt.step;
    if (change < (steady ? settled.steady : settled.step)) {
      const solved = attempt.loads;
      return {
        fields,
        core: node,
        loads: { losses, loads },
        powers: () => powersOf(system, grids, solved, { fields, core: node }),
      };
    }
    attempt.fields = fields;
    attempt.core = node;
    attempt.loads = loads;
  }
  return null;
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
    const { grid, alone, room } = balances[index]!;
    const { follows } = room;
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
function followCore(balances: readonly Balance[], core: number, coupled: boolean): boolean {
  if (!(Math.abs(core) < noSolidMetal)) return false;
  let solid = true;
  for (const {
    alone,
    room: { follows },
  } of balances) {
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

/** The same of one chain whose surroundings are held. */
export function steadyChain(chain: HeatChain, lossOf: LossOf): ChainHeat | null {
  return steadySystem({ chains: [chain], counts: [1], core: null }, [lossOf])?.chains[0] ?? null;
}
