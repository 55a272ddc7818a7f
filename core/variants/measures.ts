import { largestForceOrder } from '../analysis/noise.ts';
import { coggingPeriods, radialSymmetry } from '../analysis/symmetry.ts';
import type { Facts } from '../facts/facts.ts';
import type { WaveFacts } from '../facts/waveFacts.ts';
import type { WindingFacts } from '../facts/windingFacts.ts';
import { isWorkFirst } from '../facts/workFirst.ts';
import { type Figure, known } from '../figures/figure.ts';
import { needsInWords } from '../findings/needWords.ts';
import { quantityValue, waveValue, windingQuantity } from '../findings/quantities.ts';
import type { Measure } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';

/** What a quantity follows from: the slot table alone, that and the slots' openings, or the whole winding. */
export type Reach = 'layout' | 'opening' | 'whole';

const layoutWords: ReadonlySet<string> = new Set([
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
const openingWords: ReadonlySet<string> = new Set(['wave-relative', 'lowest-force-order']);

/** What a quantity follows from. */
export function reachOf({ entry }: Pick<Measure, 'entry'>): Reach {
  if (layoutWords.has(entry.word)) return 'layout';
  return openingWords.has(entry.word) ? 'opening' : 'whole';
}

/** A quantity of a winding, in SI units, ratios as fractions: those of `require`, and those of the layout. */
export function measured(measure: Measure, facts: Facts): Figure<number> {
  const { winding } = facts;
  return (
    ofWinding(measure, winding, facts) ?? ofOpening(measure, winding, facts) ?? quantityValue(measure, facts)
  );
}

/** A quantity of reach `layout`; null for others. */
function ofWinding(measure: Measure, winding: Winding, facts: WindingFacts): Figure<number> | null {
  switch (measure.entry.word) {
    case 'largest-paths':
      return known(facts.pathLimits().largestParallelPaths);
    case 'cogging-periods':
      return known(coggingPeriods(winding));
    case 'radial-symmetry':
      return known(radialSymmetry(winding));
    default:
      return windingQuantity(measure, winding, facts);
  }
}

/** A quantity of reach `opening`; null for others. */
function ofOpening(measure: Measure, winding: Winding, facts: WaveFacts): Figure<number> | null {
  switch (measure.entry.word) {
    case 'lowest-force-order': {
      const order = facts.noise().find(({ order: each }) => each > 0)?.order;
      // Orders above the highest that is looked at count as the next one.
      return known(order ?? largestForceOrder + 1);
    }
    case 'wave-relative':
      return waveValue(measure, winding, facts);
    default:
      return null;
  }
}

/** A quantity's value, null where it is missing; a crash inside one candidate leaves the others alone. */
export function figureOf(measure: Measure, facts: Facts): number | null {
  return finiteValue(() => measured(measure, facts));
}

/** The same of a quantity of reach `layout`. */
export function windingFigure(measure: Measure, winding: Winding, facts: WindingFacts): number | null {
  return finiteValue(() => ofWinding(measure, winding, facts));
}

/** The same of a quantity of reach `opening`. */
export function openingFigure(measure: Measure, winding: Winding, facts: WaveFacts): number | null {
  return finiteValue(() => ofOpening(measure, winding, facts));
}

function finiteValue(figure: () => Figure<number> | null): number | null {
  try {
    const found = figure();
    return found?.known && Number.isFinite(found.value) ? found.value : null;
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
