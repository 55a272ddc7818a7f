import type { Steps } from '../../../core/figures/steps.ts';
import { finished } from '../../../core/figures/steps.ts';
import { type RouteOptions, type RouteResult, routeSteps as search } from '../../../core/routing/route.ts';
import type { Winding } from '../../../core/winding/model.ts';
import { remembered } from './remembered.ts';

export * from '../../../core/routing/route.ts';

const kept = new Map<string, unknown>();

export function routeSteps(winding: Winding, options: RouteOptions): Steps<RouteResult> {
  const key = JSON.stringify([winding, winding.table.cells.join(), options]);
  return remembered(kept, key, () => search(winding, options));
}

export function route(winding: Winding, options: RouteOptions): RouteResult {
  return finished(routeSteps(winding, options));
}
