import { changedAccepts } from './accepted.ts';
import { changedBars } from './bars.ts';
import { changedStatements } from './changedStatements.ts';
import { changedFindings } from './findings.ts';
import { changedJoints } from './joints.ts';
import { comparedLimits } from './limits.ts';
import { changedNumbers } from './numbers/numbers.ts';
import { type UnequalFigures, unequalFigures } from './numbers/unequal.ts';
import { type Alignment, align, knownPaths } from './places.ts';
import { type Reviewed, type Wound, wound } from './reviewed.ts';
import type { Comparison } from './schema.ts';
import { changedShapes } from './shapes.ts';

/**
 * What changed from one winding text to another, in the winding and not in the letters; null stands for a
 * file that is not there, so that all of the other is added or removed. Throws RangeError when both are
 * null. Where a text yields no winding, bars, joints and numbers are left out and the notes say so.
 */
export function compare(old: Reviewed | null, now: Reviewed | null): Comparison {
  if (!old && !now) throw new RangeError('two windings, or a winding and null, expected; got null and null');
  const [before, after] = [wound(old), wound(now)];
  const alignment: Alignment =
    before && after ? align(before, after) : { rotation: 0, sameBars: false, samePaths: false };
  const comparable = (!old || before !== null) && (!now || after !== null);
  const { statements, rewritten } = changedStatements(old, now, alignment);
  const sameWinding = alignment.sameBars && alignment.samePaths;
  const findings = changedFindings(old, now, sameWinding);
  const unequal = unequalFigures(before, after);
  const noShapes = { added: [], removed: [], counts: [] };
  const joints = comparable ? changedJoints(before, after, alignment) : { added: [], removed: [] };
  return {
    equal:
      before && after
        ? sameWinding
        : !before && !after && !!old && !!now && statements.length === 0 && findings.new.length === 0,
    rotation: alignment.rotation === 0 ? null : alignment.rotation,
    notes: notesOn(old, now, before, after, alignment, unequal),
    rewritten: [...rewritten],
    statements: [...statements],
    bars: comparable ? [...changedBars(before, after, alignment)] : [],
    joints,
    shapes: comparable ? changedShapes(before, after) : { joints: noShapes, bars: noShapes },
    numbers: comparable ? [...changedNumbers(before, after, unequal)] : [],
    limits: [...comparedLimits(old, now)],
    findings,
    accepted: changedAccepts(old, now),
    errors: counted('error', old, now),
    warnings: counted('warning', old, now),
  };
}

function counted(
  severity: 'error' | 'warning',
  old: Reviewed | null,
  now: Reviewed | null,
): Comparison['errors'] {
  const count = (side: Reviewed | null) =>
    side?.findings.filter((finding) => finding.severity === severity).length ?? 0;
  return { old: count(old), new: count(now) };
}

function notesOn(
  old: Reviewed | null,
  now: Reviewed | null,
  before: Wound | null,
  after: Wound | null,
  alignment: Alignment,
  unequal: UnequalFigures | null,
): string[] {
  const notes: string[] = [];
  const without = (side: string) =>
    `The ${side} text yields no winding: bars, joints, shapes and numbers are not compared.`;
  if (old && !before) notes.push(without('old'));
  if (now && !after) notes.push(without('new'));
  if (notes.length > 0) return notes;
  const unknown = (side: string, study: Wound | null) => {
    if (study && knownPaths(study).kind === 'unknown')
      notes.push(`The ${side} text yields no paths: joints and shapes are not compared.`);
  };
  unknown('old', before);
  unknown('new', after);
  const partly = (side: string, study: Wound | null) => {
    if (study?.broken)
      notes.push(`Parts of the ${side} text are not understood: numbers that need them are not compared.`);
  };
  partly('old', before);
  partly('new', after);
  // While it is being computed, that is said where all that is missing is.
  if (unequal && !(unequal.lacking === 'old' ? before : after)?.measuring)
    notes.push(
      `The leakage of the end windings is not known of the ${unequal.lacking} text: numbers that count it, as the synchronous inductance, are not compared.`,
    );
  const found = (study: Wound | null) => {
    const state = study?.facts.connection;
    return state?.kind === 'connected' && !state.facts.written ? state.facts.hash() : null;
  };
  // Paths that are the same are the same however they came about.
  if (!alignment.samePaths) {
    const [one, other] = [found(before), found(after)];
    if (one !== null && other !== null)
      notes.push(`The paths of both texts (${one}, ${other}) are found, not written out.`);
    else if (one !== null) notes.push(`The paths of the old text (${one}) are found, not written out.`);
    else if (other !== null) notes.push(`The paths of the new text (${other}) are found, not written out.`);
  }
  if (before && after) {
    const way = (study: Wound) =>
      study.facts.mmf().runsWithSlotNumbers ? 'with the slot numbers' : 'against the slot numbers';
    if (way(before) !== way(after)) notes.push(`The working wave now runs ${way(after)}.`);
  }
  return notes;
}
