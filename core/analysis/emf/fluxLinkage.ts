import { derive, type Figure, knownIf } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import { machineValue, seriesTurns } from '../machineInputs.ts';

/** Peak flux linkage of one phase, N kw Phi, Vs. */
export function fluxLinkage(
  specification: Specification,
  winding: Winding,
  windingFactor: number | null,
): Figure<number> {
  return derive(
    {
      turns: seriesTurns(specification, winding),
      factor: knownIf(windingFactor, 'layout'),
      flux: machineValue(specification, 'flux'),
    },
    ({ turns, factor, flux }) => turns * factor * flux,
  );
}
