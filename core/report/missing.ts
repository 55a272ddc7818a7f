import { gapOpenings } from '../facts/conditions.ts';
import type { Facts } from '../facts/facts.ts';
import { insulationNeeds } from '../findings/insulationRules.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineParts } from './machineParts.ts';

/** A quantity that could not be computed, and the statements that would supply it. */
export interface MissingQuantity {
  quantity: string;
  needs: string[];
}

/** What the text does not give, by the quantity it would make computable. */
export function missingOf(specification: Specification, facts: Facts | null): MissingQuantity[] {
  const { machine, connect } = specification;
  const out: MissingQuantity[] = [];
  if (facts && facts.phaseCurrent === null) {
    const needs = [];
    if (machine?.current === undefined) needs.push('machine current');
    if (!connect?.connections[0]) needs.push('connect star, delta or open');
    out.push({ quantity: 'MMF in amperes', needs });
  }
  if (facts && gapOpenings(specification).first === null) {
    const needs = [];
    const outerOnly = machine?.gap?.value === 'outer';
    if (outerOnly ? !machine.outside : !machine?.bore)
      needs.push(outerOnly ? 'machine outside' : 'machine bore');
    if (!specification.slots.some(({ opening }) => opening)) needs.push('slot opening');
    if (needs.length > 0) out.push({ quantity: 'effect of the slot opening on the MMF waves', needs });
  }
  if (facts) {
    const machine = machineParts(facts).flatMap(({ missing }) => missing);
    out.push(...machine.map(({ quantity, needs }) => ({ quantity, needs: [...needs] })));
    if (facts.circulatingCurrent() === null) {
      const needs = [...facts.circulatingNeeds()];
      if (needs.length > 0) out.push({ quantity: 'balance.circulatingCurrent', needs });
    }
    if (facts.currentDeviation() === null && facts.deviationNeeds().length > 0) {
      out.push({ quantity: 'balance.pathCurrentDeviation', needs: [...facts.deviationNeeds()] });
    }
    const ofInsulation = specification.insulation ? insulationNeeds(facts) : [];
    if (ofInsulation.length > 0)
      out.push({ quantity: 'voltages between bars in volts', needs: [...ofInsulation] });
  }
  return out;
}
