import { differentialLeakageOverStack } from '../analysis/differentialLeakage.ts';
import { type EmfResult, emf, gapInductances } from '../analysis/emf/emf.ts';
import { gapPermeance } from '../analysis/emf/gaps.ts';
import { ringOrders } from '../analysis/emf/harmonics.ts';
import { machineValue, phaseCurrent } from '../analysis/machineInputs.ts';
import { type MotoringCurrents, type PathLoading, pathLoading } from '../balance/pathLoading.ts';
import { ringInductance } from '../balance/ringInductance.ts';
import { equalCurrents } from '../copper/carriedCurrents.ts';
import { type CopperResult, copper } from '../copper/copper.ts';
import type { CopperProblem } from '../copper/copperFigures.ts';
import { copperBasis, impedanceFigure, leakageFigure, problemsOfCopper } from '../copper/copperFigures.ts';
import {
  furtherFigures,
  heatOfCurrents,
  lossFigures,
  resistanceOverFrequency,
  ringResistance,
} from '../copper/copperLosses.ts';
import { type CopperCurves, copperCurves } from '../copper/curves.ts';
import type { RingHarmonics } from '../copper/furtherCurrents.ts';
import type { CopperInput } from '../copper/geometryFigures.ts';
import type { CycleHeat } from '../copper/heat/cycleHeat.ts';
import { noSteadyTemperature } from '../copper/heat/hottestBar.ts';
import {
  derive,
  deriveFigure,
  type Figure,
  known,
  knownIf,
  missing,
  orNull,
  undetermined,
} from '../figures/figure.ts';
import { type Measurer, underWay } from '../figures/work.ts';
import type { Specification } from '../language/specification/specification.ts';
import { type CurvePoint, torqueSpeedCurve } from '../operation/curve.ts';
import {
  type DutyInput,
  type DutyResult,
  duty,
  type UnreachedPoint,
  unreachedPoints,
} from '../operation/duty.ts';
import { type IronProblem, type IronResult, iron, ironProblems } from '../operation/iron.ts';
import {
  type OperationInput,
  type OperationResult,
  operation,
  operationBasis,
} from '../operation/operation.ts';
import { type VoltageProblem, voltageProblems } from '../operation/voltageProblems.ts';
import { type EndsAgainst, phaseEndInductance } from '../space/inductance/endInductance.ts';
import type { SpaceResult } from '../space/space.ts';
import type { TipSpacing } from '../winding/joints/tips.ts';
import type { EndSide, Winding } from '../winding/model.ts';
import { type ConnectionState, joinedFacts } from './connection.ts';
import { clearanceWork, cycleHeatWork, inductanceWork, type MeasuredEnds } from './ends.ts';
import { lazy } from './lazy.ts';
import { type SpaceFigures, spaceFigures } from './spaceFigures.ts';
import { keptStanding } from './standing.ts';
import { joiningNeed, pathsNeed } from './unjoined.ts';

/** What the machine's text is blamed for: places of the present text. */
export interface MachineProblems {
  /** What cannot be built as written. */
  readonly copperProblems: () => readonly CopperProblem[];
  readonly unreachedPoints: () => readonly UnreachedPoint[];
  readonly ironProblems: () => readonly IronProblem[];
  /** What the stated voltage is too low for. */
  readonly voltageProblems: () => readonly VoltageProblem[];
}

/** What the sizes, materials and operating point of the machine yield. */
export interface MachineFacts {
  readonly copper: () => CopperResult;
  readonly copperCurves: () => CopperCurves;
  readonly emf: () => EmfResult;
  /** The rated load point, and the speeds and currents that bound the machine. */
  readonly operation: () => OperationResult;
  /** The duty cycle; null where the text has none. */
  readonly duty: () => DutyResult | null;
  /** Temperatures of its periodic cycle, missing while they are under way; null where the text has no duty. */
  readonly dutyCycleHeat: () => Figure<CycleHeat> | null;
  /** Flux densities of teeth and yoke. */
  readonly iron: () => IronResult;
  /** Most torque over the speed; empty where data lack. */
  readonly torqueSpeedCurve: () => readonly CurvePoint[];
  /** Every bar in space, missing while the bars are not connected, and what stands in the way. */
  readonly space: () => SpaceResult;
  /** Clearances of the bar ends; null where there are no bars in space or measuring is still at work. */
  readonly ends: () => MeasuredEnds | null;
  readonly spaceFigures: () => SpaceFigures;
  /** How the joint tips of a side are spread, leaning bars as they stand beyond the stack; null without joints. */
  readonly tips: (side: EndSide) => TipSpacing | null;
  /** Largest circulating current between parallel paths, relative to the current of a path. */
  readonly circulatingCurrent: () => Figure<number>;
  /** Largest deviation of a path's current from an equal share at load, relative to it. */
  readonly currentDeviation: () => Figure<number>;
  /** Currents of the paths as phasors. */
  readonly motoringCurrents: () => Figure<MotoringCurrents>;
  /** What a text that says the same is blamed for. */
  readonly problemsOf: (specification: Specification) => MachineProblems;
}

/** What machine facts are computed from beside the text. */
export interface MachineInput {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connection: ConnectionState;
  /** Winding factor of a mechanical order. */
  readonly windingFactor: (order: number) => number;
  /** Mean over the stack of the square of that of the fundamental, without the skew of the rotor. */
  readonly meanSquareFactor: () => number;
  /** Of point slots without skew. */
  readonly differentialLeakage: () => number | null;
  readonly measurer: Measurer;
}

/** Copper, EMF and the currents of the paths. */
export function machineFacts(input: MachineInput): MachineFacts {
  const { specification, winding, connection } = input;
  const { polePairs } = winding;
  const connected = joinedFacts(input);
  const copperInput = lazy(
    (): CopperInput => ({
      winding,
      specification,
      connected:
        connection.kind === 'connected'
          ? known({ paths: connection.facts.paths, connections: connection.facts.joints() })
          : missing(pathsNeed(connection)),
      space: space().space,
      windingFactor: input.windingFactor(polePairs),
      measurer: input.measurer,
    }),
  );
  const standing = lazy(() => connected && keptStanding(specification, winding, connected, input.measurer));
  const tips = (side: EndSide) => standing()?.tips(side) ?? null;
  const space = lazy((): SpaceResult => {
    if (connection.kind !== 'connected') return { space: missing(pathsNeed(connection)), problems: [] };
    return standing()!.space();
  });
  const ends = lazy(() => {
    const stand = standing();
    const [built, keys] = [stand?.space(), stand?.keys()];
    if (!stand || !built?.space.known || !keys) return null;
    return input.measurer(clearanceWork(stand.input(), built.space.value, built.problems, keys));
  });
  const endsAgainst = (against: EndsAgainst): Figure<Float64Array> =>
    deriveFigure({ space: space().space }, (given) => {
      const keys = standing()!.keys()!;
      const work = inductanceWork(given.space, connected!.paths, winding.table.cells, against, keys);
      const found = input.measurer(work);
      return found ? known(found) : undetermined(underWay);
    });
  const ofPhase = (inductances: Figure<Float64Array>) =>
    derive({ inductances }, (given) =>
      phaseEndInductance(
        given.inductances,
        (connected?.paths ?? []).map(({ phase }) => phase),
        winding.phases.axes,
      ),
    );
  const endInductances = lazy(() => endsAgainst('ends'));
  const phaseEnds = lazy(() => ofPhase(endInductances()));
  const basis = lazy(() => copperBasis(copperInput()));
  const leakage = lazy(() => leakageFigure(copperInput(), basis()));
  const impedances = lazy(() => impedanceFigure(copperInput(), basis()));
  const loading = lazy((): PathLoading => {
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
  });
  const further = lazy(() => {
    const ring = specification.connect?.connections[0]?.value === 'delta' ? ringOfPhases() : null;
    return furtherFigures(copperInput(), basis(), ring);
  });
  const ringOfPhases = (): Figure<RingHarmonics> => {
    const orders = ringOrders(specification, winding, input.windingFactor);
    if (orders.known && orders.value.length === 0)
      return known({ orders: [], inductance: 0, resistance: () => 0 });
    return derive(
      {
        orders,
        inductance: ringInductance({
          winding,
          paths: connected?.paths ?? [],
          impedances: impedances(),
          gapPermeance: gapPermeance(specification, winding),
          endInductances: endInductances(),
        }),
        resistance: ringResistance(copperInput(), basis()),
      },
      (given) => given,
    );
  };
  const losses = lazy(() => lossFigures(copperInput(), basis(), loading().carried, further()));
  const copperResult = lazy(() =>
    copper(copperInput(), {
      basis: basis(),
      leakage: leakage(),
      impedances: impedances(),
      losses: losses(),
    }),
  );
  const stackLeakage = lazy(() =>
    differentialLeakageOverStack(winding, input.meanSquareFactor(), input.differentialLeakage()),
  );
  const operationInput = lazy((): OperationInput => {
    const { geometry, operation: operating } = basis();
    return {
      specification,
      winding,
      windingFactor: input.windingFactor(polePairs),
      parts: {
        ...gapInductances({
          winding,
          specification,
          meanSquareFactor: input.meanSquareFactor(),
          differentialLeakage: stackLeakage(),
        }),
        slot: derive({ leakage: leakage() }, (given) => given.leakage.inductance),
        end: derive({ ends: phaseEnds() }, ({ ends: of }) => of.phase),
      },
      resistance: resistanceOverFrequency(copperInput(), geometry, operating),
    };
  });
  const loadBasis = lazy(() => operationBasis(operationInput()));
  const dutyInput = lazy((): DutyInput => {
    const { geometry, operation: operating } = basis();
    return {
      specification,
      winding,
      basis: loadBasis(),
      metal: geometry.metal,
      areas: geometry.areas,
      heat: heatOfCurrents(copperInput(), geometry, operating, further()),
      further: further(),
    };
  });
  const dutyResult = lazy(() => duty(dutyInput()));
  const cycle = lazy((): Figure<CycleHeat> | null => {
    const task = dutyResult()?.cycleHeat ?? null;
    return (
      task &&
      deriveFigure({ task }, (given) => {
        const found = input.measurer(cycleHeatWork(given.task));
        return found === null ? undetermined(underWay) : knownIf(found.heat, noSteadyTemperature);
      })
    );
  });
  const ironResult = lazy(() =>
    iron({ specification, winding, basis: loadBasis(), magnetizing: operationInput().parts.magnetizing }),
  );
  return {
    copper: copperResult,
    copperCurves: lazy(() => copperCurves(copperInput(), { basis: basis(), losses: losses() })),
    space,
    ends,
    spaceFigures: lazy(() =>
      spaceFigures({
        space: space().space,
        ends,
        phaseEnds,
        phaseImages: lazy(() => ofPhase(endsAgainst('images'))),
      }),
    ),
    tips,
    emf: lazy(() =>
      emf({
        winding,
        specification,
        windingFactor: input.windingFactor(polePairs),
        meanSquareFactor: input.meanSquareFactor(),
        differentialLeakage: stackLeakage(),
        copperLoss: copperResult().fundamentalLoss,
        harmonicFactor: (harmonic) => input.windingFactor(harmonic * polePairs),
      }),
    ),
    duty: dutyResult,
    dutyCycleHeat: cycle,
    iron: ironResult,
    operation: lazy(() => operation(operationInput(), loadBasis())),
    torqueSpeedCurve: lazy(() => orNull(torqueSpeedCurve(winding, loadBasis())) ?? []),
    circulatingCurrent: () => loading().circulating,
    currentDeviation: () => loading().deviation,
    motoringCurrents: () => loading().motoring,
    problemsOf: (of) => ({
      copperProblems: lazy(() =>
        problemsOfCopper({ ...copperInput(), specification: of }, basis(), losses()),
      ),
      unreachedPoints: lazy(() => (of.duty ? unreachedPoints({ ...dutyInput(), specification: of }) : [])),
      ironProblems: lazy(() => ironProblems(of, ironResult())),
      voltageProblems: lazy(() => voltageProblems(of, winding, loadBasis())),
    }),
  };
}
