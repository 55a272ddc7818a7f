import { lazy } from '../figures/lazy.ts';
import type { Steps } from '../figures/steps.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { nearestWord } from '../language/suggest.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { connectStatements } from '../language/vocabulary/blocks/winding.ts';
import { candidateSteps } from '../routing/candidates.ts';
import {
  type EndContacts,
  type LimitJudge,
  limitedQuantities,
  type RouteExplanation,
  type RouteLimit,
  type RouteOptions,
  type RouteRefusal,
  type RouteResult,
  type RouteWish,
  route,
  type SpecialsPlace,
} from '../routing/route.ts';
import { buildSpace } from '../space/buildSpace.ts';
import { contactTable } from '../space/clearance/contacts.ts';
import { leastTipGap } from '../space/ends/endRoom.ts';
import { endSizes } from '../space/ends/endSizes.ts';
import { tipSizes } from '../space/ends/tipSizes.ts';
import type { SpaceResult } from '../space/space.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { joinedBars } from '../winding/joints/crossingJoints.ts';
import type { Connections } from '../winding/joints/joints.ts';
import type { TipSizes } from '../winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../winding/model.ts';
import type { SourcedPath } from '../winding/paths/writtenPaths.ts';
import { type PathFacts, type PathWays, pathFacts } from './pathFacts.ts';

/** Paths to be found for a winding, and what else its connection depends on. */
export interface PathRequest extends PathWays {
  /** Parallel paths of a phase. */
  readonly asked: number;
  /** No `route` is written: one path, because that is the default. */
  readonly byDefault: boolean;
  readonly wishes: readonly RouteWish[];
  /** Deviation of path currents up to which unequal cells are accepted; null: none. */
  readonly deviation: number | null;
  /** What the text allows at most of a phase, as far as it depends on the connection. */
  readonly limits: readonly RouteLimit[];
  /** Where special spans may lie; null where the text does not say. */
  readonly specials: SpecialsPlace | null;
  /** Smallest distance between joint tips that can be built, in slots; null where sizes are missing. */
  readonly leastTipGap: number | null;
  /** What the text tells of the bar ends of each side. */
  readonly tipSizes: Readonly<Record<EndSide, TipSizes>>;
  /** How near pieces and leads come to each other; null where sizes are missing. */
  readonly contacts: StoodContacts | null;
  /** Limits on what only the whole winding tells; null where there are none. */
  readonly judge: LimitJudge | null;
}

/** Contacts, and the bars in space of the first paths that were asked for, which are mostly those that are found. */
export interface StoodContacts extends EndContacts {
  /** Null for other paths. */
  readonly stood: (paths: readonly Path[]) => StoodBars | null;
  /** Lets go of what all the connections that were tried have in common, which can be large, once a search is over. */
  readonly forget: () => void;
}

/** Bars in space as a text has their sizes. */
interface StoodBars {
  readonly specification: Specification;
  readonly connections: Connections;
  readonly result: SpaceResult;
}

/** Finds paths, or says that it is still at work; the editor's gives way to typing. */
export type Connector = (winding: Winding, request: PathRequest) => ConnectionState;

/**
 * Why there are no paths: the text does not say how the bars are joined; its written paths have errors;
 * errors elsewhere may hide what it says; or the check of the paths failed.
 */
export type NoPaths = 'not-said' | 'paths-wrong' | 'unread' | 'failed';

/** How far the bars of a winding are joined into paths. */
export type ConnectionState =
  | { readonly kind: 'none'; readonly why: NoPaths }
  | { readonly kind: 'pending' }
  | {
      readonly kind: 'refused';
      readonly reason: RouteRefusal;
      /** Parallel paths of a phase. */
      readonly asked: number;
      readonly byDefault: boolean;
    }
  | {
      readonly kind: 'connected';
      readonly facts: ConnectionFacts;
      /** What is the best one by now, where an editor keeps another that was found before. */
      readonly offered?: ConnectionFacts;
    };

/** All that is computed about a winding's paths, each part when first asked for. */
export interface ConnectionFacts extends PathFacts, Pick<PathWays, 'connection' | 'form'> {
  readonly paths: readonly Path[];
  /** Where written paths stand in the text; null for paths that were found. */
  readonly written: readonly SourcedPath[] | null;
  /** What the router did; null for written paths. */
  readonly explanation: RouteExplanation | null;
  /** Where the router has stood these bars by the sizes of a text already, its bars in space; else null. */
  readonly stood: (specification: Specification) => SpaceResult | null;
  /**
   * For found paths: them and others that are better in something, found when first asked for; else null.
   * Yields to give way; what is found is kept.
   */
  readonly candidates: (() => Steps<readonly Candidate[]>) | null;
  /** Where some paths are still being drawn: all that joins the bars beside them, as one text. */
  readonly unfinished?: string;
}

/** A connection that may be chosen instead of another. */
export interface Candidate {
  readonly facts: ConnectionFacts;
}

/** What is known of the paths; null while the bars are not joined. */
export function joinedFacts({
  connection,
}: {
  readonly connection: ConnectionState;
}): ConnectionFacts | null {
  return connection.kind === 'connected' ? connection.facts : null;
}

/** Finds paths at once, however long it takes. */
export const connectNow: Connector = (winding, request) =>
  connectionOf(winding, request, route(winding, routeOptions(request)));

/** What the router is asked for. */
export function routeOptions({ asked, byDefault: _, ...options }: PathRequest): RouteOptions {
  return { paths: asked, ...options };
}

/** The connection that follows from what the router found. */
export function connectionOf(winding: Winding, request: PathRequest, result: RouteResult): ConnectionState {
  const { asked, byDefault, connection, form, gap, contacts } = request;
  contacts?.forget();
  if (!result.ok) return { kind: 'refused', reason: result.reason, asked, byDefault };
  const { paths, explanation } = result;
  const found = { connection, written: null, explanation, form, gap, contacts };
  let kept: readonly Candidate[] | null = null;
  const facts = connectionFacts(winding, { ...found, paths }, function* () {
    if (kept !== null) return kept;
    const candidates = yield* candidateSteps(winding, routeOptions(request), result);
    contacts?.forget();
    kept = candidates.map((candidate, index) => ({
      facts: index === 0 ? facts : connectionFacts(winding, { ...found, paths: candidate.paths }, null),
    }));
    return kept;
  });
  return { kind: 'connected', facts };
}

/** A connection that was found before and stays, while the best one by now is offered: both among those to choose from. */
export function keptConnection(kept: ConnectionFacts, offered: ConnectionFacts): ConnectionState {
  const facts: ConnectionFacts = {
    ...kept,
    candidates: function* () {
      const others = offered.candidates ? yield* offered.candidates() : [];
      return [{ facts }, ...others];
    },
  };
  return { kind: 'connected', facts, offered };
}

/**
 * Joins the bars: by the written paths where there are good ones, else by paths that are found. A
 * connect block without `route` or paths means one path a phase; without a connect block nothing is joined.
 */
export function joinBars(
  specification: Specification,
  winding: Winding,
  written: readonly SourcedPath[] | null,
  connector: Connector,
): ConnectionState {
  const { connect } = specification;
  const connection = connect?.connections[0]?.value;
  const isWritten = connect !== undefined && connect.paths.length + connect.copies.length > 0;
  if (isWritten && !written) return { kind: 'none', why: 'paths-wrong' };
  if (!connect || !connection)
    return { kind: 'none', why: mayHidePaths(specification) ? 'unread' : 'not-said' };
  const { form, gap } = formAndGap(specification);
  if (written) {
    const paths = written.map(({ path }) => path);
    const joined = { connection, paths, written, explanation: null, form, gap, contacts: null };
    return { kind: 'connected', facts: connectionFacts(winding, joined, null) };
  }
  if (mayHidePaths(specification) && !connect.route) return { kind: 'none', why: 'unread' };
  const { wishes, deviation } = valueOrDefault(connectStatements, connect, 'route');
  return connector(winding, {
    asked: winding.parallelPaths,
    byDefault: !connect.route,
    wishes,
    deviation,
    limits: routeLimits(specification, winding, form),
    specials: connect.specials?.value ?? null,
    connection,
    form,
    gap,
    leastTipGap: leastTipGap(specification, winding),
    tipSizes: tipSizes(specification, winding),
    contacts: endContacts(specification, winding, { connection, form, gap }),
    judge: null,
  });
}

function formAndGap({ bar, machine }: Specification): Omit<PathWays, 'connection'> {
  return {
    form: valueOrDefault(barStatements, bar, 'form'),
    gap: valueOrDefault(machineStatements, machine, 'gap'),
  };
}

/** How near pieces and leads of a connection come to each other; null where sizes are missing. */
function endContacts(specification: Specification, winding: Winding, ways: PathWays): StoodContacts | null {
  const sizes = endSizes(specification, winding);
  if (!sizes.known) return null;
  const { endClearance, pieceClearance } = sizes.value;
  let table: ReturnType<typeof contactTable> | null = null;
  let first: (StoodBars & { readonly paths: readonly Path[] }) | null = null;
  return {
    // Bars that do not lean end alike however long the stack is.
    sizes: { ...sizes.value, stack: winding.lean.some((lean) => lean !== 0) ? sizes.value.stack : null },
    *of(paths) {
      const connections = pathFacts(winding, paths, ways).jointsByTable();
      const result = buildSpace({ specification, winding, connections });
      first ??= { specification, paths, connections, result };
      yield;
      if (!result.space.known) return null;
      table ??= contactTable({ bars: endClearance, pieces: pieceClearance });
      return yield* table(result.space.value, connections);
    },
    stood: (paths) => (first?.paths === paths ? first : null),
    forget: () => {
      table = null;
    },
  };
}

/** The limits of the text that steer the router, as those of one phase. */
function routeLimits(
  { limits }: Specification,
  { phases }: Winding,
  form: PathWays['form'],
): readonly RouteLimit[] {
  return limits.flatMap(({ value: { entry, relation, limit } }): RouteLimit[] => {
    const quantity = limitedQuantities.find((each) => each === entry.word);
    if (!quantity || relation !== '<=') return [];
    if (quantity !== 'legs-bent-apart') return [{ quantity, most: limit }];
    // Straight bars are bent one by one, and the limit is for all phases.
    return form === 'straight' ? [] : [{ quantity, most: Math.floor(limit / phases.names.length) }];
  });
}

/** Whether something that is written but not understood may say how the bars are joined. */
function mayHidePaths({ connect, broken }: Specification): boolean {
  return broken.some(
    ({ block, word }) =>
      block === 'connect' ||
      (block === 'file' && (connect !== undefined || nearestWord(word, ['connect']) !== undefined)),
  );
}

/** The facts of paths that were found for a request. */
export function factsOfPaths(
  winding: Winding,
  { connection, form, gap, contacts }: PathWays & Pick<PathRequest, 'contacts'>,
  paths: readonly Path[],
): ConnectionFacts {
  return connectionFacts(
    winding,
    { connection, paths, written: null, explanation: null, form, gap, contacts },
    null,
  );
}

interface Joined extends PathWays, Pick<ConnectionFacts, 'paths' | 'written' | 'explanation'> {
  readonly contacts: StoodContacts | null;
}

function connectionFacts(
  winding: Winding,
  joined: Joined,
  candidates: ConnectionFacts['candidates'],
): ConnectionFacts {
  const { paths, connection, written, explanation, form, contacts } = joined;
  const facts = pathFacts(winding, paths, joined);
  return {
    ...facts,
    connection,
    paths,
    written,
    explanation,
    form,
    stood: (specification) => {
      const stood = contacts?.stood(paths);
      return stood?.specification === specification && stood.connections === facts.joints()
        ? stood.result
        : null;
    },
    candidates,
  };
}

/**
 * The connection of paths that are still being drawn: some bars are in none of them, and the path at the index
 * `growing` has no end yet. What counts as regular is given, because unfinished paths do not say it.
 */
export function unfinishedConnection(
  specification: Specification,
  winding: Winding,
  connection: PathWays['connection'],
  paths: readonly Path[],
  bends: Bends,
  growing: number | null,
): ConnectionFacts {
  const joining = { connection, ...formAndGap(specification), contacts: null };
  const facts = factsOfPaths(winding, joining, paths);
  const joints = lazy((): Connections => {
    const all = joinedBars(winding, paths, joining.form, bends);
    return { ...all, ends: all.ends.filter(({ path, end }) => path !== growing || end === 'start') };
  });
  return { ...facts, joints, unfinished: JSON.stringify([bends, growing]) };
}

/** Largest difference of a path's voltage from the mean of its phase, relative; null where a phase has none. */
export function pathVoltageDifference(connection: ConnectionFacts): number | null {
  let largest = 0;
  for (const { difference, sameAngles } of connection.balances()) {
    if (difference === null) return null;
    if (!sameAngles && difference > 1e-12) largest = Math.max(largest, difference);
  }
  return largest;
}
