import { gapPermeance } from '../analysis/emf/gaps.ts';
import { ringOrders } from '../analysis/emf/harmonics.ts';
import { machineValue, phaseCurrent } from '../analysis/machineInputs.ts';
import { type PathLoading, pathLoading } from '../balance/pathLoading.ts';
import { ringInductance } from '../balance/ringInductance.ts';
import { equalCurrents } from '../copper/carriedCurrents.ts';
import { type CopperResult, copper } from '../copper/copper.ts';
import type { CopperProblem } from '../copper/copperFigures.ts';
import { copperBasis, impedanceFigure, leakageFigure, problemsOfCopper } from '../copper/copperFigures.ts';
import {
  type CopperBasis,
  type FurtherFigures,
  furtherFigures,
  lossFigures,
  ringResistance,
} from '../copper/copperLosses.ts';
import { type CopperCurves, copperCurves } from '../copper/curves.ts';
import type { RingHarmonics } from '../copper/furtherCurrents.ts';
import type { CopperInput } from '../copper/geometryFigures.ts';
import type { PathImpedances } from '../copper/pathImpedances.ts';
import type { SlotLeakage } from '../copper/windingLeakage.ts';
import { derive, type Figure, known, missing } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import { kept } from '../figures/work.ts';
import type { MachineSpecification, Specification } from '../language/specification/specification.ts';
import type { BarFacts, BarInput } from './barFacts.ts';
import { type ConnectionState, joinedFacts } from './connection.ts';
import { figuresKey, joiningKey } from './kept.ts';
import { joiningNeed, pathsNeed } from './unjoined.ts';

/** What the conductors and their currents yield, each part when first asked for. */
export interface CopperFacts {
  readonly input: () => CopperInput;
  readonly basis: () => CopperBasis;
  readonly leakage: () => Figure<SlotLeakage>;
  /** What the paths carry, and why. */
  readonly loading: () => PathLoading;
  /** Currents and fields beside the fundamental. */
  readonly further: () => FurtherFigures;
  readonly copper: () => CopperResult;
  readonly curves: () => CopperCurves;
  /** What cannot be built as a text that says the same has it. */
  readonly problemsOf: (specification: Specification) => readonly CopperProblem[];
}

/** What the copper's facts are computed from beside where the bars stand. */
export interface ConductorInput extends BarInput {
  /** Winding factor of a mechanical order. */
  readonly windingFactor: (order: number) => number;
}

/** Resistances, leakage, currents of the paths, losses and heat. */
export function copperFacts(given: ConductorInput, bars: BarFacts): CopperFacts {
  const { specification } = given;
  const input = lazy(() => copperInput(given, bars));
  const conductors = lazy(() => keptConductors(given, input()));
  const basis = () => conductors().basis();
  const leakage = () => conductors().leakage();
  const impedances = () => conductors().impedances();
  const loading = lazy(() => loadingOf(given, bars, impedances));
  const further = lazy(() => {
    const isRing = specification.connect?.connections[0]?.value === 'delta';
    return furtherFigures(
      input(),
      basis(),
      isRing ? ringOfPhases(given, bars, input(), basis(), impedances) : null,
    );
  });
  const losses = lazy(() => lossFigures(input(), basis(), loading().carried, further()));
  return {
    input,
    basis,
    leakage,
    loading,
    further,
    copper: lazy(() => copper(input(), { basis: basis(), leakage, impedances, losses: losses() })),
    curves: lazy(() => copperCurves(input(), { basis: basis(), losses: losses() })),
    problemsOf: (of) => problemsOfCopper({ ...input(), specification: of }, basis(), losses()),
  };
}

/** What follows from the conductors whatever they carry, each part when first asked for. */
interface Conductors {
  readonly basis: () => CopperBasis;
  readonly leakage: () => Figure<SlotLeakage>;
  readonly impedances: () => Figure<PathImpedances>;
}

/** Words of the machine that tell what conductors carry, and nothing of themselves. */
const loadWords: ReadonlySet<string> = new Set<keyof MachineSpecification>([
  'current',
  'currentAngle',
  'currentHarmonics',
  'currentRipples',
  'dInductance',
  'flux',
  'qInductance',
  'voltage',
]);

/** The conductors of an earlier text, where the measurer keeps them and this one differs in its load alone. */
function keptConductors(
  { specification, winding, connection, measurer }: ConductorInput,
  input: CopperInput,
): Conductors {
  const make = () => conductorsOf(input);
  const key = () => joiningKey(winding, connection) + figuresKey(specification, loadWords);
  return kept(measurer, { kind: 'conductors', key }, make);
}

function conductorsOf(input: CopperInput): Conductors {
  const basis = lazy(() => copperBasis(input));
  return {
    basis,
    leakage: lazy(() => leakageFigure(input, basis())),
    impedances: lazy(() => impedanceFigure(input, basis())),
  };
}

function copperInput(
  { specification, winding, connection, windingFactor, measurer }: ConductorInput,
  bars: BarFacts,
): CopperInput {
  return {
    winding,
    specification,
    connected: connectedBars(connection),
    space: bars.space().space,
    windingFactor: windingFactor(winding.polePairs),
    measurer,
  };
}

function connectedBars(connection: ConnectionState): CopperInput['connected'] {
  if (connection.kind !== 'connected') return missing(pathsNeed(connection));
  const { facts } = connection;
  return known({ paths: facts.paths, connections: facts.joints() });
}

/** What the paths carry: missing where bars are not joined, with equal currents then. */
function loadingOf(
  { specification, winding, connection }: ConductorInput,
  { endInductances }: BarFacts,
  impedances: () => Figure<PathImpedances>,
): PathLoading {
  if (connection.kind !== 'connected') {
    const absent = missing(joiningNeed(specification, connection));
    return { circulating: absent, deviation: absent, carried: equalCurrents, motoring: absent };
  }
  const { facts } = connection;
  return pathLoading({
    winding,
    paths: facts.paths,
    balances: facts.balances,
    unequalLayers: () => facts.occupation().length > 0,
    impedances,
    endInductances,
    gapPermeance: () => gapPermeance(specification, winding),
    flux: machineValue(specification, 'flux'),
    current: phaseCurrent(specification, winding),
  });
}

/** What circulates in phases that are joined in a ring. */
function ringOfPhases(
  given: ConductorInput,
  { endInductances }: BarFacts,
  input: CopperInput,
  basis: CopperBasis,
  impedances: () => Figure<PathImpedances>,
): Figure<RingHarmonics> {
  const { specification, winding } = given;
  const orders = ringOrders(specification, winding, given.windingFactor);
  if (orders.known && orders.value.length === 0)
    return known({ orders: [], inductance: 0, resistance: () => 0 });
  const inductance = ringInductance({
    winding,
    paths: joinedFacts(given)?.paths ?? [],
    impedances: impedances(),
    gapPermeance: gapPermeance(specification, winding),
    endInductances: endInductances(),
  });
  const resistance = ringResistance(input, basis);
  return derive({ orders, inductance, resistance }, (all) => all);
}
