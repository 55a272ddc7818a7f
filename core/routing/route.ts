import { coveringArc } from '../winding/coveringArc.ts';
import { greatestCommonDivisor, requireInteger } from '../winding/integers.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { regularBends } from '../winding/joints/bends.ts';
import { jointReason, kindOfReason } from '../winding/joints/joints.ts';
import type { Path, Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';
import { allottedStrands } from './allot.ts';
import type { RouteBounds } from './bounds.ts';
import { waveBounds } from './bounds.ts';
import type { RouteMeasure, RouteObjective, RouteRanking } from './measure.ts';
import { compareMeasures, countStrands, tipsFit } from './measure.ts';
import type { PhaseConnection, PiecedStrand } from './phases.ts';
import { closestShifts, pathsOfPhase } from './phases.ts';
import type { RouteChoice, RouteTrial } from './search.ts';
import { searchWave } from './search.ts';
import { strandTipGap } from './tips.ts';
import { coverUnits } from './tooth.ts';
import type { Content, DivisorCondition, Strand, Unit } from './units.ts';
import { contentOf, divisorConditions, unitsOfPhase } from './units.ts';
import { waveLoops } from './wave.ts';

export type { RouteMeasure, RouteObjective } from './measure.ts';
export type { PhaseConnection } from './phases.ts';
export type { RouteTrial } from './search.ts';
export type { DivisorCondition } from './units.ts';

export interface RouteOptions {
  /** Parallel paths of each phase. */
  readonly paths: number;
  /** Default fewest-jumpers: jumpers, then joint shapes, special joints, joint tips, terminal window. */
  readonly objective?: RouteObjective;
  /** Smallest distance between joint tips that can be built, in slots; default any above 0. */
  readonly leastTipGap?: number;
  /** How the paths end; default star. */
  readonly connection?: PhaseConnection;
  /** Search nodes allowed; default 400 000, about half a second. Results depend on it, never on time. */
  readonly nodeBudget?: number;
  /**
   * Take paths that agree in angles and in layers but not in every cell, even where slots hold two
   * phases: their slot leakage, and so their currents, then differ. Default false.
   */
  readonly acceptUnequalCells?: boolean;
}

/** Why no routing was made. */
export type RouteRefusal =
  | { readonly kind: 'needs-layer-pairs'; readonly layers: number }
  | { readonly kind: 'no-constant-span'; readonly layers: readonly [number, number] | readonly [number] }
  | { readonly kind: 'phase-without-bars'; readonly phase: number }
  | {
      readonly kind: 'paths-do-not-divide';
      readonly paths: number;
      readonly strict: boolean;
      readonly failing: readonly DivisorCondition[];
      /** All numbers of parallel paths that can be balanced, rising. */
      readonly possible: readonly number[];
      /** The possible numbers next below and above the one asked for. */
      readonly nearest: readonly number[];
    };

/** What the router did and what is proved about the result. Counts are those of one phase. */
export interface RouteExplanation {
  readonly objective: RouteObjective;
  /** Paths agree in every cell (angle x layer), not only in angles and in layers. */
  readonly strict: boolean;
  readonly measure: RouteMeasure;
  /** Joint tips lie far enough apart to be joined; false where nothing better was found. */
  readonly tipsFit: boolean;
  /** Arc in slots that holds the first bars of all paths of all phases. */
  readonly terminalWindow: number;
  /** Lower bounds; null where none is known for this kind of winding. */
  readonly bounds: RouteBounds | null;
  /** Counts that no routing with regular far-side joints can undercut. */
  readonly proved: readonly ('jumpers' | 'special-joints' | 'joint-shapes')[];
  readonly tried: readonly RouteTrial[];
}

export type RouteResult =
  | {
      readonly ok: true;
      readonly paths: readonly Path[];
      readonly bends: Bends;
      readonly explanation: RouteExplanation;
    }
  | { readonly ok: false; readonly reason: RouteRefusal };

/** Runs `routeSteps` to its end; `checkpoint` is called every few milliseconds and may throw to cancel. */
export function route(winding: Winding, options: RouteOptions, checkpoint?: () => void): RouteResult {
  const steps = routeSteps(winding, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    checkpoint?.();
  }
}

/**
 * Finds balanced parallel paths for every phase of a winding's slot table. A generator, so that the
 * caller decides when to give way or to stop: it yields after each slice of at most some milliseconds.
 * Deterministic: the same winding and options give the same paths. Throws RangeError for counts that
 * are no positive integers.
 */
export function* routeSteps(winding: Winding, options: RouteOptions): Generator<undefined, RouteResult> {
  requireInteger('paths', options.paths, 1);
  requireInteger('nodeBudget', options.nodeBudget ?? 1, 0);
  const ranking: RouteRanking = {
    objective: options.objective ?? 'fewest-jumpers',
    leastTipGap: options.leastTipGap ?? 0,
  };
  const bends = regularBends(winding);
  const refusal = layoutRefusal(winding, bends);
  if (refusal) return { ok: false, reason: refusal };
  const strict = !options.acceptUnequalCells && needsStrictBalance(winding);
  const shifts = closestShifts(winding);
  const phases: (PhaseTask | RouteRefusal)[] = [];
  for (let phase = 0; phase < winding.phases.names.length; phase++) {
    yield;
    phases.push(phaseTask(winding, bends, phase, strict));
  }
  const reason = phases.find((task) => 'kind' in task) ?? dividesRefusal(phases, options.paths, strict);
  if (reason && 'kind' in reason) return { ok: false, reason };

  const connection = options.connection ?? 'star';
  const routed: PhaseRoute[] = [];
  const paths: Path[] = [];
  for (let phase = 0; phase < phases.length; phase++) {
    const shift = shifts[phase];
    const own = phase === 0 || shift == null;
    if (own) {
      const together = phase === 0 ? shifts.filter((other) => other !== null) : [0];
      const request: PhaseRequest = {
        winding,
        bends,
        task: phases[phase] as PhaseTask,
        ranking,
        measure: measureWith(winding, bends, together),
        paths: options.paths,
        nodeBudget: options.nodeBudget ?? 400_000,
      };
      routed.push(yield* routePhase(request));
    }
    yield;
    const { strands } = own ? routed.at(-1)! : routed[0]!;
    paths.push(...pathsOfPhase(winding, phase, strands, own ? 0 : shift, connection));
  }
  const worst = routed.reduce((a, b) => (compareMeasures(b.measure, a.measure, ranking) > 0 ? b : a));
  const { measure } = worst;
  const explanation: RouteExplanation = {
    objective: ranking.objective,
    strict,
    measure,
    tipsFit: tipsFit(measure, ranking),
    terminalWindow: coveringArc(
      paths.map((path) => path.bars[0]!.slot),
      winding.slots,
    ),
    bounds: worst.bounds,
    proved: provedCounts(worst),
    tried: worst.trials,
  };
  return { ok: true, paths, bends, explanation };
}

/** Numbers of parallel paths for which `route` finds balanced paths, rising; empty where it refuses. */
export function possibleParallelPaths(winding: Winding): number[] {
  const bends = regularBends(winding);
  if (layoutRefusal(winding, bends)) return [];
  const strict = needsStrictBalance(winding);
  const phases = winding.phases.names.map((_, phase) => phaseTask(winding, bends, phase, strict));
  const tasks = phases.filter((task) => 'units' in task);
  return tasks.length === phases.length ? divisorsOf(commonCount(tasks)) : [];
}

interface PhaseTask {
  readonly units: readonly Unit[];
  readonly content: Content;
}

interface PhaseRoute {
  readonly strands: readonly PiecedStrand[];
  readonly measure: RouteMeasure;
  readonly bounds: RouteBounds | null;
  readonly trials: readonly RouteTrial[];
  readonly exactUnits: boolean;
}

function layoutRefusal(winding: Winding, bends: Bends): RouteRefusal | null {
  if (winding.layers % 2 === 1 && winding.layers > 1)
    return { kind: 'needs-layer-pairs', layers: winding.layers };
  if (bends.base === 'single' && !bends.unpairedSpan) return { kind: 'no-constant-span', layers: [0] };
  const pair = bends.far.indexOf(0);
  return pair < 0 ? null : { kind: 'no-constant-span', layers: [2 * pair, 2 * pair + 1] };
}

function phaseTask(winding: Winding, bends: Bends, phase: number, strict: boolean): PhaseTask | RouteRefusal {
  const units = unitsOfPhase(winding, phase, bends);
  if (!units) return { kind: 'no-constant-span', layers: bends.base === 'single' ? [0] : [0, 1] };
  if (units.length === 0) return { kind: 'phase-without-bars', phase };
  return { units, content: contentOf(winding, units, strict) };
}

function commonCount(tasks: readonly PhaseTask[]): number {
  return tasks
    .flatMap((task) => divisorConditions(task.content))
    .reduce((common, condition) => greatestCommonDivisor(common, condition.count), 0);
}

function divisorsOf(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1).filter((divisor) => count % divisor === 0);
}

function dividesRefusal(
  phases: readonly (PhaseTask | RouteRefusal)[],
  paths: number,
  strict: boolean,
): RouteRefusal | null {
  const tasks = phases.filter((task) => 'units' in task);
  const failing = tasks
    .flatMap((task) => divisorConditions(task.content))
    .filter((condition) => condition.count % paths !== 0);
  if (failing.length === 0) return null;
  const distinct = failing.filter(
    (condition, index) =>
      failing.findIndex((other) => other.what === condition.what && other.count === condition.count) ===
      index,
  );
  const possible = divisorsOf(commonCount(tasks));
  const below = possible.filter((count) => count < paths).at(-1);
  const above = possible.find((count) => count > paths);
  const nearest = [below, above].filter((count) => count !== undefined);
  return { kind: 'paths-do-not-divide', paths, strict, failing: distinct, possible, nearest };
}

/** One phase to be routed, and how routings of it are judged. */
interface PhaseRequest {
  readonly winding: Winding;
  readonly bends: Bends;
  readonly task: PhaseTask;
  readonly ranking: RouteRanking;
  readonly measure: (strands: readonly Strand[]) => RouteMeasure;
  readonly paths: number;
  readonly nodeBudget: number;
}

/** Measures strands that are laid once for each of `shifts`, in slots: all phases routed alike. */
function measureWith(winding: Winding, bends: Bends, shifts: readonly number[]): PhaseRequest['measure'] {
  return (strands) => ({
    ...countStrands(bends, strands),
    tipGap: strandTipGap(winding, bends, strands, shifts),
    startWindow: coveringArc(
      strands.map((strand) => strand.bars[0]!.slot),
      winding.slots,
    ),
  });
}

function* routePhase(request: PhaseRequest): Generator<undefined, PhaseRoute> {
  const { winding, bends, task, ranking, measure, paths, nodeBudget } = request;
  const { units, content } = task;
  const wave = waveLoops(winding, bends, units, content.classes);
  const bounds = wave && waveBounds(wave, content, paths);
  yield;
  const trials: RouteTrial[] = [];
  let choice: RouteChoice | null = null;
  let exactUnits = false;
  if (wave) {
    const search = yield* searchWave({ wave, content, paths, bounds: bounds!, ranking, measure, nodeBudget });
    choice = search.best;
    trials.push(...search.trials);
  } else {
    const fits = (strands: readonly Strand[]) => tipsFit(measure(strands), ranking);
    const cover = yield* coverUnits({ winding, bends, units, content, paths, fits, nodeBudget });
    const { strands } = cover;
    if (strands) choice = { strands, measure: measure(strands) };
    exactUnits = strands !== null && cover.exact;
    const found = choice?.measure ?? null;
    trials.push({ method: 'units', nodes: cover.nodes, found, exhausted: exactUnits });
  }
  if (!choice) {
    const strands = yield* allottedStrands(winding.slots, bends, units, content, paths);
    if (!strands) throw new RangeError(`no allotment of ${units.length} units to ${paths} paths`);
    choice = { strands, measure: measure(strands) };
    trials.push({ method: 'allotment', nodes: 0, found: choice.measure, exhausted: false });
  }
  yield;
  const strands = choice.strands.map((strand) => ({ strand, pieces: piecesOf(bends, strand) }));
  return { strands, measure: choice.measure, bounds, trials, exactUnits };
}

function provedCounts(result: PhaseRoute): RouteExplanation['proved'] {
  const { measure, bounds, exactUnits } = result;
  if (exactUnits) return ['jumpers', 'special-joints'];
  if (!bounds) return [];
  const proved: ('jumpers' | 'special-joints' | 'joint-shapes')[] = [];
  if (measure.jumpers === bounds.jumpers) {
    proved.push('jumpers');
    if (measure.jointShapes === bounds.jointShapes) proved.push('joint-shapes');
  }
  if (measure.specialJoints === bounds.specialJoints) proved.push('special-joints');
  return proved;
}

/** Which joints of a strand are made by a separate piece: its jumpers. */
function piecesOf(bends: Bends, { bars, spans }: Strand): boolean[] {
  return spans.map((span, index) => {
    const side = index % 2 === 0 ? 'far' : 'connection';
    const reason = jointReason(bends, side, bars[index]!, bars[index + 1]!, span);
    return kindOfReason(reason, false) === 'jumper';
  });
}
