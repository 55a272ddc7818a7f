import { emfParts } from '../winding/angles.ts';
import { greatestCommonDivisor } from '../winding/integers.ts';
import { phaseOfCell, type Winding } from '../winding/model.ts';
import { layerSkews } from '../winding/skew.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';
import { canShareOut, type LikeBars } from './shareOut.ts';

/** Steps of the search for one winding: some milliseconds. */
const mostSteps = 40_000;

/**
 * Numbers of parallel paths that can be balanced where crowns may have any span and connecting pieces are allowed,
 * rising; empty where the bars of some phase make no path. Such a number divides the bars of every voltage class (in
 * every layer, where slots hold two phases or skew factors differ) and of every layer, and its double divides all
 * bars of a phase. For generated layouts that is enough. Rows may hold a class of one sense in one layer only, so
 * there the bars are really shared out, and a number counts where a bounded search succeeds. In one layer written
 * paths alone may reach them, with coils one within the other: the router takes coils of one span there. Source: own
 * derivation; the tests try every way for small machines.
 */
export function parallelPathsAnyCrowns(winding: Winding): readonly number[] {
  const strict = needsStrictBalance(winding);
  const phases = winding.phases.names.map((_, phase) => likeBars(winding, phase));
  const counts = phases.map((bars) => commonCount(bars, strict));
  if (counts.includes(0)) return [];
  const most = counts.reduce(greatestCommonDivisor);
  const divisors = Array.from({ length: most }, (_, index) => index + 1).filter(
    (count) => most % count === 0,
  );
  // With every class alike in every layer, each cell can give its + bars freely: only the sum counts.
  if (strict || winding.origin.kind === 'generated') return divisors;
  const distinct = [...new Map(phases.map((bars) => [JSON.stringify(bars), bars])).values()];
  const effort = { steps: mostSteps };
  return divisors.filter((paths) => distinct.every((bars) => canShareOut(bars, paths, effort)));
}

/** The bars of a phase by the angle of their voltage (the sense, and the sign of the skew factor, folded in) and layer. */
function likeBars(winding: Winding, phase: number): readonly LikeBars[] {
  const { slots, polePairs, layers, table } = winding;
  const skews = layerSkews(winding, polePairs);
  const bars = new Map<number, { voltage: number; layer: number; plus: number; minus: number }>();
  const voltages = new Map<number, number>();
  table.cells.forEach((cell, place) => {
    if (cell === 0 || phaseOfCell(cell) !== phase) return;
    const layer = Math.floor(place / slots);
    const sense = cell > 0 === skews[layer]! >= 0 ? 1 : -1;
    const angle = emfParts(winding, { slot: (place % slots) + 1 }, sense);
    const voltage = voltages.get(angle) ?? voltages.size;
    voltages.set(angle, voltage);
    const key = voltage * layers + layer;
    const like = bars.get(key) ?? { voltage, layer, plus: 0, minus: 0 };
    like[cell > 0 ? 'plus' : 'minus']++;
    bars.set(key, like);
  });
  return [...bars.values()];
}

/** What the number of paths has to divide; 0 where a phase has no bars, or not as many of either sense. */
function commonCount(bars: readonly LikeBars[], strict: boolean): number {
  const plus = bars.reduce((sum, each) => sum + each.plus, 0);
  const minus = bars.reduce((sum, each) => sum + each.minus, 0);
  if (plus !== minus) return 0;
  const groups: ((each: LikeBars) => string)[] = strict
    ? [({ voltage, layer }) => `${voltage} ${layer}`]
    : [({ voltage }) => `voltage ${voltage}`, ({ layer }) => `layer ${layer}`];
  const totals = new Map<string, number>();
  for (const each of bars)
    for (const group of groups.map((groupOf) => groupOf(each)))
      totals.set(group, (totals.get(group) ?? 0) + each.plus + each.minus);
  return [...totals.values()].reduce(greatestCommonDivisor, plus);
}
