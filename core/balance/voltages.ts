import { layerSkews } from '../winding/jointsSkew.ts';
import type { Path, Winding } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import { add, degrees, divide, scale, size, subtract, unit, zero } from './complex.ts';
import { senseInPath } from './validity.ts';

/** A path's voltage against the mean of its phase's paths. */
export interface PathVoltage {
  /** Index in the list of paths. */
  readonly path: number;
  /** Sum of bar voltages at the working order, in units of one bar without skew. */
  readonly sum: Complex;
  /** Size relative to the mean path, and angle from it in electrical degrees; null when the mean is zero. */
  readonly relative: number | null;
  readonly angle: number | null;
}

/** How equal the parallel paths of a phase are. */
export interface PhaseBalance {
  readonly phase: number;
  readonly paths: readonly PathVoltage[];
  /** Largest distance of a path's voltage from the mean, relative to the mean; null when the mean is zero. */
  readonly difference: number | null;
  /** Every path has bars at the same electrical angles: equal at all orders, exactly. */
  readonly sameAngles: boolean;
}

/** Spread of path voltages at one harmonic. */
export interface HarmonicSpread {
  readonly phase: number;
  readonly harmonic: number;
  /** Largest distance from the mean path, per bar of the path at full voltage: a winding-factor measure. */
  readonly spread: number;
}

/** Path voltages of every phase at the working order; phases without paths are left out. */
export function phaseBalances(winding: Winding, paths: readonly Path[]): PhaseBalance[] {
  return phasesOf(paths).map((phase) => {
    const own = indexesOf(paths, phase);
    const sums = own.map((index) => pathSum(winding, paths[index]!, winding.polePairs));
    const mean = meanOf(sums);
    const none = size(mean) < 1e-9 * Math.max(1, ...own.map((index) => paths[index]!.bars.length));
    const voltages = own.map((index, place): PathVoltage => {
      const sum = sums[place]!;
      const ratio = none ? null : divide(sum, mean);
      const angle = ratio && degrees(ratio);
      return { path: index, sum, relative: ratio && size(ratio), angle };
    });
    const difference = none ? null : Math.max(...sums.map((sum) => size(subtract(sum, mean)))) / size(mean);
    const fingerprints = new Set(own.map((index) => angleFingerprint(winding, paths[index]!)));
    return { phase, paths: voltages, difference, sameAngles: fingerprints.size === 1 };
  });
}

/**
 * Spread of the path voltages at harmonics of the working order (default 1, 3, 5 ... 19): one entry a
 * phase and harmonic, in order.
 */
export function harmonicSpreads(
  winding: Winding,
  paths: readonly Path[],
  harmonics: readonly number[] = [1, 3, 5, 7, 9, 11, 13, 15, 17, 19],
): HarmonicSpread[] {
  return phasesOf(paths).flatMap((phase) =>
    harmonics.map((harmonic) => {
      const own = indexesOf(paths, phase).map((index) => paths[index]!);
      const sums = own.map((path) => pathSum(winding, path, harmonic * winding.polePairs));
      const mean = meanOf(sums);
      const bars = own.reduce((sum, path) => sum + path.bars.length, 0) / own.length;
      const spread = Math.max(...sums.map((sum) => size(subtract(sum, mean)))) / Math.max(1, bars);
      return { phase, harmonic, spread: spread < 1e-12 ? 0 : spread };
    }),
  );
}

/** A phase's voltage against phase 0 turned to its declared axis. */
export interface PhasePattern {
  readonly phase: number;
  /** Distance relative to phase 0; null when phase 0 has no voltage. */
  readonly difference: number | null;
}

/** Mean path voltages of the phases against their axes. */
export function phasePatterns(winding: Winding, paths: readonly Path[]): PhasePattern[] {
  const means = new Map(
    phasesOf(paths).map((phase) => [
      phase,
      meanOf(indexesOf(paths, phase).map((index) => pathSum(winding, paths[index]!, winding.polePairs))),
    ]),
  );
  const first = means.get(0);
  return [...means].map(([phase, mean]) => {
    if (!first || size(first) < 1e-9) return { phase, difference: null };
    const expected = turn(first, -winding.phases.axes[phase]!);
    const difference = size(subtract(mean, expected)) / size(first);
    return { phase, difference: difference < 1e-12 ? 0 : difference };
  });
}

/** Sum of a path's bar voltages at a mechanical order, each in the sense it is passed. */
export function pathSum(winding: Winding, path: Path, order: number): Complex {
  return barVoltages(winding, path, order).reduce(add, zero);
}

/** Voltages of a path's bars as passed, in units of one bar: sense x skew factor x exp(-j order theta). */
export function barVoltages(winding: Winding, path: Path, order: number): Complex[] {
  const skews = layerSkews(winding, order);
  return path.bars.map((bar, position) => {
    const turns = ((order * (bar.slot - 1)) % winding.slots) / winding.slots;
    return scale(unit(-360 * turns), senseInPath(path, position) * (skews[bar.layer] ?? 1));
  });
}

/** Angles of a path's bars as integers in turns / 2Q, with the layers' skew factor where they differ. */
function angleFingerprint(winding: Winding, path: Path): string {
  const { slots, polePairs } = winding;
  const skews = layerSkews(winding, polePairs);
  const angles = path.bars.map((bar, position) => {
    const half = senseInPath(path, position) === 1 ? 0 : slots;
    const angle = (2 * polePairs * bar.slot + half) % (2 * slots);
    return `${angle} ${(skews[bar.layer] ?? 1).toFixed(9)}`;
  });
  return angles.sort().join();
}

function turn(value: Complex, angle: number): Complex {
  const by = unit(angle);
  return { re: value.re * by.re - value.im * by.im, im: value.re * by.im + value.im * by.re };
}

function meanOf(values: readonly Complex[]): Complex {
  return scale(values.reduce(add, zero), 1 / Math.max(1, values.length));
}

function phasesOf(paths: readonly Path[]): number[] {
  return [...new Set(paths.map((path) => path.phase))].sort((a, b) => a - b);
}

function indexesOf(paths: readonly Path[], phase: number): number[] {
  return paths.flatMap((path, index) => (path.phase === phase ? [index] : []));
}
