import type { Steps } from '../figures/steps.ts';
import type { Winding } from '../winding/model.ts';
import { candidateSteps } from './candidates.ts';
import { explained } from './keepApart.ts';
import type { FoundRoute, RouteOptions } from './question.ts';
import { exceededLimits, limitExcess } from './ranking.ts';

/**
 * The best candidate that meets all limits where the connection found exceeds some: those that are counted or
 * measured while it is searched for, and those that only the whole winding tells. The one found where none does.
 */
export function* withinLimits(winding: Winding, options: RouteOptions, found: FoundRoute): Steps<FoundRoute> {
  const { judge, limits = [] } = options;
  const counted = exceededLimits(found.explanation.measure, limits);
  const exceeded = [...counted, ...(judge ? yield* judge.exceeded(found.paths) : [])];
  if (exceeded.length === 0) return found;
  const candidates = yield* candidateSteps(winding, options, found);
  for (const candidate of candidates.slice(1)) {
    if (limitExcess(candidate.measure, limits) > 0) continue;
    if (judge && (yield* judge.exceeded(candidate.paths)).length > 0) continue;
    const explanation = explained(found.explanation, candidate, winding);
    const limitsDecided = [...explanation.limitsDecided, ...exceeded];
    return { ...found, paths: candidate.paths, explanation: { ...explanation, limitsDecided } };
  }
  return found;
}
