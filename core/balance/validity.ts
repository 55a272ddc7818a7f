import type { Connections, JointReason, WindingJoint } from '../winding/joints/joints.ts';
import type { Bar, Path, Winding } from '../winding/model.ts';
import { cellAt, phaseOfCell } from '../winding/model.ts';

/** Where a bar is used: path (index in the list of paths) and position in it, both from 0. */
export interface BarUse {
  readonly path: number;
  readonly position: number;
}

/** What is wrong with how bars are used. Phases are indices, senses +1 (away from the connection side) or -1. */
export type BarProblem =
  | { readonly kind: 'bar-unused'; readonly bar: Bar; readonly phase: number }
  | { readonly kind: 'bar-used-twice'; readonly bar: Bar; readonly uses: readonly BarUse[] }
  | ({ readonly kind: 'bar-missing'; readonly bar: Bar } & BarUse)
  | ({
      readonly kind: 'bar-of-other-phase';
      readonly bar: Bar;
      readonly actual: number;
      readonly expected: number;
    } & BarUse)
  | ({
      readonly kind: 'bar-sense-wrong';
      readonly bar: Bar;
      readonly actual: 1 | -1;
      readonly expected: 1 | -1;
    } & BarUse)
  | {
      readonly kind: 'path-ends-on-other-side';
      readonly path: number;
      readonly end: 'start' | 'finish';
      readonly actual: 'connection' | 'far';
      readonly declared: 'connection' | 'far';
    }
  | { readonly kind: 'path-end-on-far-side'; readonly path: number; readonly end: 'start' | 'finish' };

/** A joint that cannot be bent, or that needs care; `reason` says which. */
export type JointProblem =
  | {
      /** A leg bends against its layer and the joint is not marked as a separate piece: an error. */
      readonly kind: 'lean-collision';
      readonly joint: WindingJoint;
      /** The layers of the legs that bend against the others of their layer. */
      readonly layers: readonly number[];
    }
  | {
      /** Needs a separate connecting piece, and is written as one where that matters. */
      readonly kind: 'jumper';
      readonly joint: WindingJoint;
      readonly reason: JointReason;
      readonly severity: 'info' | 'warning';
    }
  | { readonly kind: 'far-side-special'; readonly joint: WindingJoint }
  | {
      readonly kind: 'joint-of-two-phases';
      readonly joint: WindingJoint;
      readonly phases: readonly [number, number];
    }
  | { readonly kind: 'joint-without-span'; readonly joint: WindingJoint };

/** The sense in which a path passes its bar: +1 away from the connection side. */
export function senseInPath(path: Path, position: number): 1 | -1 {
  return (position % 2 === 0) !== path.startsFar ? 1 : -1;
}

/**
 * Bars against the slot table: every bar once, of its path's phase, passed in the sense the table says,
 * path ends where they are declared. Paths of every phase together; empty when all is well.
 */
export function barProblems(winding: Winding, paths: readonly Path[]): BarProblem[] {
  const { table } = winding;
  const uses = new Map<number, BarUse[]>();
  const problems: BarProblem[] = [];
  paths.forEach((path, index) => {
    path.bars.forEach((bar, position) => {
      const place = bar.layer * winding.slots + bar.slot;
      const use = { path: index, position };
      uses.set(place, [...(uses.get(place) ?? []), use]);
      const cell = cellAt(table, bar.slot, bar.layer);
      if (cell === 0) {
        problems.push({ kind: 'bar-missing', bar, ...use });
        return;
      }
      const phase = phaseOfCell(cell);
      if (phase !== path.phase) {
        problems.push({ kind: 'bar-of-other-phase', bar, actual: path.phase, expected: phase, ...use });
        return;
      }
      const actual = senseInPath(path, position);
      const expected = cell > 0 ? 1 : -1;
      if (actual !== expected) problems.push({ kind: 'bar-sense-wrong', bar, actual, expected, ...use });
    });
    problems.push(...endProblems(path, index));
  });
  for (let layer = 0; layer < winding.layers; layer++) {
    for (let slot = 1; slot <= winding.slots; slot++) {
      const bar = { slot, layer };
      const found = uses.get(layer * winding.slots + slot) ?? [];
      if (found.length > 1) problems.push({ kind: 'bar-used-twice', bar, uses: found });
      const cell = cellAt(table, slot, layer);
      if (found.length === 0 && cell !== 0)
        problems.push({ kind: 'bar-unused', bar, phase: phaseOfCell(cell) });
    }
  }
  return problems;
}

function endProblems(path: Path, index: number): BarProblem[] {
  if (path.bars.length === 0) return [];
  const problems: BarProblem[] = [];
  if (path.startsFar) problems.push({ kind: 'path-end-on-far-side', path: index, end: 'start' });
  const finishesFar = senseInPath(path, path.bars.length - 1) === 1;
  if (finishesFar !== path.endsFar) {
    const side = (far: boolean) => (far ? 'far' : 'connection');
    problems.push({
      kind: 'path-ends-on-other-side',
      path: index,
      end: 'finish',
      actual: side(finishesFar),
      declared: side(path.endsFar),
    });
  } else if (finishesFar) problems.push({ kind: 'path-end-on-far-side', path: index, end: 'finish' });
  return problems;
}

/** Joints against what can be bent: leans, layers apart, far-side specials, phases joined. */
export function jointProblems(winding: Winding, connections: Connections): JointProblem[] {
  const problems: JointProblem[] = [];
  for (const joint of connections.joints) {
    const { from, to } = joint;
    const fromPhase = phaseOfCell(cellAt(winding.table, from.slot, from.layer));
    const toPhase = phaseOfCell(cellAt(winding.table, to.slot, to.layer));
    if (fromPhase !== toPhase && fromPhase >= 0 && toPhase >= 0) {
      problems.push({ kind: 'joint-of-two-phases', joint, phases: [fromPhase, toPhase] });
    }
    if (joint.span === 0 && from.layer === to.layer) {
      problems.push({ kind: 'joint-without-span', joint });
      continue;
    }
    if (!(joint.fromLeans && joint.toLeans) && !joint.separatePiece) {
      const layers = [...(joint.fromLeans ? [] : [from.layer]), ...(joint.toLeans ? [] : [to.layer])];
      problems.push({ kind: 'lean-collision', joint, layers });
    } else if (joint.kind === 'jumper') {
      problems.push({ kind: 'jumper', joint, reason: joint.reason, severity: jumperSeverity(joint.reason) });
    }
    if (joint.side === 'far' && joint.kind !== 'regular') problems.push({ kind: 'far-side-special', joint });
  }
  return problems;
}

/** Pieces at a free radius, of one layer, or of tooth coils are everyday; others cross the end winding. */
function jumperSeverity(reason: JointReason): 'info' | 'warning' {
  return reason === 'bridge' || reason === 'turn-inner' || reason === 'against-lean' ? 'warning' : 'info';
}
