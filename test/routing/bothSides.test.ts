import { describe, expect, it } from 'vitest';
import { parallelPathsAnyCrowns } from '../../core/analysis/anyCrownPaths.ts';
import { route } from '../../core/routing/route.ts';
import type { Winding } from '../../core/winding/model.ts';
import { machine } from '../winding/windings.ts';
import { classOf, isPieceOf, type RefereeLayout } from './checkRouting.ts';

/**
 * The fewest pieces of balanced paths of the first phase with both sides free, by trying every order of
 * bars: written apart from the router, straight from the slot table. Infinity where there are no such paths.
 */
function fewestPieces(winding: Winding, layout: RefereeLayout, paths: number): number {
  const { slots, layers, polePairs, table } = winding;
  const bars: { slot: number; layer: number; away: boolean; keys: string[] }[] = [];
  for (let layer = 0; layer < layers; layer++)
    for (let slot = 1; slot <= slots; slot++) {
      const cell = table.cells[layer * slots + slot - 1]!;
      if (Math.abs(cell) !== 1) continue;
      const angle = (2 * polePairs * slot + (cell < 0 ? slots : 0)) % (2 * slots);
      bars.push({ slot, layer, away: cell > 0, keys: [`angle ${angle}`, `layer ${layer}`] });
    }
  const count = bars.length;
  const length = count / paths;
  const quota = new Map<string, number>();
  for (const { keys } of bars) for (const key of keys) quota.set(key, (quota.get(key) ?? 0) + 1);
  for (const [key, all] of quota) quota.set(key, all / paths);
  if (!Number.isInteger(length / 2) || [...quota.values()].some((share) => !Number.isInteger(share)))
    return Infinity;
  const cost = (side: 'F' | 'C', from: number, to: number): number => {
    const [a, b] = [bars[from]!, bars[to]!];
    const ahead = (b.slot - a.slot + slots) % slots;
    const ways = [ahead, ahead - slots].filter((span) => span !== 0 && Math.abs(span) < slots);
    const pieces = ways.map((span) => {
      const joint = {
        side,
        fromSlot: a.slot,
        fromLayer: a.layer,
        toSlot: b.slot,
        toLayer: b.layer,
        span,
        path: 0,
      };
      return isPieceOf(winding, classOf(winding, layout, joint), span) ? 1 : 0;
    });
    const least = Math.min(...pieces, 1);
    return side === 'F' && least === 1 ? Infinity : least;
  };
  // The cheapest way to each set of bars, the last one told: one path after the other, lowest start first.
  const known = new Map<string, number>();
  const rest = (used: number, path: number, at: number, last: number, left: Map<string, number>): number => {
    if (at === length) return path === paths - 1 ? 0 : rest(used, path + 1, 0, -1, new Map(quota));
    const key = `${used} ${at} ${last}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    let least = Infinity;
    for (let bar = 0; bar < count; bar++) {
      const { away, keys } = bars[bar]!;
      if ((used >> bar) & 1 || away !== (at % 2 === 0) || keys.some((each) => left.get(each)! < 1)) continue;
      const step = at === 0 ? 0 : cost(at % 2 === 1 ? 'F' : 'C', last, bar);
      if (step >= least) continue;
      for (const each of keys) left.set(each, left.get(each)! - 1);
      least = Math.min(least, step + rest(used | (1 << bar), path, at + 1, bar, left));
      for (const each of keys) left.set(each, left.get(each)! + 1);
      if (least === 0) break;
    }
    known.set(key, least);
    return least;
  };
  return rest(0, 0, 0, -1, new Map(quota));
}

describe('both sides free, against every order of bars', () => {
  for (const request of [
    { slots: 12, poles: 4, layers: 2 },
    { slots: 12, poles: 2, layers: 2 },
    { slots: 18, poles: 6, layers: 2 },
    { slots: 6, poles: 2, layers: 4 },
  ]) {
    it(`${request.slots} slots, ${request.poles} poles, ${request.layers} layers`, () => {
      const winding = machine(request);
      const span = Math.floor(request.slots / request.poles);
      const possible = parallelPathsAnyCrowns(winding);
      for (let paths = 1; paths <= (request.slots * request.layers) / 6; paths++) {
        const least = fewestPieces(winding, { span, tooth: false }, paths);
        // Nothing is found by trying that is called impossible, and nothing called possible cannot be found.
        expect(possible.includes(paths), `${paths} paths`).toBe(least < Infinity);
        const result = route(winding, { paths, specials: 'either', nodeBudget: 30_000 });
        expect(result.ok).toBe(least < Infinity);
        if (!result.ok) continue;
        const { measure, proved } = result.explanation;
        expect(measure.jumpers).toBeGreaterThanOrEqual(least);
        if (proved.includes('jumpers')) expect(measure.jumpers).toBe(least);
      }
    });
  }
});
