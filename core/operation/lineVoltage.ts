import { machineValue, phaseConnection, phasesPerSet } from '../analysis/machineInputs.ts';
import { assuming, derive, type Figure } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import type { Winding } from '../winding/model.ts';

/** Voltages between line terminals over the phase voltage. */
export interface LineFactors {
  /** Between adjacent terminals of one set; of an open phase its own. */
  readonly adjacent: number;
  /** The largest of any two of one set. */
  readonly largest: number;
}

/**
 * Line voltages over the phase voltage: terminals k phases apart of a star 2 sin(pi k/m), of a ring
 * sin(pi k/m)/sin(pi/m), m the phases of one set.
 */
function lineFactors(connection: PhaseConnection, phases: number): LineFactors {
  if (connection === 'open') return { adjacent: 1, largest: 1 };
  const scale = connection === 'delta' ? 1 / Math.sin(Math.PI / phases) : 2;
  const of = (apart: number) => scale * Math.sin((Math.PI * apart) / phases);
  return { adjacent: of(1), largest: of(Math.floor(phases / 2)) };
}

/** The factors of a winding. */
export function lineFactorsOf(specification: Specification, winding: Winding): Figure<LineFactors> {
  return derive({ connection: phaseConnection(specification) }, ({ connection }) =>
    lineFactors(connection, phasesPerSet(winding)),
  );
}

/** Largest rms voltage of a phase that the stated line voltage leaves, V. */
export function phaseVoltageLimit(specification: Specification, winding: Winding): Figure<number> {
  const limit = derive(
    { voltage: machineValue(specification, 'voltage'), factors: lineFactorsOf(specification, winding) },
    ({ voltage, factors }) => voltage / factors.largest,
  );
  return phasesPerSet(winding) > 3
    ? assuming(limit, 'machine voltage: the largest voltage between any two line terminals counts')
    : limit;
}
