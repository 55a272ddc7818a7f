import { outsideDiameter } from '../analysis/outsideDiameter.ts';
import type { Facts } from '../facts/facts.ts';
import { commonPotential } from '../findings/copper/insulationRules.ts';
import { significant } from '../language/numbers.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineParts } from './machineParts.ts';

/** Every default that was used and every model assumption behind the figures, one sentence each. */
export function assumptionsOf(specification: Specification, facts: Facts | null): string[] {
  const { machine, layout, connect } = specification;
  const out: string[] = [];
  if (machine && !machine.gap) out.push('machine gap: inner (default)');
  if (facts) {
    const { winding } = facts;
    if (!connect?.route && (connect?.paths.length ?? 0) === 0) out.push('connect route: paths 1 (default)');
    if (winding.origin.kind === 'generated') {
      if (!layout?.belt) out.push(`layout belt: ${significant(winding.origin.belt, 6)} edeg (default)`);
      if (!layout?.stagger && winding.layers > 2) out.push('layout stagger: 0 (default)');
    }
    if ((layout?.skew.length ?? 0) === 0) out.push('layout skew: 0 (default)');
    if (!facts.phaseCurrent.known) out.push('MMF amplitudes are for 1 A rms in each phase');
    out.push('differential leakage is for point-like slots, without skew and without damping by a cage');
    const given = (machine?.rotorField ?? []).map(({ value }) => value.harmonic);
    const others = given.length > 0 ? ' but for those given' : '';
    out.push(
      `rotor field harmonics have the relative amplitude 1/harmonic (odd harmonics)${others}; pairs with a product below 0.0001 are left out`,
    );
  }
  const outside = outsideDiameter(specification);
  if (outside.known) out.push(...outside.assumptions);
  if (specification.insulation && !specification.insulation.surgeFactor)
    out.push('insulation surge-factor: 1 (default)');
  if (specification.bar && !specification.bar.form && connect) out.push('bar form: hairpin (default)');
  const unused = machine?.gap?.value === 'outer' ? 'bore' : 'outside';
  if (machine?.[unused] && machine.gap?.value !== 'both')
    out.push(`machine ${unused} enters no figure with the gap on the other side`);
  if (facts?.connection.kind === 'connected' && connect?.connections[0]?.value === 'open')
    out.push('open phases: the voltage between bars of two phases is not determined and left out');
  const common = facts && commonPotential(facts);
  if (common) out.push(`voltages between bars of the two sets: ${common} at one potential`);
  if (facts?.copper().leakage.slotInductance.known && !facts.spaceFigures().endInductance.known)
    out.push('leakage of the end windings is not computed');
  if (facts) out.push(...machineParts(facts).flatMap(({ assumptions }) => assumptions));
  return [...new Set(out)];
}
