import type { Steps } from '../../figures/steps.ts';
import {
  type LoadedChain,
  type LoadedChains,
  type LossBasis,
  type PathLoad,
  systemOf,
} from './loadedChains.ts';
import { periodicHeat, type TimedTemperature } from './periodicHeat.ts';

/** A stage of a duty cycle: s, Hz, A. */
export interface HeatStage extends PathLoad {
  /** s. */
  readonly duration: number;
}

/** The hottest temperature of a periodic cycle and its course over the time, degC and s. */
export interface CycleHeat {
  /** Highest of the hottest place over the cycle. */
  readonly hotSpot: number;
  readonly course: readonly TimedTemperature[];
  /** Highest temperature of the core and its course; null where it is held. */
  readonly core: { readonly highest: number; readonly course: readonly TimedTemperature[] } | null;
  /** Of a cycle, J: put in by losses, left to surroundings and coolant, and still stored at its end. */
  readonly energy: { readonly put: number; readonly away: number; readonly stored: number };
}

/** Chains that are followed over the cycle where the core is held: those with the largest loss density. */
const followed = 3;

/** The cycle of the chains, in small steps of work; null where none settles. */
export function* cycleHeatSteps(
  { runs, core }: LoadedChains,
  basis: LossBasis,
  stages: readonly HeatStage[],
): Steps<CycleHeat | null> {
  let hottest: CycleHeat | null = null;
  for (const chains of runs) {
    // What heats the core is all of the bars; what gets hottest is among the most loaded.
    const most = core === null ? mostLoaded(chains, basis, stages) : chains;
    const { system, lossesOf } = systemOf(most, core, stages, basis);
    const periodic = yield* periodicHeat(
      system,
      stages.map((stage) => ({ duration: stage.duration, losses: lossesOf(stage) })),
    );
    if (periodic === null) return null;
    if (hottest !== null && periodic.hottest <= hottest.hotSpot) continue;
    hottest = {
      hotSpot: periodic.hottest,
      course: periodic.course,
      core: periodic.core && {
        highest: periodic.core.reduce(
          (top, { temperature }) => Math.max(top, temperature),
          Number.NEGATIVE_INFINITY,
        ),
        course: periodic.core,
      },
      energy: periodic.energy,
    };
  }
  return hottest;
}

function mostLoaded(
  chains: readonly LoadedChain[],
  basis: LossBasis,
  stages: readonly HeatStage[],
): readonly LoadedChain[] {
  const loadOf = (chain: LoadedChain) =>
    stages.reduce((sum, stage) => {
      const [lossOf] = systemOf([chain], null, stages, basis).lossesOf(stage);
      const densities = chain.chain.pieces.map((_, piece) => lossOf!(piece, 100).at);
      return sum + stage.duration * Math.max(...densities);
    }, 0);
  return chains
    .map((chain) => ({ chain, load: loadOf(chain) }))
    .sort((a, b) => b.load - a.load)
    .slice(0, followed)
    .map(({ chain }) => chain);
}
