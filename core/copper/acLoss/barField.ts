import { vacuumPermeability } from '../../analysis/emf/gaps.ts';
import { slotOfLayer } from '../../analysis/machineInputs.ts';
import { allOf, assuming, derive, type Figure, known } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { BarField } from '../../language/specification/statements.ts';
import { barHeight, barStrands, barWidth } from '../../sizes/barInputs.ts';
import type { Winding } from '../../winding/model.ts';

/** The rotor's field at the bars of a layer and what it meets there; T peak, m. */
export interface LayerField extends BarField {
  /** Of the bar, across the slot. */
  readonly width: number;
  /** Along the slot depth. */
  readonly strandHeight: number;
}

const noField = 'no eddies from the rotor\u2019s field in the bars: slot bar-field is not given';
const ofStack = 'eddies from the rotor\u2019s field in the bars: within the stack only, fundamental';

/** The rotor's field at the bars of each layer, null where none is stated. */
export function layerFields(
  specification: Specification,
  winding: Winding,
): Figure<readonly (LayerField | null)[]> {
  if (!specification.slots.some(({ barField }) => barField))
    return known(
      Array.from({ length: winding.layers }, () => null),
      noField,
    );
  const layers = Array.from({ length: winding.layers }, (_, layer): Figure<LayerField | null> => {
    const field = slotOfLayer(specification, layer)?.barField?.value;
    if (!field) return known(null, `${noField} for every layer`);
    return derive(
      {
        width: barWidth(specification, layer),
        height: barHeight(specification, layer),
        strands: barStrands(specification, layer),
      },
      ({ width, height, strands }) => ({ ...field, width, strandHeight: height / strands }),
    );
  });
  return assuming(allOf(layers), ofStack);
}

/**
 * Loss density of the eddies that an alternating field drives in a bar, W/m3, at a frequency in Hz and a
 * resistivity in ohm m: (pi f)^2 (Br^2 w^2 + Bt^2 h^2)/(6 rho) for the width w and the strand height h, each
 * term with what the eddies crowd towards the faces, the mean over the bar as stated. Plates in an alternating
 * field, one dimension; Lammeraner and Stafl, Eddy Currents (from memory).
 */
export function fieldLossDensity(
  { radial, tangential, width, strandHeight }: LayerField,
  frequency: number,
  rho: number,
): number {
  if (frequency === 0) return 0;
  const depth = Math.sqrt(rho / (Math.PI * frequency * vacuumPermeability));
  const term = (peak: number, side: number) => (peak * side) ** 2 * crowded(side / depth);
  return ((Math.PI * frequency) ** 2 * (term(radial, width) + term(tangential, strandHeight))) / (6 * rho);
}

/** 3 (sinh x - sin x)/(x (cosh x - cos x)): 1 for thin plates, 3/x for thick ones. */
function crowded(x: number): number {
  // Leading terms of the series: 1 - x^4/630 + ...
  if (x < 0.05) return 1 - x ** 4 / 630;
  if (x > 40) return 3 / x;
  return (3 * (Math.sinh(x) - Math.sin(x))) / (x * (Math.cosh(x) - Math.cos(x)));
}
