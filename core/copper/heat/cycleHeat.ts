import type { LayerSection } from '../acLoss.ts';
import type { Metal } from '../metals.ts';
import { periodicChain } from './heatChain.ts';
import { chainLoss, type LoadedChain } from './loadedChains.ts';

/** A stage of a duty cycle: s, Hz, A. */
export interface HeatStage {
  readonly duration: number;
  readonly frequency: number;
  readonly pathCurrent: number;
}

/** The hottest temperature of a periodic cycle and its course over the time; null where none settles. */
export interface CycleHeat {
  readonly hotSpot: number;
  readonly course: readonly { readonly time: number; readonly temperature: number }[];
}

/** Chains that are followed over the cycle: those with the largest loss density. */
const followed = 3;

/** The cycle of the chains that are loaded most. */
export function cycleHeat(
  chains: readonly LoadedChain[],
  metal: Metal,
  sections: readonly LayerSection[],
  stages: readonly HeatStage[],
): CycleHeat | null {
  const loadOf = (chain: LoadedChain) =>
    stages.reduce((sum, { duration, frequency, pathCurrent }) => {
      const lossOf = chainLoss(chain, metal, sections, frequency, pathCurrent);
      const densities = chain.chain.pieces.map((_, piece) => lossOf(piece, 100).at);
      return sum + duration * Math.max(...densities);
    }, 0);
  const most = chains
    .map((chain) => ({ chain, load: loadOf(chain) }))
    .sort((a, b) => b.load - a.load)
    .slice(0, followed);
  let hottest: CycleHeat | null = null;
  for (const { chain } of most) {
    const cycle = periodicChain(
      chain.chain,
      stages.map(({ duration, frequency, pathCurrent }) => ({
        duration,
        lossOf: chainLoss(chain, metal, sections, frequency, pathCurrent),
      })),
    );
    if (cycle === null) return null;
    if (hottest === null || cycle.hottest > hottest.hotSpot)
      hottest = { hotSpot: cycle.hottest, course: cycle.course };
  }
  return hottest;
}
