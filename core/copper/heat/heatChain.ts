import { noSolidMetal } from '../metals.ts';

/** A stretch of bar that is alike all along. SI units, temperatures in degC. */
export interface ChainPiece {
  readonly kind: 'slot' | 'overhang';
  readonly layer: number;
  readonly length: number;
  /** Copper area. */
  readonly area: number;
  /** To its surroundings, W per meter and kelvin, and their temperature. */
  readonly conductance: number;
  readonly surroundings: number;
}

/** Loss of a piece at its mean temperature, W/m, and how it grows with the local one, W/(m K). */
export interface PieceLoss {
  readonly at: number;
  readonly slope: number;
}

/** Bars one behind the other; heat flows along them and to their surroundings. */
export interface HeatChain {
  readonly pieces: readonly ChainPiece[];
  /** The temperature both ends are held at; null: no heat leaves by the ends. */
  readonly ends: number | null;
  /** Of the metal, W/(m K) and J/(m3 K). */
  readonly conductivity: number;
  readonly heatCapacity: number;
}

/** Temperatures along a chain, at the middle of each of its cells. */
export interface ChainHeat {
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

interface Grid {
  readonly count: number;
  readonly widths: Float64Array;
  readonly places: Float64Array;
  readonly pieceOf: Int32Array;
  /** Conductance from each cell to the one before, W/K; the first and last entry lead to the ends. */
  readonly along: Float64Array;
}

function gridOf({ pieces, ends, conductivity }: HeatChain): Grid {
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
  return { count, widths, places, pieceOf, along };
}

function meansOf(chain: HeatChain, { pieceOf }: Grid, temperatures: Float64Array): Float64Array {
  const sums = new Float64Array(chain.pieces.length);
  temperatures.forEach((temperature, cell) => {
    sums[pieceOf[cell]!]! += temperature;
  });
  return sums.map((sum, piece) => sum / cells[chain.pieces[piece]!.kind]);
}

/**
 * Solves the cells' balance for a given loss: conduction, conductance to the surroundings, and for a step of
 * `step` s (Infinity: steady) the heat that the metal takes up since `old`. Null where it has no solution
 * below the melting of metals.
 */
function solve(
  chain: HeatChain,
  grid: Grid,
  lossOf: LossOf,
  old: Float64Array,
  step: number,
): Float64Array | null {
  const { count, widths, pieceOf, along } = grid;
  let temperatures = old.slice();
  for (let round = 0; round < mostRounds; round++) {
    const means = meansOf(chain, grid, temperatures);
    const losses = chain.pieces.map((_, piece) => lossOf(piece, means[piece]!));
    const upper = new Float64Array(count);
    const next = new Float64Array(count);
    for (let cell = 0; cell < count; cell++) {
      const piece = chain.pieces[pieceOf[cell]!]!;
      const loss = losses[pieceOf[cell]!]!;
      const width = widths[cell]!;
      const held = cell === 0 || cell === count - 1 ? (chain.ends ?? 0) : 0;
      const stored = step === Number.POSITIVE_INFINITY ? 0 : (chain.heatCapacity * piece.area * width) / step;
      let diagonal = along[cell]! + along[cell + 1]! + width * (piece.conductance - loss.slope) + stored;
      let right =
        width * (piece.conductance * piece.surroundings + loss.at - loss.slope * means[pieceOf[cell]!]!) +
        stored * old[cell]!;
      if (cell === 0) right += along[0]! * held;
      if (cell === count - 1) right += along[count]! * held;
      if (cell > 0) {
        diagonal -= along[cell]! * upper[cell - 1]!;
        right += along[cell]! * next[cell - 1]!;
      }
      if (!(diagonal > 0)) return null;
      upper[cell] = cell < count - 1 ? along[cell + 1]! / diagonal : 0;
      next[cell] = right / diagonal;
    }
    for (let cell = count - 2; cell >= 0; cell--) next[cell]! += upper[cell]! * next[cell + 1]!;
    let change = 0;
    for (let cell = 0; cell < count; cell++) {
      if (!(Math.abs(next[cell]!) < noSolidMetal)) return null;
      change = Math.max(change, Math.abs(next[cell]! - temperatures[cell]!));
    }
    temperatures = next;
    if (change < (step === Number.POSITIVE_INFINITY ? settled.steady : settled.step)) return temperatures;
  }
  return null;
}

function coolest(chain: HeatChain): number {
  return Math.min(chain.ends ?? Number.POSITIVE_INFINITY, ...chain.pieces.map((each) => each.surroundings));
}

/**
 * Steady temperatures along a chain: k A T'' = G (T - Ts) - p'(T), by finite volumes, the loss iterated with the
 * temperature. Null where none is reached.
 */
export function steadyChain(chain: HeatChain, lossOf: LossOf): ChainHeat | null {
  const grid = gridOf(chain);
  const start = new Float64Array(grid.count).fill(coolest(chain));
  const temperatures = solve(chain, grid, lossOf, start, Number.POSITIVE_INFINITY);
  if (temperatures === null) return null;
  const { places, pieceOf } = grid;
  return { temperatures, places, pieceOf, means: meansOf(chain, grid, temperatures) };
}

/** A stretch of time with a loss of its own. */
export interface ChainStage {
  readonly duration: number;
  readonly lossOf: LossOf;
}

/** The periodic cycle of a chain. */
export interface ChainCycle {
  readonly hottest: number;
  /** Temperature of the cell that gets hottest, over the time from the start of the cycle. */
  readonly course: readonly { readonly time: number; readonly temperature: number }[];
}

const stageSteps = 30;
const sameCycle = 0.01;
const mostCycles = 2000;

/** Steps of a stage, s: short ones first, as temperatures move fastest when the load has just changed. */
function stepsOf(duration: number): readonly number[] {
  const sum = (stageSteps * (stageSteps + 1)) / 2;
  return Array.from({ length: stageSteps }, (_, index) => (duration * (index + 1)) / sum);
}

/**
 * Temperatures of stages that follow each other again and again, by implicit steps, repeated until a cycle
 * changes nothing by 0.01 K. Null where the metal would melt, or after very many cycles.
 */
export function periodicChain(chain: HeatChain, stages: readonly ChainStage[]): ChainCycle | null {
  const grid = gridOf(chain);
  let temperatures = new Float64Array(grid.count).fill(coolest(chain));
  for (let cycle = 0; cycle < mostCycles; cycle++) {
    const start = temperatures;
    const states: { readonly time: number; readonly temperatures: Float64Array }[] = [
      { time: 0, temperatures },
    ];
    let time = 0;
    for (const { duration, lossOf } of stages) {
      for (const step of stepsOf(duration)) {
        const next = advance(chain, grid, lossOf, temperatures, step);
        if (next === null) return null;
        temperatures = next as Float64Array<ArrayBuffer>;
        time += step;
        states.push({ time, temperatures });
      }
    }
    const change = start.reduce(
      (most, each, cell) => Math.max(most, Math.abs(each - temperatures[cell]!)),
      0,
    );
    if (change < sameCycle) return cycleOf(states);
  }
  return null;
}

/** One step and two of half its length, put together so that the error of the first order drops out. */
function advance(
  chain: HeatChain,
  grid: Grid,
  lossOf: LossOf,
  old: Float64Array,
  step: number,
): Float64Array | null {
  const whole = solve(chain, grid, lossOf, old, step);
  const half = solve(chain, grid, lossOf, old, step / 2);
  const halves = half && solve(chain, grid, lossOf, half, step / 2);
  if (whole === null || halves === null) return null;
  return halves.map((each, cell) => 2 * each - whole[cell]!);
}

function cycleOf(
  states: readonly { readonly time: number; readonly temperatures: Float64Array }[],
): ChainCycle {
  let most = Number.NEGATIVE_INFINITY;
  let cell = 0;
  for (const { temperatures } of states)
    temperatures.forEach((temperature, index) => {
      if (temperature <= most) return;
      most = temperature;
      cell = index;
    });
  return {
    hottest: most,
    course: states.map(({ time, temperatures }) => ({ time, temperature: temperatures[cell]! })),
  };
}
