import type { Facts } from '../facts/facts.ts';
import type { Sorted } from '../figures/figure.ts';

/** The parts of the report that sizes, materials and ratings yield, in its order: what they rest on and lack. */
export function machineParts(facts: Facts): readonly Sorted[] {
  const duty = facts.duty();
  return [
    facts.emf(),
    facts.operation(),
    ...(duty ? [duty] : []),
    facts.iron(),
    facts.copper(),
    facts.spaceFigures(),
  ];
}
