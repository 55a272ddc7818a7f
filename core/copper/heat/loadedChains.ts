import { coreConductance } from '../../analysis/machineInputs.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Space } from '../../space/space.ts';
import type { Path, Winding } from '../../winding/model.ts';
import { type BarLoads, type LayerSection, reducedHeight } from '../acLoss/acLoss.ts';
import { fieldLossDensity, type LayerField } from '../acLoss/barField.ts';
import { phi, psi } from '../acLoss/skinEffect.ts';
import type { FurtherCurrent } from '../furtherCurrents.ts';
import type { JointCount } from '../jointResistance.ts';
import { type Metal, resistivity } from '../metals.ts';
import type { ChainPiece, CoreNode, HeatChain, HeatSystem, LossOf } from './heatChain.ts';

/** How a bar piece is loaded: the square of its current, and the weight of the field of the others. */
interface Load {
  readonly square: number;
  readonly field: number;
}

interface PieceLoad extends Load {
  /** By each current beside the fundamental. */
  readonly further: readonly Load[];
  /** Joints at its end. */
  readonly joints: number;
}

/** What the losses of chains follow from beside their loads. */
export interface LossBasis {
  readonly metal: Metal;
  readonly sections: readonly LayerSection[];
  readonly further: readonly FurtherCurrent[];
  /** The rotor's field at the bars, one a layer. */
  readonly fields: readonly (LayerField | null)[];
  /** Of a joint, ohm. */
  readonly joint: number;
}

/** A chain of bars and its loads, one a piece. */
export interface LoadedChain {
  readonly chain: HeatChain;
  readonly loads: readonly PieceLoad[];
  /** How many of the winding's chains are alike. */
  readonly count: number;
}

/** All chains of a winding for each way to run, and what they are cooled by in the stack. */
export interface LoadedChains {
  readonly runs: readonly (readonly LoadedChain[])[];
  /** Null where the core is held at a temperature. */
  readonly core: CoreNode | null;
}

/** What chains are made from; temperatures in degC. */
export interface ChainConditions {
  readonly specification: Specification;
  readonly winding: Winding;
  /** Length within the stack, one a layer, m. */
  readonly active: readonly number[];
  /** Copper of a bar, one a layer, m2. */
  readonly areas: readonly number[];
  /** One a way to run. */
  readonly runs: readonly BarLoads[];
  readonly further: readonly FurtherCurrent[];
  readonly metal: Metal;
  /** degC. */
  readonly endTemperature: number;
  /** Of a core that is held, or the core that the bars heat. */
  readonly core: number | CoreNode;
}

/** Each path from end to end, its overhang cooled to the end temperature; paths that are alike once. */
export function pathChains(
  conditions: ChainConditions & { readonly joints: JointCount },
  paths: readonly Path[],
  space: Space,
  endConductance: number,
): LoadedChains {
  const { winding, metal, runs, areas, endTemperature, core, joints } = conditions;
  const { slots } = winding.table;
  const chainsOf = ({ square, field }: BarLoads): readonly LoadedChain[] => {
    const found = new Map<string, LoadedChain>();
    for (const { bars } of paths) {
      const pieces: ChainPiece[] = [];
      const loads: PieceLoad[] = [];
      const key: string[] = [];
      for (const { layer, slot } of bars) {
        const place = layer * slots + slot - 1;
        const bar = space.bars[place];
        if (!bar) continue;
        const load = loadAt(conditions, square, field, place);
        const bare: PieceLoad = {
          square: load.square,
          field: 0,
          further: load.further.map((each) => ({ square: each.square, field: 0 })),
          joints: joints.byPlace[place]! / 2,
        };
        const overhang = (length: number): ChainPiece => ({
          kind: 'overhang',
          layer,
          length,
          area: areas[layer]!,
          conductance: endConductance,
          surroundings: endTemperature,
        });
        pieces.push(overhang(bar.connection.length), slotPiece(conditions, layer), overhang(bar.far.length));
        loads.push(bare, load, bare);
        key.push(
          [
            ...keyOf(layer, load),
            joints.byPlace[place]!,
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
      if (pieces.length > 0) count(found, key.join(), { chain, loads });
    }
    return [...found.values()];
  };
  return { runs: runs.map(chainsOf), core: typeof core === 'number' ? null : core };
}

function count(found: Map<string, LoadedChain>, key: string, chain: Omit<LoadedChain, 'count'>): void {
  found.set(key, { ...chain, count: (found.get(key)?.count ?? 0) + 1 });
}

/** Bars within the stack, held at the end temperature where they leave it; bars that are loaded alike once. */
export function stackChains(conditions: ChainConditions): LoadedChains {
  const { winding, metal, runs, endTemperature, core } = conditions;
  const { slots, cells } = winding.table;
  const chainsOf = ({ square, field }: BarLoads): readonly LoadedChain[] => {
    const found = new Map<string, LoadedChain>();
    cells.forEach((cell, place) => {
      if (cell === 0) return;
      const layer = Math.floor(place / slots);
      const load = loadAt(conditions, square, field, place);
      const chain = {
        pieces: [slotPiece(conditions, layer)],
        ends: endTemperature,
        conductivity: metal.thermalConductivity,
        heatCapacity: metal.heatCapacity,
      };
      count(found, keyOf(layer, load).join(' '), { chain, loads: [load] });
    });
    return [...found.values()];
  };
  return { runs: runs.map(chainsOf), core: typeof core === 'number' ? null : core };
}

function loadAt(
  { further }: ChainConditions,
  square: Float64Array,
  field: Float64Array,
  place: number,
): PieceLoad {
  return {
    square: square[place]!,
    field: field[place]!,
    further: further.map(({ loads }) => ({ square: loads.square[place]!, field: loads.field[place]! })),
    joints: 0,
  };
}

function keyOf(layer: number, load: PieceLoad): readonly number[] {
  return [
    layer,
    ...[load, ...load.further].flatMap(({ square, field }) => [rounded(square, 1e-6), rounded(field, 1e-6)]),
  ];
}

function slotPiece({ specification, active, areas, core }: ChainConditions, layer: number): ChainPiece {
  return {
    kind: 'slot',
    layer,
    length: active[layer]!,
    area: areas[layer]!,
    conductance: coreConductance(specification, layer),
    surroundings: typeof core === 'number' ? core : 'core',
  };
}

/** A current of all paths: Hz, A rms, and how much more the worst phase carries (sqrt(2) at standstill). */
export interface PathLoad {
  /** Electrical, Hz. */
  readonly frequency: number;
  /** Mean of the phases, A rms. */
  readonly pathCurrent: number;
  /** Factor on it. */
  readonly worst: number;
}

/**
 * Chains as they heat a core together. Where at some load the worst phase carries more, chains that heat
 * the core carry the mean of the phases, and others beside them, which are only looked at, what it carries.
 */
export interface LookedSystem {
  readonly system: HeatSystem;
  /** One a chain of the system. */
  readonly chains: readonly LoadedChain[];
  readonly lossesOf: (load: PathLoad) => readonly LossOf[];
  /** From this chain of the system on they are those to look at. */
  readonly looked: number;
}

/** The system of chains that are loaded so in turn. */
export function systemOf(
  chains: readonly LoadedChain[],
  core: CoreNode | null,
  loads: readonly PathLoad[],
  basis: LossBasis,
): LookedSystem {
  const apart = core !== null && loads.some(({ worst }) => worst !== 1);
  const together = apart ? [...chains, ...chains] : chains;
  const looked = apart ? chains.length : 0;
  return {
    system: {
      chains: together.map(({ chain }) => chain),
      counts: together.map(({ count: alike }, index) => (index < looked || !apart ? alike : 0)),
      core,
    },
    chains: together,
    lossesOf: ({ frequency, pathCurrent, worst }) =>
      together.map((chain, index) =>
        chainLoss(chain, basis, frequency, index < looked ? pathCurrent : worst * pathCurrent),
      ),
    looked,
  };
}

/**
 * Loss of each piece of a chain for a frequency in Hz and an equal current of the paths in A: of the
 * fundamental and of all further currents, of joints, and of the eddies that the rotor's field drives.
 */
function chainLoss(
  { chain, loads }: Pick<LoadedChain, 'chain' | 'loads'>,
  { metal, sections, further, fields, joint }: LossBasis,
  frequency: number,
  pathCurrent: number,
): LossOf {
  const currents = [
    { frequency, current: pathCurrent },
    ...further.map(({ at }) => at({ frequency, current: pathCurrent })),
  ];
  const growth = metal.resistivity20 * metal.temperatureCoefficient;
  const terms = chain.pieces.map((piece, index) => pieceTerms(piece, loads[index]!, currents, joint));
  return (piece, mean) => {
    const { kind, layer, area, currents: carried, even, fixed } = terms[piece]!;
    const rho = resistivity(metal, mean);
    if (kind === 'overhang') return { at: even * rho + fixed, slope: even * growth };
    let plain = 0;
    for (let index = 0; index < carried.length; index++) {
      const { density, frequency: hertz, square, field } = carried[index]!;
      const xi = reducedHeight(sections[layer]!, hertz, rho);
      plain += density * (xi === 0 ? square : square * phi(xi) + field * psi(xi));
    }
    const met = fields[layer];
    const eddies = met ? fieldLossDensity(met, frequency, rho) * area : 0;
    // Eddies of an outer field fall as the resistivity grows.
    return { at: plain * rho + fixed + eddies, slope: plain * growth - (eddies * growth) / rho };
  };
}

/** What the loss of a piece has at every temperature. */
interface PieceTerms extends Pick<ChainPiece, 'kind' | 'layer' | 'area'> {
  /** Currents that flow, A2/m2 for a load of 1, with their loads. */
  readonly currents: readonly (Load & { readonly density: number; readonly frequency: number })[];
  /** Loss over resistivity without skin effect, A2/m2. */
  readonly even: number;
  /** Loss of joints, W/m. */
  readonly fixed: number;
}

function pieceTerms(
  { kind, layer, area, length }: ChainPiece,
  load: PieceLoad,
  currents: readonly { readonly frequency: number; readonly current: number }[],
  joint: number,
): PieceTerms {
  const carried: PieceTerms['currents'][number][] = [];
  let [even, fixed] = [0, 0];
  currents.forEach(({ frequency, current }, index) => {
    if (current === 0) return;
    const { square, field } = index === 0 ? load : load.further[index - 1]!;
    const density = current ** 2 / area;
    carried.push({ density, frequency, square, field });
    even += density * square;
    fixed += (current ** 2 * square * load.joints * joint) / length;
  });
  return { kind, layer, area, currents: carried, even, fixed };
}

/** All that the heat of chains depends on beside their loads, as one text, with the currents of these loads. */
export function chainsKey(
  { runs, core }: LoadedChains,
  { metal, sections, further, fields, joint }: LossBasis,
  loads: readonly PathLoad[],
): string {
  const chains = runs.map((run) =>
    run.map(({ chain: { pieces, ends }, loads: ofPieces, count: alike }) => [
      alike,
      ends,
      ...pieces.map((each) => Object.values(each)),
      ...ofPieces.map((each) => Object.values(each)),
    ]),
  );
  // How further currents load the bars stands with the loads.
  const currents = loads.map(({ frequency, pathCurrent }) =>
    further.map(({ at }) => at({ frequency, current: pathCurrent })),
  );
  return JSON.stringify([chains, core, metal.name, sections, loads, currents, fields, joint]);
}

/** How many steps a value counts: what differs by less is alike. */
function rounded(value: number, step: number): number {
  return Math.round(value / step);
}
