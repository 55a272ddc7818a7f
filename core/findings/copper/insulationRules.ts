import type { BarGap } from '../../balance/potentials.ts';
import type { Facts } from '../../facts/facts.ts';
import { pathsNeed, unjoinedReason } from '../../facts/unjoined.ts';
import { orNull } from '../../figures/figure.ts';
import { type Finding, finding } from '../../language/finding.ts';
import { valueOrDefault } from '../../language/specification/defaults.ts';
import type { Given } from '../../language/specification/statements.ts';
import { insulationStatements } from '../../language/vocabulary/blocks/copper.ts';
import { barName, cellAt, phaseOfCell } from '../../winding/model.ts';
import * as kinds from './findingKinds.ts';

/** A phase voltage for the insulation, V rms, and where it comes from. */
export interface VoltageBasis {
  /** V rms. */
  readonly voltage: number;
  readonly from: 'no-load EMF' | 'machine voltage';
}

/**
 * The larger of the no-load phase EMF and the phase voltage of the rated line voltage, which stands
 * between adjacent line terminals: in a star of m phases 2 sin(pi/m) phase voltages; in a delta, and at
 * open phases, the phase voltage itself. Null where neither is known.
 */
function insulationBasis(facts: Facts): VoltageBasis | null {
  const { specification, winding } = facts;
  const emf = orNull(facts.emf().phaseVoltage);
  const line = specification.machine?.voltage?.value;
  const connection = specification.connect?.connections[0]?.value;
  const phases = winding.phases.names.length / winding.phases.sets;
  const inStar = connection !== 'delta' && connection !== 'open';
  const rated = line === undefined ? null : line / (inStar ? 2 * Math.sin(Math.PI / phases) : 1);
  if (rated !== null && rated > (emf ?? 0)) return { voltage: rated, from: 'machine voltage' };
  return emf === null ? null : { voltage: emf, from: 'no-load EMF' };
}

/** What the voltages between bars in volts need; empty where they are known. */
export function insulationNeeds(facts: Facts): readonly string[] {
  const needs: string[] = [];
  if (insulationBasis(facts) === null) {
    const { phaseVoltage } = facts.emf();
    const ofEmf = phaseVoltage.known ? [] : phaseVoltage.needs;
    needs.push(['machine voltage', ofEmf.join(' with ')].filter((need) => need !== '').join(' or '));
  }
  if (facts.connection.kind === 'none') needs.push(pathsNeed(facts.connection));
  return needs;
}

/** What is at one potential where two sets stand apart, in words; null where sets do not, or float. */
export function commonPotential({ winding, connection }: Facts): string | null {
  if (winding.phases.sets < 2 || connection.kind !== 'connected') return null;
  switch (connection.facts.connection) {
    case 'star':
      return 'both star points';
    case 'delta':
      return 'the centers of both deltas';
    case 'star-joined':
    case 'open':
      return null;
  }
}

/** As `commonPotential`, for a voltage that depends on it: one between bars of different sets. */
export function potentialBehind(facts: Facts, { bars }: BarGap): string | null {
  const { phases, table } = facts.winding;
  const perSet = phases.names.length / phases.sets;
  const [one, other] = bars.map((bar) =>
    Math.floor(phaseOfCell(cellAt(table, bar.slot, bar.layer)) / perSet),
  );
  return one === other ? null : commonPotential(facts);
}

/** Voltages between bars in volts against the limits of the insulation block; says so where it cannot tell. */
export function checkInsulation(facts: Facts): readonly Finding[] {
  const { insulation } = facts.specification;
  const state = facts.connection;
  if (!insulation || state.kind === 'pending') return [];
  const limits = [insulation.turnVoltage, insulation.phaseVoltage].filter((limit) => limit !== undefined);
  const unchecked = (needs: readonly string[], reason: string | null) =>
    limits.map((limit) => finding(kinds.insulationNotChecked, limit.statement, { needs, reason }));
  const basis = insulationBasis(facts);
  const needs = insulationNeeds(facts);
  if (needs.length > 0 || basis === null) return unchecked(needs, null);
  if (state.kind !== 'connected') return unchecked([], unjoinedReason(state, facts.winding));
  const gaps = state.facts.gaps();
  if (!gaps) return unchecked([], 'some path has no voltage');
  const surge = insulation.surgeFactor?.value ?? null;
  const factor = valueOrDefault(insulationStatements, insulation, 'surgeFactor');
  const findings: Finding[] = [];
  const compare = (limit: Given<number> | undefined, gap: BarGap | null, what: string) => {
    if (!limit || !gap) return;
    const voltage = gap.value * basis.voltage * factor;
    if (voltage <= 0.8 * limit.value) return;
    const bars = `${what} (${gap.bars.map(barName).join(' and ')})`;
    const common = potentialBehind(facts, gap);
    const data = { what: bars, voltage, limit: limit.value, basis, surge, common };
    const severity = voltage > limit.value ? 'error' : 'warning';
    findings.push(finding(kinds.insulationStressed, limit.range, data, { severity }));
  };
  compare(insulation.turnVoltage, gaps.inSlotSamePhase, 'neighboring bars of one phase');
  compare(insulation.phaseVoltage, gaps.inSlotTwoPhases, 'bars of two phases in a slot');
  compare(insulation.phaseVoltage, gaps.betweenSlots, 'bar ends of neighboring slots');
  const common = commonPotential(facts);
  if (common && gaps.betweenSets && insulation.phaseVoltage) {
    const bars = gaps.betweenSets.bars.map(barName).join(' and ');
    const data = { common, share: gaps.betweenSets.value, bars };
    findings.push(finding(kinds.setsAtOnePotential, insulation.phaseVoltage.statement, data));
  }
  if (state.facts.connection === 'open' && insulation.phaseVoltage) {
    const data = { needs: [], reason: 'the voltage between open phases is not determined' };
    findings.push(finding(kinds.insulationNotChecked, insulation.phaseVoltage.statement, data));
  }
  return findings;
}
