import { finished, type Steps } from '../figures/steps.ts';
import type { Contacts } from '../space/clearance/contacts.ts';
import { coveringArc } from '../winding/coveringArc.ts';
import type { Path, Winding } from '../winding/model.ts';
import { polish } from './bars/polish.ts';
import type { Measuring } from './measure.ts';
import { firstStrands, laidPaths, leastMeasure, measureNodes, measureStrands } from './measure.ts';
import { closestShifts, phaseShifts, terminalWindow } from './phases.ts';
import type { EndContacts, FoundRoute, RouteExplanation, RouteOptions } from './question.ts';
import type { RouteMeasure, RouteRanking } from './ranking.ts';
import { compareMeasures, tipsFit } from './ranking.ts';
import type { Strand } from './units/units.ts';

interface Laid {
  readonly paths: readonly Path[];
  readonly measure: RouteMeasure;
}

/** Most ways to lay the phases that are looked at, and steps for other connections. */
const mostTurns = 16;
/** Most combinations of the phases' turns that are listed for it; of more none is looked at. */
const mostWays = 5000;
const nodes = 60_000;
/** What it costs to find contacts, in search nodes: of all, and of each piece of a phase. */
const nodesOfContacts = { all: 1500, piece: 1500 } as const;

/** A search for a connection whose pieces and leads keep clear of each other. */
interface Search {
  readonly options: RouteOptions;
  readonly ranking: RouteRanking;
  readonly measuring: Measuring;
  readonly contacts: EndContacts;
  readonly found: FoundRoute;
  /** The first phase of the connection found. */
  readonly strands: readonly Strand[];
}

/**
 * A connection whose pieces and leads keep clear of each other, where the one found does not and there is
 * another: first the same one with its phases laid further apart, then others that are as good, then any.
 * Without special joints all is as in every other connection, but for where paths end.
 */
export function* keepApart(
  options: RouteOptions,
  ranking: RouteRanking,
  measuring: Measuring,
  found: FoundRoute,
): Steps<FoundRoute> {
  const { contacts } = options;
  const { explanation } = found;
  const { winding, shifts } = measuring;
  const alike = shifts.length === winding.phases.names.length;
  if (!contacts || !explanation.tipsFit || explanation.measure.specialJoints === 0 || !alike) return found;
  const touching = yield* contacts.of(found.paths);
  yield;
  if (!touching || touching.colliding + touching.close === 0) return found;
  const search = { options, ranking, measuring, contacts, found, strands: firstStrands(found.paths) };
  const first: Laid = { paths: found.paths, measure: withContacts(explanation.measure, touching) };
  const turned = yield* laidFurtherApart(search, first);
  const best = turned.measure.colliding > 0 ? yield* joinedOtherwise(search, turned) : turned;
  if (best === first) return found;
  return { ...found, paths: best.paths, explanation: explained(explanation, best, winding) };
}

/** The same connection with its phases laid otherwise, where less of it touches; else the one so far. */
function* laidFurtherApart({ ranking, measuring, contacts, strands }: Search, first: Laid): Steps<Laid> {
  const { winding } = measuring;
  const widest = Math.max(terminalWindow(winding, first.paths), winding.slots / 2);
  let best = first;
  for (const shifts of otherTurns(winding, strands)) {
    const turned = { ...measuring, shifts };
    const paths = laidPaths(turned, strands);
    // For more clearance alone terminals do not go round the machine.
    if (best.measure.colliding === 0 && terminalWindow(winding, paths) > widest) continue;
    const measure = measureStrands(turned, strands);
    const met = tipsFit(measure, ranking) ? yield* contacts.of(paths) : null;
    yield;
    if (!met || !touchesLess(withContacts(measure, met), best.measure, ranking)) continue;
    best = { paths, measure: withContacts(measure, met) };
    if (met.colliding + met.close === 0) break;
  }
  return best;
}

/** Another connection, with its phases laid as usual, where less of it touches; else the one so far. */
function* joinedOtherwise(search: Search, first: Laid): Steps<Laid> {
  const { options, ranking, measuring, contacts, found, strands } = search;
  const { strict, specials, measure: counted } = found.explanation;
  const measure = (others: readonly Strand[]) => {
    const plain = measureStrands(measuring, others);
    const met = tipsFit(plain, ranking) ? finished(contacts.of(laidPaths(measuring, others))) : null;
    return met ? withContacts(plain, met) : plain;
  };
  const { best } = yield* polish({
    winding: measuring.winding,
    bends: measuring.bends,
    phase: 0,
    paths: options.paths,
    strict,
    specials,
    start: strands,
    ranking,
    measure,
    atLeast: (others) => leastMeasure(measuring, others),
    alike: measuring.shifts.length,
    nodes,
    measureNodes: measureNodes(measuring) + nodesOfContacts.all + nodesOfContacts.piece * counted.jumpers,
  });
  return best && touchesLess(best.measure, first.measure, ranking)
    ? { paths: laidPaths(measuring, best.strands), measure: best.measure }
    : first;
}

function withContacts(measure: RouteMeasure, { colliding, close }: Contacts): RouteMeasure {
  return { ...measure, colliding, close };
}

/** Whether a connection is the better one because less of it collides or is too near. */
function touchesLess(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): boolean {
  const less = a.colliding - b.colliding || a.close - b.close;
  return less < 0 && compareMeasures(a, b, ranking) < 0;
}

/** Other ways to lay the phases, those with their terminals closest together first. */
function otherTurns(winding: Winding, strands: readonly Strand[]): readonly (readonly number[])[] {
  const closest = closestShifts(winding);
  const sense = ([1, -1] as const).find((way) =>
    closest.every((shift, phase) => phase === 0 || phaseShifts(winding, phase, way).includes(shift ?? -1)),
  );
  if (!sense) return [];
  let turns: number[][] = [[0]];
  for (let phase = 1; phase < closest.length; phase++) {
    const options = phaseShifts(winding, phase, sense);
    if (turns.length * options.length > mostWays) return [];
    turns = turns.flatMap((before) => options.map((option) => [...before, option]));
  }
  const starts = strands.map(({ bars }) => bars[0]!.slot);
  const arc = (way: readonly number[]) =>
    coveringArc(
      way.flatMap((turn) => starts.map((slot) => 1 + ((slot - 1 + turn) % winding.slots))),
      winding.slots,
    );
  return turns
    .filter((way) => way.some((turn, phase) => turn !== closest[phase]))
    .map((way) => ({ way, arc: arc(way) }))
    .sort((a, b) => a.arc - b.arc)
    .slice(0, mostTurns)
    .map(({ way }) => way);
}

/** What is told of a connection that replaces the one found: proofs hold while the counts are the same. */
export function explained(
  before: RouteExplanation,
  { paths, measure }: Pick<Laid, 'paths' | 'measure'>,
  winding: Winding,
): RouteExplanation {
  const counts = {
    jumpers: measure.jumpers === before.measure.jumpers,
    'special-joints': measure.specialJoints === before.measure.specialJoints,
    'joint-shapes':
      measure.jumpers === before.measure.jumpers && measure.jointShapes === before.measure.jointShapes,
  };
  return {
    ...before,
    measure,
    terminalWindow: terminalWindow(winding, paths),
    proved: before.proved.filter((count) => counts[count]),
  };
}
