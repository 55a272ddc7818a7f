import { cannotFlow } from '../../copper/furtherCurrents.ts';
import type { Facts } from '../../facts/facts.ts';
import { type Finding, finding } from '../../language/finding.ts';
import {
  coreHeldAndHeated,
  dutyPointRepeated,
  harmonicCannotFlow,
  pointOutOfReach,
  toothFieldHigh,
  voltageBelowEmf,
  voltageTooLow,
  yokeFieldHigh,
} from './findingKinds.ts';

/** Whether the stated voltage is enough for the rated point. */
export function checkVoltage(facts: Facts): readonly Finding[] {
  return facts.voltageProblems().map((problem) => {
    if (problem.kind === 'voltage-below-emf') return finding(voltageBelowEmf, problem.range, problem);
    const severity = problem.fit !== null && !problem.written ? 'warning' : 'error';
    return finding(voltageTooLow, problem.range, problem, { severity });
  });
}

/** Whether teeth and yoke carry the flux. */
export function checkIron(facts: Facts): readonly Finding[] {
  return facts
    .ironProblems()
    .map((problem) =>
      finding(problem.kind === 'tooth' ? toothFieldHigh : yokeFieldHigh, problem.range, problem),
    );
}

/** Whether the core is either held or heated. */
export function checkCore({ specification: { machine } }: Facts): readonly Finding[] {
  if (!machine?.coreTemperature) return [];
  const other = machine.coreHeat ?? machine.coreCooling ?? machine.coolantTemperature;
  if (!other) return [];
  const word = machine.coreHeat ? 'core-heat' : machine.coreCooling ? 'core-cooling' : 'coolant-temperature';
  const related = [{ message: 'what lets the core follow', range: other.statement }];
  return [finding(coreHeldAndHeated, machine.coreTemperature.statement, { word }, { related })];
}

/** Whether the stated harmonics of the current have a way to flow. */
export function checkHarmonics({ specification, winding }: Facts): readonly Finding[] {
  const ring = specification.connect?.connections[0]?.value === 'delta';
  return (specification.machine?.currentHarmonics ?? []).flatMap(({ value: { harmonic }, statement }) =>
    cannotFlow(specification, winding, harmonic)
      ? [finding(harmonicCannotFlow, statement, { harmonic, ring })]
      : [],
  );
}

/** Whether the points of the duty have names of their own and are within reach. */
export function checkDuty(facts: Facts): readonly Finding[] {
  const points = facts.specification.duty?.points ?? [];
  const repeated = points.flatMap(({ value: { name }, range }, index) => {
    const earlier = points.slice(0, index).find((point) => point.value.name === name);
    const related = earlier ? [{ message: 'first named here', range: earlier.range }] : [];
    return earlier ? [finding(dutyPointRepeated, range, { name }, { related })] : [];
  });
  const unreached = facts
    .unreachedPoints()
    .map(({ statement, ...data }) =>
      finding(pointOutOfReach, statement.statement, { ...data, name: statement.value.name }),
    );
  return [...repeated, ...unreached];
}
