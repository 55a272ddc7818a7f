import type { Steps } from '../figures/steps.ts';
import { defaultOf } from '../language/specification/defaults.ts';
import { connectStatements } from '../language/vocabulary/blocks/winding.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { regularBends } from '../winding/joints/bends.ts';
import type { Path, Winding } from '../winding/model.ts';
import { leastMeasure, type MeasuredTips, measureNodes, measureStrands, measuringOf } from './measure.ts';
import { type PhaseRequest, type PhaseRoute, routePhase } from './phaseSearch.ts';
import { closestShifts, pathsOfPhase, terminalWindow } from './phases.ts';
import type { RouteExplanation, RouteOptions, RouteResult } from './question.ts';
import { compareMeasures, measuredFor, type RouteRanking, tipsFit } from './ranking.ts';
import type { PhaseTask, RouteRefusal } from './refusal.ts';
import { anyCrownsRefusal, dividesRefusal, layoutRefusal, phaseTask } from './refusal.ts';
import type { Strand } from './units/units.ts';

/** What a search has met. */
export interface Seen {
  /** Whether legs crossed in any connection, without which heights rule nothing out. */
  crossing: boolean;
  /** All that it learned of the sizes of bar ends. */
  readonly tips: MeasuredTips[];
}

/** What the best by a ranking is sought for. */
export interface RankedSearch {
  readonly winding: Winding;
  readonly options: RouteOptions;
  readonly ranking: RouteRanking;
  readonly seen: Seen;
}

interface BalancedSearch extends RankedSearch {
  /** Paths are to agree in every cell, else in angles and in layers. */
  readonly strict: boolean;
}

/** The best paths that agree. */
export function* routeBalanced(search: BalancedSearch): Steps<RouteResult> {
  const { winding, options, ranking, strict } = search;
  const bends = regularBends(winding);
  const tasks = yield* regularTasks(winding, bends, options.paths, strict);
  const plan = planOf(winding, bends, options, tasks);
  if ('kind' in plan) return { ok: false, reason: plan };

  const shifts = closestShifts(winding);
  const repeating = shifts.filter((shift) => shift !== null);
  const routed: PhaseRoute[] = [];
  const paths: Path[] = [];
  for (const [phase, shift] of shifts.entries()) {
    // A phase that repeats the first is laid as that one is, some slots on.
    const repeated = phase > 0 && shift !== null;
    if (!repeated) {
      const found = yield* routeAlike(search, {
        bends,
        phase,
        shifts: phase === 0 ? repeating : [0],
        specials: plan.specials,
        task: 'kind' in tasks ? null : tasks[phase]!,
      });
      if (!found) return { ok: false, reason: { kind: 'none-met', specials: plan.specials } };
      routed.push(found);
    }
    yield;
    const { strands } = repeated ? routed[0]! : routed.at(-1)!;
    paths.push(
      ...pathsOfPhase(winding, bends, phase, strands, repeated ? shift : 0, options.connection ?? 'star'),
    );
  }
  const explanation: RouteExplanation = {
    wishes: ranking.wishes,
    ...plan,
    strict,
    deviation: null,
    limitsDecided: [],
    terminalWindow: terminalWindow(winding, paths),
    ...worstOf(routed, ranking),
  };
  return { ok: true, paths, bends, explanation };
}

/** A phase to be routed for itself and those that repeat it, so many slots on. */
interface AlikePhases extends Pick<PhaseRequest, 'bends' | 'phase' | 'specials' | 'task'> {
  readonly shifts: readonly number[];
}

/** Routes a phase, measured together with those that repeat it; null where nothing is met. */
function* routeAlike(
  { winding, options, ranking, seen, strict }: BalancedSearch,
  { shifts, ...own }: AlikePhases,
): Steps<PhaseRoute | null> {
  const { limits = [] } = options;
  const measuring = measuringOf(winding, own.bends, options, shifts, measuredFor(ranking));
  const measure = (strands: readonly Strand[]) => {
    const measured = measureStrands(measuring, strands);
    seen.crossing ||= measured.crossings > 0;
    seen.tips.push({ measuring, strands, measured });
    return measured;
  };
  const found = yield* routePhase({
    ...own,
    winding,
    strict,
    ranking,
    measure,
    atLeast: (strands) => leastMeasure(measuring, strands),
    alike: shifts.length,
    measureNodes: measureNodes(measuring),
    paths: options.paths,
    nodeBudget: options.nodeBudget ?? 400_000,
  });
  // What is limited is told, whether it ranks or not.
  return found && limits.length > 0
    ? { ...found, measure: measureStrands({ ...measuring, limits }, found.strands) }
    : found;
}

/** What is told of the worst of the phases that were routed. */
function worstOf(
  routed: readonly PhaseRoute[],
  ranking: RouteRanking,
): Pick<RouteExplanation, 'measure' | 'tipsFit' | 'bounds' | 'proved' | 'tried'> {
  const worst = routed.reduce((a, b) => (compareMeasures(b.measure, a.measure, ranking) > 0 ? b : a));
  return {
    measure: worst.measure,
    tipsFit: tipsFit(worst.measure, ranking),
    bounds: worst.bounds,
    proved: provedCounts(worst),
    tried: worst.trials,
  };
}

/** All phases as units of regular crowns, or why balanced paths cannot be made of them. */
function* regularTasks(
  winding: Winding,
  bends: Bends,
  paths: number,
  strict: boolean,
): Steps<readonly PhaseTask[] | RouteRefusal> {
  const refusal = layoutRefusal(winding, bends);
  if (refusal) return refusal;
  const tasks: PhaseTask[] = [];
  for (let phase = 0; phase < winding.phases.names.length; phase++) {
    yield;
    const task = phaseTask(winding, bends, phase, strict);
    if ('kind' in task) return task;
    tasks.push(task);
  }
  return dividesRefusal(tasks, paths, strict) ?? tasks;
}

/** Where special spans lie: as asked for, else in the joined legs, else, where that is impossible, on either side. */
function planOf(
  winding: Winding,
  bends: Bends,
  { paths, specials }: RouteOptions,
  tasks: readonly PhaseTask[] | RouteRefusal,
): Pick<RouteExplanation, 'specials' | 'crownsNeeded'> | RouteRefusal {
  if (!('kind' in tasks))
    return { specials: specials ?? defaultOf(connectStatements.specials), crownsNeeded: false };
  if (specials === 'joined' || tasks.kind === 'phase-without-bars') return tasks;
  // Without a nominal span nothing tells which spans are special.
  if (layoutRefusal(winding, bends)) return tasks;
  const refusal = anyCrownsRefusal(winding, paths);
  if (refusal) return specials ? refusal : tasks;
  return { specials: specials ?? 'either', crownsNeeded: !specials };
}

function provedCounts({ measure, bounds, least }: PhaseRoute): RouteExplanation['proved'] {
  const proved: ('jumpers' | 'special-joints' | 'joint-shapes')[] = [];
  const jumpers = bounds?.jumpers ?? least?.jumpers ?? 0;
  const joints = bounds?.specialJoints ?? least?.specialJoints ?? 0;
  if (measure.jumpers === jumpers) proved.push('jumpers');
  if (measure.specialJoints === joints) proved.push('special-joints');
  if (measure.jumpers === jumpers && measure.jointShapes === (bounds?.jointShapes ?? 0))
    proved.push('joint-shapes');
  return proved;
}
