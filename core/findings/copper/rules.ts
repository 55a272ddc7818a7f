import type { CopperProblem } from '../../copper/copperFigures.ts';
import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { type Finding, finding } from '../../language/finding.ts';
import type { BarSpecification } from '../../language/specification/specification.ts';
import * as kinds from './findingKinds.ts';

/** What cannot be built as written. */
export function checkCopper(facts: Facts): readonly Finding[] {
  const { bar, slots } = facts.specification;
  // Without bars or slots there is nothing to fit.
  if (!bar && slots.length === 0) return [];
  return [...facts.copperProblems().map(copperFinding), ...checkBareEnd(bar)];
}

/** Bared ends that are longer than the straight parts they are on. */
function checkBareEnd(bar: BarSpecification | undefined): readonly Finding[] {
  const { bareEnd, jointStraight } = bar ?? {};
  if (bareEnd === undefined || jointStraight === undefined) return [];
  if (bareEnd.value <= jointStraight.value * (1 + 1e-9)) return [];
  const data = { bare: bareEnd.value, joint: jointStraight.value };
  return [finding(kinds.bareEndTooLong, bareEnd.statement, data)];
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
    case 'no-steady-temperature':
      return finding(kinds.noSteadyTemperature, range, null);
    case 'bars-hotter-than-winding':
      return finding(kinds.barsHotterThanWinding, range, problem);
    case 'opening-too-wide':
      return finding(kinds.openingTooWide, range, problem);
    case 'current-density-high':
      return finding(kinds.currentDensityHigh, range, problem);
    case 'slots-beyond-axis':
      return finding(kinds.slotsBeyondAxis, range, problem);
  }
}

/** Flux, and currents that harmonics drive round a delta. */
export function checkField(facts: Facts): readonly Finding[] {
  const { machine, connect } = facts.specification;
  const findings: Finding[] = [];
  const density = facts.emf().gapFluxDensity;
  if (machine?.flux && density.known && density.value > highestGapField) {
    const data = { density: density.value, most: highestGapField };
    findings.push(finding(kinds.gapFieldHigh, machine.flux.statement, data));
  }
  const phases = facts.winding.phases.names.length / facts.winding.phases.sets;
  if (connect?.connections[0]?.value !== 'delta') return findings;
  for (const { harmonic, phaseVoltage: voltage } of orNull(facts.emf().harmonics)?.orders ?? []) {
    if (harmonic % phases !== 0 || voltage < 1e-9) continue;
    const statement = machine?.rotorField.find(({ value }) => value.harmonic === harmonic)?.statement;
    if (!statement) continue;
    const { phase } = facts.copper().resistance;
    const current = phase.known ? voltage / phase.value : null;
    findings.push(finding(kinds.deltaCirculation, statement, { harmonic, voltage, current }));
  }
  return findings;
}

/** Peak of the fundamental at the gap, T, above which teeth saturate as a rule (common practice). */
const highestGapField = 1.2;
