import { tableKey } from '../facts/kept.ts';
import { type MeasuredTips, measureTips } from '../routing/measure.ts';
import { endsKnown, type RouteResult, searchSteps } from '../routing/route.ts';

/** Measured connections kept, of all searches; one that measured more is not kept. */
const mostTips = 4000;

/** What a search came to, and all that it learned of the sizes of bar ends. */
interface Search {
  readonly result: RouteResult;
  readonly tips: readonly MeasuredTips[];
}

/**
 * Searches for connections as `searchSteps` does. Sizes of bar ends come into a search by the joint tips that it measures
 * alone: where these are the same with other sizes, what it comes to is, and it is not made again.
 */
export function connectionSearch(): typeof searchSteps {
  const kept = new Map<string, Search>();
  let measured = 0;
  return function* (winding, options) {
    const { tipSizes, contacts: _, ...asked } = options;
    if (!tipSizes || !endsKnown(options)) return yield* searchSteps(winding, options);
    const key = `${tableKey(winding)} ${JSON.stringify(asked)}`;
    const known = kept.get(key);
    if (known?.tips.every((tips) => measuresAlike(tips, tipSizes))) return known.result;
    const tips: MeasuredTips[] = [];
    const result = yield* searchSteps(winding, options, tips);
    measured -= kept.get(key)?.tips.length ?? 0;
    kept.delete(key);
    if (tips.length > mostTips) return result;
    if (measured + tips.length > mostTips) {
      kept.clear();
      measured = 0;
    }
    measured += tips.length;
    kept.set(key, { result, tips });
    return result;
  };
}

/** Whether the tips of joints are measured alike with other sizes of bar ends. */
function measuresAlike(
  { measuring, strands, measured }: MeasuredTips,
  tipSizes: MeasuredTips['measuring']['tipSizes'],
): boolean {
  const { tipGap, crossings, lostEnds } = measureTips({ ...measuring, tipSizes }, strands);
  return tipGap === measured.tipGap && crossings === measured.crossings && lostEnds === measured.lostEnds;
}
