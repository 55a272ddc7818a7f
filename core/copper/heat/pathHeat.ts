import { slotOfLayer } from '../../analysis/machineInputs.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Space } from '../../space/space.ts';
import type { Path, Winding } from '../../winding/model.ts';
import { type BarLoads, type LayerSection, reducedHeight } from '../acLoss.ts';
import { type Metal, resistivity } from '../metals.ts';
import { phi, psi } from '../skinEffect.ts';
import { type ChainPiece, type HeatChain, type LossOf, periodicChain, steadyChain } from './heatChain.ts';

/** How a bar piece is loaded: the square of its current, and the weight of the field of the others. */
interface PieceLoad {
  readonly square: number;
  readonly field: number;
}

/** A chain of bars and its loads, one a piece. */
export interface LoadedChain {
  readonly chain: HeatChain;
  readonly loads: readonly PieceLoad[];
}

/** What chains are made from; temperatures in degC. */
export interface ChainConditions {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly active: readonly number[];
  readonly areas: readonly number[];
  /** One a way to run. */
  readonly runs: readonly BarLoads[];
  readonly metal: Metal;
  readonly endTemperature: number;
  readonly coreTemperature: number;
}

/** Each path from end to end, its overhang cooled to the end temperature; paths that are alike once. */
export function pathChains(
  conditions: ChainConditions,
  paths: readonly Path[],
  space: Space,
  endConductance: number,
): readonly LoadedChain[] {
  const { winding, metal, runs, areas, endTemperature } = conditions;
  const { slots } = winding.table;
  const found = new Map<string, LoadedChain>();
  for (const { bars } of paths) {
    for (const { square, field } of runs) {
      const pieces: ChainPiece[] = [];
      const loads: PieceLoad[] = [];
      const key: string[] = [];
      for (const { layer, slot } of bars) {
        const place = layer * slots + slot - 1;
        const bar = space.bars[place];
        if (!bar) continue;
        const load = { square: square[place]!, field: field[place]! };
        const overhang = (length: number): ChainPiece => ({
          kind: 'overhang',
          layer,
          length,
          area: areas[layer]!,
          conductance: endConductance,
          surroundings: endTemperature,
        });
        pieces.push(overhang(bar.connection.length), slotPiece(conditions, layer), overhang(bar.far.length));
        loads.push({ square: load.square, field: 0 }, load, { square: load.square, field: 0 });
        key.push(
          [
            layer,
            rounded(load.square, 1e-6),
            rounded(load.field, 1e-6),
            ...[bar.connection, bar.far].map(({ length }) => rounded(length, 1e-7)),
          ].join(' '),
        );
      }
      const chain = {
        pieces,
        ends: null,
        conductivity: metal.thermalConductivity,
        heatCapacity: metal.heatCapacity,
      };
      if (pieces.length > 0) found.set(key.join(), { chain, loads });
    }
  }
  return [...found.values()];
}

/** Bars within the stack, held at the end temperature where they leave it: the most loaded of each layer. */
export function stackChains(conditions: ChainConditions): readonly LoadedChain[] {
  const { winding, metal, runs, endTemperature } = conditions;
  const { slots, cells } = winding.table;
  const found = new Map<string, LoadedChain>();
  for (const { square, field } of runs) {
    cells.forEach((cell, place) => {
      if (cell === 0) return;
      const layer = Math.floor(place / slots);
      const load = { square: square[place]!, field: field[place]! };
      const key = `${layer} ${rounded(load.square, 1e-6)}`;
      const before = found.get(key);
      if (before && before.loads[0]!.field >= load.field) return;
      const chain = {
        pieces: [slotPiece(conditions, layer)],
        ends: endTemperature,
        conductivity: metal.thermalConductivity,
        heatCapacity: metal.heatCapacity,
      };
      found.set(key, { chain, loads: [load] });
    });
  }
  return [...found.values()];
}

function slotPiece(
  { specification, active, areas, coreTemperature }: ChainConditions,
  layer: number,
): ChainPiece {
  return {
    kind: 'slot',
    layer,
    length: active[layer]!,
    area: areas[layer]!,
    conductance: slotOfLayer(specification, layer)?.sideConductance?.value ?? 0,
    surroundings: coreTemperature,
  };
}

/** Loss of each piece of a chain for a frequency in Hz and an equal current of the paths in A. */
export function chainLoss(
  { chain, loads }: LoadedChain,
  metal: Metal,
  sections: readonly LayerSection[],
  frequency: number,
  pathCurrent: number,
): LossOf {
  return (piece, mean) => {
    const { layer, area } = chain.pieces[piece]!;
    const { square, field } = loads[piece]!;
    const rho = resistivity(metal, mean);
    const own = chain.pieces[piece]!.kind === 'overhang';
    const xi = own ? 0 : reducedHeight(sections[layer]!, frequency, rho);
    const weight = own ? square : square * phi(xi) + field * psi(xi);
    const plain = (pathCurrent ** 2 / area) * weight;
    return { at: plain * rho, slope: plain * metal.resistivity20 * metal.temperatureCoefficient };
  };
}

/** Temperature in degC at a distance in m from mid-bar. */
export interface HeatSample {
  readonly position: number;
  readonly temperature: number;
}

/** The bar that gets hottest in a chain. */
export interface ChainHotSpot {
  readonly layer: number;
  readonly hotSpot: number;
  readonly place: 'slot' | 'overhang';
  /** Of the slot part of that bar. */
  readonly mean: number;
  /** Shares of the chain's heat that leave by the overhang (or the held ends) and to the core. */
  readonly endShare: number;
  readonly coreShare: number;
  readonly profile: readonly HeatSample[];
}

/** The steady hot spot of a chain; null where it reaches no steady temperature. */
export function chainHotSpot({ chain }: LoadedChain, lossOf: LossOf): ChainHotSpot | null {
  const heat = steadyChain(chain, lossOf);
  if (heat === null) return null;
  const { temperatures, places, pieceOf } = heat;
  let hottest = 0;
  temperatures.forEach((temperature, cell) => {
    if (temperature > temperatures[hottest]!) hottest = cell;
  });
  const flows = { slot: 0, overhang: 0 };
  const sums = new Float64Array(chain.pieces.length);
  const counts = new Float64Array(chain.pieces.length);
  temperatures.forEach((temperature, cell) => {
    sums[pieceOf[cell]!]! += temperature;
    counts[pieceOf[cell]!]!++;
  });
  let total = 0;
  chain.pieces.forEach(({ kind, conductance, surroundings, length }, piece) => {
    const mean = sums[piece]! / counts[piece]!;
    flows[kind] += conductance * length * (mean - surroundings);
    total += lossOf(piece, mean).at * length;
  });
  const [piece] = [pieceOf[hottest]!];
  const { kind, layer } = chain.pieces[piece]!;
  // A bar of a path is three pieces, one within the stack alone is one.
  const slot = chain.pieces.length === 1 ? 0 : piece - (piece % 3) + 1;
  const [first, last] = chain.pieces.length === 1 ? [0, 0] : [slot - 1, slot + 1];
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
    mean: sums[slot]! / counts[slot]!,
    endShare: 1 - coreShare,
    coreShare,
    profile,
  };
}

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

/** How many steps a value counts: what differs by less is alike. */
function rounded(value: number, step: number): number {
  return Math.round(value / step);
}
