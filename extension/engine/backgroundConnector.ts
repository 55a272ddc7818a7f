import {
  type ConnectionState,
  type Connector,
  connectionOf,
  keptConnection,
  type PathRequest,
  routeOptions,
} from '../../core/facts/connection.ts';
import { tableKey } from '../../core/facts/kept.ts';
import type { Steps } from '../../core/figures/steps.ts';
import { type RouteResult, routeSteps } from '../../core/routing/route.ts';
import type { Winding } from '../../core/winding/model.ts';
import type { Surroundings } from './surroundings.ts';

/** Milliseconds of work at once: while typing, and each time the search goes on. */
const slice = 10;
/** Connections kept, so that undo and edits elsewhere in the text do not search or compute again. */
const mostKept = 16;

interface Job {
  readonly key: string;
  readonly steps: Steps<RouteResult>;
}

/** A connector of one text that is being typed. */
export interface BackgroundConnector {
  readonly connect: Connector;
  /** Takes the connection that is offered in place of the one that is kept, if there is one. */
  readonly take: () => void;
}

type Connected = Extract<ConnectionState, { readonly kind: 'connected' }>;

/**
 * Connects windings without holding up typing: what is not found within some milliseconds is searched
 * for in slices, and `found` is called when there is a result. Asking for another winding drops the
 * search at hand. Where nothing but sizes changed, a connection found before stays, and one that is the
 * better by now is looked for in slices alone, and offered.
 */
export function createBackgroundConnector(
  surroundings: Surroundings,
  found: () => void,
): BackgroundConnector {
  /** What is shown, and what it was found for but for sizes. */
  let held: { readonly key: string; readonly state: Connected } | null = null;
  let offer: { readonly to: Connected; readonly state: ConnectionState } | null = null;
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
  const search = (winding: Winding, request: PathRequest, atOnce: boolean): ConnectionState => {
    const key = keyOf(winding, request);
    const known = kept.get(key);
    if (known) return known;
    if (job?.key === key) return { kind: 'pending' };
    const next: Job = { key, steps: routeSteps(winding, routeOptions(request)) };
    const done = (result: RouteResult) => connectionOf(winding, request, result);
    const result = atOnce ? work(next) : null;
    job = result === null ? next : null;
    if (result !== null) return keep(key, done(result));
    goOn(next, done);
    return { kind: 'pending' };
  };
  const connect: Connector = (winding, request) => {
    const key = keyOf(winding, {
      ...request,
      leastTipGap: null,
      tipSizes: null,
      contacts: null,
      judge: null,
    });
    const earlier = held?.key === key ? held.state : null;
    // While another one is there to be shown, looking for the best one can wait until nothing is typed.
    const state = search(winding, request, earlier === null);
    if (state.kind === 'pending') return earlier ?? state;
    if (state.kind !== 'connected') return state;
    if (earlier === null || earlier.facts.hash() === state.facts.hash()) {
      held = { key, state };
      offer = null;
      return state;
    }
    if (offer?.to !== state) offer = { to: state, state: keptConnection(earlier.facts, state.facts) };
    return offer.state;
  };
  const take = () => {
    if (held === null || offer === null) return;
    held = { key: held.key, state: offer.to };
    offer = null;
    found();
  };
  return { connect, take };
}

/** Everything that a connection depends on. */
function keyOf(winding: Winding, request: object): string {
  return tableKey(winding) + JSON.stringify(request);
}
