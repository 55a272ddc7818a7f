import { largestForceOrder } from '../analysis/noise.ts';
import type { Facts } from '../facts/facts.ts';
import { isWorkFirst } from '../facts/workFirst.ts';
import { type Figure, known, orNull } from '../figures/figure.ts';
import { needsInWords } from '../findings/needWords.ts';
import { quantityValue } from '../findings/quantities.ts';
import type { Measure } from '../language/specification/specification.ts';

/** What a quantity follows from: the slot table alone, that and the slots' openings, or the whole winding. */
export type Reach = 'layout' | 'opening' | 'whole';

const ofLayout: ReadonlySet<string> = new Set([
  'distribution-factor',
  'pitch-factor',
  'skew-factor',
  'winding-factor',
  'differential-leakage',
  'phase-voltage-difference',
  'largest-paths',
  'cogging-periods',
  'radial-symmetry',
]);
const ofOpening: ReadonlySet<string> = new Set(['wave-relative', 'lowest-force-order']);

/** What a quantity follows from. */
export function reachOf({ entry }: Pick<Measure, 'entry'>): Reach {
  if (ofLayout.has(entry.word)) return 'layout';
  return ofOpening.has(entry.word) ? 'opening' : 'whole';
}

/** A quantity of a winding, in SI units, ratios as fractions: those of `require`, and those of the layout. */
export function measured(measure: Measure, facts: Facts): Figure<number> {
  switch (measure.entry.word) {
    case 'largest-paths':
      return known(facts.symmetry().largestParallelPaths);
    case 'cogging-periods':
      return known(facts.symmetry().coggingPeriods);
    case 'radial-symmetry':
      return known(facts.symmetry().radialSymmetry);
    case 'lowest-force-order': {
      const order = facts.noise().find(({ order: each }) => each > 0)?.order;
      // Orders above the highest that is looked at count as the next one.
      return known(order ?? largestForceOrder + 1);
    }
    default:
      return quantityValue(measure, facts);
  }
}

/** A quantity's value, null where it is missing; a crash inside one candidate leaves the others alone. */
export function figureOf(measure: Measure, facts: Facts): number | null {
  try {
    const value = orNull(measured(measure, facts));
    return value !== null && Number.isFinite(value) ? value : null;
  } catch (problem) {
    if (isWorkFirst(problem)) throw problem;
    return null;
  }
}

/** Why a quantity is missing, to end a sentence; null where it is not. */
export function reasonMissing(measure: Measure, facts: Facts): string | null {
  try {
    const figure = measured(measure, facts);
    if (figure.known) return null;
    if (figure.needs.length > 0) return `it needs ${needsInWords(figure.needs)}`;
    return figure.reason ?? 'the winding does not determine it';
  } catch (problem) {
    if (isWorkFirst(problem)) throw problem;
    return 'its computation failed';
  }
}
