import { finished, type Steps } from '../../figures/steps.ts';
import { greatestCommonDivisor } from '../../winding/integers.ts';
import { seededRandom } from '../random.ts';
import type { RouteMeasure, RouteRanking } from '../ranking.ts';
import { compareMeasures, jointsFirst, tipsFit } from '../ranking.ts';
import type { Content, Strand } from '../units/units.ts';
import type { RouteBounds } from './bounds.ts';
import { quotaOf } from './bounds.ts';
import { helixCandidates, withTwins } from './helix.ts';
import type { Plan, PlanTask } from './planner.ts';
import { attemptPlan, type RouteObjective } from './planner.ts';
import type { PathQuota } from './planState.ts';
import type { WaveLoops } from './wave.ts';
import { strandOf } from './wave.ts';

/** One way of routing that was tried on a phase. */
export interface RouteTrial {
  /** helix: all loops in equal shares; twins: forward paths and mirrored twins; turning: up and down; exchange: stretches exchanged. */
  readonly method: 'helix' | 'twins' | 'turning' | 'units' | 'allotment' | 'exchange';
  /** Steps that were taken. */
  readonly nodes: number;
  /** What it found, or null. */
  readonly found: RouteMeasure | null;
  /** The search ended by itself, not by its node budget. */
  readonly exhausted: boolean;
}

/** The best routing of a phase so far. */
export interface RouteChoice {
  readonly strands: readonly Strand[];
  readonly measure: RouteMeasure;
}

/** A wave phase to be routed, and how routings of it are judged. */
export interface WaveRequest {
  readonly wave: WaveLoops;
  readonly content: Content;
  /** Parallel paths of the phase. */
  readonly paths: number;
  readonly bounds: RouteBounds;
  readonly ranking: RouteRanking;
  readonly measure: (strands: readonly Strand[]) => RouteMeasure;
  /** Search nodes allowed. */
  readonly nodeBudget: number;
}

export interface WaveSearch {
  readonly best: RouteChoice | null;
  readonly trials: readonly RouteTrial[];
}

const nodesPerAttempt = 8000;
const attemptsPerBudget = 21;

/** Routes a wave phase: the helix first, then searches while they can still improve on it. */
export function* searchWave(request: WaveRequest): Steps<WaveSearch> {
  const { wave, content, paths, bounds, ranking } = request;
  const objective: RouteObjective = jointsFirst(ranking) ? 'fewest-joints' : 'fewest-jumpers';
  const trials: RouteTrial[] = [];
  let best: RouteChoice | null = null;
  const consider = (strands: readonly Strand[]): RouteMeasure => {
    const measure = request.measure(strands);
    if (!best || compareMeasures(measure, best.measure, ranking) < 0) best = { strands, measure };
    return measure;
  };
  /** The best routing so far that others have to beat: one that can be built. */
  const known = (): RouteMeasure | null => (best && tipsFit(best.measure, ranking) ? best.measure : null);

  for (const candidate of helixCandidates(wave, paths)) {
    if (candidate) consider(candidate);
    yield;
  }
  trials.push({ method: 'helix', nodes: 0, found: measureOf(best), exhausted: true });

  const variants = variantsOf(wave, content, paths, objective);
  const measured = variants.map(() => new Map<string, RouteMeasure>());
  /** A plan of a variant, which attempts come upon again and again. */
  const measureOfPlan = (variant: number, plan: Pick<Plan, 'paths'>): RouteMeasure => {
    const key = keyOfPlan(plan);
    const known = measured[variant]!.get(key);
    if (known) return known;
    const measure = request.measure(finished(strandsOf(wave, variants[variant]!, plan)));
    measured[variant]!.set(key, measure);
    return measure;
  };
  const fitting = (measure: RouteMeasure) => tipsFit(measure, ranking);
  // Rather one whose legs cross, which is told, than one that is worse in all else and cannot be built either.
  const crossing = ({ tipGap }: RouteMeasure) => tipGap > 0;
  for (const built of [fitting, crossing]) {
    if (built === crossing && known()) break;
    let nodesLeft = request.nodeBudget;
    for (const [index, variant] of variants.entries()) {
      const floor = floorOf(variant, bounds, paths);
      if (nodesLeft <= 0 || !mayImprove(known(), variant, floor, objective, request)) continue;
      const incumbent = incumbentOf(known(), variant, paths, objective);
      const fits = (plan: Pick<Plan, 'paths'>) => built(measureOfPlan(index, plan));
      const plan = yield* searchPlans({ ...variant.task, fits }, floor, incumbent, objective, nodesLeft);
      nodesLeft -= plan.nodes;
      const found = plan.best ? consider(yield* strandsOf(wave, variant, plan.best)) : null;
      trials.push({ method: variant.method, nodes: plan.nodes, found, exhausted: plan.exhausted });
    }
  }
  return { best, trials };
}

function measureOf(choice: RouteChoice | null): RouteMeasure | null {
  return choice?.measure ?? null;
}

/** A plan as text: loop and stage of every unit, path by path. */
function keyOfPlan({ paths }: Pick<Plan, 'paths'>): string {
  return paths.map((units) => units.map(({ loop, stage }) => `${loop} ${stage}`).join()).join(';');
}

interface Variant {
  readonly method: 'twins' | 'turning';
  readonly task: Omit<PlanTask, 'fits'>;
  /** Jumpers of every plan of this variant; for turning paths the most there can be. */
  readonly jumpers: number;
  /** Whether a path runs on into its own twin. */
  readonly joined: (index: number) => boolean;
  /** Arcs of the whole phase for each arc of the plan. */
  readonly arcFactor: 1 | 2;
  /** Shapes that the plan does not count. */
  readonly extraShapes: number;
}

function variantsOf(wave: WaveLoops, content: Content, paths: number, objective: RouteObjective): Variant[] {
  const variants: Variant[] = [];
  if (wave.mirrored) {
    const halves = paths % 2;
    const mixes =
      halves === 0 ? [[0, paths / 2]] : [[1, (paths - 1) / 2], ...(paths > 1 ? [[paths, 0]] : [])];
    for (const [half, whole] of mixes as [number, number][]) {
      variants.push(...twinVariants(wave, content, half, whole, paths));
    }
  }
  const turning = turningVariant(wave, content, paths);
  if (turning && (!wave.mirrored || paths % 2 === 1 || objective === 'fewest-joints')) variants.push(turning);
  return variants;
}

/** Forward paths of whole and half weight, halves first or last; each half runs on into its own twin. */
function twinVariants(
  wave: WaveLoops,
  content: Content,
  half: number,
  whole: number,
  paths: number,
): Variant[] {
  const forward = wave.loops.filter((loop) => loop.sense === 1);
  const count = (keyOf: (loop: (typeof forward)[number]) => number, length: number) => {
    const units = new Array<number>(length).fill(0);
    for (const loop of forward) units[keyOf(loop)]! += wave.stages;
    return units;
  };
  const classes = count((loop) => loop.content, content.classCounts.length);
  const pairs = count((loop) => loop.pair, wave.pairs);
  const halfQuota = quotaOf(classes, pairs, paths);
  const wholeQuota = quotaOf(
    classes.map((units) => 2 * units),
    pairs.map((units) => 2 * units),
    paths,
  );
  if ((half > 0 && !halfQuota) || (whole > 0 && !wholeQuota)) return [];
  const halves = Array.from({ length: half }, () => halfQuota!);
  const wholes = Array.from({ length: whole }, () => wholeQuota!);
  const variant = (quotas: PathQuota[], joined: (index: number) => boolean): Variant => ({
    method: 'twins',
    task: { wave, quotas, turning: false },
    jumpers: half,
    joined,
    arcFactor: 2,
    extraShapes: half > 0 ? 1 : 0,
  });
  const last = variant([...wholes, ...halves], (index) => index >= whole);
  return half > 0 && whole > 0 ? [last, variant([...halves, ...wholes], (index) => index < half)] : [last];
}

function turningVariant(wave: WaveLoops, content: Content, paths: number): Variant | null {
  const quota = quotaOf(content.classCounts, content.pairCounts, paths);
  if (!quota) return null;
  return {
    method: 'turning',
    task: { wave, quotas: Array.from({ length: paths }, () => quota), turning: true },
    jumpers: paths,
    joined: () => false,
    arcFactor: 1,
    extraShapes: 0,
  };
}

function floorOf(variant: Variant, bounds: RouteBounds, paths: number): Pick<Plan, 'arcs' | 'shapes'> {
  const { task, arcFactor, extraShapes } = variant;
  const { wave, quotas } = task;
  let arcs = Math.ceil((bounds.specialJoints + paths) / arcFactor);
  const alike = quotas.every((quota) => quota.pairs[0] === quotas[0]!.pairs[0]);
  if (arcFactor === 2 && alike) {
    const parts = quotas.length;
    const byClass = new Map<number, number>();
    for (const loop of wave.loops) {
      if (loop.sense === 1) byClass.set(loop.content, (byClass.get(loop.content) ?? 0) + 1);
    }
    const cake = [...byClass.values()].map((loops) => loops + parts - greatestCommonDivisor(loops, parts));
    arcs = Math.max(
      arcs,
      cake.reduce((sum, value) => sum + value, 0),
    );
  }
  return { arcs, shapes: Math.max(0, bounds.jointShapes - extraShapes) };
}

/** Whether a variant's best thinkable outcome lies below what is known. */
function mayImprove(
  known: RouteMeasure | null,
  variant: Variant,
  floor: Pick<Plan, 'arcs' | 'shapes'>,
  objective: RouteObjective,
  { bounds, paths, ranking }: WaveRequest,
): boolean {
  if (!known) return true;
  const turning = variant.method === 'turning';
  // Turning plans are not searched for few reversals, so fewer than one a path would be luck.
  if (turning && objective === 'fewest-jumpers' && known.jumpers < variant.jumpers) return false;
  const ideal: RouteMeasure = {
    ...known,
    specialJoints: floor.arcs * variant.arcFactor - paths,
    jumpers: turning ? bounds.jumpers : variant.jumpers,
    jointShapes: floor.shapes + variant.extraShapes,
  };
  return compareMeasures(ideal, known, ranking) < 0;
}

/** The known routing in the plan's own counts, where plans of this variant must beat it. */
function incumbentOf(
  known: RouteMeasure | null,
  variant: Variant,
  paths: number,
  objective: RouteObjective,
): Pick<Plan, 'arcs' | 'shapes'> | null {
  if (!known || (objective === 'fewest-jumpers' && known.jumpers !== variant.jumpers)) return null;
  const arcs = (known.specialJoints + paths) / variant.arcFactor;
  return { arcs, shapes: known.jointShapes - variant.extraShapes };
}

interface PlanSearch {
  readonly best: Plan | null;
  readonly nodes: number;
  readonly exhausted: boolean;
}

/** Iterative deepening over the arcs, each depth first in natural order, then in shuffled orders. */
function* searchPlans(
  task: PlanTask,
  floor: Pick<Plan, 'arcs' | 'shapes'>,
  start: Pick<Plan, 'arcs' | 'shapes'> | null,
  objective: RouteObjective,
  nodeBudget: number,
): Steps<PlanSearch> {
  const random = seededRandom(20260501);
  const units = task.quotas.reduce((sum, quota) => sum + quota.pairs.reduce((all, pair) => all + pair, 0), 0);
  const most = start && objective === 'fewest-joints' ? start.arcs : Math.min(units, floor.arcs * 2 + 4);
  let incumbent = start;
  let best: Plan | null = null;
  let nodes = 0;
  let exhausted = true;
  for (let arcBudget = floor.arcs; arcBudget <= most; arcBudget++) {
    let complete = false;
    for (let attempt = 0; attempt < attemptsPerBudget && !complete; attempt++) {
      const nodeCap = Math.min(nodesPerAttempt, nodeBudget - nodes);
      if (nodeCap <= 0) return { best, nodes, exhausted: false };
      const limits = { arcBudget, nodeCap, objective, incumbent, floor };
      const result = attemptPlan(task, limits, attempt === 0 ? null : random);
      nodes += result.nodes;
      complete = result.exhausted;
      if (result.plan) {
        best = result.plan;
        incumbent = best;
        if (best.shapes <= floor.shapes && best.arcs <= floor.arcs) return { best, nodes, exhausted: true };
      }
      yield;
    }
    exhausted = exhausted && complete;
    if (best && objective === 'fewest-joints') break;
  }
  return { best, nodes, exhausted };
}

function* strandsOf(wave: WaveLoops, variant: Variant, plan: Pick<Plan, 'paths'>): Steps<Strand[]> {
  const strands = plan.paths.map((path) => strandOf(wave, path));
  yield;
  return variant.method === 'twins' ? yield* withTwins(wave, strands, variant.joined) : strands;
}
