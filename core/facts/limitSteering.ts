import type { RequiredLimit } from '../language/specification/specification.ts';
import { limitedQuantities } from '../routing/route.ts';
import { isJudged } from './connect.ts';

/**
 * Why a limit that fails did not make the router take another connection. none-met: none of those that it met holds
 * all limits. same: all connections have the same of it. little: they differ by little, and it is not looked at. more:
 * connections are sought that have little of it, never much. point: points of the duty are not looked at.
 */
export type NotSteered = 'none-met' | 'same' | 'little' | 'more' | 'point';

/** Quantities that follow from slot table, sizes and load alone, however the bars are joined. */
const sameInAll: ReadonlySet<string> = new Set([
  'distribution-factor',
  'pitch-factor',
  'skew-factor',
  'winding-factor',
  'wave-relative',
  'differential-leakage',
  'path-voltage-difference',
  'phase-voltage-difference',
  'slot-fill',
  'ac-ratio',
  'cage-stiffness',
  'cage-stress',
  'torque',
  'line-voltage',
  'tooth-flux-density',
  'yoke-flux-density',
]);

/** Why the router took a connection that fails a limit. */
export function whyNotSteered({ entry, relation, point }: RequiredLimit): NotSteered {
  if (sameInAll.has(entry.word)) return 'same';
  if (point !== null) return 'point';
  if (isJudged(entry.word)) return 'none-met';
  if (!limitedQuantities.some((each) => each === entry.word)) return 'little';
  return relation === '<=' ? 'none-met' : 'more';
}
