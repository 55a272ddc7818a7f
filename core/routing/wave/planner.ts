import { modulo } from '../../winding/integers.ts';
import { shapeOf } from '../jointKind.ts';
import { shuffled } from '../random.ts';
import { nodesOfMisfit } from '../tips.ts';
import type { LoopUnit, WaveLoops } from './wave.ts';
import { transition } from './wave.ts';

/** Whether plans are sought for the fewest shapes, then arcs, or for the fewest arcs, then shapes. */
export type RouteObjective = 'fewest-jumpers' | 'fewest-joints';

/** What one path must hold, in units: of each class and of each layer pair. */
export interface PathQuota {
  readonly classes: readonly number[];
  readonly pairs: readonly number[];
}

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
  readonly arcBudget: number;
  readonly nodeCap: number;
  readonly objective: RouteObjective;
  /** Only better plans are wanted. */
  readonly incumbent: Pick<Plan, 'arcs' | 'shapes'> | null;
  /** Fewest shapes and arcs there can be: reaching both ends the attempt. */
  readonly floor: Pick<Plan, 'arcs' | 'shapes'>;
}

export interface Attempt {
  readonly plan: Plan | null;
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

/** One depth-first search within an arc budget and a cap of nodes; `random` null keeps the natural order. */
export function attemptPlan(task: PlanTask, limits: AttemptLimits, random: (() => number) | null): Attempt {
  const { wave, quotas, turning } = task;
  const { stages, loops, pairs } = wave;
  const moves = movesOf(task, random);
  const shapeUse = new Int32Array(moves.shapes);
  const covered = loops.map((loop) => turning || loop.sense === 1);
  const free = new Uint8Array(loops.length * stages).fill(1);
  const freeUnits = new Int32Array(loops.length).fill(stages);
  const intervals = new Int32Array(loops.length).fill(1);
  let openIntervals = covered.filter(Boolean).length;
  const classLeft = quotas.map((quota) => Int32Array.from(quota.classes));
  const pairLeft = quotas.map((quota) => Int32Array.from(quota.pairs));
  const unitsLeft = quotas.map((quota) => quota.pairs.reduce((sum, count) => sum + count, 0));
  const starts = startOrder(task, covered, random);
  // A stack of steps instead of calls within calls: there may be thousands.
  const steps: Step[] =
    pairs > 0 ? [{ path: -1, loop: -1, stage: -1, newArc: false, shape: -1, tried: 0 }] : [];
  let arcs = 0;
  let shapes = 0;
  let nodes = 0;
  let best = limits.incumbent;
  let found: Plan | null = null;
  let stopped = false;

  /** Stretches of free units in a loop after one unit was taken (change 1) or freed again (-1). */
  function intervalsAfter(loop: number, stage: number, change: 1 | -1): number {
    const whole = freeUnits[loop]! + (change === 1 ? 1 : 0) === stages;
    if (whole) return change === -1 || stages > 1 ? 1 : 0;
    const base = loop * stages;
    const before = free[base + (stage === 0 ? stages - 1 : stage - 1)]!;
    const after = free[base + (stage === stages - 1 ? 0 : stage + 1)]!;
    return intervals[loop]! + change * (before + after - 1);
  }

  function fits(path: number, loop: number, stage: number): boolean {
    const { content, pair } = loops[loop]!;
    return free[loop * stages + stage] === 1 && classLeft[path]![content]! > 0 && pairLeft[path]![pair]! > 0;
  }

  function mark(path: number, loop: number, stage: number, change: 1 | -1): void {
    const { content, pair } = loops[loop]!;
    free[loop * stages + stage] = change === 1 ? 0 : 1;
    classLeft[path]![content]! -= change;
    pairLeft[path]![pair]! -= change;
    unitsLeft[path]! -= change;
    freeUnits[loop]! -= change;
    const known = intervals[loop]!;
    intervals[loop] = intervalsAfter(loop, stage, change);
    openIntervals += intervals[loop]! - known;
  }

  function hopeless(leastArcs: number): boolean {
    if (leastArcs > limits.arcBudget) return true;
    if (!best) return false;
    return limits.objective === 'fewest-jumpers'
      ? shapes > best.shapes || (shapes === best.shapes && leastArcs >= best.arcs)
      : leastArcs > best.arcs || (leastArcs === best.arcs && shapes >= best.shapes);
  }

  function accept(): void {
    if (hopeless(arcs)) return;
    const paths: LoopUnit[][] = quotas.map(() => []);
    for (const { path, loop, stage } of steps) paths[path]?.push({ loop, stage });
    if (!task.fits({ paths })) {
      nodes += nodesOfMisfit;
      return;
    }
    found = { paths, arcs, shapes };
    best = found;
    stopped = shapes <= limits.floor.shapes && arcs <= limits.floor.arcs;
  }

  function enter(path: number, loop: number, stage: number, newArc: boolean, shape: number): void {
    nodes++;
    if (nodes > limits.nodeCap) {
      stopped = true;
      return;
    }
    mark(path, loop, stage, 1);
    if (newArc) arcs++;
    if (shape >= 0 && shapeUse[shape]!++ === 0) shapes++;
    steps.push({ path, loop, stage, newArc, shape, tried: 0 });
  }

  function leave(): void {
    const { path, loop, stage, newArc, shape } = steps.pop()!;
    if (path < 0) return;
    if (shape >= 0 && --shapeUse[shape]! === 0) shapes--;
    if (newArc) arcs--;
    mark(path, loop, stage, -1);
  }

  /** Enters the next unit to be tried after a step; false where there is none. */
  function goOn(step: Step): boolean {
    return step.path < 0 || unitsLeft[step.path] === 0 ? startNext(step) : runOn(step);
  }

  /** Starts the path after that of a step, first where it runs on from a path before. */
  function startNext(step: Step): boolean {
    const path = step.path + 1;
    if (path === quotas.length) {
      accept();
      return false;
    }
    if (step.tried === 0 && hopeless(arcs + Math.max(openIntervals, quotas.length - path))) return false;
    const list = path === 0 ? starts.first : starts.later;
    for (let place = step.tried; place < 2 * list.length; place++) {
      const opening = place < list.length;
      const { loop, stage, before } = list[opening ? place : place - list.length]!;
      if (free[loop * stages + stage] === 0) continue;
      const isOpening = free[before] === 0 || intervals[loop] === 1;
      if (isOpening !== opening || !fits(path, loop, stage)) continue;
      step.tried = place + 1;
      enter(path, loop, stage, true, -1);
      return true;
    }
    return false;
  }

  /** Goes on in a path: straight in its loop, then by joints of shapes in use, then by others. */
  function runOn(step: Step): boolean {
    const { path, loop, stage } = step;
    const { sense, pair } = loops[loop]!;
    if (step.tried === 0) {
      step.tried = 1;
      const straight = modulo(stage + sense, stages);
      if (hopeless(arcs + openIntervals - free[loop * stages + straight]!)) return false;
      if (fits(path, loop, straight)) {
        enter(path, loop, straight, false, -1);
        return true;
      }
    }
    const list = moves.from[loop]!;
    const pairDone = pairLeft[path]![pair] === 0;
    const mayLeave = pairDone || (turning && sense === 1);
    for (let place = step.tried - 1; place < 2 * list.length; place++) {
      const wanted = place < list.length;
      const move = list[wanted ? place : place - list.length]!;
      if (shapeUse[move.shape]! > 0 !== wanted) continue;
      if (move.kind === 'within' ? pairDone : !mayLeave) continue;
      const next = modulo(stage + move.advance, stages);
      if (!fits(path, move.to, next)) continue;
      step.tried = place + 2;
      enter(path, move.to, next, true, move.shape);
      return true;
    }
    return false;
  }

  while (steps.length > 0 && !stopped) {
    if (!goOn(steps.at(-1)!)) leave();
  }
  return { plan: found, nodes, exhausted: !stopped };
}

/** A unit taken by a path, and how many ways on from it have been tried; path -1 before the first. */
interface Step extends LoopUnit {
  readonly path: number;
  readonly newArc: boolean;
  readonly shape: number;
  tried: number;
}

/** A unit with which a path may start, and the cell of the unit that runs into it. */
interface Start extends LoopUnit {
  readonly before: number;
}

function startOrder(
  task: PlanTask,
  covered: readonly boolean[],
  random: (() => number) | null,
): { first: Start[]; later: Start[] } {
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
