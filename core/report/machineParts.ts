import type { Facts } from '../facts/facts.ts';
import { type Sorted, sortedPart } from '../figures/groups.ts';
import { sortedDuty } from './sortedDuty.ts';
import { sortedSpace } from './sortedSpace.ts';

/** The parts of the report that sizes, materials and ratings yield, in its order: what they rest on and lack. */
export function machineParts(facts: Facts): readonly Sorted[] {
  const duty = facts.duty();
  return [
    sortedPart('emf', facts.emf()),
    sortedPart('operation', facts.operation()),
    ...(duty ? [sortedDuty(duty)] : []),
    sortedPart('iron', facts.iron()),
    sortedPart('copper', facts.copper()),
    sortedSpace(facts.spaceFigures()),
  ];
}
