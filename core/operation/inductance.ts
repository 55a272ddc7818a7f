import { machineValue } from '../analysis/machineInputs.ts';
import { assuming, derive, type Figure, known } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';

/** What a synchronous inductance is put together from, H of a phase. */
export interface InductanceParts {
  /** Of the working wave in the gap. */
  readonly magnetizing: Figure<number>;
  /** Of all other waves in the gap. */
  readonly differential: Figure<number>;
  /** Leakage through the slots. */
  readonly slot: Figure<number>;
  /** Of the end winding. */
  readonly end: Figure<number>;
}

/** Synchronous inductances along the axes of the rotor, H. */
export interface AxisInductances {
  /** Along the axis of the rotor's flux. */
  readonly d: number;
  /** Along that of its EMF. */
  readonly q: number;
}

const roundRotor =
  'synchronous inductance: no rotor saliency and no saturation, so that both axes have the same';
const statedAxes =
  'synchronous inductances of the axes as stated, of a plane field, with the leakage of the end windings added';
/** What figures rest on that leave the end windings out. */
export const withoutEnds =
  'synchronous inductance: the leakage of the end windings counts zero, so that characteristic and short-circuit current, base and top speed are larger estimates and the terminal voltage is a smaller estimate';

/**
 * Ld and Lq: the sum of the parts, or where the text gives them those of a plane field computation in
 * place of all but the end winding's. Where that is not known it counts zero, and that is said.
 */
export function axisInductances(
  specification: Specification,
  parts: InductanceParts,
): Figure<AxisInductances> {
  const end = parts.end.known ? parts.end : known(0, withoutEnds);
  const { dInductance, qInductance } = specification.machine ?? {};
  if (dInductance || qInductance) {
    const axes = derive(
      {
        d: machineValue(specification, 'dInductance'),
        q: machineValue(specification, 'qInductance'),
        end,
      },
      (given) => ({ d: given.d + given.end, q: given.q + given.end }),
    );
    return assuming(axes, statedAxes);
  }
  const { magnetizing, differential, slot } = parts;
  const sum = derive({ magnetizing, differential, slot, end }, (given) => {
    const together = given.magnetizing + given.differential + given.slot + given.end;
    return { d: together, q: together };
  });
  return assuming(sum, roundRotor);
}
