import type { Complex } from './complex.ts';
import { add, divide, multiply, scale, size, subtract, zero } from './complex.ts';

/** Currents that flow between parallel paths without load. */
export interface Circulating {
  /** Voltage across the joined paths, V. */
  readonly voltage: Complex;
  /** Current out of each path, A; they sum to zero. */
  readonly currents: readonly Complex[];
  /** Largest of them, relative to the rated current of a path. */
  readonly largest: number;
}

/**
 * Circulating currents of one phase. `voltages` are the paths' induced voltages in V, `impedances`
 * their R + j omega L in ohms, with L the leakage of slots and ends (never the magnetizing inductance),
 * `pathCurrent` the rated rms current of one path in A. Throws RangeError for lists of unequal length,
 * a path without impedance, or a current that is not positive.
 */
export function circulatingCurrents(
  voltages: readonly Complex[],
  impedances: readonly Complex[],
  pathCurrent: number,
): Circulating {
  if (voltages.length !== impedances.length || voltages.length === 0) {
    throw new RangeError(`${voltages.length} path voltages for ${impedances.length} impedances`);
  }
  if (!(pathCurrent > 0)) throw new RangeError(`path current must be positive, got ${pathCurrent}`);
  const admittances = impedances.map((impedance) => divide({ re: 1, im: 0 }, impedance));
  const total = admittances.reduce(add, zero);
  const driven = voltages.reduce(
    (sum, voltage, path) => add(sum, multiply(admittances[path]!, voltage)),
    zero,
  );
  const voltage = divide(driven, total);
  const currents = voltages.map((own, path) => multiply(admittances[path]!, subtract(own, voltage)));
  return { voltage, currents, largest: Math.max(...currents.map(size)) / pathCurrent };
}

/**
 * Induced voltage of each path in V from the path sums of voltages.ts: one bar without skew gives
 * pi f flux / sqrt 2 (frequency in Hz, fundamental flux per pole in Wb).
 */
export function inducedVoltages(sums: readonly Complex[], frequency: number, flux: number): Complex[] {
  return sums.map((sum) => scale(sum, (Math.PI * frequency * flux) / Math.SQRT2));
}
