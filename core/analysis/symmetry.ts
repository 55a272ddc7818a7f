import { fractionText, greatestCommonDivisor, leastCommonMultiple } from '../winding/integers.ts';
import type { Winding } from '../winding/model.ts';
import { parallelPathsAnyCrowns } from './anyCrownPaths.ts';
import { barsOfPhase } from './factors/factors.ts';
import { type PathLimits, pathLimits } from './parallelPaths.ts';
import { type TableRotation, tableRotation } from './rotation.ts';

/** Symmetry and counting figures of a winding. */
export interface SymmetryFigures {
  /** q = Q / (2 p m), a reduced fraction such as `5/4`. */
  readonly slotsPerPolePerPhase: string;
  /** t = gcd(Q, p): how often the basic winding repeats. */
  readonly commonDivisor: number;
  /** Q / t. */
  readonly basicSlots: number;
  /** p / t. */
  readonly basicPolePairs: number;
  /** Bars of all phases. */
  readonly bars: number;
  /** Bars of the first phase, all paths. */
  readonly barsPerPhase: number;
  /** Bars of each phase. */
  readonly barsOfPhases: readonly number[];
  /** Series turns of the first phase: bars / (2 paths). */
  readonly seriesTurns: number;
  /** Greatest common divisor of the numbers of coils (or bars) of each signed phasor. */
  readonly identicalGroups: number;
  /** Largest number of balanced parallel paths with regular crowns. */
  readonly largestParallelPaths: number;
  /** Numbers of balanced parallel paths with crowns of any span, rising. */
  readonly parallelPathsAnyCrowns: readonly number[];
  /** Paths must use every slot angle in every layer equally often. */
  readonly strictPaths: boolean;
  /** lcm(Q, 2 p): cogging periods a turn. */
  readonly coggingPeriods: number;
  /** gcd(Q, 2 p). */
  readonly radialSymmetry: number;
  /** Smallest rotation in slots that maps the table on itself or, `negated`, on its negative. */
  readonly rotationSlots: number;
  readonly negated: boolean;
  /** gcd(Q, 2 p) is 1 or the table has no rotational symmetry: a net radial pull may remain. */
  readonly unbalancedPull: boolean;
}

/** Reads the figures off slots, poles and the actual table. */
export function symmetryFigures(
  winding: Winding,
  rotation: TableRotation = tableRotation(winding.table),
  limits: PathLimits = pathLimits(winding),
): SymmetryFigures {
  const { slots, polePairs, phases } = winding;
  const commonDivisor = greatestCommonDivisor(slots, polePairs);
  const barsOfPhases = phases.names.map((_, phase) => barsOfPhase(winding.table, phase));
  const radial = radialSymmetry(winding);
  const { identicalGroups, largestParallelPaths, strict } = limits;
  return {
    slotsPerPolePerPhase: fractionText(slots, winding.poles * phases.names.length),
    commonDivisor,
    basicSlots: slots / commonDivisor,
    basicPolePairs: polePairs / commonDivisor,
    bars: barsOfPhases.reduce((sum, bars) => sum + bars, 0),
    barsPerPhase: barsOfPhases[0]!,
    barsOfPhases,
    seriesTurns: barsOfPhases[0]! / (2 * winding.parallelPaths),
    identicalGroups,
    largestParallelPaths,
    parallelPathsAnyCrowns: parallelPathsAnyCrowns(winding),
    strictPaths: strict,
    coggingPeriods: coggingPeriods(winding),
    radialSymmetry: radial,
    rotationSlots: rotation.slots,
    negated: rotation.negated,
    unbalancedPull: radial === 1 || rotation.slots === slots,
  };
}

/** lcm(Q, 2 p): cogging periods a turn. */
export function coggingPeriods({ slots, poles }: Pick<Winding, 'slots' | 'poles'>): number {
  return leastCommonMultiple(slots, poles);
}

/** gcd(Q, 2 p). */
export function radialSymmetry({ slots, poles }: Pick<Winding, 'slots' | 'poles'>): number {
  return greatestCommonDivisor(slots, poles);
}
