import { inEnglish, type Speech } from '../figures/speech.ts';
import type { CheckedText } from '../findings/checkedText.ts';
import { designFigures } from '../report/figures.ts';
import { changedBars } from './bars.ts';
import { changedJoints } from './joints.ts';
import type { Joined } from './reviewed.ts';
import type { Comparison } from './schema.ts';

/** A key figure before and now, as it is shown; null where one of the two has none. */
export interface MovedFigure {
  readonly label: string;
  readonly old: string | null;
  readonly now: string | null;
}

/** What changed between two windings, as far as it is told beside the typing. */
export interface LiveDifference {
  readonly bars: Comparison['bars'];
  readonly joints: Comparison['joints'];
  readonly figures: readonly MovedFigure[];
}

/** Paths are compared by place: who types does not renumber slots. */
const asNumbered = { rotation: 0, sameBars: false, samePaths: false };

/**
 * What changed in bars, joints and key figures from one text to another: the quick part of `compare`, which also
 * tells statements, shapes, every number and the findings, and finds slots that were renumbered. Null where one of
 * the texts yields no winding.
 */
export function liveDifference(
  old: CheckedText,
  now: CheckedText,
  speech: Speech = inEnglish,
): LiveDifference | null {
  const [before, after] = [joined(old), joined(now)];
  if (!before || !after) return null;
  const measuring = old.measuring || now.measuring;
  const values = ({ facts }: Joined) =>
    new Map(designFigures(facts, speech).map(({ label, value }) => [label, value] as const));
  const [had, has] = [values(before), values(after)];
  return {
    bars: [...changedBars(before, after, asNumbered)],
    joints: changedJoints(before, after, asNumbered),
    figures: [...new Set([...has.keys(), ...had.keys()])]
      .map((label) => ({ label, old: had.get(label) ?? null, now: has.get(label) ?? null }))
      .filter((figure) => figure.old !== figure.now)
      // What is still being measured of one of them has not gone.
      .filter((figure) => !measuring || (figure.old !== null && figure.now !== null)),
  };
}

function joined({ winding, facts, broken }: CheckedText): Joined | null {
  return winding && facts ? { winding, facts, broken } : null;
}
