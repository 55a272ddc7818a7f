import {
  electricalFrequency,
  machineValue,
  parallelPaths,
  phaseConnection,
  phaseCurrent,
  phasesPerSet,
} from '../analysis/machineInputs.ts';
import { innerGapShare } from '../analysis/magneticGap.ts';
import {
  assuming,
  derive,
  deriveFigure,
  type Figure,
  known,
  knownIf,
  missing,
  orNull,
} from '../figures/figure.ts';
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
} from './acLoss.ts';
import { barCurrents, type CarriedCurrents, equalBarCurrents, largestCarried } from './carriedCurrents.ts';
import { barsPerLayer, type CopperInput, type GeometryFigures, resistanceFigure } from './geometryFigures.ts';
import { type CycleHeat, cycleHeatSteps, type HeatStage } from './heat/cycleHeat.ts';
import { type BarHeatFigures, heatChains, hottestBar } from './heat/hottestBar.ts';
import type { LoadedChains, PathLoad } from './heat/loadedChains.ts';
import type { Metal } from './metals.ts';
import { lineResistance, type PathConductor, type Resistances } from './resistance.ts';
import { phi, psi } from './skinEffect.ts';

/** Frequency, warm resistance and AC ratios: what does not depend on the currents of the paths. */
export interface OperationFigures {
  readonly frequency: Figure<number>;
  readonly resistivity: Figure<number>;
  readonly resistance: Figure<Resistances>;
  readonly lineResistance: Figure<number>;
  readonly weights: Figure<FieldWeights>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly ratios: Figure<AcRatios>;
  readonly barRatio: Figure<number>;
}

/** What the currents of the paths make: losses and heat. */
export interface LossFigures {
  readonly currentDensity: Figure<number>;
  /** Of rings, which carry all paths of a phase; null where the text asks for none. */
  readonly ringCurrentDensity: Figure<number> | null;
  readonly dcLoss: Figure<number>;
  readonly acLoss: Figure<number>;
  readonly heat: Figure<BarHeatFigures>;
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
  const connection = phaseConnection(specification);
  return {
    frequency,
    resistivity,
    resistance,
    lineResistance: deriveFigure({ resistance, connection }, (given) =>
      knownIf(
        lineResistance(given.connection, given.resistance.phase, phasesPerSet(winding)),
        'connect star or delta',
      ),
    ),
    weights,
    sections,
    ratios,
    barRatio: assuming(
      derive({ ratios, active, areas, conductors }, (given) => wholeBarRatio(winding, given)),
      endsCarryDirect,
    ),
  };
}

interface BarConductors {
  readonly ratios: AcRatios;
  readonly active: readonly number[];
  readonly areas: readonly number[];
  readonly conductors: readonly PathConductor[];
}

/** AC over DC resistance of whole bars, their ends without eddies. */
function wholeBarRatio(winding: Winding, { ratios, active, areas, conductors }: BarConductors): number {
  const plain = conductors.reduce((sum, path) => sum + path.lengthOverArea, 0);
  return 1 + addedConductor(winding, ratios, active, areas) / plain;
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
  geometry: GeometryFigures,
  operation: OperationFigures,
  carried: Figure<CarriedCurrents>,
): LossFigures {
  const { winding, specification } = input;
  const { active, areas, metal, conductors, connected } = geometry;
  const { frequency, resistivity, sections } = operation;
  const current = phaseCurrent(specification, winding);
  const pathCurrent = derive(
    { current, paths: parallelPaths(specification, winding) },
    (given) => given.current / given.paths,
  );
  const loads = carriedLoads(input, carried);
  return {
    currentDensity: currentDensity(
      areas,
      derive({ carried, pathCurrent }, (given) => largestCarried(given.carried) * given.pathCurrent),
    ),
    ringCurrentDensity: specification.connect?.rings ? ringDensity(input, current) : null,
    dcLoss: derive({ connected, conductors, carried, current, resistivity }, (given) => {
      const squares = squaresOf(given.connected.paths, given.carried);
      return given.current ** 2 * given.resistivity * carriedConductor(given.conductors, squares);
    }),
    acLoss: assuming(
      derive({ loads, sections, active, areas, frequency, pathCurrent, resistivity }, (given) => {
        const added = given.loads.map((each) => addedByEddies(winding, each, given));
        return given.pathCurrent ** 2 * given.resistivity * Math.max(...added);
      }),
      endsCarryDirect,
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
    }),
  };
}

/** Heat of bars whose paths carry equal currents of any size and frequency. */
export interface HeatOfCurrents {
  /** Of the hottest bar; null where no steady temperature is reached. */
  readonly steady: (load: PathLoad) => BarHeatFigures | null;
  /** Of stages that follow each other again and again, in small steps of work; null where no cycle settles. */
  readonly cycle: (stages: readonly HeatStage[]) => Generator<undefined, CycleHeat | null>;
  /** All that a cycle depends on beside its stages. */
  readonly basis: {
    readonly chains: LoadedChains;
    readonly metal: Metal;
    readonly sections: readonly LayerSection[];
  };
}

/** The heat of any currents, in bars cooled as the text says. */
export function heatOfCurrents(
  { specification, winding, space }: CopperInput,
  { active, areas, metal, connected }: GeometryFigures,
  { sections }: OperationFigures,
): Figure<HeatOfCurrents> {
  const loads = derive(
    {
      rows: fieldRows(specification, winding),
      strands: barStrandsOfLayers(specification, winding.layers),
      share: innerGapShare(specification, winding),
    },
    (given) => [barLoads(winding, given.rows, given.strands, given.share, equalBarCurrents(winding))],
  );
  const conditions = { active, areas, loads, sections, metal, connected, space };
  const chains = heatChains(specification, winding, conditions);
  return derive({ chains, sections, metal }, (given) => ({
    steady: ({ frequency, pathCurrent, worst }) =>
      orNull(
        hottestBar(specification, winding, {
          ...conditions,
          frequency: known(frequency),
          pathCurrent: known(pathCurrent),
          worst,
        }),
      ),
    cycle: (stages) => cycleHeatSteps(given.chains, given.metal, given.sections, stages),
    basis: given,
  }));
}

/** What loads each bar, for each way to run. */
function carriedLoads(
  { winding, specification, paths }: CopperInput,
  carried: Figure<CarriedCurrents>,
): Figure<readonly BarLoads[]> {
  const figures = {
    carried,
    rows: fieldRows(specification, winding),
    strands: barStrandsOfLayers(specification, winding.layers),
    share: innerGapShare(specification, winding),
  };
  return derive(figures, (given) =>
    barCurrents(winding, paths, given.carried).map((currents) =>
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

/** Sum over the paths of length over area times their squared currents, of the way to run that loses most, 1/m. */
function carriedConductor(
  conductors: readonly PathConductor[],
  squares: readonly (readonly number[])[],
): number {
  return Math.max(
    ...squares.map((run) =>
      conductors.reduce((sum, { lengthOverArea }, path) => sum + lengthOverArea * run[path]!, 0),
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

/** DC loss and what eddies add. */
export function totalLoss({ dcLoss: dc, acLoss: ac }: LossFigures): Figure<number> {
  return derive({ dc, ac }, (given) => given.dc + given.ac);
}
