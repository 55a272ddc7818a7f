import { connectWinding } from '../facts/connect.ts';
import { type ConnectionState, connectionOf, type PathRequest, routeOptions } from '../facts/connection.ts';
import { type Facts, gatherFacts } from '../facts/facts.ts';
import { tableKey } from '../facts/kept.ts';
import { createWhole, type Whole, type WorkStore, workStore } from '../facts/workFirst.ts';
import type { Steps } from '../figures/steps.ts';
import { checkCopper } from '../findings/copper/rules.ts';
import { layoutRules } from '../findings/rules.ts';
import type { Finding } from '../language/finding.ts';
import type { Specification } from '../language/specification/specification.ts';
import { type RouteResult, settleSteps } from '../routing/route.ts';
import { withinLimits } from '../routing/withinLimits.ts';
import type { Winding } from '../winding/model.ts';
import type { SourcedPath } from '../winding/paths/writtenPaths.ts';
import { connectionSearch } from './searches.ts';
import { refused, type Verdict } from './verdict.ts';

/** Connections kept, so that what is equal is computed once. */
const mostConnections = 256;
/** Work kept likewise, that of a candidate or two: what is kept for longer V8 moves to what is old, which takes its time. */
const mostWork = 4;

/** A candidate's text with its bars still to be joined. */
export interface Unjoined {
  readonly specification: Specification;
  readonly winding: Winding;
  /** As written; null where none are. */
  readonly paths: readonly SourcedPath[] | null;
}

/** Makes whole studies of candidates, which share connections and work in space; a verdict where one is refused. */
export type WholeMaker = (unjoined: Unjoined) => Steps<Whole | Verdict>;

/** A maker with stores of its own. */
export function wholeMaker(): WholeMaker {
  const store = workStore(mostWork);
  const joined = joiner(store);
  return function* (unjoined) {
    const { specification, winding } = unjoined;
    const connection = yield* joined(unjoined);
    if (connection.kind === 'refused') return refused(`route-refused: ${connection.reason.kind}`);
    // Work on the bars in space is done in steps, between two readings of what asked for it.
    const whole = createWhole((measurer) => gatherFacts(specification, winding, connection, measurer), store);
    const error = yield* whole.read(errorOf);
    return error ? refused(error.code) : whole;
  };
}

/** Whether a whole study was made. */
export function isWhole(made: Whole | Verdict): made is Whole {
  return 'read' in made;
}

function errorOf(facts: Facts): Finding | undefined {
  const findings = layoutRules.flatMap(({ check }) => check(facts));
  return [...findings, ...checkCopper(facts)].find(({ severity }) => severity === 'error');
}

/** Joins bars; connections are found once for all that ask the same of the same table. */
function joiner(store: WorkStore): (unjoined: Unjoined) => Steps<ConnectionState> {
  let kept = new Map<string, RouteResult>();
  const search = connectionSearch();
  function* found(winding: Winding, request: PathRequest): Steps<RouteResult> {
    const key = `${tableKey(winding)} ${JSON.stringify(request)}`;
    const known = kept.get(key);
    if (known) return known;
    const options = routeOptions(request);
    const result = yield* settleSteps(winding, options, yield* search(winding, options));
    if (kept.size >= mostConnections) kept = new Map();
    kept.set(key, result);
    return result;
  }
  return function* (unjoined) {
    const { winding } = unjoined;
    const { state, request } = requested(unjoined, store);
    if (request === null) return state;
    // Limits that the whole winding tells choose among what is found, and only that is shared.
    const result = yield* found(winding, { ...request, judge: null });
    const chosen = result.ok ? yield* withinLimits(winding, routeOptions(request), result) : result;
    return connectionOf(winding, request, chosen);
  };
}

/** What a text says of its paths, and what it asks to be found; null where nothing is to be found. */
function requested(
  { specification, winding, paths }: Unjoined,
  store: WorkStore,
): { readonly state: ConnectionState; readonly request: PathRequest | null } {
  let request: PathRequest | null = null;
  const noting = (_: Winding, asked: PathRequest): ConnectionState => {
    request = asked;
    return { kind: 'pending' };
  };
  return { state: connectWinding(specification, winding, paths, noting, store), request };
}
