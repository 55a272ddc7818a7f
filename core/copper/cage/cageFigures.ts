import { ratedTorque } from '../../analysis/emf/emf.ts';
import { derive, deriveFigure, type Figure, known, knownIf, missing, orNull } from '../../figures/figure.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { significant } from '../../language/numbers.ts';
import { barStrandsOfLayers } from '../../sizes/barInputs.ts';
import type { CopperInput, GeometryFigures } from '../geometryFigures.ts';
import {
  type CageFigures,
  type CageLayer,
  type CageStresses,
  cageStiffness,
  cageStresses,
  layersCross,
} from './cage.ts';

/** Figures of the cage of bars. */
export interface CageResult {
  /** That the cage carries, Nm. */
  readonly torque: Figure<number>;
  readonly cage: Figure<CageFigures>;
  /** Of crossed bars only. */
  readonly cageStiffness: Figure<number>;
  readonly cageStresses: Figure<CageStresses>;
}

/** Stiffness of the cage that the bars make, and stresses in it at the torque of the machine. */
export function cageFigures(
  input: CopperInput,
  { cageLayers, stack, metal }: Pick<GeometryFigures, 'cageLayers' | 'stack' | 'metal'>,
): CageResult {
  const torque = ratedTorque(input.specification, input.winding, input.windingFactor);
  const cage = derive({ cageLayers, stack, metal }, (given) =>
    cageStiffness(given.cageLayers, given.stack, given.metal),
  );
  const crossing = layersCross(input.winding.lean) ? known(true) : missing(crossingLayers);
  const crossed = derive({ cageLayers, cage, crossing }, (given) => given);
  const strands = orNull(barStrandsOfLayers(input.specification, input.winding.layers)) ?? [];
  const solid = strands.some((count) => count > 1) ? [solidBars] : [];
  return {
    torque,
    cage,
    cageStiffness: deriveFigure({ crossed }, ({ crossed: { cage: figures, cageLayers: layers } }) =>
      known(figures.stiffness, ...cageAssumptions(figures, layers), ...solid),
    ),
    cageStresses: deriveFigure({ crossed, stack, metal, torque }, (given) =>
      knownIf(cageStresses(given.crossed.cageLayers, given.stack, given.metal, given.torque), crossingLayers),
    ),
  };
}

/** What is missing where bars do not cross. */
export const crossingLayers = 'layout skew of crossing layers';

const leftOut =
  'crossed-bar cage: bars clamped in rings that are rigid and held axially; the compliance of the rings, insulation, joints, fatigue, buckling and unbalanced pull are left out';
const pulledAxially =
  'crossed-bar cage: the families of bars do not balance axially, so torque also pulls at the rings along the axis';
const solidBars = 'crossed-bar cage: the strands of a bar count as one solid bar';
const freeBetweenRings =
  'crossed-bar cage: crossing layers do not touch, so the bars are free between the rings';

/** Bow over the distance of the supports up to which the stiffness is within 4 % of that of beams in space. */
const shallow = 0.01;

function cageAssumptions({ balanced, bow }: CageFigures, layers: readonly CageLayer[]): readonly string[] {
  const held = layers.flatMap(({ spans }, layer) => (spans.length > 1 ? [layerLetter(layer)] : []));
  const bowed = `crossed-bar cage: bars bow by ${significant(100 * bow, 2)} % of the distance between their supports; beyond 1 % the stiffness is up to 15 % less than that of beams in space`;
  return [
    leftOut,
    held.length === 0
      ? freeBetweenRings
      : `crossed-bar cage: layers ${held.join(' ')} touch crossing ones and are held radially where they cross, whichever way the torque acts`,
    ...(balanced ? [] : [pulledAxially]),
    ...(bow > shallow ? [bowed] : []),
  ];
}
