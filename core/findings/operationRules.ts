import type { Facts } from '../facts/facts.ts';
import { type Finding, finding } from '../language/finding.ts';
import { toothFieldHigh, voltageBelowEmf, voltageTooLow, yokeFieldHigh } from './operationKinds.ts';

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
