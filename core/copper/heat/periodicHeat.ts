import type { Steps } from '../../figures/steps.ts';
import {
  coolState,
  type Grid,
  gridOf,
  type HeatState,
  type HeatSystem,
  type LossOf,
  type Powers,
  type SolvedHeat,
  solveHeat,
  storedBetween,
} from './heatChain.ts';

/** A stretch of time with losses of its own, one a chain. */
export interface SystemStage {
  /** s. */
  readonly duration: number;
  readonly losses: readonly LossOf[];
}

/** A temperature in degC at a time in s from the start of the cycle. */
export interface TimedTemperature {
  /** s. */
  readonly time: number;
  /** degC. */
  readonly temperature: number;
}

/** The periodic cycle of chains that share a core. */
export interface PeriodicHeat {
  /** degC. */
  readonly hottest: number;
  /** Of the cell that gets hottest. */
  readonly course: readonly TimedTemperature[];
  /** Of the core; null where it is held. */
  readonly core: readonly TimedTemperature[] | null;
  /** Of the last cycle, J: put in by losses, left to surroundings and coolant, and still stored at its end. */
  readonly energy: { readonly put: number; readonly away: number; readonly stored: number };
}

const stageSteps = 20;
/** A cycle that changes less than this, K, and would not change more if it went on for ever, is the last. */
const sameCycle = 0.01;
const mostCycles = 400;

/** Steps of a stage, s: short ones first, as temperatures move fastest when the load has just changed. */
function stepsOf(duration: number): readonly number[] {
  const sum = (stageSteps * (stageSteps + 1)) / 2;
  return Array.from({ length: stageSteps }, (_, index) => (duration * (index + 1)) / sum);
}

/**
 * Temperatures of stages that follow each other again and again, by implicit steps. It begins with the steady
 * state of the mean losses and repeats the cycle, going ahead of it as far as the last changes die away,
 * until one changes nothing by 0.01 K. Null where the metal would melt, or after very many cycles.
 */
export function* periodicHeat(
  system: HeatSystem,
  stages: readonly SystemStage[],
): Steps<PeriodicHeat | null> {
  const grids = system.chains.map(gridOf);
  const cool = coolState(system, grids);
  let state: HeatState =
    solveHeat(system, grids, meanLosses(system, stages), cool, Number.POSITIVE_INFINITY) ?? cool;
  let before: HeatState | null = null;
  let decayBefore: number | null = null;
  for (let cycle = 0; cycle < mostCycles; cycle++) {
    const end: CycleEnd | null = yield* runCycle(system, grids, stages, state, null);
    if (end === null) return null;
    const change = difference(end.state, state);
    const most = largest(change);
    const decay: number | null = before && decayOf(system, grids, before, change);
    // One decay may be that of what fades at once; two tell how much is still to come.
    const slower = decay === null || decayBefore === null ? null : Math.max(decay, decayBefore);
    const ahead = slower === null ? null : slower / (1 - slower);
    if (most < sameCycle / 1000 || (ahead !== null && most * Math.max(1, ahead) < sameCycle))
      return yield* settledCycle(system, grids, stages, end);
    if (slower !== null && slower > 0.2 && Math.abs(decay! - decayBefore!) < 0.3 * (1 - slower)) {
      state = between(state, end.state, 1 / (1 - decay!));
      [before, decayBefore] = [null, null];
    } else {
      [state, before, decayBefore] = [end.state, change, decay];
    }
  }
  return null;
}

/** The cycle from a state on that comes back to it, once more with the course of its hottest cell. */
function* settledCycle(
  system: HeatSystem,
  grids: readonly Grid[],
  stages: readonly SystemStage[],
  { state, hottest }: CycleEnd,
): Steps<PeriodicHeat | null> {
  const last = yield* runCycle(system, grids, stages, state, hottest);
  if (last === null) return null;
  const { course, core, put, away } = last;
  return {
    hottest: course.reduce((top, { temperature }) => Math.max(top, temperature), hottest.temperature),
    course,
    core: system.core ? core : null,
    energy: { put, away, stored: storedBetween(system, grids, state, last.state) },
  };
}

function meanLosses({ chains }: HeatSystem, stages: readonly SystemStage[]): readonly LossOf[] {
  const total = stages.reduce((sum, { duration }) => sum + duration, 0);
  return chains.map(
    (_, index): LossOf =>
      (piece, mean) => {
        let [at, slope] = [0, 0];
        for (const { duration, losses } of stages) {
          const loss = losses[index]!(piece, mean);
          at += (loss.at * duration) / total;
          slope += (loss.slope * duration) / total;
        }
        return { at, slope };
      },
  );
}

interface HottestCell {
  readonly chain: number;
  readonly cell: number;
  readonly temperature: number;
}

interface CycleEnd {
  readonly state: HeatState;
  readonly hottest: HottestCell;
  readonly put: number;
  readonly away: number;
  /** Of the cell that is looked at, and of the core. */
  readonly course: readonly TimedTemperature[];
  readonly core: readonly TimedTemperature[];
}

/** One cycle from a state on, with the course of a cell where one is named. */
function* runCycle(
  system: HeatSystem,
  grids: readonly Grid[],
  stages: readonly SystemStage[],
  start: HeatState,
  looked: HottestCell | null,
): Steps<CycleEnd | null> {
  let state = start;
  let hottest = hottestOf(start, null);
  let time = 0;
  let [put, away] = [0, 0];
  const course: TimedTemperature[] = [];
  const core: TimedTemperature[] = [];
  const note = () => {
    if (!looked) return;
    course.push({ time, temperature: state.fields[looked.chain]![looked.cell]! });
    core.push({ time, temperature: state.core });
  };
  note();
  for (const { duration, losses } of stages) {
    for (const step of stepsOf(duration)) {
      const next = advance(system, grids, losses, state, step);
      if (next === null) return null;
      state = next;
      if (looked) {
        const powers = next.powers();
        put += powers.put * step;
        away += powers.away * step;
      }
      time += step;
      hottest = hottestOf(state, hottest);
      note();
      yield;
    }
  }
  return { state, hottest, put, away, course, core };
}

/** The share of a step that each of its two parts takes: (2 - sqrt(2)) / 2. */
const part = 1 - Math.SQRT1_2;

/**
 * One step by the implicit Runge-Kutta method of two parts that is of second order and lets what is fast die away
 * (R. Alexander, SIAM Journal on Numerical Analysis 14, 1977, p. 1006). The powers are those of the step in the mean.
 */
function advance(
  system: HeatSystem,
  grids: readonly Grid[],
  losses: readonly LossOf[],
  old: HeatState,
  step: number,
): SolvedHeat | null {
  const early = solveHeat(system, grids, losses, old, part * step);
  if (early === null) return null;
  const from = between(old, early, (1 - part) / part);
  const late = solveHeat(system, grids, losses, from, part * step, early);
  if (late === null) return null;
  const powers = (): Powers => {
    const [first, second] = [early.powers(), late.powers()];
    return {
      put: (1 - part) * first.put + part * second.put,
      away: (1 - part) * first.away + part * second.away,
    };
  };
  return { ...late, powers };
}

/** Beyond or between two states: `share` of the way from one to the other. */
function between(from: HeatState, to: HeatState, share: number): HeatState {
  return {
    fields: from.fields.map((field, index) => {
      const ahead = to.fields[index]!;
      const found = new Float64Array(field.length);
      for (let cell = 0; cell < found.length; cell++)
        found[cell] = field[cell]! + share * (ahead[cell]! - field[cell]!);
      return found;
    }),
    core: from.core + share * (to.core - from.core),
  };
}

function hottestOf({ fields }: HeatState, before: HottestCell | null): HottestCell {
  let [top, at, cell] = before
    ? [before.temperature, before.chain, before.cell]
    : [Number.NEGATIVE_INFINITY, 0, 0];
  fields.forEach((field, chain) => {
    for (let index = 0; index < field.length; index++) {
      if (field[index]! <= top) continue;
      top = field[index]!;
      at = chain;
      cell = index;
    }
  });
  return { chain: at, cell, temperature: top };
}

function difference(to: HeatState, from: HeatState): HeatState {
  return {
    fields: to.fields.map((field, index) => field.map((each, cell) => each - from.fields[index]![cell]!)),
    core: to.core - from.core,
  };
}

function largest({ fields, core }: HeatState): number {
  return fields.reduce(
    (most, field) => field.reduce((top, each) => Math.max(top, Math.abs(each)), most),
    Math.abs(core),
  );
}

/** Share of the last change that is left of it after a further cycle, weighted by the heat it stands for. */
function decayOf(
  { chains, counts, core }: HeatSystem,
  grids: readonly Grid[],
  before: HeatState,
  now: HeatState,
): number {
  const ofCore = core?.heatCapacity ?? 0;
  let both = ofCore * before.core * now.core;
  let square = ofCore * before.core ** 2;
  chains.forEach((chain, index) => {
    const { count, widths, pieceOf } = grids[index]!;
    // A chain that is only looked at counts as one, so that its own changes are not overlooked.
    const weight = Math.max(1, counts[index]!) * chain.heatCapacity;
    for (let cell = 0; cell < count; cell++) {
      const capacity = weight * chain.pieces[pieceOf[cell]!]!.area * widths[cell]!;
      both += capacity * before.fields[index]![cell]! * now.fields[index]![cell]!;
      square += capacity * before.fields[index]![cell]! ** 2;
    }
  });
  return square === 0 ? 0 : Math.max(0, Math.min(0.9999, both / square));
}
