import { differentialLeakageOverStack } from '../analysis/differentialLeakage.ts';
import { gapInductances } from '../analysis/emf/emf.ts';
import { heatOfCurrents, resistanceOverFrequency } from '../copper/copperLosses.ts';
import type { CycleHeat } from '../copper/heat/cycleHeat.ts';
import { noSteadyTemperature } from '../copper/heat/hottestBar.ts';
import { derive, deriveFigure, type Figure, knownIf, orNull, undetermined } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
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
  type OperationBasis,
  type OperationInput,
  type OperationResult,
  operation,
  operationBasis,
} from '../operation/operation.ts';
import { type VoltageProblem, voltageProblems } from '../operation/voltageProblems.ts';
import type { BarFacts } from './barFacts.ts';
import type { ConductorInput, CopperFacts } from './copperFacts.ts';
import { cycleHeatWork } from './ends.ts';

/** What the machine does under load, each part when first asked for. */
export interface LoadFacts {
  /** Differential leakage as a mean over the stack, relative to the magnetizing inductance; null without a working wave. */
  readonly stackLeakage: () => number | null;
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
  /** What a text that says the same is blamed for. */
  readonly unreachedPointsOf: (specification: Specification) => readonly UnreachedPoint[];
  readonly ironProblemsOf: (specification: Specification) => readonly IronProblem[];
  readonly voltageProblemsOf: (specification: Specification) => readonly VoltageProblem[];
}

/** What facts under load are computed from beside bars and copper. */
export interface LoadInput extends ConductorInput {
  /** Mean over the stack of the square of that of the fundamental, without the skew of the rotor. */
  readonly meanSquareFactor: () => number;
  /** Relative to the magnetizing inductance, of point slots without skew; null without a working wave. */
  readonly differentialLeakage: () => number | null;
}

/** Load point, duty and iron. */
export function loadFacts(given: LoadInput, bars: BarFacts, copper: CopperFacts): LoadFacts {
  const { specification, winding, measurer } = given;
  const stackLeakage = lazy(() =>
    differentialLeakageOverStack(winding, given.meanSquareFactor(), given.differentialLeakage()),
  );
  const input = lazy(() => operationInput(given, bars, copper, stackLeakage()));
  const basis = lazy(() => operationBasis(input()));
  const asked = lazy(() => dutyInput(given, copper, basis()));
  const points = lazy(() => duty(asked()));
  const ironResult = lazy(() =>
    iron({ specification, winding, basis: basis(), magnetizing: input().parts.magnetizing }),
  );
  return {
    stackLeakage,
    operation: lazy(() => operation(input(), basis())),
    duty: points,
    dutyCycleHeat: lazy(() => cycleHeat(points(), measurer)),
    iron: ironResult,
    torqueSpeedCurve: lazy(() => orNull(torqueSpeedCurve(winding, basis())) ?? []),
    unreachedPointsOf: (of) => (of.duty ? unreachedPoints({ ...asked(), specification: of }) : []),
    ironProblemsOf: (of) => ironProblems(of, ironResult()),
    voltageProblemsOf: (of) => voltageProblems(of, winding, basis()),
  };
}

function operationInput(
  { specification, winding, windingFactor, meanSquareFactor }: LoadInput,
  { phaseEnds }: BarFacts,
  copper: CopperFacts,
  differentialLeakage: number | null,
): OperationInput {
  const { geometry, operation: operating } = copper.basis();
  const gap = { winding, specification, meanSquareFactor: meanSquareFactor(), differentialLeakage };
  return {
    specification,
    winding,
    windingFactor: windingFactor(winding.polePairs),
    parts: {
      ...gapInductances(gap),
      slot: derive({ leakage: copper.leakage() }, ({ leakage }) => leakage.inductance),
      end: derive({ ends: phaseEnds() }, ({ ends }) => ends.phase),
    },
    resistance: resistanceOverFrequency(copper.input(), geometry, operating),
  };
}

function dutyInput(
  { specification, winding }: LoadInput,
  copper: CopperFacts,
  basis: OperationBasis,
): DutyInput {
  const { geometry, operation: operating } = copper.basis();
  const further = copper.further();
  return {
    specification,
    winding,
    basis,
    metal: geometry.metal,
    areas: geometry.areas,
    heat: heatOfCurrents(copper.input(), geometry, operating, further),
    further,
  };
}

/** Temperatures of the cycle of a duty; null where there is none. */
function cycleHeat(result: DutyResult | null, measurer: Measurer): Figure<CycleHeat> | null {
  const task = result?.cycleHeat ?? null;
  return (
    task &&
    deriveFigure({ task }, (given) => {
      const found = measurer(cycleHeatWork(given.task));
      return found === null ? undetermined(underWay) : knownIf(found.heat, noSteadyTemperature);
    })
  );
}
