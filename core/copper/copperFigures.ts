import { ratedTorque } from '../analysis/emf.ts';
import { assuming, derive, deriveFigure, type Figure, known, knownIf } from '../analysis/figure.ts';
import {
  electricalFrequency,
  machineValue,
  parallelPaths,
  phaseConnection,
  phaseCurrent,
  phasesPerSet,
} from '../analysis/machineInputs.ts';
import type { Winding } from '../winding/model.ts';
import {
  type AcRatios,
  acRatios,
  type FieldWeights,
  fieldWeights,
  type LayerSection,
  layerSections,
  resistivityAt,
} from './acLoss.ts';
import { type BestHeight, bestHeights } from './bestHeight.ts';
import { type CageFigures, type CageLayer, cageStiffness, cageStress } from './cage.ts';
import { type CopperProblem, copperProblems } from './copperProblems.ts';
import { type SpareRoom, slotFill, spareRoom } from './fit.ts';
import {
  barsPerLayer,
  type CopperInput,
  type GeometryFigures,
  geometryFigures,
  resistanceFigure,
} from './geometryFigures.ts';
import { type BarHeatFigures, hottestBar } from './hottestBar.ts';
import { type PathImpedances, pathImpedances } from './pathImpedances.ts';
import { lineResistance, type Resistances } from './resistance.ts';
import { currentDensity } from './section.ts';
import { leakageRows, type SlotLeakage, slotLeakage } from './windingLeakage.ts';

/** Every figure of the copper, known or missing. SI units. */
export interface CopperFigures extends GeometryFigures, LossFigures, CageResult {
  readonly fill: Figure<number>;
  readonly spareRoom: Figure<readonly SpareRoom[]>;
  readonly leakage: Figure<SlotLeakage>;
  readonly impedances: Figure<PathImpedances>;
  readonly bestHeights: Figure<readonly BestHeight[]>;
}

/** What most figures rest on; computed once for all that ask for problems, figures or curves. */
export interface CopperBasis {
  readonly geometry: GeometryFigures;
  readonly losses: LossFigures;
}

/** Geometry and losses of the copper. */
export function copperBasis(input: CopperInput): CopperBasis {
  const geometry = geometryFigures(input);
  return { geometry, losses: lossFigures(input, geometry) };
}

/** Computes every figure once; each knows what it rests on or what it needs. */
export function copperFigures(input: CopperInput, basis: CopperBasis = copperBasis(input)): CopperFigures {
  const { winding, specification } = input;
  const { geometry, losses } = basis;
  const { areas, active, stack, connected, conductors } = geometry;
  const { weights, sections, frequency, resistivity } = losses;
  const rows = leakageRows(specification, winding, active);
  return {
    ...geometry,
    ...losses,
    ...cageFigures(input, geometry),
    fill: slotFill(specification, winding, areas),
    spareRoom: spareRoom(specification, winding),
    leakage: derive({ rows, stack, paths: parallelPaths(specification, winding) }, (given) =>
      slotLeakage(winding, given.rows, given.stack, given.paths),
    ),
    bestHeights: bestHeights(specification, winding, { weights, frequency, resistivity }),
    impedances: derive(
      { connected, conductors, rows, active, areas, weights, sections, frequency, resistivity },
      (given) => pathImpedances({ winding, ...given, paths: given.connected.paths }),
    ),
  };
}

/** What cannot be built as written, without computing the figures it does not depend on. */
export function problemsOfCopper(input: CopperInput, basis: CopperBasis): readonly CopperProblem[] {
  const { geometry, losses } = basis;
  return copperProblems(input.specification, input.winding, { ...geometry, heat: losses.heat });
}

export interface LossFigures {
  readonly frequency: Figure<number>;
  readonly resistivity: Figure<number>;
  readonly resistance: Figure<Resistances>;
  readonly lineResistance: Figure<number>;
  readonly currentDensity: Figure<number>;
  readonly weights: Figure<FieldWeights>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly ratios: Figure<AcRatios>;
  readonly barRatio: Figure<number>;
  readonly dcLoss: Figure<number>;
  readonly acLoss: Figure<number>;
  readonly heat: Figure<BarHeatFigures>;
}

const endsCarryDirect = 'end windings carry their DC loss only';

function lossFigures(input: CopperInput, geometry: GeometryFigures): LossFigures {
  const { winding, specification } = input;
  const { active, areas, metal, conductors } = geometry;
  const frequency = electricalFrequency(specification, winding);
  const resistivity = resistivityAt(metal, machineValue(specification, 'windingTemperature'));
  const resistance = resistanceFigure(conductors, resistivity);
  const current = phaseCurrent(specification, winding);
  const pathCurrent = derive(
    { current, paths: parallelPaths(specification, winding) },
    (given) => given.current / given.paths,
  );
  const weights = fieldWeights(specification, winding);
  const sections = layerSections(specification, winding);
  const ratios = derive({ weights, sections, frequency, resistivity }, (given) =>
    acRatios(given.weights, given.sections, given.frequency, given.resistivity),
  );
  const added = assuming(
    derive({ ratios, active, areas }, (given) =>
      addedConductor(winding, given.ratios, given.active, given.areas),
    ),
    endsCarryDirect,
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
    currentDensity: currentDensity(areas, pathCurrent),
    weights,
    sections,
    ratios,
    barRatio: derive({ added, conductors }, (given) => {
      const plain = given.conductors.reduce((sum, path) => sum + path.lengthOverArea, 0);
      return 1 + given.added / plain;
    }),
    dcLoss: derive({ current, resistance }, (given) =>
      given.resistance.phases.reduce((sum, ohm) => sum + given.current ** 2 * ohm, 0),
    ),
    acLoss: derive(
      { added, pathCurrent, resistivity },
      (given) => given.pathCurrent ** 2 * given.resistivity * given.added,
    ),
    heat: hottestBar(specification, winding, {
      active,
      areas,
      weights,
      sections,
      metal,
      frequency,
      pathCurrent,
    }),
  };
}

/** What eddies add to all bars together, as conductor length over area, 1/m. */
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

interface CageResult {
  readonly torque: Figure<number>;
  readonly cage: Figure<CageFigures>;
  readonly cageStress: Figure<number>;
}

const cageCaution = 'crossed-bar cage: insulation, joints, fatigue, buckling and unbalanced pull are ignored';
const heldAxially =
  'crossed-bar cage: the families of bars do not balance axially, the stiffness is an upper bound; the ends must be held axially';

function cageFigures(input: CopperInput, geometry: GeometryFigures): CageResult {
  const { cageLayers: layers, stack, metal } = geometry;
  const torque = ratedTorque(input.specification, input.winding, input.windingFactor);
  const cage = deriveFigure({ layers, stack, metal }, (given) => {
    const figures = cageStiffness(given.layers, given.stack, given.metal.elasticity);
    const leaning = figures.stiffness > 0 ? [cageCaution] : [];
    return known(figures, ...leaning, ...(figures.balanced ? [] : [heldAxially]));
  });
  return { torque, cage, cageStress: stressFigure(layers, geometry, torque) };
}

function stressFigure(
  layers: Figure<readonly CageLayer[]>,
  { stack, metal }: GeometryFigures,
  torque: Figure<number>,
): Figure<number> {
  return deriveFigure({ layers, stack, metal, torque }, (given) =>
    knownIf(cageStress(given.layers, given.stack, given.metal.elasticity, given.torque), 'layout skew'),
  );
}
