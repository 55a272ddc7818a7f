import type { CopperProblem } from '../copper/copperProblems.ts';
import { type Finding, finding } from '../language/finding.ts';
import type { Given } from '../language/specification.ts';
import { barName } from '../winding/model.ts';
import * as kinds from './copperKinds.ts';
import type { Facts } from './facts.ts';

/** What cannot be built as written. */
export function checkCopper(facts: Facts): readonly Finding[] {
  const { bar, slots } = facts.specification;
  // Without bars or slots there is nothing to fit.
  if (!bar && slots.length === 0) return [];
  return facts.copperProblems().map(copperFinding);
}

function copperFinding(problem: CopperProblem): Finding {
  const { range } = problem;
  switch (problem.kind) {
    case 'bars-do-not-fit':
      return finding(kinds.barsDoNotFit, range, problem);
    case 'corner-too-large':
      return finding(kinds.cornerTooLarge, range, problem);
    case 'fill-too-high':
      return finding(kinds.fillTooHigh, range, problem);
    case 'bends-cannot-pass':
      return finding(kinds.bendsCannotPass, range, problem);
    case 'bends-nearly-touch':
      return finding(kinds.bendsNearlyTouch, range, problem);
    case 'slot-wider-than-pitch':
      return finding(kinds.slotWiderThanPitch, range, problem);
    case 'diameters-disagree':
      return finding(kinds.diametersDisagree, range, problem);
    case 'bend-radius-too-large':
      return finding(kinds.bendRadiusTooLarge, range, problem);
    case 'no-steady-temperature':
      return finding(kinds.noSteadyTemperature, range, null);
  }
}

/** Voltages between bars in volts against the limits of the insulation block. */
export function checkInsulation(facts: Facts): readonly Finding[] {
  const { insulation } = facts.specification;
  const state = facts.connection;
  if (!insulation || state.kind !== 'connected') return [];
  const gaps = state.facts.gaps();
  const phaseVoltage = facts.emf().phaseVoltage;
  if (!gaps || phaseVoltage === null) return [];
  const factor = phaseVoltage * (insulation.surgeFactor?.value ?? 1);
  const findings: Finding[] = [];
  const compare = (limit: Given<number> | undefined, gap: typeof gaps.inSlot, what: string) => {
    if (!limit || !gap) return;
    const voltage = gap.value * factor;
    if (voltage <= 0.8 * limit.value) return;
    const data = { what: `${what} (${gap.bars.map(barName).join(' and ')})`, voltage, limit: limit.value };
    const severity = voltage > limit.value ? 'error' : 'warning';
    findings.push(finding(kinds.insulationStressed, limit.range, data, { severity }));
  };
  compare(insulation.turnVoltage, gaps.inSlotSamePhase, 'neighboring bars of one phase');
  compare(insulation.phaseVoltage, gaps.inSlotTwoPhases, 'bars of two phases in a slot');
  compare(insulation.phaseVoltage, gaps.betweenSlots, 'bar ends of neighboring slots');
  return findings;
}
