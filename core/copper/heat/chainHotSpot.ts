import { type ChainHeat, type HeatChain, type LossOf, steadySystem } from './heatChain.ts';
import type { LookedSystem, PathLoad } from './loadedChains.ts';

/** Temperature in degC at a distance in m from mid-bar. */
export interface HeatSample {
  /** m from mid-bar, signed. */
  readonly position: number;
  /** degC. */
  readonly temperature: number;
}

/** The bar that gets hottest in a chain. */
export interface ChainHotSpot {
  /** From 0. */
  readonly layer: number;
  /** degC. */
  readonly hotSpot: number;
  readonly place: 'slot' | 'overhang';
  /** Of the slot part of that bar. */
  readonly mean: number;
  /** Shares of the chain's heat that leave by the overhang (or the held ends) and to the core. */
  readonly endShare: number;
  /** Of the heat, to the core. */
  readonly coreShare: number;
  readonly profile: readonly HeatSample[];
  /** Temperature of a core that the bars heat; null where it is held. */
  readonly core: number | null;
}

/** The steady hot spot of chains that share a core; null where they reach no steady temperature. */
export function systemHotSpot(
  { system, chains, lossesOf, looked }: LookedSystem,
  load: PathLoad,
): ChainHotSpot | null {
  const losses = lossesOf(load);
  const heat = steadySystem(system, losses);
  if (heat === null) return null;
  let hottest: ChainHotSpot | null = null;
  for (let index = looked; index < chains.length; index++) {
    const spot = chainHotSpot(chains[index]!.chain, losses[index]!, heat.chains[index]!, heat.core);
    if (hottest === null || spot.hotSpot > hottest.hotSpot) hottest = spot;
  }
  return hottest;
}

function chainHotSpot(
  chain: HeatChain,
  lossOf: LossOf,
  { temperatures, places, pieceOf, means }: ChainHeat,
  core: number | null,
): ChainHotSpot {
  let hottest = 0;
  temperatures.forEach((temperature, cell) => {
    if (temperature > temperatures[hottest]!) hottest = cell;
  });
  const flows = { slot: 0, overhang: 0 };
  let total = 0;
  chain.pieces.forEach(({ kind, conductance, surroundings, length }, piece) => {
    const mean = means[piece]!;
    flows[kind] += conductance * length * (mean - (surroundings === 'core' ? core! : surroundings));
    total += lossOf(piece, mean).at * length;
  });
  const piece = pieceOf[hottest]!;
  const { kind, layer } = chain.pieces[piece]!;
  // A bar of a path is three pieces, one within the stack alone is one.
  const alone = chain.pieces.length === 1;
  const slot = alone ? 0 : piece - (piece % 3) + 1;
  const [first, last] = alone ? [0, 0] : [slot - 1, slot + 1];
  const start = chain.pieces.slice(0, slot).reduce((sum, { length }) => sum + length, 0);
  const middle = start + chain.pieces[slot]!.length / 2;
  const profile: HeatSample[] = [];
  temperatures.forEach((temperature, cell) => {
    if (pieceOf[cell]! >= first && pieceOf[cell]! <= last)
      profile.push({ position: places[cell]! - middle, temperature });
  });
  const coreShare = total === 0 ? 0 : flows.slot / total;
  return {
    layer,
    hotSpot: temperatures[hottest]!,
    place: kind,
    mean: means[slot]!,
    endShare: 1 - coreShare,
    coreShare,
    profile,
    core,
  };
}
