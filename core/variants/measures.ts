import { largestForceOrder } from '../analysis/noise.ts';
import { coggingPeriods, radialSymmetry } from '../analysis/symmetry.ts';
import type { Facts } from '../facts/facts.ts';
import type { WaveFacts } from '../facts/waveFacts.ts';
import type { WindingFacts } from '../facts/windingFacts.ts';
import { isWorkFirst } from '../facts/workFirst.ts';
import { type Figure, known } from '../figures/figure.ts';
import { needsInWords } from '../findings/needWords.ts';
import { isWindingQuantity, quantityValue, waveValue, windingQuantity } from '../findings/quantities.ts';
import type { Measure } from '../language/specification/specification.ts';
import { isLayoutQuantity, type LayoutQuantity } from '../language/vocabulary/varied.ts';
import type { Winding } from '../winding/model.ts';

/** What a quantity follows from: the slot table alone, that and the slots' openings, or the whole winding. */
export type Reach = 'layout' | 'opening' | 'whole';

/** What a quantity of `vary` follows from, and its value. */
type LayoutMeasure =
  | { readonly reach: 'layout'; readonly value: (winding: Winding, facts: WindingFacts) => number }
  | { readonly reach: 'opening'; readonly value: (winding: Winding, facts: WaveFacts) => number };

/** The quantities that only `vary` has: one without its row here does not compile. */
const layoutMeasures: Readonly<Record<LayoutQuantity, LayoutMeasure>> = {
  'largest-paths': { reach: 'layout', value: (_, facts) => facts.pathLimits().largestParallelPaths },
  'cogging-periods': { reach: 'layout', value: coggingPeriods },
  'radial-symmetry': { reach: 'layout', value: radialSymmetry },
  'lowest-force-order': {
    reach: 'opening',
    // Orders above the highest that is looked at count as the next one.
    value: (_, facts) => facts.noise().find(({ order }) => order > 0)?.order ?? largestForceOrder + 1,
  },
};

/** What a quantity follows from. */
export function reachOf({ entry: { word } }: Pick<Measure, 'entry'>): Reach {
  if (isLayoutQuantity(word)) return layoutMeasures[word].reach;
  if (isWindingQuantity(word)) return 'layout';
  return word === 'wave-relative' ? 'opening' : 'whole';
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
  const { word } = measure.entry;
  if (!isLayoutQuantity(word)) return windingQuantity(measure, winding, facts);
  const row = layoutMeasures[word];
  return row.reach === 'layout' ? known(row.value(winding, facts)) : null;
}

/** A quantity of reach `opening`; null for others. */
function ofOpening(measure: Measure, winding: Winding, facts: WaveFacts): Figure<number> | null {
  const { word } = measure.entry;
  if (word === 'wave-relative') return waveValue(measure, winding, facts);
  const row = isLayoutQuantity(word) ? layoutMeasures[word] : null;
  return row?.reach === 'opening' ? known(row.value(winding, facts)) : null;
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
