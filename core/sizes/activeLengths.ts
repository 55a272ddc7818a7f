import { machineValue } from '../analysis/machineInputs.ts';
import { deriveFigure, type Figure, known } from '../figures/figure.ts';
import { defaultLines } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { layoutStatements } from '../language/vocabulary/blocks/winding.ts';
import type { Winding } from '../winding/model.ts';

/** Length of a bar within the stack that leans by `lean` radians over a stack of `stack` m at a radius in m. */
export function activeLength(stack: number, lean: number, radius: number): number {
  return Math.hypot(stack, lean * radius);
}

/** Length of each layer's bars within the stack, m; only leaning bars need their radius. */
export function activeLengths(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): Figure<readonly number[]> {
  const skew = defaultLines(layoutStatements.skew, specification.layout?.skew);
  const stack = machineValue(specification, 'stack');
  const straight = winding.lean.every((lean) => lean === 0);
  return deriveFigure({ stack, radii: straight ? known(winding.lean) : radii }, (given) =>
    known(
      winding.lean.map((lean, layer) => activeLength(given.stack, lean, given.radii[layer]!)),
      ...skew,
    ),
  );
}
