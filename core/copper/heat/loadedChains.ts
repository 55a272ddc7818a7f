import { slotOfLayer } from '../../analysis/machineInputs.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Space } from '../../space/space.ts';
import type { Path, Winding } from '../../winding/model.ts';
import { type BarLoads, type LayerSection, reducedHeight } from '../acLoss.ts';
import { type Metal, resistivity } from '../metals.ts';
import { phi, psi } from '../skinEffect.ts';
import type { ChainPiece, HeatChain, LossOf } from './heatChain.ts';

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

/** How many steps a value counts: what differs by less is alike. */
function rounded(value: number, step: number): number {
  return Math.round(value / step);
}
