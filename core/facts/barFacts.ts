import { derive, deriveFigure, type Figure, known, missing, undetermined } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import { type Measurer, underWay } from '../figures/work.ts';
import type { Specification } from '../language/specification/specification.ts';
import {
  type EndsAgainst,
  type PhaseEndInductance,
  phaseEndInductance,
} from '../space/inductance/endInductance.ts';
import type { SpaceResult } from '../space/space.ts';
import type { TipSpacing } from '../winding/joints/tips.ts';
import type { EndSide, Winding } from '../winding/model.ts';
import { type ConnectionState, joinedFacts } from './connection.ts';
import { askedClearance, clearanceWork, inductanceWork, type NearEnds, nearEndsWork } from './ends.ts';
import { type SpaceFigures, spaceFigures } from './spaceFigures.ts';
import { keptStanding, type Standing } from './standing.ts';
import { pathsNeed } from './unjoined.ts';

/** How joined bars stand, and what is measured of them, each part when first asked for. */
export interface BarFacts {
  /** Every bar in space, missing while the bars are not connected, and what stands in the way. */
  readonly space: () => SpaceResult;
  /** Where bar ends collide or come too near; null where there are no bars in space or measuring is still at work. */
  readonly nearEnds: () => NearEnds | null;
  readonly spaceFigures: () => SpaceFigures;
  /** How the joint tips of a side are spread, leaning bars as they stand beyond the stack; null without joints. */
  readonly tips: (side: EndSide) => TipSpacing | null;
  /** Of the end windings of the paths with each other, H: a row of the matrix for each path. */
  readonly endInductances: () => Figure<Float64Array>;
  /** What a phase sees of them. */
  readonly phaseEnds: () => Figure<PhaseEndInductance>;
}

/** What the bars of a text stand by. */
export interface BarInput {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connection: ConnectionState;
  readonly measurer: Measurer;
}

/** How the bars of a winding stand. */
export function barFacts(input: BarInput): BarFacts {
  const { specification, winding, connection, measurer } = input;
  const connected = joinedFacts(input);
  const standing = lazy(() => connected && keptStanding(specification, winding, connected, measurer));
  const space = lazy((): SpaceResult => {
    if (connection.kind !== 'connected') return { space: missing(pathsNeed(connection)), problems: [] };
    return standing()!.space();
  });
  const keys = () => standing()!.keys()!;
  const nearEnds = lazy(() => {
    const { space: built, problems } = space();
    const asked = askedClearance(specification);
    if (!built.known || !asked.known) return null;
    return measurer(nearEndsWork(asked.value, standing()!.input(), built.value, problems, keys()));
  });
  const clearances = (looked: 'all' | 'nearest') =>
    deriveFigure({ space: space().space, asked: askedClearance(specification) }, (given) =>
      measuredFigure(measurer(clearanceWork(given.asked, given.space, keys(), looked))),
    );
  const endsAgainst = (against: EndsAgainst) => endInductances(input, space(), standing, against);
  const ofPhase = (inductances: Figure<Float64Array>) => phaseInductance(input, inductances);
  const withEnds = lazy(() => endsAgainst('ends'));
  const phaseEnds = lazy(() => ofPhase(withEnds()));
  const phaseImages = lazy(() => ofPhase(endsAgainst('images')));
  return {
    space,
    nearEnds,
    spaceFigures: lazy(() => spaceFigures({ space: space().space, clearances, phaseEnds, phaseImages })),
    tips: (side) => standing()?.tips(side) ?? null,
    endInductances: withEnds,
    phaseEnds,
  };
}

/** Of the end windings of all paths, against each other or against their images in the faces of the stack. */
function endInductances(
  { winding, connection, measurer }: BarInput,
  { space }: SpaceResult,
  standing: () => Standing | null,
  against: EndsAgainst,
): Figure<Float64Array> {
  return deriveFigure({ space }, (given) => {
    const keys = standing()!.keys()!;
    const work = inductanceWork(given.space, pathsOf(connection), winding.table.cells, against, keys);
    return measuredFigure(measurer(work));
  });
}

/** What was measured; null while it is under way. */
function measuredFigure<T>(found: T | null): Figure<T> {
  return found ? known(found) : undetermined(underWay);
}

function phaseInductance(
  { winding, connection }: BarInput,
  inductances: Figure<Float64Array>,
): Figure<PhaseEndInductance> {
  const phaseOf = pathsOf(connection).map(({ phase }) => phase);
  return derive({ inductances }, (given) =>
    phaseEndInductance(given.inductances, phaseOf, winding.phases.axes),
  );
}

function pathsOf(connection: ConnectionState) {
  return joinedFacts({ connection })?.paths ?? [];
}
