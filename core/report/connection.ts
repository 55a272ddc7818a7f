import type { BarGap } from '../balance/potentials.ts';
import { type ConnectionFacts, pathVoltageDifference } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { withoutNoise } from '../language/numbers.ts';
import { jointRows } from '../tables/joints.ts';
import { pathRows } from '../tables/paths.ts';
import { shapeLength } from '../tables/shapeLength.ts';
import { barName } from '../winding/model.ts';
import { reportedCandidates } from './candidates.ts';
import type { Report } from './schema.ts';

type ConnectionReport = Pick<
  Report,
  'paths' | 'joints' | 'shapes' | 'routing' | 'voltageBetweenBars' | 'balance'
>;

/** The parts of the report about paths and joints; empty where the bars are not joined. */
export function reportedConnection(facts: Facts | null, candidates: boolean): ConnectionReport {
  const state = facts?.connection;
  const worst = facts?.balance().worstPercent ?? null;
  const phaseVoltageDifference = worst === null ? null : withoutNoise(worst / 100);
  if (!facts || state?.kind !== 'connected') {
    return {
      paths: [],
      joints: [],
      shapes: { joints: [], bars: [] },
      routing: null,
      voltageBetweenBars: null,
      balance: {
        pathVoltageDifference: null,
        phaseVoltageDifference,
        circulatingCurrent: null,
        pathCurrentDeviation: null,
      },
    };
  }
  const connection = state.facts;
  return {
    paths: reportedPaths(facts, connection),
    joints: reportedJoints(facts, connection),
    shapes: reportedShapes(facts, connection),
    routing: reportedRouting(connection, candidates ? reportedCandidates(facts) : []),
    voltageBetweenBars: reportedGaps(connection),
    balance: {
      pathVoltageDifference: pathVoltageDifference(connection),
      phaseVoltageDifference,
      circulatingCurrent: orNull(facts.circulatingCurrent()),
      pathCurrentDeviation: orNull(facts.currentDeviation()),
    },
  };
}

function quiet(value: number | null): number | null {
  return value === null ? null : withoutNoise(value);
}

function reportedPaths({ winding }: Facts, connection: ConnectionFacts): Report['paths'] {
  return pathRows(connection).map(({ path, voltage, layerCounts }) => ({
    phase: winding.phases.names[path.phase]!,
    path: path.number,
    from: path.from,
    to: path.to,
    bars: path.bars.map(barName),
    voltage: { relative: voltage.relative, angle: quiet(voltage.angle) },
    layerCounts: [...layerCounts],
  }));
}

function reportedJoints(facts: Facts, connection: ConnectionFacts): Report['joints'] {
  return jointRows(facts, connection).map(({ number, side, from, to, span, kind }) => ({
    number,
    side,
    from,
    to,
    span,
    kind,
  }));
}

function reportedShapes(facts: Facts, connection: ConnectionFacts): Report['shapes'] {
  return {
    joints: connection.joints().shapes.map(({ number, side, lowerLayer, upperLayer, offset, count }) => ({
      number,
      side,
      lowerLayer: layerLetter(lowerLayer),
      upperLayer: layerLetter(upperLayer),
      offset,
      count,
    })),
    bars: connection.barShapes().map((shape) => ({
      number: shape.number,
      form: shape.form,
      crown: shape.crown,
      ends: shape.ends.map(({ layer, bend }) => ({ layer: layerLetter(layer), bend })),
      count: shape.count,
      length: shapeLength(facts, shape),
    })),
  };
}

function reportedRouting(
  connection: ConnectionFacts,
  candidates: ReturnType<typeof reportedCandidates>,
): Report['routing'] {
  const { explanation } = connection;
  const counts = connection.counts();
  return {
    wishes: explanation ? [...explanation.wishes] : null,
    specials: explanation ? explanation.specials : null,
    strict: explanation ? explanation.strict : null,
    specialJoints: counts.special,
    jumpers: counts.jumpers,
    jointShapes: counts.specialShapes,
    legsBentApart: connection.legsBentApart(),
    tipGap: connection.tips('connection')?.gap ?? null,
    bounds: explanation?.bounds
      ? {
          specialJoints: explanation.bounds.specialJoints,
          jumpers: explanation.bounds.jumpers,
          jointShapes: explanation.bounds.jointShapes,
        }
      : null,
    proved: [...(explanation?.proved ?? [])],
    tried: (explanation?.tried ?? []).map(({ method, nodes, exhausted, found }) => ({
      method,
      nodes,
      exhausted,
      found: found && {
        specialJoints: found.specialJoints,
        jumpers: found.jumpers,
        jointShapes: found.jointShapes,
        tipGap: found.tipGap,
      },
    })),
    hash: connection.hash(),
    candidates: [...candidates],
  };
}

function reportedGaps(connection: ConnectionFacts): Report['voltageBetweenBars'] {
  const gaps = connection.gaps();
  if (!gaps) return null;
  const gap = (found: BarGap | null) =>
    found ? { value: found.value, bars: found.bars.map(barName), side: found.side } : null;
  return { inSlot: gap(gaps.inSlot), betweenSlots: gap(gaps.betweenSlots) };
}
