import { derive, deriveFigure, type Figure, knownIf } from '../figures/figure.ts';
import type { Winding } from '../winding/model.ts';
import { bestLead, mostTorque } from './capability.ts';
import type { OperationBasis } from './operation.ts';
import { axisCurrent, leadOf, loadPoint } from './phasors.ts';
import { highestFrequency, topFrequency } from './speeds.ts';

/** One speed of the torque-speed curve; SI units, speed in revolutions per second, angle in degrees. */
export interface CurvePoint {
  /** Revolutions per second. */
  readonly speed: number;
  /** Nm. */
  readonly torque: number;
  /** At the shaft, W. */
  readonly power: number;
  /** At a terminal. */
  readonly current: number;
  /** Electrical degrees by which the current leads the EMF. */
  readonly angle: number;
  /** Rms, between adjacent line terminals, V. */
  readonly terminalVoltage: number;
  /** As a motor. */
  readonly powerFactor: number;
}

/** Speeds of the curve at the least; their step is round. */
const steps = 40;
/** The curve ends at so many times the larger of base and rated speed where the top speed is further off, or nowhere. */
const reach = 3;

/**
 * Speeds from standstill to below `end` in even steps of 1, 2 or 5 times a power of ten of revolutions per
 * minute, at least `count` of them; all in revolutions per second.
 */
export function roundSpeeds(end: number, count: number): readonly number[] {
  const most = (end * 60) / count;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = power * ([5, 2].find((factor) => factor * power <= most) ?? 1);
  const whole = Math.ceil((end * 60) / step);
  return Array.from({ length: whole }, (_, index) => (index * step) / 60);
}

/**
 * Most torque at each speed within the rated current and the voltage, the current at its best angle; from
 * standstill to the top speed, or to three times the larger of base and rated speed.
 */
export function torqueSpeedCurve(winding: Winding, basis: OperationBasis): Figure<readonly CurvePoint[]> {
  const { machine, current, share, voltage, factors, frequency } = basis;
  const curve = deriveFigure({ machine, current, share, voltage, factors }, (given) => {
    const corner = highestFrequency(
      given.machine,
      axisCurrent(given.current, bestLead(given.machine, given.current)),
      given.voltage,
    );
    const top = topFrequency(given.machine, given.current, given.voltage);
    if (corner === null || top === null) return knownIf<readonly CurvePoint[]>([]);
    const rated = frequency.known ? frequency.value : 0;
    const far = reach * Math.max(Number.isFinite(corner) ? corner : 0, rated);
    const end = Math.min(top, far > 0 ? far : top);
    if (!Number.isFinite(end)) return knownIf<readonly CurvePoint[]>([]);
    const { polePairs } = winding;
    const round = roundSpeeds(end / polePairs, steps);
    const places = new Set([...round.map((speed) => speed * polePairs), end]);
    // The corner is where the curve breaks; towards the top the torque falls ever steeper.
    if (corner < end)
      for (let left = 0; left < 1; left += 1 / 16) places.add(end - (end - corner) * (1 - left) ** 2);
    return knownIf<readonly CurvePoint[]>(
      [...places]
        .sort((a, b) => a - b)
        .flatMap((hertz) => {
          const limits = { current: given.current, voltage: given.voltage };
          // At the very top all of the current stands against the field.
          const best =
            hertz >= top ? axisCurrent(given.current, Math.PI / 2) : mostTorque(given.machine, hertz, limits);
          if (best === null) return [];
          const point = loadPoint(given.machine, hertz, best);
          return [
            {
              speed: hertz / winding.polePairs,
              torque: hertz >= top ? 0 : point.torque,
              power: hertz >= top ? 0 : point.shaftPower,
              current: Math.hypot(best.d, best.q) / given.share,
              angle: (leadOf(best) * 180) / Math.PI,
              terminalVoltage: point.voltage * given.factors.adjacent,
              powerFactor: point.powerFactor,
            },
          ];
        }),
    );
  });
  return derive({ curve }, (given) => given.curve);
}
