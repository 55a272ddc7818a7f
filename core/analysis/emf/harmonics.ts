import { deriveFigure, type Figure, known, missing } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import { phaseConnection, phasesPerSet } from '../machineInputs.ts';
import { fluxLinkage } from './fluxLinkage.ts';

/** EMF with the harmonics of the stated rotor field, rms of all orders together, V. */
export interface HarmonicVoltages {
  /** Of one phase. */
  readonly phaseVoltage: number;
  /** Between adjacent line terminals; null where the phases are open. */
  readonly lineVoltage: number | null;
  /** Fundamental first; of one phase each. */
  readonly orders: readonly { readonly harmonic: number; readonly phaseVoltage: number }[];
}

interface Factors {
  readonly fundamental: number | null;
  readonly harmonic: (harmonic: number) => number | null;
}

/**
 * Harmonic EMFs from `rotor-field` statements: E_n/E_1 = (kw_n/kw_1)(B_n/B_1), since the frequency
 * grows with n and the flux of a pole falls with it. Between lines, harmonics that are equal in all
 * phases cancel (star) or circulate (delta).
 */
export function harmonicVoltages(
  specification: Specification,
  winding: Winding,
  phaseVoltage: Figure<number>,
  factors: Factors,
): Figure<HarmonicVoltages> {
  const field = (specification.machine?.rotorField ?? []).map((given) => given.value);
  const phases = phasesPerSet(winding);
  if (field.length === 0) return missing('machine rotor-field');
  return deriveFigure({ phaseVoltage, connection: phaseConnection(specification) }, (given) => {
    const { fundamental } = factors;
    if (!fundamental) return missing('layout');
    const orders = [{ harmonic: 1, phaseVoltage: given.phaseVoltage }];
    for (const { harmonic, relative } of field) {
      if (harmonic === 1) continue;
      const factor = Math.abs(factors.harmonic(harmonic) ?? 0);
      orders.push({ harmonic, phaseVoltage: given.phaseVoltage * (factor / fundamental) * relative });
    }
    const line = (harmonic: number) => lineFactor(given.connection, phases, harmonic);
    return known({
      phaseVoltage: Math.hypot(...orders.map((order) => order.phaseVoltage)),
      lineVoltage:
        given.connection === 'open'
          ? null
          : Math.hypot(...orders.map((order) => order.phaseVoltage * line(order.harmonic))),
      orders,
    });
  });
}

/**
 * Harmonics of the rotor's field that are equal in all phases, which drive a current round a ring of
 * them: rms EMF of a phase over the frequency of the harmonic, V/Hz.
 */
export function ringOrders(
  specification: Specification,
  winding: Winding,
  factorOfOrder: (order: number) => number,
): Figure<readonly { readonly harmonic: number; readonly voltagePerHertz: number }[]> {
  const field = (specification.machine?.rotorField ?? []).map((given) => given.value);
  if (field.length === 0) return missing('machine rotor-field');
  const phases = phasesPerSet(winding);
  const orders = field.filter(({ harmonic }) => harmonic % phases === 0);
  if (orders.length === 0) return known([]);
  const { polePairs } = winding;
  const linkage = fluxLinkage(specification, winding, factorOfOrder(polePairs));
  return deriveFigure({ linkage }, (given) => {
    const fundamental = factorOfOrder(polePairs);
    if (!fundamental) return missing('layout');
    return known(
      orders.map(({ harmonic, relative }) => {
        const factor = Math.abs(factorOfOrder(harmonic * polePairs)) / fundamental;
        return {
          harmonic,
          voltagePerHertz: (Math.SQRT2 * Math.PI * given.linkage * factor * relative) / harmonic,
        };
      }),
    );
  });
}

/** Line EMF of a harmonic relative to its phase EMF, between adjacent terminals. */
function lineFactor(connection: string, phases: number, harmonic: number): number {
  if (harmonic % phases === 0) return 0;
  return connection === 'delta' ? 1 : 2 * Math.abs(Math.sin((harmonic * Math.PI) / phases));
}
