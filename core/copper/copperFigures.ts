import { parallelPaths } from '../analysis/machineInputs.ts';
import { derive, type Figure, known, missing } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import { type CarriedCurrents, equalCurrents } from './carriedCurrents.ts';
import {
  type CopperBasis,
  furtherFigures,
  type LossFigures,
  lossFigures,
  operationFigures,
} from './copperLosses.ts';
import { type BuildProblem, buildProblems } from './copperProblems.ts';
import { type CopperInput, geometryFigures } from './geometryFigures.ts';
import { type OperationProblem, operationProblems } from './operationProblems.ts';
import { type PathImpedances, pathImpedances } from './pathImpedances.ts';
import { leakageRows, type SlotLeakage, slotLeakage } from './windingLeakage.ts';

/** Geometry and operating point of the copper. */
export function copperBasis(input: CopperInput): CopperBasis {
  const geometry = geometryFigures(input);
  return { geometry, operation: operationFigures(input, geometry) };
}

/** Resistance and slot leakage of every path, for what the paths carry. */
export function impedanceFigure(input: CopperInput, basis: CopperBasis): Figure<PathImpedances> {
  const { winding, specification } = input;
  const { active, connected, conductors } = basis.geometry;
  const { frequency, resistivity } = basis.operation;
  const rows = leakageRows(specification, winding, active);
  return derive({ connected, conductors, rows, frequency, resistivity }, (given) =>
    pathImpedances({ winding, ...given, paths: given.connected.paths }),
  );
}

/** Slot leakage of balanced currents. */
export function leakageFigure(
  { winding, specification }: CopperInput,
  basis: CopperBasis,
): Figure<SlotLeakage> {
  const { active, stack } = basis.geometry;
  const rows = leakageRows(specification, winding, active);
  return derive({ rows, stack, paths: parallelPaths(specification, winding) }, (given) =>
    slotLeakage(winding, given.rows, given.stack, given.paths),
  );
}

/** All that the copper's figures are put together from. */
export interface CopperParts {
  readonly basis: CopperBasis;
  readonly leakage: () => Figure<SlotLeakage>;
  readonly impedances: () => Figure<PathImpedances>;
  readonly losses: LossFigures;
}

/** The parts in turn; `carriedBy` tells what the paths of these impedances carry. */
export function copperParts(
  input: CopperInput,
  carriedBy: (impedances: Figure<PathImpedances>) => Figure<CarriedCurrents> = () => ofSinglePaths(input),
): CopperParts {
  const basis = copperBasis(input);
  const impedances = impedanceFigure(input, basis);
  const further = furtherFigures(input, basis, null);
  return {
    basis,
    leakage: lazy(() => leakageFigure(input, basis)),
    impedances: () => impedances,
    losses: lossFigures(input, basis, carriedBy(impedances), further),
  };
}

/** Without parallel paths there is nothing to share. */
function ofSinglePaths({ connected, winding }: CopperInput): Figure<CarriedCurrents> {
  const parallel = connected.known && connected.value.paths.length > winding.phases.names.length;
  return parallel ? missing('the currents of the paths') : equalCurrents;
}

/** What is wrong with the copper, as data. */
export type CopperProblem = BuildProblem | OperationProblem;

/** What cannot be built as written, without computing the figures it does not depend on. */
export function problemsOfCopper(
  input: CopperInput,
  { geometry }: CopperBasis,
  losses: LossFigures,
): readonly CopperProblem[] {
  const { specification, winding } = input;
  return [
    ...buildProblems(specification, winding, geometry),
    ...operationProblems(specification, winding, { ...losses, radii: geometry.radii }),
  ];
}

/** Permeance of a slot, dimensionless; straight bars are as long as the stack, however long that is. */
export function permeanceFigure(
  { specification, winding }: CopperInput,
  leakage: Figure<SlotLeakage>,
): Figure<number> {
  const straight = winding.lean.every((lean) => lean === 0);
  if (leakage.known || !straight) return derive({ leakage }, (given) => given.leakage.permeance);
  const rows = leakageRows(specification, winding, known(winding.lean.map(() => 1)));
  return derive(
    { rows, paths: parallelPaths(specification, winding) },
    (given) => slotLeakage(winding, given.rows, 1, given.paths).permeance,
  );
}
