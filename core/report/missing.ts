import { gapOpenings } from '../analysis/gap/gapOpenings.ts';
import type { Facts } from '../facts/facts.ts';
import type { Figure } from '../figures/figure.ts';
import { insulationNeeds } from '../findings/copper/insulationRules.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineParts } from './machineParts.ts';

/** A quantity that could not be computed, and the statements that would supply it. */
export interface MissingQuantity {
  quantity: string;
  needs: string[];
}

/** What the text does not give, by the quantity it would make computable. */
export function missingOf(specification: Specification, facts: Facts | null): MissingQuantity[] {
  const out: MissingQuantity[] = [];
  const add = (quantity: string, figure: Figure<unknown> | undefined) => {
    if (figure && !figure.known && figure.needs.length > 0) out.push({ quantity, needs: [...figure.needs] });
  };
  add('MMF in amperes', facts?.phaseCurrent());
  if (facts) add('effect of the slot opening on the MMF waves', gapOpenings(specification)[0]);
  if (facts) {
    const machine = machineParts(facts).flatMap(({ missing }) => missing);
    out.push(...machine.map(({ quantity, needs }) => ({ quantity, needs: [...needs] })));
    add('balance.circulatingCurrent', facts.circulatingCurrent());
    add('balance.pathCurrentDeviation', facts.currentDeviation());
    const ofInsulation = specification.insulation ? insulationNeeds(facts) : [];
    if (ofInsulation.length > 0)
      out.push({ quantity: 'voltages between bars in volts', needs: [...ofInsulation] });
  }
  return out;
}
