import { modulo } from '../../winding/integers.ts';
import { shapeOf } from '../jointKind.ts';
import { shuffled } from '../random.ts';
import { nodesOfMisfit } from '../tips.ts';
import {
  emptyPlan,
  giveBack,
  mayTake,
  noShape,
  type PathQuota,
  type PlanState,
  type Step,
  take,
} from './planState.ts';
import type { LoopUnit, WaveLoops } from './wave.ts';
import { transition } from './wave.ts';

/** Whether plans are sought for the fewest shapes, then arcs, or for the fewest arcs, then shapes. */
export type RouteObjective = 'fewest-jumpers' | 'fewest-joints';

/**
 * A routing to be searched: the loops to cover, and a quota for each path. Forward paths climb from the
 * first layer pair to the last and never come back; `turning` paths may reverse in the outermost layer
 * and walk down over backward loops.
 */
export interface PlanTask {
  readonly wave: WaveLoops;
  readonly quotas: readonly PathQuota[];
  readonly turning: boolean;
  /** Whether a finished plan can be built: its joint tips lie apart. */
  readonly fits: (plan: Pick<Plan, 'paths'>) => boolean;
}

/** A plan: units of each path in order, number of arcs cut from loops, and shapes of special joints. */
export interface Plan {
  readonly paths: readonly (readonly LoopUnit[])[];
  readonly arcs: number;
  readonly shapes: number;
}

export interface AttemptLimits {
  /** Most arcs that a plan may cut from loops. */
  readonly arcBudget: number;
  /** Search nodes after which the attempt ends. */
  readonly nodeCap: number;
  readonly objective: RouteObjective;
  /** Only better plans are wanted. */
  readonly incumbent: Pick<Plan, 'arcs' | 'shapes'> | null;
  /** Fewest shapes and arcs there can be: reaching both ends the attempt. */
  readonly floor: Pick<Plan, 'arcs' | 'shapes'>;
}

export interface Attempt {
  readonly plan: Plan | null;
  /** Search nodes that were taken. */
  readonly nodes: number;
  /** The whole space within the arc budget was searched. */
  readonly exhausted: boolean;
}

interface Move {
  readonly to: number;
  readonly advance: number;
  readonly shape: number;
  readonly kind: 'within' | 'step' | 'reversal';
}

/** A search under way: how far it has come, the ways on, and the best plan so far. */
interface Search {
  readonly task: PlanTask;
  readonly limits: AttemptLimits;
  readonly state: PlanState;
  readonly moves: readonly (readonly Move[])[];
  readonly starts: Starts;
  nodes: number;
  best: Pick<Plan, 'arcs' | 'shapes'> | null;
  found: Plan | null;
  stopped: boolean;
}

/** One depth-first search within an arc budget and a cap of nodes; `random` null keeps the natural order. */
export function attemptPlan(task: PlanTask, limits: AttemptLimits, random: (() => number) | null): Attempt {
  const { wave, quotas, turning } = task;
  const covered = wave.loops.map((loop) => turning || loop.sense === 1);
  const moves = movesOf(task, random);
  const search: Search = {
    task,
    limits,
    state: emptyPlan(wave, quotas, covered, moves.shapes),
    moves: moves.from,
    starts: startOrder(task, covered, random),
    nodes: 0,
    best: limits.incumbent,
    found: null,
    stopped: false,
  };
  const { steps } = search.state;
  while (steps.length > 0 && !search.stopped) {
    if (!goOn(search, steps.at(-1)!)) giveBack(search.state);
  }
  return { plan: search.found, nodes: search.nodes, exhausted: !search.stopped };
}

/** Enters the next unit to be tried after a step; false where there is none. */
function goOn(search: Search, step: Step): boolean {
  const { unitsLeft } = search.state;
  return step.path < 0 || unitsLeft[step.path] === 0 ? startNext(search, step) : runOn(search, step);
}

/** Starts the path after that of a step, first where it runs on from a path before. */
function startNext(search: Search, step: Step): boolean {
  const { state, task, starts } = search;
  const { free, intervals, wave } = state;
  const { quotas } = task;
  const path = step.path + 1;
  if (path === quotas.length) {
    accept(search);
    return false;
  }
  const leastArcs = state.arcs + Math.max(state.openIntervals, quotas.length - path);
  if (step.tried === 0 && hopeless(search, leastArcs)) return false;
  const list = path === 0 ? starts.first : starts.later;
  for (let place = step.tried; place < 2 * list.length; place++) {
    const opening = place < list.length;
    const { loop, stage, before } = list[opening ? place : place - list.length]!;
    if (free[loop * wave.stages + stage] === 0) continue;
    const isOpening = free[before] === 0 || intervals[loop] === 1;
    if (isOpening !== opening || !mayTake(state, path, loop, stage)) continue;
    step.tried = place + 1;
    enter(search, { path, loop, stage, newArc: true, shape: noShape, tried: 0 });
    return true;
  }
  return false;
}

/** Goes on in a path: straight in its loop, then by joints of shapes in use, then by others. */
function runOn(search: Search, step: Step): boolean {
  const { state, task, moves } = search;
  const { free, pairLeft, shapeUse, wave } = state;
  const { path, loop, stage } = step;
  const { sense, pair } = wave.loops[loop]!;
  if (step.tried === 0) {
    step.tried = 1;
    const straight = modulo(stage + sense, wave.stages);
    const leastArcs = state.arcs + state.openIntervals - free[loop * wave.stages + straight]!;
    if (hopeless(search, leastArcs)) return false;
    if (mayTake(state, path, loop, straight)) {
      enter(search, { path, loop, stage: straight, newArc: false, shape: noShape, tried: 0 });
      return true;
    }
  }
  const list = moves[loop]!;
  const pairDone = pairLeft[path]![pair] === 0;
  const mayLeave = pairDone || (task.turning && sense === 1);
  for (let place = step.tried - 1; place < 2 * list.length; place++) {
    const wanted = place < list.length;
    const move = list[wanted ? place : place - list.length]!;
    if (shapeUse[move.shape]! > 0 !== wanted) continue;
    if (move.kind === 'within' ? pairDone : !mayLeave) continue;
    const next = modulo(stage + move.advance, wave.stages);
    if (!mayTake(state, path, move.to, next)) continue;
    step.tried = place + 2;
    enter(search, { path, loop: move.to, stage: next, newArc: true, shape: move.shape, tried: 0 });
    return true;
  }
  return false;
}

/** Takes a unit, unless the nodes are used up. */
function enter(search: Search, step: Step): void {
  search.nodes++;
  if (search.nodes > search.limits.nodeCap) search.stopped = true;
  else take(search.state, step);
}

/** Whether nothing better can come of it, with the fewest arcs that there will be. */
function hopeless({ limits, best, state: { shapes } }: Search, leastArcs: number): boolean {
  if (leastArcs > limits.arcBudget) return true;
  if (!best) return false;
  return limits.objective === 'fewest-jumpers'
    ? shapes > best.shapes || (shapes === best.shapes && leastArcs >= best.arcs)
    : leastArcs > best.arcs || (leastArcs === best.arcs && shapes >= best.shapes);
}

/** Takes what the paths hold as the best plan, if it is better and can be built. */
function accept(search: Search): void {
  const { task, limits, state } = search;
  const { arcs, shapes, steps } = state;
  if (hopeless(search, arcs)) return;
  const paths: LoopUnit[][] = task.quotas.map(() => []);
  for (const { path, loop, stage } of steps) paths[path]?.push({ loop, stage });
  if (!task.fits({ paths })) {
    search.nodes += nodesOfMisfit;
    return;
  }
  search.found = { paths, arcs, shapes };
  search.best = search.found;
  search.stopped = shapes <= limits.floor.shapes && arcs <= limits.floor.arcs;
}

/** A unit with which a path may start, and the cell of the unit that runs into it. */
interface Start extends LoopUnit {
  readonly before: number;
}

/** Where the first path may start, and where the others may, in the order in which it is tried. */
interface Starts {
  readonly first: readonly Start[];
  readonly later: readonly Start[];
}

function startOrder(task: PlanTask, covered: readonly boolean[], random: (() => number) | null): Starts {
  const { wave } = task;
  const outermost = wave.pairs - 1;
  const loops = wave.loops.flatMap((loop, index) => {
    const entry = loop.sense === 1 ? 0 : outermost;
    return covered[index] && loop.pair === entry ? [index] : [];
  });
  const startAt = (loop: number, stage: number): Start => {
    const before = modulo(stage - wave.loops[loop]!.sense, wave.stages);
    return { loop, stage, before: loop * wave.stages + before };
  };
  const ordered = random ? shuffled(loops, random) : loops;
  // Turning everything by whole pole pairs changes nothing, so the first path starts in pole pair 0.
  const first = ordered.map((loop) => startAt(loop, 0));
  const later = ordered.flatMap((loop) =>
    Array.from({ length: wave.stages }, (_, stage) => startAt(loop, stage)),
  );
  return { first, later: random ? shuffled(later, random) : later };
}

function movesOf(task: PlanTask, random: (() => number) | null): { from: Move[][]; shapes: number } {
  const { wave } = task;
  const shapes = new Map<number, number>();
  const shapeId = (key: number): number => {
    const known = shapes.get(key) ?? shapes.size;
    shapes.set(key, known);
    return known;
  };
  const outermost = 2 * wave.pairs - 1;
  const from = wave.loops.map((loop, index) => {
    const list: Move[] = [];
    wave.loops.forEach((other, to) => {
      if (index === to || (!task.turning && other.sense === -1)) return;
      const joint = transition(wave, loop, other);
      if (joint) {
        const kind = loop.pair === other.pair ? 'within' : 'step';
        list.push({ to, advance: joint.advance * loop.sense, shape: shapeId(joint.shape), kind });
      }
      if (!task.turning || loop.sense !== 1 || other.sense !== -1) return;
      if (loop.pair !== wave.pairs - 1 || other.pair !== wave.pairs - 1) return;
      const raw = other.slot - loop.slot - wave.far[loop.pair]!;
      const nearest = -Math.round(raw / (wave.direction * wave.period));
      for (const advance of [nearest, nearest + 1, nearest - 1]) {
        const span = raw + wave.direction * wave.period * advance;
        if (span === 0 || Math.abs(span) > wave.period) continue;
        list.push({
          to,
          advance,
          shape: shapeId(shapeOf('connection', outermost, outermost, span)),
          kind: 'reversal',
        });
      }
    });
    return random ? shuffled(list, random) : list;
  });
  return { from, shapes: shapes.size };
}
