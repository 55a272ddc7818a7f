import { modulo } from '../integers.ts';
import type { Path, Winding } from '../model.ts';
import type { BarForm } from './bars.ts';
import type { Bends } from './bends.ts';
import { type Connections, connectionsOf, isPiece, type WindingJoint } from './joints.ts';

/**
 * Joints bent within one layer that reach over each other's ends: their legs would cross. Each joint
 * once, with one that it crosses.
 */
export function crossingJoints(
  slots: number,
  joints: readonly WindingJoint[],
): ReadonlyMap<WindingJoint, WindingJoint> {
  const byRing = new Map<string, WindingJoint[]>();
  for (const joint of joints) {
    if (isPiece(joint) || joint.from.layer !== joint.to.layer) continue;
    const key = `${joint.side} ${joint.from.layer}`;
    byRing.set(key, [...(byRing.get(key) ?? []), joint]);
  }
  const crossing = new Map<WindingJoint, WindingJoint>();
  for (const ring of byRing.values()) {
    for (const joint of ring) {
      const other = ring.find((candidate) => candidate !== joint && cross(slots, joint, candidate));
      if (other) crossing.set(joint, other);
    }
  }
  return crossing;
}

/** Whether exactly one end of the second lies between the ends of the first. */
function cross(slots: number, a: WindingJoint, b: WindingJoint): boolean {
  const start = a.span > 0 ? a.from.slot : a.to.slot;
  const within = (slot: number) => {
    const along = modulo(slot - start, slots);
    return along > 0 && along < Math.abs(a.span);
  };
  return within(b.from.slot) !== within(b.to.slot);
}

/** `connectionsOf` for bars of a form: separate pieces make joints that would cross if they were bent, but no hairpin's crown. */
export function joinedBars(
  winding: Winding,
  paths: readonly Path[],
  form: BarForm,
  bends?: Bends,
): Connections {
  const connections = connectionsOf(winding, paths, bends);
  const crossing = crossingJoints(winding.slots, connections.joints);
  const joints = connections.joints.map((joint) =>
    crossing.has(joint) && (joint.side === 'connection' || form === 'straight')
      ? { ...joint, separatePiece: true }
      : joint,
  );
  return { ...connections, joints };
}
