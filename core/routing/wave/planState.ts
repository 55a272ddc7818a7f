import type { LoopUnit, WaveLoops } from './wave.ts';

/** What one path must hold, in units: of each class and of each layer pair. */
export interface PathQuota {
  readonly classes: readonly number[];
  readonly pairs: readonly number[];
}

/** A unit taken by a path, and how many ways on from it have been tried; path -1 before the first. */
export interface Step extends LoopUnit {
  /** From 0. */
  readonly path: number;
  /** Whether the path enters it by a special joint or starts there. */
  readonly newArc: boolean;
  /** Number of the shape of the special joint that leads to it, from 0, or `noShape`. */
  readonly shape: number;
  /** How many ways on have been gone through, the straight one first. */
  tried: number;
}

/** Stands for the shape where no special joint leads to a unit. */
export const noShape = -1;

/** How far a search for a plan has come: what is taken, and what of the quotas is left. Changed by `take` and `giveBack` alone. */
export interface PlanState {
  readonly wave: WaveLoops;
  /** By loop and stage: 1 where the unit is free. */
  readonly free: Uint8Array;
  /** By loop. */
  readonly freeUnits: Int32Array;
  /** Stretches of free units, by loop. */
  readonly intervals: Int32Array;
  /** The same of all loops that are to be covered. */
  openIntervals: number;
  /** Units that each path still has to hold of each class, of each layer pair and in all. */
  readonly classLeft: readonly Int32Array[];
  readonly pairLeft: readonly Int32Array[];
  readonly unitsLeft: number[];
  /** How often each shape of special joints is in use. */
  readonly shapeUse: Int32Array;
  /** Arcs cut from loops, and shapes in use. */
  arcs: number;
  shapes: number;
  /** A stack of steps instead of calls within calls: there may be thousands. */
  readonly steps: Step[];
}

/** Nothing taken; `covered` are the loops that the paths are to cover, `shapes` how many shapes special joints have. */
export function emptyPlan(
  wave: WaveLoops,
  quotas: readonly PathQuota[],
  covered: readonly boolean[],
  shapes: number,
): PlanState {
  const { loops, stages, pairs } = wave;
  return {
    wave,
    free: new Uint8Array(loops.length * stages).fill(1),
    freeUnits: new Int32Array(loops.length).fill(stages),
    intervals: new Int32Array(loops.length).fill(1),
    openIntervals: covered.filter(Boolean).length,
    classLeft: quotas.map((quota) => Int32Array.from(quota.classes)),
    pairLeft: quotas.map((quota) => Int32Array.from(quota.pairs)),
    unitsLeft: quotas.map((quota) => quota.pairs.reduce((sum, count) => sum + count, 0)),
    shapeUse: new Int32Array(shapes),
    arcs: 0,
    shapes: 0,
    steps: pairs > 0 ? [{ path: -1, loop: -1, stage: -1, newArc: false, shape: noShape, tried: 0 }] : [],
  };
}

/** Whether a path may take a unit: it is free, and within the path's quota. */
export function mayTake(state: PlanState, path: number, loop: number, stage: number): boolean {
  const { wave, free, classLeft, pairLeft } = state;
  const { content, pair } = wave.loops[loop]!;
  return (
    free[loop * wave.stages + stage] === 1 && classLeft[path]![content]! > 0 && pairLeft[path]![pair]! > 0
  );
}

/** Takes a unit by a step that has not been tried on. */
export function take(state: PlanState, step: Step): void {
  const { newArc, shape } = step;
  mark(state, step, 1);
  if (newArc) state.arcs++;
  if (shape !== noShape && state.shapeUse[shape]!++ === 0) state.shapes++;
  state.steps.push(step);
}

/** Gives back what the last step took. */
export function giveBack(state: PlanState): void {
  const step = state.steps.pop()!;
  const { path, newArc, shape } = step;
  if (path < 0) return;
  if (shape !== noShape && --state.shapeUse[shape]! === 0) state.shapes--;
  if (newArc) state.arcs--;
  mark(state, step, -1);
}

function mark(state: PlanState, { path, loop, stage }: Step, change: 1 | -1): void {
  const { wave, free, freeUnits, intervals, classLeft, pairLeft, unitsLeft } = state;
  const { content, pair } = wave.loops[loop]!;
  free[loop * wave.stages + stage] = change === 1 ? 0 : 1;
  classLeft[path]![content]! -= change;
  pairLeft[path]![pair]! -= change;
  unitsLeft[path]! -= change;
  freeUnits[loop]! -= change;
  const known = intervals[loop]!;
  intervals[loop] = intervalsAfter(state, loop, stage, change);
  state.openIntervals += intervals[loop]! - known;
}

/** Stretches of free units in a loop after one unit was taken (change 1) or freed again (-1). */
function intervalsAfter(
  { wave: { stages }, free, freeUnits, intervals }: PlanState,
  loop: number,
  stage: number,
  change: 1 | -1,
): number {
  const whole = freeUnits[loop]! + (change === 1 ? 1 : 0) === stages;
  if (whole) return change === -1 || stages > 1 ? 1 : 0;
  const base = loop * stages;
  const before = free[base + (stage === 0 ? stages - 1 : stage - 1)]!;
  const after = free[base + (stage === stages - 1 ? 0 : stage + 1)]!;
  return intervals[loop]! + change * (before + after - 1);
}
