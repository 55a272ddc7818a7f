import type { Contacts } from '../space/clearance/contacts.ts';
import { coveringArc } from '../winding/coveringArc.ts';
import type { Path, Winding } from '../winding/model.ts';
import { polish } from './bars/polish.ts';
import type { Measuring, RouteMeasure, RouteRanking } from './measure.ts';
import { compareMeasures, leastMeasure, measureNodes, measureStrands, tipsFit } from './measure.ts';
import { closestShifts, pathsOfPhase, phaseShifts } from './phases.ts';
import type { RouteExplanation, RouteOptions, RouteResult } from './question.ts';
import type { Strand } from './units/units.ts';

type Found = Extract<RouteResult, { readonly ok: true }>;

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

/**
 * A connection whose pieces and leads keep clear of each other, where the one found does not and there is
 * another: first the same one with its phases laid further apart, then others that are as good, then any.
 * Without special joints all is as in every other connection, but for where paths end.
 */
export function* keepApart(
  winding: Winding,
  options: RouteOptions,
  ranking: RouteRanking,
  measuring: Measuring,
  found: Found,
): Generator<undefined, Found> {
  const { contacts } = options;
  const { explanation, bends } = found;
  const shifts = closestShifts(winding);
  if (!contacts || !explanation.tipsFit || explanation.measure.specialJoints === 0 || shifts.includes(null))
    return found;
  const first = contacts.of(found.paths);
  yield;
  if (!first || first.colliding + first.close === 0) return found;
  const touching = (measure: RouteMeasure, { colliding, close }: Contacts): RouteMeasure => ({
    ...measure,
    colliding,
    close,
  });
  const connection = options.connection ?? 'star';
  const strands = found.paths
    .filter(({ phase }) => phase === 0)
    .map(({ bars, spans }): Strand => ({ bars, spans }));
  const lay = (of: readonly Strand[], turns: readonly number[]): readonly Path[] =>
    turns.flatMap((turn, phase) => pathsOfPhase(winding, bends, phase, of, turn, connection));
  let best: Laid = { paths: found.paths, measure: touching(explanation.measure, first) };

  const closest = windowOf(winding, found.paths);
  for (const turns of otherTurns(winding, strands)) {
    const paths = lay(strands, turns);
    // For more clearance alone terminals do not go round the machine.
    if (best.measure.colliding === 0 && windowOf(winding, paths) > Math.max(closest, winding.slots / 2))
      continue;
    const measure = measureStrands({ ...measuring, shifts: turns }, strands);
    const met = tipsFit(measure, ranking) ? contacts.of(paths) : null;
    yield;
    if (!met || !touchesLess(touching(measure, met), best.measure, ranking)) continue;
    best = { paths, measure: touching(measure, met) };
    if (met.colliding + met.close === 0) break;
  }
  if (best.measure.colliding > 0) {
    const turns = shifts.filter((shift) => shift !== null);
    const measure = (others: readonly Strand[]) => {
      const plain = measureStrands(measuring, others);
      const met = tipsFit(plain, ranking) ? contacts.of(lay(others, turns)) : null;
      return met ? touching(plain, met) : plain;
    };
    const other = yield* polish({
      winding,
      bends,
      phase: 0,
      paths: options.paths,
      strict: explanation.strict,
      specials: explanation.specials,
      start: strands,
      ranking,
      measure,
      atLeast: (others) => leastMeasure(measuring, others),
      alike: turns.length,
      nodes,
      measureNodes:
        measureNodes(measuring) + nodesOfContacts.all + nodesOfContacts.piece * explanation.measure.jumpers,
    });
    if (other.best && touchesLess(other.best.measure, best.measure, ranking))
      best = { paths: lay(other.best.strands, turns), measure: other.best.measure };
  }
  if (best.paths === found.paths) return found;
  return { ...found, paths: best.paths, explanation: explained(explanation, best, winding) };
}

/** Whether a connection is the better one because less of it collides or is too near. */
function touchesLess(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): boolean {
  const less = a.colliding - b.colliding || a.close - b.close;
  return less < 0 && compareMeasures(a, b, ranking) < 0;
}

function windowOf({ slots }: Winding, paths: readonly Path[]): number {
  return coveringArc(
    paths.map(({ bars }) => bars[0]!.slot),
    slots,
  );
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
    terminalWindow: windowOf(winding, paths),
    proved: before.proved.filter((count) => counts[count]),
  };
}
