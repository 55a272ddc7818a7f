import type { CycleHeat } from '../copper/heat/cycleHeat.ts';
import { derive, type Figure } from '../figures/figure.ts';
import type { Steps } from '../figures/steps.ts';
import type { Work } from '../figures/work.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { CycleHeatTask } from '../operation/duty.ts';
import { barEndLength, pieceClearance } from '../sizes/barInputs.ts';
import {
  type AskedClearance,
  type ClearancePlace,
  type Clearances,
  clearanceSteps,
} from '../space/clearance/clearance.ts';
import { type Freed, freeingSteps } from '../space/clearance/freeing.ts';
import { toldAsProblem } from '../space/clearance/toldAsProblem.ts';
import { type EndsAgainst, endInductanceSteps } from '../space/inductance/endInductance.ts';
import type { Space, SpaceInput } from '../space/space.ts';
import type { SpaceProblem } from '../space/spaceProblems.ts';
import type { Path } from '../winding/model.ts';
import type { StandingKeys } from './standing.ts';

/** Where a winding's ends collide or come too near, and for each place that collides what frees it, null: nothing known. */
export interface NearEnds {
  readonly places: readonly ClearancePlace[];
  readonly freed: ReadonlyMap<ClearancePlace, Freed | null>;
}

/** The clearances that the text asks for, m; missing where the text has none, and then no bar stands in space. */
export function askedClearance(specification: Specification): Figure<AskedClearance> {
  return derive({ bars: barEndLength(specification, 'endClearance') }, ({ bars }) => ({
    bars,
    pieces: pieceClearance(specification.bar, bars),
  }));
}

/** How near the ends of bars in space come to each other, or the nearest of them, as work; the bars stand as `keys` tell. */
export function clearanceWork(
  asked: AskedClearance,
  space: Space,
  keys: StandingKeys,
  looked: 'all' | 'nearest',
): Work<Clearances> {
  return {
    kind: looked === 'all' ? 'clearances' : 'nearest-ends',
    key: () => keys.clearances(asked),
    steps: () => clearanceSteps(space, asked, looked),
  };
}

/**
 * Where they come too near, as work that takes far less. What frees is looked for where the text gives the bend radius,
 * unless what collides is one of the `problems`.
 */
export function nearEndsWork(
  asked: AskedClearance,
  input: SpaceInput,
  space: Space,
  problems: readonly SpaceProblem[],
  keys: StandingKeys,
): Work<NearEnds> {
  return {
    kind: 'near-ends',
    key: () => keys.clearances(asked),
    steps: () => nearEndsSteps(input, space, problems, asked),
  };
}

function* nearEndsSteps(
  input: SpaceInput,
  space: Space,
  problems: readonly SpaceProblem[],
  asked: AskedClearance,
): Steps<NearEnds> {
  const isProblem = toldAsProblem(space, problems);
  const near = yield* clearanceSteps(space, asked, 'near', isProblem);
  const places = near.places.filter(({ colliding, close }) => colliding + close > 0);
  const freed = new Map<ClearancePlace, Freed | null>();
  for (const place of space.bends.assumed ? [] : places) {
    if (place.colliding > 0 && !isProblem(place))
      freed.set(place, yield* freeingSteps(input, space.bends, asked, place));
  }
  return { places, freed };
}

/** The end-winding inductances of paths, as work; `cells` are those of the slot table, `keys` tell where all stands. */
export function inductanceWork(
  space: Space,
  paths: readonly Path[],
  cells: Int8Array,
  against: EndsAgainst,
  keys: StandingKeys,
): Work<Float64Array> {
  return {
    kind: against === 'ends' ? 'inductance' : 'image-inductance',
    key: keys.inductances,
    steps: () => endInductanceSteps(space, paths, cells, against),
  };
}

interface FoundCycle {
  /** Null where no cycle settles. */
  readonly heat: CycleHeat | null;
}

/** The temperatures of a periodic cycle, as work. */
export function cycleHeatWork({ key, steps }: CycleHeatTask): Work<FoundCycle> {
  return { kind: 'cycle-heat', key, steps: () => foundCycle(steps) };
}

function* foundCycle(steps: CycleHeatTask['steps']): Steps<FoundCycle> {
  return { heat: yield* steps() };
}
