import type { PathEnd, WindingJoint } from '../winding/joints/joints.ts';
import { barName } from '../winding/model.ts';
import { type Alignment, jointKey, knownPaths, turned } from './places.ts';
import type { Joined } from './reviewed.ts';
import type { Comparison } from './schema.ts';

type ChangedJoints = Comparison['joints'];
type Joint = ChangedJoints['added'][number];

interface KeyedJoint {
  readonly key: string;
  readonly joint: Joint;
}

/** Joints, leads and star connections that are on one side only, each with its own side's numbers. */
export function changedJoints(old: Joined | null, now: Joined | null, alignment: Alignment): ChangedJoints {
  if ([old, now].some((side) => side && knownPaths(side).kind === 'unknown'))
    return { added: [], removed: [] };
  const before = old ? jointsOf(old, alignment.rotation) : [];
  const after = now ? jointsOf(now, 0) : [];
  return { added: without(after, before), removed: without(before, after) };
}

function without(joints: readonly KeyedJoint[], others: readonly KeyedJoint[]): Joint[] {
  const known = new Set(others.map(({ key }) => key));
  return joints.filter(({ key }) => !known.has(key)).map(({ joint }) => joint);
}

function jointsOf({ winding, facts }: Joined, rotation: number): readonly KeyedJoint[] {
  const state = facts.connection;
  if (state.kind !== 'connected') return [];
  const { joints, ends } = state.facts.joints();
  return [
    ...joints.map((joint) => ({
      key: jointKey(joint, rotation, winding.slots),
      joint: writtenJoint(joint),
    })),
    ...ends.map((end) => ({ key: endKey(end, rotation, winding.slots), joint: writtenEnd(end) })),
  ];
}

/** A lead or star connection without its number. */
function endKey(end: PathEnd, rotation: number, slots: number): string {
  return `${end.side} ${end.kind} ${barName(turned(end.bar, rotation, slots))} ${end.terminal}`;
}

function writtenJoint({ number, side, from, to, span, kind }: WindingJoint): Joint {
  return { number, side, from: barName(from), to: barName(to), span, kind };
}

function writtenEnd({ number, side, bar, terminal, kind, end }: PathEnd): Joint {
  const name = barName(bar);
  const [from, to] = end === 'start' ? [terminal, name] : [name, terminal];
  return { number, side, from, to, span: null, kind };
}
