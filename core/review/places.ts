import { type ConnectionFacts, joinedFacts } from '../facts/connection.ts';
import { lowerBar, offsetOf, upperBar, type WindingJoint } from '../winding/joints/joints.ts';
import { type Bar, barName, foldedSlot, type Path, type Winding } from '../winding/model.ts';
import type { Joined, Reviewed, Wound } from './reviewed.ts';

/** The paths of a study: known, known to be none, or unknown (still being found, none found, text broken). */
export type KnownPaths =
  | { readonly kind: 'connected'; readonly facts: ConnectionFacts }
  | { readonly kind: 'none' }
  | { readonly kind: 'unknown' };

export function knownPaths(study: Joined): KnownPaths {
  const state = study.facts.connection;
  if (state.kind === 'connected') return { kind: 'connected', facts: state.facts };
  return state.kind === 'none' && !study.broken ? { kind: 'none' } : { kind: 'unknown' };
}

/** How the old numbering lies in the new one. */
export interface Alignment {
  /** Old slot s is new slot s + rotation, round the bore. */
  readonly rotation: number;
  /** All bars and their leans are the same under this rotation. */
  readonly sameBars: boolean;
  /** The paths are known on both sides and are the same, up to their numbers. */
  readonly samePaths: boolean;
}

/** A bar under the new numbering. */
export function turned(bar: Bar, rotation: number, slots: number): Bar {
  return rotation === 0 ? bar : { slot: foldedSlot(bar.slot + rotation, slots), layer: bar.layer };
}

/**
 * The rotation that makes the old winding the new one, if one does: one under which the paths are equal; else the first,
 * which is none where the layout stands as it stood, unless another leaves at most half as many joints changed. Another
 * connection of the same layout often keeps a few joints more under some rotation, though nothing was renumbered.
 */
export function align(old: Wound, now: Wound): Alignment {
  const rotations = sameMachine(old.winding, now.winding)
    ? Array.from({ length: now.winding.slots }, (_, rotation) => rotation).filter((rotation) =>
        tableTurns(old.winding, now.winding, rotation),
      )
    : [];
  if (rotations.length === 0) return { rotation: 0, sameBars: false, samePaths: false };
  const [before, after] = [knownPaths(old), knownPaths(now)];
  if (before.kind !== 'connected' || after.kind !== 'connected') {
    const samePaths = before.kind === 'none' && after.kind === 'none';
    return { rotation: rotations[0]!, sameBars: true, samePaths };
  }
  const { slots } = now.winding;
  const newPaths = pathKeys(after.facts.paths, 0, slots);
  const equal = rotations.find(
    (rotation) => pathKeys(before.facts.paths, rotation, slots).join('\n') === newPaths.join('\n'),
  );
  if (equal !== undefined) return { rotation: equal, sameBars: true, samePaths: true };
  const newJoints = new Set(after.facts.joints().joints.map((joint) => jointKey(joint, 0, slots)));
  const changed = (rotation: number) =>
    before.facts.joints().joints.filter((joint) => !newJoints.has(jointKey(joint, rotation, slots))).length;
  const first = { rotation: rotations[0]!, count: changed(rotations[0]!) };
  const least = rotations.reduce((best, rotation) => {
    const count = changed(rotation);
    return count < best.count ? { rotation, count } : best;
  }, first);
  const best = 2 * least.count <= first.count ? least : first;
  return { rotation: best.rotation, sameBars: true, samePaths: false };
}

function sameMachine(old: Winding, now: Winding): boolean {
  const sameNumbers = (a: readonly number[], b: readonly number[]) =>
    a.length === b.length && a.every((value, i) => Math.abs(value - b[i]!) < 1e-12);
  return (
    old.slots === now.slots &&
    old.poles === now.poles &&
    old.layers === now.layers &&
    old.phases.names.join() === now.phases.names.join() &&
    sameNumbers(old.phases.axes, now.phases.axes) &&
    sameNumbers(old.lean, now.lean)
  );
}

function tableTurns(old: Winding, now: Winding, rotation: number): boolean {
  for (let layer = 0; layer < now.layers; layer++) if (!layerTurns(old, now, layer, rotation)) return false;
  return true;
}

/** Whether one layer holds the same bars; the windings have equal slots. */
export function layerTurns(old: Winding, now: Winding, layer: number, rotation: number): boolean {
  const { slots } = now;
  const row = layer * slots;
  for (let slot = 0; slot < slots; slot++) {
    if (old.table.cells[row + slot] !== now.table.cells[row + ((slot + rotation) % slots)]) return false;
  }
  return true;
}

/** A path without its number. */
export function pathKey(path: Path, rotation: number, slots: number): string {
  const bars = path.bars.map((bar) => barName(turned(bar, rotation, slots)));
  const ends = [path.from, path.startsFar, path.to, path.endsFar];
  return JSON.stringify([path.phase, ends, bars, path.spans, path.pieces]);
}

function pathKeys(paths: readonly Path[], rotation: number, slots: number): readonly string[] {
  return paths.map((path) => pathKey(path, rotation, slots)).sort();
}

/** A joint without its number: the side, the two bar ends, the way between them, how it is made. */
export function jointKey(joint: WindingJoint, rotation: number, slots: number): string {
  const lower = barName(turned(lowerBar(joint), rotation, slots));
  const upper = barName(turned(upperBar(joint), rotation, slots));
  return `${joint.side} ${lower} ${upper} ${offsetOf(joint)}${joint.separatePiece ? ' piece' : ''}`;
}

/** The study's paths, and an empty list where there are none. */
export function pathsOf(study: Reviewed | null): readonly Path[] {
  return (study?.facts && joinedFacts(study.facts)?.paths) ?? [];
}
