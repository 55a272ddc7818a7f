import { innerGapShare } from '../analysis/gap/magneticGap.ts';
import { electricalFrequency, machineValue, parallelPaths, phaseCurrent } from '../analysis/machineInputs.ts';
import { assuming, derive, deriveFigure, type Figure, known, missing, orNull } from '../figures/figure.ts';
import type { Steps } from '../figures/steps.ts';
import { measureNow } from '../figures/work.ts';
import { barStrandsOfLayers } from '../sizes/barInputs.ts';
import { currentDensity, roundedArea } from '../sizes/section.ts';
import type { Path, Winding } from '../winding/model.ts';
import {
  type AcRatios,
  acRatios,
  type BarLoads,
  barLoads,
  type FieldWeights,
  fieldRows,
  fieldWeights,
  type LayerSection,
  layerSections,
  reducedHeight,
  resistivityAt,
} from './acLoss/acLoss.ts';
import { fieldLossDensity, type LayerField, layerFields } from './acLoss/barField.ts';
import { phi, psi } from './acLoss/skinEffect.ts';
import { barCurrents, type CarriedCurrents, equalBarCurrents, largestCarried } from './carriedCurrents.ts';
import {
  type FurtherCurrent,
  orderLoads,
  type PathCurrent,
  type RingHarmonics,
  ringCurrents,
  statedCurrents,
} from './furtherCurrents.ts';
import { barsPerLayer, type CopperInput, type GeometryFigures, resistanceFigure } from './geometryFigures.ts';
import { type CycleHeat, cycleHeatSteps, type HeatStage } from './heat/cycleHeat.ts';
import { type BarHeatFigures, heatAtLoads, heatChains, hottestBar } from './heat/hottestBar.ts';
import type { LoadedChains, LossBasis, PathLoad } from './heat/loadedChains.ts';
import { jointResistance } from './jointResistance.ts';
import { type PathConductor, pathResistance, type Resistances } from './resistance.ts';

/** Frequency, warm resistance and AC ratios: what does not depend on the currents of the paths. */
export interface OperationFigures {
  /** Electrical, Hz. */
  readonly frequency: Figure<number>;
  /** At the winding temperature, ohm m. */
  readonly resistivity: Figure<number>;
  readonly resistance: Figure<Resistances>;
  readonly weights: Figure<FieldWeights>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly ratios: Figure<AcRatios>;
  /** AC over DC resistance of whole bars. */
  readonly barRatio: Figure<number>;
}

/** What most figures rest on; computed once for all that ask for problems, figures or curves. */
export interface CopperBasis {
  readonly geometry: GeometryFigures;
  readonly operation: OperationFigures;
}

/** The copper loss and its parts, W. */
export interface CopperLossParts {
  /** Of the fundamental current, without eddies. */
  readonly dc: Figure<number>;
  /** That eddies add. */
  readonly ac: Figure<number>;
  /** Of harmonics and ripple of the current, and of what circulates in a ring of phases; null where there are none. */
  readonly harmonics: Figure<number> | null;
  /** Of the eddies that the rotor's field drives in the bars; null where none is stated. */
  readonly barField: Figure<number> | null;
  /** All of them. */
  readonly total: Figure<number>;
}

/** What the currents of the paths make: losses and heat. */
export interface LossFigures {
  /** Largest of any path over the smallest bar area, A/m2 rms. */
  readonly currentDensity: Figure<number>;
  /** Of rings, which carry all paths of a phase; null where the text asks for none. */
  readonly ringCurrentDensity: Figure<number> | null;
  /** W. */
  readonly dcLoss: Figure<number>;
  /** That eddies add to it, W. */
  readonly acLoss: Figure<number>;
  /** Of harmonics and ripple of the current, and of what circulates in a ring of phases; null where there are none. */
  readonly harmonicLoss: Figure<number> | null;
  /** Of the eddies that the rotor's field drives in the bars; null where none is stated. */
  readonly fieldLoss: Figure<number> | null;
  /** All of them, W. */
  readonly totalLoss: Figure<number>;
  readonly heat: Figure<BarHeatFigures>;
}

/** Losses beside those of the fundamental, at any frequency in Hz and path current in A; W. */
export interface FurtherLosses {
  /** For a path current of the fundamental, rms. */
  readonly harmonics: (fundamental: PathCurrent) => number;
  /** For an electrical frequency. */
  readonly field: (frequency: number) => number;
}

/** Currents and fields beside the fundamental, and their losses. */
export interface FurtherFigures {
  /** All that are known, for heat and the total. */
  readonly currents: Figure<readonly FurtherCurrent[]>;
  /** Missing where what circulates is not known; `counted` then leaves it out. */
  readonly harmonics: Figure<FurtherLosses['harmonics']>;
  readonly counted: Figure<FurtherLosses['harmonics']>;
  readonly fields: Figure<readonly (LayerField | null)[]>;
  readonly field: Figure<FurtherLosses['field']>;
  /** Which of them the text leaves out: their figures are none, not missing. */
  readonly none: { readonly harmonics: boolean; readonly field: boolean };
}

const endsCarryDirect = 'end windings carry their DC loss only';

/** Resistances and AC ratios at the operating point. */
export function operationFigures(input: CopperInput, geometry: GeometryFigures): OperationFigures {
  const { winding, specification } = input;
  const { active, areas, metal, conductors } = geometry;
  const frequency = electricalFrequency(specification, winding);
  const resistivity = resistivityAt(metal, machineValue(specification, 'windingTemperature'));
  const resistance = resistanceFigure(conductors, resistivity);
  const weights = fieldWeights(specification, winding);
  const sections = layerSections(specification, winding);
  const ratios = derive({ weights, sections, frequency, resistivity }, (given) =>
    acRatios(given.weights, given.sections, given.frequency, given.resistivity),
  );
  return {
    frequency,
    resistivity,
    resistance,
    weights,
    sections,
    ratios,
    barRatio: assuming(
      derive({ resistivity, ratios, active, areas, conductors }, (given) => wholeBarRatio(winding, given)),
      endsCarryDirect,
    ),
  };
}

interface BarConductors {
  readonly resistivity: number;
  readonly ratios: AcRatios;
  readonly active: readonly number[];
  readonly areas: readonly number[];
  readonly conductors: readonly PathConductor[];
}

/** AC over DC resistance of whole bars, their ends without eddies. */
function wholeBarRatio(
  winding: Winding,
  { resistivity, ratios, active, areas, conductors }: BarConductors,
): number {
  const plain = conductors.reduce((sum, path) => sum + pathResistance(path, resistivity), 0);
  return 1 + (resistivity * addedConductor(winding, ratios, active, areas)) / plain;
}

/** Resistance of a phase at any frequency in Hz, with what eddies add to it under equal currents, ohm. */
export function resistanceOverFrequency(
  { winding }: CopperInput,
  { active, areas, conductors }: GeometryFigures,
  { resistance, weights, sections, resistivity }: OperationFigures,
): Figure<(frequency: number) => number> {
  return assuming(
    derive(
      { resistance, weights, sections, resistivity, active, areas, conductors },
      (given) => (frequency: number) =>
        given.resistance.phase *
        wholeBarRatio(winding, {
          ...given,
          ratios: acRatios(given.weights, given.sections, frequency, given.resistivity),
        }),
    ),
    endsCarryDirect,
  );
}

/** The current of a whole phase over the section of a ring, A/m2. */
function ringDensity({ space }: CopperInput, current: Figure<number>): Figure<number> {
  return deriveFigure({ space, current }, (given) => {
    const areas = given.space.rings.map(({ section: { width, height, corner } }) =>
      roundedArea(width, height, corner),
    );
    return areas.length > 0
      ? known(given.current / Math.min(...areas))
      : missing('connect path ends that a ring can join');
  });
}

/** Losses and heat of what the paths carry. */
export function lossFigures(
  input: CopperInput,
  { geometry, operation }: CopperBasis,
  carried: Figure<CarriedCurrents>,
  further: FurtherFigures,
): LossFigures {
  const { winding, specification } = input;
  const { active, areas, metal, conductors, connected, joints } = geometry;
  const { frequency, resistivity, sections } = operation;
  const current = phaseCurrent(specification, winding);
  const pathCurrent = derive(
    { current, paths: parallelPaths(specification, winding) },
    (given) => given.current / given.paths,
  );
  const loads = carriedLoads(input, carried);
  const dcLoss = derive({ connected, conductors, carried, current, resistivity }, (given) => {
    const squares = squaresOf(given.connected.paths, given.carried);
    return given.current ** 2 * carriedResistance(given.conductors, given.resistivity, squares);
  });
  const acLoss = assuming(
    derive({ loads, sections, active, areas, frequency, pathCurrent, resistivity }, (given) => {
      const added = given.loads.map((each) => addedByEddies(winding, each, given));
      return given.pathCurrent ** 2 * given.resistivity * Math.max(...added);
    }),
    endsCarryDirect,
  );
  const harmonicsAt = (losses: FurtherFigures['harmonics']) =>
    derive({ losses, frequency, pathCurrent }, (given) =>
      given.losses({ frequency: given.frequency, current: given.pathCurrent }),
    );
  const fieldLoss = derive({ field: further.field, frequency }, (given) => given.field(given.frequency));
  return {
    currentDensity: currentDensity(
      areas,
      derive({ carried, pathCurrent }, (given) => largestCarried(given.carried) * given.pathCurrent),
    ),
    ringCurrentDensity: specification.connect?.rings ? ringDensity(input, current) : null,
    dcLoss,
    acLoss,
    harmonicLoss: further.none.harmonics ? null : harmonicsAt(further.harmonics),
    fieldLoss: further.none.field ? null : fieldLoss,
    totalLoss: derive(
      { dcLoss, acLoss, harmonics: harmonicsAt(further.counted), fieldLoss },
      (given) => given.dcLoss + given.acLoss + given.harmonics + given.fieldLoss,
    ),
    heat: hottestBar(specification, winding, {
      active,
      areas,
      loads,
      sections,
      metal,
      frequency,
      pathCurrent,
      connected,
      space: input.space,
      further: further.currents,
      fields: further.fields,
      joint: jointResistance(specification),
      joints,
      measurer: input.measurer ?? measureNow,
    }),
  };
}

const noRing =
  'harmonics that circulate in the ring of phases are not counted: they need machine rotor-field, and the gap and slots that the inductance of the ring follows from';

/** Currents and fields beside the fundamental. `ring` tells what circulates in a ring of phases; null: no ring. */
export function furtherFigures(
  { winding, specification }: CopperInput,
  { geometry: { active, areas, conductors }, operation: { sections, resistivity } }: CopperBasis,
  ring: Figure<RingHarmonics> | null,
): FurtherFigures {
  const stated = statedCurrents(specification, winding);
  const circulating = ring && ringCurrents(specification, winding, ring);
  const all = circulating
    ? derive({ stated, circulating }, (given) => [...given.stated, ...given.circulating])
    : stated;
  const counted = all.known || circulating?.known ? all : assuming(stated, noRing);
  const lossOf = (currents: Figure<readonly FurtherCurrent[]>): FurtherFigures['harmonics'] =>
    currents.known && currents.value.length === 0
      ? derive({ currents }, () => () => 0)
      : derive({ currents, sections, active, areas, conductors, resistivity }, (given) => (fundamental) => {
          let loss = 0;
          for (const { loads, at } of given.currents) {
            const { frequency, current } = at(fundamental);
            if (current !== 0)
              loss += current ** 2 * resistanceOfLoads(winding, loads, { ...given, frequency });
          }
          return loss;
        });
  const fields = layerFields(specification, winding);
  const none = {
    harmonics: ring === null && stated.known && stated.value.length === 0,
    field: fields.known && fields.value.every((field) => field === null),
  };
  return {
    none,
    currents: counted,
    harmonics: lossOf(all),
    counted: lossOf(counted),
    fields,
    field: none.field
      ? derive({ fields }, () => () => 0)
      : derive({ fields, active, areas, resistivity }, (given) => (frequency) => {
          const bars = barsPerLayer(winding);
          return given.fields.reduce((sum, field, layer) => {
            const volume = bars[layer]! * given.active[layer]! * given.areas[layer]!;
            return field ? sum + volume * fieldLossDensity(field, frequency, given.resistivity) : sum;
          }, 0);
        }),
  };
}

/** Resistance of a phase of the ring while all phases carry the same current, ohm at a frequency in Hz. */
export function ringResistance(
  { winding, specification }: CopperInput,
  { geometry: { active, areas, conductors }, operation: { sections, resistivity } }: CopperBasis,
): Figure<(frequency: number) => number> {
  const loads = orderLoads(specification, winding);
  const paths = parallelPaths(specification, winding);
  return derive({ loads, sections, active, areas, conductors, resistivity, paths }, (given) => {
    const equal = given.loads(winding.phases.names.length / winding.phases.sets);
    return (frequency) =>
      resistanceOfLoads(winding, equal, { ...given, frequency }) /
      (winding.phases.names.length * given.paths ** 2);
  });
}

/** Loss of all bars for one ampere rms a path, ohm. */
function resistanceOfLoads(
  winding: Winding,
  loads: BarLoads,
  given: EddyConditions & { readonly conductors: readonly PathConductor[] },
): number {
  const direct = given.conductors.reduce((sum, path) => sum + pathResistance(path, given.resistivity), 0);
  return direct + given.resistivity * addedByEddies(winding, loads, given);
}

/** Heat of bars whose paths carry equal currents of any size and frequency. */
export interface HeatOfCurrents {
  /** Of the hottest bar at each load, missing while it is under way; null where no steady temperature is reached. */
  readonly steady: (loads: readonly PathLoad[]) => Figure<readonly (BarHeatFigures | null)[]>;
  /** Of stages that follow each other again and again, in small steps of work; null where no cycle settles. */
  readonly cycle: (stages: readonly HeatStage[]) => Steps<CycleHeat | null>;
  /** All that a cycle depends on beside its stages. */
  readonly basis: LossBasis & { readonly chains: LoadedChains };
}

/** The heat of any currents, in bars cooled as the text says. */
export function heatOfCurrents(
  { specification, winding, space, measurer = measureNow }: CopperInput,
  { active, areas, metal, connected, joints }: GeometryFigures,
  { sections }: OperationFigures,
  { currents: further, fields }: FurtherFigures,
): Figure<HeatOfCurrents> {
  const loads = derive(
    {
      rows: fieldRows(specification, winding),
      strands: barStrandsOfLayers(specification, winding.layers),
      share: innerGapShare(specification, winding),
    },
    (given) => [barLoads(winding, given.rows, given.strands, given.share, equalBarCurrents(winding))],
  );
  const joint = jointResistance(specification);
  const basis = { sections, metal, further, fields, joint };
  const conditions = { ...basis, active, areas, loads, connected, space, joints };
  const chains = heatChains(specification, winding, conditions);
  return derive({ chains, ...basis }, (given) => ({
    steady: (all) => heatAtLoads(specification, winding, { ...conditions, measurer }, all),
    cycle: (stages) => cycleHeatSteps(given.chains, given, stages),
    basis: given,
  }));
}

/** What loads each bar, for each way to run. */
function carriedLoads(
  { winding, specification, connected }: CopperInput,
  carried: Figure<CarriedCurrents>,
): Figure<readonly BarLoads[]> {
  const figures = {
    carried,
    rows: fieldRows(specification, winding),
    strands: barStrandsOfLayers(specification, winding.layers),
    share: innerGapShare(specification, winding),
  };
  return derive(figures, (given) =>
    barCurrents(winding, orNull(connected)?.paths ?? [], given.carried).map((currents) =>
      barLoads(winding, given.rows, given.strands, given.share, currents),
    ),
  );
}

/** Square of each path's current relative to its phase's current; one list a way to run. */
function squaresOf(paths: readonly Path[], { runs }: CarriedCurrents): readonly (readonly number[])[] {
  const ofPhase = new Map<number, number>();
  for (const { phase } of paths) ofPhase.set(phase, (ofPhase.get(phase) ?? 0) + 1);
  const shares = paths.map(({ phase }) => 1 / ofPhase.get(phase)! ** 2);
  if (runs.length === 0) return [shares];
  return runs.map((run) => run.map(({ re, im }, path) => (re * re + im * im) * shares[path]!));
}

/** Sum over the paths of resistance times their squared currents, of the way to run that loses most, ohm. */
function carriedResistance(
  conductors: readonly PathConductor[],
  rho: number,
  squares: readonly (readonly number[])[],
): number {
  return Math.max(
    ...squares.map((run) =>
      conductors.reduce((sum, conductor, path) => sum + pathResistance(conductor, rho) * run[path]!, 0),
    ),
  );
}

interface EddyConditions {
  readonly sections: readonly LayerSection[];
  readonly active: readonly number[];
  readonly areas: readonly number[];
  readonly frequency: number;
  readonly resistivity: number;
}

/** What eddies add to the bars with their loads, as conductor length over area of an equal share, 1/m. */
function addedByEddies({ table }: Winding, { square, field }: BarLoads, given: EddyConditions): number {
  const factors = given.sections.map((section, layer) => {
    const xi = reducedHeight(section, given.frequency, given.resistivity);
    return { phi: phi(xi) - 1, psi: psi(xi), conductor: given.active[layer]! / given.areas[layer]! };
  });
  let sum = 0;
  for (let place = 0; place < square.length; place++) {
    const layer = factors[Math.floor(place / table.slots)]!;
    sum += layer.conductor * (layer.phi * square[place]! + layer.psi * field[place]!);
  }
  return sum;
}

/** What eddies add to all bars together under equal currents, as conductor length over area, 1/m. */
function addedConductor(
  winding: Winding,
  ratios: AcRatios,
  active: readonly number[],
  areas: readonly number[],
): number {
  return barsPerLayer(winding).reduce((sum, bars, layer) => {
    const ratio = ratios.layers[layer];
    return ratio == null ? sum : sum + (bars * active[layer]! * (ratio - 1)) / areas[layer]!;
  }, 0);
}

/** DC loss of the fundamental and what eddies add to it. */
export function fundamentalLoss({ dcLoss: dc, acLoss: ac }: LossFigures): Figure<number> {
  return derive({ dc, ac }, (given) => given.dc + given.ac);
}
