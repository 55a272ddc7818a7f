import type { Steps } from '../figures/steps.ts';
import { defaultOf } from '../language/specification/defaults.ts';
import { connectStatements } from '../language/vocabulary/blocks/winding.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { regularBends } from '../winding/joints/bends.ts';
import type { Path, Winding } from '../winding/model.ts';
import { leastMeasure, measureNodes, measureStrands, measuringOf } from './measure.ts';
import { type PhaseRoute, routePhase } from './phaseSearch.ts';
import { closestShifts, pathsOfPhase, terminalWindow } from './phases.ts';
import type { RouteExplanation, RouteOptions, RouteResult } from './question.ts';
import { compareMeasures, measuredFor, type RouteLimit, type RouteRanking, tipsFit } from './ranking.ts';
import type { PhaseTask, RouteRefusal } from './refusal.ts';
import { anyCrownsRefusal, dividesRefusal, layoutRefusal, phaseTask } from './refusal.ts';
import type { Strand } from './units/units.ts';

/** What a search has met: whether legs crossed in any connection, without which heights rule nothing out. */
export interface Seen {
  crossing: boolean;
}

/** What the best by a ranking is sought for. */
export interface RankedSearch {
  readonly winding: Winding;
  readonly options: RouteOptions;
  readonly ranking: RouteRanking;
  /** Measured, whether they rank or not. */
  readonly limits: readonly RouteLimit[];
  readonly seen: Seen;
}

/** Paths that agree in every cell where `strict`, else in angles and in layers. */
export function* routeBalanced({
  winding,
  options,
  ranking,
  limits,
  seen,
  strict,
}: RankedSearch & { readonly strict: boolean }): Steps<RouteResult> {
  const bends = regularBends(winding);
  const tasks = yield* regularTasks(winding, bends, options.paths, strict);
  const plan = classOf(winding, bends, options, tasks);
  if ('kind' in plan) return { ok: false, reason: plan };

  const shifts = closestShifts(winding);
  const connection = options.connection ?? 'star';
  const routed: PhaseRoute[] = [];
  const paths: Path[] = [];
  for (let phase = 0; phase < shifts.length; phase++) {
    const shift = shifts[phase];
    const own = phase === 0 || shift == null;
    if (own) {
      const together = phase === 0 ? shifts.filter((other) => other !== null) : [0];
      const measuring = measuringOf(winding, bends, options, together, measuredFor(ranking));
      const found = yield* routePhase({
        winding,
        bends,
        phase,
        strict,
        specials: plan.specials,
        task: 'kind' in tasks ? null : tasks[phase]!,
        ranking,
        measure: (strands: readonly Strand[]) => {
          const measure = measureStrands(measuring, strands);
          seen.crossing ||= measure.crossings > 0;
          return measure;
        },
        atLeast: (strands: readonly Strand[]) => leastMeasure(measuring, strands),
        alike: together.length,
        measureNodes: measureNodes(measuring),
        paths: options.paths,
        nodeBudget: options.nodeBudget ?? 400_000,
      });
      if (!found) return { ok: false, reason: { kind: 'none-met', specials: plan.specials } };
      const measure =
        limits.length === 0 ? found.measure : measureStrands({ ...measuring, limits }, found.strands);
      routed.push({ ...found, measure });
    }
    yield;
    const { strands } = own ? routed.at(-1)! : routed[0]!;
    paths.push(...pathsOfPhase(winding, bends, phase, strands, own ? 0 : shift, connection));
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
function classOf(
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
  return { specials: specials ?? 'either', crownsNeeded: specials === undefined };
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
