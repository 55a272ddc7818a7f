import { coreConductance, machineValue } from '../../analysis/machineInputs.ts';
import {
  assuming,
  derive,
  deriveFigure,
  type Figure,
  known,
  missing,
  orNull,
  undetermined,
  type Values,
} from '../../figures/figure.ts';
import type { Steps } from '../../figures/steps.ts';
import { type Measurer, underWay } from '../../figures/work.ts';
import { defaultLine } from '../../language/specification/defaults.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { machineStatements } from '../../language/vocabulary/blocks/machine.ts';
import type { Space } from '../../space/space.ts';
import type { Path, Winding } from '../../winding/model.ts';
import { type BarLoads, type LayerSection, reducedHeight } from '../acLoss/acLoss.ts';
import type { LayerField } from '../acLoss/barField.ts';
import { phi, psi } from '../acLoss/skinEffect.ts';
import type { FurtherCurrent } from '../furtherCurrents.ts';
import type { JointCount } from '../jointResistance.ts';
import { type Metal, resistivity } from '../metals.ts';
import { type HeatedBar, riseAlongBar, type SteadyHeat, steadyHeat } from './barHeat.ts';
import { type ChainHotSpot, type HeatSample, systemHotSpot } from './chainHotSpot.ts';
import type { CoreNode } from './heatChain.ts';
import {
  chainsKey,
  type LoadedChains,
  type LossBasis,
  type PathLoad,
  pathChains,
  stackChains,
  systemOf,
} from './loadedChains.ts';

/** The hottest bar: its layer (from 0), its steady heat, and the temperature of its ends; degC. */
export interface BarHeatFigures {
  /** From 0. */
  readonly layer: number;
  /** degC. */
  readonly hotSpot: number;
  /** Over the end temperature, K. */
  readonly rise: number;
  /** Mean of its slot part. */
  readonly mean: number;
  readonly place: 'slot' | 'overhang';
  /** Shares of the heat that leave by the ends and to the core. */
  readonly endShare: number;
  /** To the core, 0 to 1. */
  readonly coreShare: number;
  /** Temperature of a core that the bars heat, degC; null where it is held. */
  readonly core: number | null;
  /** Along the bar. */
  readonly profile: () => readonly HeatSample[];
}

interface Conditions {
  readonly active: Figure<readonly number[]>;
  readonly areas: Figure<readonly number[]>;
  readonly loads: Figure<readonly BarLoads[]>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly metal: Figure<Metal>;
  /** Currents beside the fundamental, the rotor's field at the bars, and joints. */
  readonly further: Figure<readonly FurtherCurrent[]>;
  readonly fields: Figure<readonly (LayerField | null)[]>;
  readonly joint: Figure<number>;
  readonly joints: Figure<JointCount>;
  /** Does what takes its time. */
  readonly measurer: Measurer;
  /** For bars whose end winding is cooled along its length. */
  readonly connected: Figure<{ readonly paths: readonly Path[] }>;
  readonly space: Figure<Space>;
}

/** What is missing where no bar reaches a steady temperature. */
export const noSteadyTemperature = 'less current, thicker bars or side cooling: no steady temperature';

const lumped =
  'heat along the bar: lumped one-dimensional estimate of the worst bar within the stack, not a thermal design; its ends are at the end temperature where it leaves the stack, so that the overhang adds no rise, and its length is that in the stack';
const alongPaths =
  'heat along the bars: one-dimensional conduction along each path from end to end, slot parts cooled to the core and end windings to the end temperature, no heat along leads and connecting pieces; a lumped estimate, not a thermal design';
const coreHeld = defaultLine(machineStatements.coreTemperature, 'that of the ends');
const coreHeated =
  'core: one node of one temperature, heated by the bars alone, as losses of the iron and heat from rotor and gap are not computed';
const noSideCooling = 'no heat from bars to the core: slot side-conductance is not given';

/** The rated load. */
interface Rated {
  readonly frequency: Figure<number>;
  /** Rms. */
  readonly pathCurrent: Figure<number>;
}

/**
 * Heat of the bar that gets hottest, with loss and resistance at its own temperature: along each path where
 * the text says how its end winding is cooled, else within the stack between ends at the end temperature.
 */
export function hottestBar(
  specification: Specification,
  winding: Winding,
  conditions: Conditions & Rated,
): Figure<BarHeatFigures> {
  const { frequency, pathCurrent } = conditions;
  const load = derive({ frequency, pathCurrent }, (given): PathLoad => ({ ...given, worst: 1 }));
  if (isFin(specification, conditions)) return finHeat(specification, winding, conditions, load);
  const spots = deriveFigure({ load }, (given) =>
    chainHeats(specification, winding, conditions, 'rated-heat', [given.load]),
  );
  return deriveFigure({ spots }, (given) => {
    const spot = given.spots[0]!;
    return spot ? known(spot) : missing(noSteadyTemperature);
  });
}

/** The same at several loads; null where no steady temperature is reached, missing while it is under way. */
export function heatAtLoads(
  specification: Specification,
  winding: Winding,
  conditions: Conditions,
  loads: readonly PathLoad[],
): Figure<readonly (BarHeatFigures | null)[]> {
  if (!isFin(specification, conditions))
    return chainHeats(specification, winding, conditions, 'duty-heat', loads);
  return known(loads.map((load) => orNull(finHeat(specification, winding, conditions, known(load)))));
}

/** Whether bars are fins of even loss between held ends, which have a closed form. */
function isFin(specification: Specification, { further, fields }: Conditions): boolean {
  const even =
    further.known &&
    further.value.length === 0 &&
    fields.known &&
    fields.value.every((field) => field === null);
  const { coreTemperature } = specification.machine ?? {};
  return even && !specification.bar?.endConductance && !coreTemperature && !heatsCore(specification);
}

/** Whether the text lets the core follow the heat of the bars. */
export function heatsCore({ machine }: Specification): boolean {
  return Boolean(machine?.coreHeat ?? machine?.coreCooling ?? machine?.coolantTemperature);
}

/** What the bars are cooled by in the stack: a core that is held, by default at the end temperature, or that they heat. */
function coreOf(specification: Specification): Figure<number | CoreNode> {
  const { coreTemperature, coreHeat } = specification.machine ?? {};
  if (coreTemperature) return known(coreTemperature.value);
  if (!heatsCore(specification)) return assuming(machineValue(specification, 'endTemperature'), coreHeld);
  return assuming(
    derive(
      {
        cooling: machineValue(specification, 'coreCooling'),
        coolant: machineValue(specification, 'coolantTemperature'),
      },
      (given) => ({ heatCapacity: coreHeat?.value ?? null, ...given }),
    ),
    coreHeated,
  );
}

/** The chains of a winding, as its text has them cooled. */
export function heatChains(
  specification: Specification,
  winding: Winding,
  conditions: Omit<Conditions, 'measurer'>,
): Figure<LoadedChains> {
  const { active, areas, loads, metal, sections, connected, space, further, joints } = conditions;
  const endTemperature = machineValue(specification, 'endTemperature');
  const endConductance = specification.bar?.endConductance?.value;
  const core = coreOf(specification);
  const base = { active, areas, loads, metal, sections, endTemperature, core, further };
  const made = <J>(given: Values<typeof base>, joint: J) => ({
    specification,
    winding,
    ...given,
    runs: given.loads,
    joints: joint,
  });
  const lines = specification.slots.some(({ sideConductance }) => sideConductance) ? [] : [noSideCooling];
  if (endConductance === undefined)
    return assuming(
      derive(base, (given) => stackChains(made(given, null))),
      lumped,
      ...lines,
    );
  return assuming(
    derive({ ...base, connected, space, joints }, (given) =>
      pathChains(made(given, given.joints), given.connected.paths, given.space, endConductance),
    ),
    alongPaths,
    ...lines,
  );
}

/** Hot spots of chains at several loads, as one piece of work. */
function chainHeats(
  specification: Specification,
  winding: Winding,
  conditions: Conditions,
  kind: 'rated-heat' | 'duty-heat',
  loads: readonly PathLoad[],
): Figure<readonly (BarHeatFigures | null)[]> {
  const { metal, sections, further, fields, joint, measurer } = conditions;
  const chains = heatChains(specification, winding, conditions);
  const endTemperature = machineValue(specification, 'endTemperature');
  const basis = { metal, sections, further, fields, joint };
  return deriveFigure({ chains, ...basis, endTemperature }, (given) => {
    const spots = measurer({
      kind,
      key: () => chainsKey(given.chains, given, loads),
      steps: () => hottestOfAll(given.chains, given, loads),
    });
    if (spots === null) return undetermined(underWay);
    return known(
      spots.map((spot) => {
        if (spot === null) return null;
        const { profile, ...rest } = spot;
        return { ...rest, rise: spot.hotSpot - given.endTemperature, profile: () => profile };
      }),
    );
  });
}

function* hottestOfAll(
  chains: LoadedChains,
  basis: LossBasis,
  loads: readonly PathLoad[],
): Steps<readonly (ChainHotSpot | null)[]> {
  const found: (ChainHotSpot | null)[] = [];
  for (const load of loads) found.push(yield* hottestOf(chains, basis, load));
  return found;
}

/** The hottest place of all ways to run; null where no steady temperature is reached. */
function* hottestOf(
  { runs, core }: LoadedChains,
  basis: LossBasis,
  load: PathLoad,
): Steps<ChainHotSpot | null> {
  let hottest: ChainHotSpot | null = null;
  for (const chains of runs) {
    yield;
    const spot = systemHotSpot(systemOf(chains, core, [load], basis), load);
    if (spot === null) return null;
    if (hottest === null || spot.hotSpot > hottest.hotSpot) hottest = spot;
  }
  return hottest;
}

/** In each layer the bar that loses most, between ends at the end temperature where it leaves the stack. */
function finHeat(
  specification: Specification,
  winding: Winding,
  conditions: Conditions,
  load: Figure<PathLoad>,
): Figure<BarHeatFigures> {
  const { active, areas, loads, sections, metal } = conditions;
  const endTemperature = machineValue(specification, 'endTemperature');
  return deriveFigure({ active, areas, loads, sections, metal, load, endTemperature }, (given) => {
    const { frequency, pathCurrent, worst } = given.load;
    let hottest: { readonly layer: number; readonly bar: HeatedBar; readonly heat: SteadyHeat } | null = null;
    for (let layer = 0; layer < winding.layers; layer++) {
      const ofLayer = loadsOfLayer(winding, given.loads, layer);
      if (ofLayer.length === 0) continue;
      const bar: HeatedBar = {
        length: given.active[layer]!,
        area: given.areas[layer]!,
        conductivity: given.metal.thermalConductivity,
        sideConductance: coreConductance(specification, layer),
      };
      const heat = steadyHeat(bar, given.endTemperature, (temperature) => {
        const rho = resistivity(given.metal, temperature);
        const xi = reducedHeight(given.sections[layer]!, frequency, rho);
        const [own, others] = [phi(xi), psi(xi)];
        const most = ofLayer.reduce(
          (largest, { square, field }) => Math.max(largest, square * own + field * others),
          0,
        );
        return (((worst * pathCurrent) ** 2 * rho) / bar.area) * most;
      });
      if (heat === null) return missing(noSteadyTemperature);
      if (hottest === null || heat.hotSpot > hottest.heat.hotSpot) hottest = { layer, bar, heat };
    }
    if (hottest === null) return missing('layout');
    const { layer, bar, heat } = hottest;
    const lines = bar.sideConductance === 0 ? [lumped, noSideCooling] : [lumped];
    const figures: BarHeatFigures = {
      layer,
      hotSpot: heat.hotSpot,
      rise: heat.rise,
      mean: heat.mean,
      place: 'slot',
      endShare: heat.endShare,
      coreShare: 1 - heat.endShare,
      core: null,
      profile: () => finProfile(bar, heat.loss, given.endTemperature),
    };
    return known(figures, ...lines);
  });
}

const profileSamples = 41;

function finProfile(bar: HeatedBar, loss: number, endTemperature: number): readonly HeatSample[] {
  return Array.from({ length: profileSamples }, (_, index) => {
    const position = bar.length * (index / (profileSamples - 1) - 0.5);
    return { position, temperature: endTemperature + riseAlongBar(bar, loss, position) };
  });
}

interface Load {
  readonly square: number;
  readonly field: number;
}

/** The loads of a layer's bars that can be the largest: of each current, the one in the strongest field. */
function loadsOfLayer(winding: Winding, runs: readonly BarLoads[], layer: number): readonly Load[] {
  const { slots, cells } = winding.table;
  const strongest = new Map<number, Load>();
  for (const { square, field } of runs) {
    for (let place = layer * slots; place < (layer + 1) * slots; place++) {
      if (cells[place] === 0) continue;
      const load = { square: square[place]!, field: field[place]! };
      const key = Math.round(load.square * 1e9);
      const before = strongest.get(key);
      if (!before || load.field > before.field) strongest.set(key, load);
    }
  }
  return [...strongest.values()];
}
