import { derive, orNull } from '../figures/figure.ts';
import type { Range } from '../language/finding.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { fittingLead, mostTorque } from './capability.ts';
import type { OperationBasis } from './operation.ts';
import { axisCurrent, torqueOf } from './phasors.ts';

/** What the stated voltage is too low for, as data; SI units, line voltages rms, speed in revolutions per second. */
export type VoltageProblem = { readonly range: Range; readonly voltage: number } & (
  | {
      readonly kind: 'voltage-too-low';
      /** What the rated point takes, the largest between two line terminals. */
      readonly needed: number;
      /** At a terminal. */
      readonly current: number;
      /** Of the rated point. */
      readonly speed: number;
      /** The text gives the angle of the current. */
      readonly written: boolean;
      /** An angle at which the same current fits, degrees, and the torque it leaves. */
      readonly fit: { readonly angle: number; readonly torque: number } | null;
      /** Of the rated point, as written. */
      readonly torque: number;
      /** Where no angle does: most torque, and the current that makes it. */
      readonly most: { readonly torque: number; readonly current: number } | null;
    }
  | { readonly kind: 'voltage-below-emf'; readonly emf: number }
);

const rounding = 1e-9;

/** Whether the rated point and the EMF at rated speed fit the stated voltage. */
export function voltageProblems(
  specification: Specification,
  winding: Winding,
  { linkage, machine, frequency, current, share, angle, factors, voltage, rated }: OperationBasis,
): readonly VoltageProblem[] {
  const statement = specification.machine?.voltage;
  if (!statement) return [];
  const at = { range: statement.statement, voltage: statement.value };
  const problems: VoltageProblem[] = [];
  const point = orNull(
    derive({ machine, frequency, current, share, angle, factors, voltage, rated }, (given) => given),
  );
  if (point && point.rated.voltage > point.voltage * (1 + rounding)) {
    const lead = fittingLead(point.machine, point.frequency, point.current, point.voltage);
    const best =
      lead === null
        ? mostTorque(point.machine, point.frequency, { current: point.current, voltage: point.voltage })
        : null;
    problems.push({
      ...at,
      kind: 'voltage-too-low',
      needed: point.rated.voltage * point.factors.largest,
      current: point.current / point.share,
      speed: point.frequency / winding.polePairs,
      written: specification.machine?.currentAngle !== undefined,
      torque: point.rated.torque,
      fit:
        lead === null
          ? null
          : {
              angle: (lead * 180) / Math.PI,
              torque: torqueOf(point.machine, axisCurrent(point.current, lead)),
            },
      most:
        best && torqueOf(point.machine, best) > 0
          ? {
              torque: torqueOf(point.machine, best),
              current: Math.hypot(best.d, best.q) / point.share,
            }
          : null,
    });
  }
  const idle = orNull(
    derive({ linkage, frequency, factors }, (given) => ({
      emf: 2 * Math.PI * given.frequency * given.linkage * given.factors.largest,
    })),
  );
  if (idle && idle.emf > statement.value * (1 + rounding))
    problems.push({ ...at, kind: 'voltage-below-emf', emf: idle.emf });
  return problems;
}
