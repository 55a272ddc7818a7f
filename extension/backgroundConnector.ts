import {
  type ConnectionState,
  type Connector,
  connectionOf,
  type PathRequest,
  routeOptions,
} from '../core/facts/connection.ts';
import { type RouteResult, routeSteps } from '../core/routing/route.ts';
import type { Winding } from '../core/winding/model.ts';

/** What a background search needs from its surroundings: a clock in milliseconds, and a way to go on later. */
export interface Surroundings {
  readonly now: () => number;
  readonly later: (work: () => void) => void;
}

/** Milliseconds of work at once: while typing, and each time the search goes on. */
const slice = 10;
/** Connections kept, so that undo and edits elsewhere in the text do not search or compute again. */
const mostKept = 16;

interface Job {
  readonly key: string;
  readonly steps: Generator<undefined, RouteResult>;
}

/**
 * Connects windings without holding up typing: what is not found within some milliseconds is searched
 * for in slices, and `found` is called when there is a result. Asking for another winding drops the
 * search at hand.
 */
export function createBackgroundConnector(surroundings: Surroundings, found: () => void): Connector {
  const kept = new Map<string, ConnectionState>();
  let job: Job | null = null;

  const keep = (key: string, state: ConnectionState): ConnectionState => {
    kept.set(key, state);
    if (kept.size > mostKept) kept.delete(kept.keys().next().value as string);
    return state;
  };
  const work = (at: Job): RouteResult | null => {
    const end = surroundings.now() + slice;
    do {
      const step = at.steps.next();
      if (step.done) return step.value;
    } while (surroundings.now() < end);
    return null;
  };
  const goOn = (at: Job, done: (result: RouteResult) => ConnectionState) => {
    surroundings.later(() => {
      if (job !== at) return;
      const result = work(at);
      if (result === null) return goOn(at, done);
      job = null;
      keep(at.key, done(result));
      found();
    });
  };
  return (winding, request) => {
    const key = keyOf(winding, request);
    const known = kept.get(key);
    if (known) return known;
    if (job?.key === key) return { kind: 'pending' };
    const next: Job = { key, steps: routeSteps(winding, routeOptions(request)) };
    const done = (result: RouteResult) => connectionOf(winding, request, result);
    const result = work(next);
    job = result === null ? next : null;
    if (result !== null) return keep(key, done(result));
    goOn(next, done);
    return { kind: 'pending' };
  };
}

/** Everything that a connection depends on. */
function keyOf(winding: Winding, request: PathRequest): string {
  const { slots, poles, phases, layers, lean, rotorSkew, origin, table } = winding;
  return JSON.stringify([slots, poles, phases, layers, lean, rotorSkew, origin, table.cells.join(), request]);
}
