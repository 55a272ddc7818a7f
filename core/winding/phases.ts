import type { PhaseSystem } from './model.ts';

// I, N and O are left out: they read as 1, as the star point and as 0.
const manyNames = 'ABCDEFGHJKLMPQR';

/** The largest number of phases a winding may have. */
export const mostPhases = manyNames.length;

/**
 * The phases of a machine: 3, 5, ... 15 phases with axes 360/m electrical degrees apart, or 6 as two
 * three-phase sets, the second lagging by `apart` electrical degrees (0 <= apart < 360).
 * Throws RangeError for any other count, for 6 without `apart`, and for `apart` with another count.
 */
export function phaseSystem(count: number, apart?: number): PhaseSystem {
  if (count === 6) return twoSets(apart);
  if (!Number.isInteger(count) || count % 2 === 0 || count < 3 || count > mostPhases) {
    throw new RangeError(`phases must be odd from 3 to ${mostPhases}, or 6 as two sets, got ${count}`);
  }
  if (apart !== undefined) {
    throw new RangeError(`only 6 phases stand apart, got ${apart} electrical degrees for ${count} phases`);
  }
  return {
    names: phaseNames(count),
    axes: Array.from({ length: count }, (_, phase) => (360 * phase) / count),
    sets: 1,
  };
}

function phaseNames(count: number): string[] {
  if (count === 3) return ['U', 'V', 'W'];
  if (count === 5) return ['U', 'V', 'W', 'X', 'Y'];
  return [...manyNames.slice(0, count)];
}

function twoSets(apart: number | undefined): PhaseSystem {
  if (apart === undefined || !(apart >= 0 && apart < 360)) {
    throw new RangeError(
      `6 phases are two sets apart by 0 up to (not with) 360 electrical degrees, got ${apart}`,
    );
  }
  return {
    names: ['1U', '1V', '1W', '2U', '2V', '2W'],
    axes: [0, 120, 240, apart, 120 + apart, 240 + apart].map((axis) => axis % 360),
    sets: 2,
  };
}
