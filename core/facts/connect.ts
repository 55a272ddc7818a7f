import type { Figure } from '../figures/figure.ts';
import type { Steps } from '../figures/steps.ts';
import type { RequiredLimit, Specification } from '../language/specification/specification.ts';
import type { ExceededLimit, LimitJudge } from '../routing/route.ts';
import type { Winding } from '../winding/model.ts';
import type { SourcedPath } from '../winding/paths/writtenPaths.ts';
import {
  type ConnectionState,
  type Connector,
  factsOfPaths,
  joinBars,
  type PathRequest,
} from './connection.ts';
import { type Facts, gatherFacts } from './facts.ts';
import { writtenKey } from './kept.ts';
import { limitMargin } from './limitMargin.ts';
import type { PathWays } from './pathFacts.ts';
import { createWhole, type Whole, type WorkStore } from './workFirst.ts';

/**
 * Joins the bars as `joinBars` does; limits that only the whole winding tells steer the search too. Work that they
 * take is looked for and kept in a store, where there is one.
 */
export function connectWinding(
  specification: Specification,
  winding: Winding,
  written: readonly SourcedPath[] | null,
  connector: Connector,
  store?: WorkStore,
): ConnectionState {
  return joinBars(specification, winding, written, (of, request) =>
    connector(of, { ...request, judge: limitJudge(specification, of, request, store) }),
  );
}

/**
 * Quantities of the whole winding that differ from connection to connection with the same paths a phase: by the
 * length of its joints and pieces, by what each path passes through, by where pieces and leads stand. All others
 * follow from layout, sizes and load alone, or from these by less than they are known.
 */
const judged: Readonly<Record<string, (facts: Facts) => Figure<number>>> = {
  'copper-mass': (facts) => facts.copper().mass,
  'phase-resistance': (facts) => facts.copper().resistance.phase,
  'copper-loss': (facts) => facts.copper().loss.total,
  'current-density': (facts) => facts.copper().currentDensity,
  'circulating-current': (facts) => facts.circulatingCurrent(),
  'path-current-deviation': (facts) => facts.currentDeviation(),
  'end-clearance-left': (facts) => facts.spaceFigures().clearanceLeft(),
};

/** Whether limits of a quantity choose among the candidates that the router met. */
export function isJudged(quantity: string): boolean {
  return Object.hasOwn(judged, quantity);
}

function limitJudge(
  specification: Specification,
  winding: Winding,
  request: PathWays & Pick<PathRequest, 'contacts'>,
  store: WorkStore | undefined,
): LimitJudge | null {
  const limits = specification.limits
    .map(({ value }) => value)
    .filter(({ entry, point }) => point === null && isJudged(entry.word));
  if (limits.length === 0) return null;
  const { machine, slots, bar, insulation, layout, connect } = specification;
  const parts = [machine, slots, bar, insulation, layout, connect];
  return {
    given: {
      limits: limits.map(({ entry, relation, limit }) => [entry.word, relation, limit]),
      // What is written, not where.
      text: parts.map((part) => (part ? writtenKey(part) : '')).join(),
    },
    exceeded: (paths) => {
      const state = { kind: 'connected', facts: factsOfPaths(winding, request, paths) } as const;
      const whole = createWhole((measurer) => gatherFacts(specification, winding, state, measurer), store);
      return exceededOf(whole, limits);
    },
  };
}

function* exceededOf(whole: Whole, limits: readonly RequiredLimit[]): Steps<readonly ExceededLimit[]> {
  const found: ExceededLimit[] = [];
  for (const limit of limits) {
    const otherwise = yield* whole.read((facts) => exceeds(limit, facts));
    if (otherwise !== null) found.push({ quantity: limit.entry.word, otherwise });
  }
  return found;
}

/** What a connection has of a limited quantity where it exceeds it; null where it does not, or that is not known. */
function exceeds(limit: RequiredLimit, facts: Facts): number | null {
  const found = judged[limit.entry.word]!(facts);
  return found.known && limitMargin(limit, found.value) < 0 ? found.value : null;
}
