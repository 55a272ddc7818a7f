import { outsideDiameter } from '../analysis/outsideDiameter.ts';
import type { Facts } from '../facts/facts.ts';
import { commonPotential } from '../findings/copper/insulationRules.ts';
import { significant } from '../language/numbers.ts';
import { defaultLines, valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStatements, insulationStatements } from '../language/vocabulary/blocks/copper.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { connectStatements, layoutStatements } from '../language/vocabulary/blocks/winding.ts';
import { machineParts } from './machineParts.ts';

/** Every default that was used and every model assumption behind the figures, one sentence each. */
export function assumptionsOf(specification: Specification, facts: Facts | null): string[] {
  const { machine, layout, connect } = specification;
  const out: string[] = [];
  if (machine) out.push(...defaultLines(machineStatements.gap, machine.gap));
  if (facts) {
    const { winding } = facts;
    if ((connect?.paths.length ?? 0) === 0)
      out.push(...defaultLines(connectStatements.route, connect?.route));
    if (winding.origin.kind === 'generated') {
      const belt = `${significant(winding.origin.belt, 6)} edeg`;
      out.push(...defaultLines(layoutStatements.belt, layout?.belt, belt));
      if (winding.layers > 2) out.push(...defaultLines(layoutStatements.stagger, layout?.stagger));
    }
    out.push(...defaultLines(layoutStatements.skew, layout?.skew));
    if (!facts.phaseCurrent().known) out.push('MMF amplitudes are for 1 A rms in each phase');
    out.push('differential leakage is for point-like slots, without skew and without damping by a cage');
    const given = (machine?.rotorField ?? []).map(({ value }) => value.harmonic);
    const others = given.length > 0 ? ' but for those given' : '';
    out.push(
      `rotor field harmonics have the relative amplitude 1/harmonic (odd harmonics)${others}; pairs with a product below 0.0001 are left out`,
    );
  }
  const outside = outsideDiameter(specification);
  if (outside.known) out.push(...outside.assumptions);
  const { insulation, bar } = specification;
  if (insulation) out.push(...defaultLines(insulationStatements.surgeFactor, insulation.surgeFactor));
  if (bar && connect) out.push(...defaultLines(barStatements.form, bar.form));
  const gap = valueOrDefault(machineStatements, machine, 'gap');
  const unused = gap === 'outer' ? 'bore' : 'outside';
  if (machine?.[unused] && gap !== 'both')
    out.push(`machine ${unused} enters no figure with the gap on the other side`);
  if (facts?.connection.kind === 'connected' && connect?.connections[0]?.value === 'open')
    out.push('open phases: the voltage between bars of two phases is not determined and left out');
  const common = facts && commonPotential(facts);
  if (common) out.push(`voltages between bars of the two sets: ${common} at one potential`);
  if (facts?.copper().leakage.slotInductance.known && !facts.spaceFigures().endInductance().known)
    out.push('leakage of the end windings is not computed');
  if (facts) out.push(...machineParts(facts).flatMap(({ assumptions }) => assumptions));
  return [...new Set(out)];
}
