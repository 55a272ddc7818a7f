import type { Connections, JointReason, WindingJoint } from '../winding/joints/joints.ts';
import type { Path, Winding } from '../winding/model.ts';
import { cellAt, phaseOfCell } from '../winding/model.ts';

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
