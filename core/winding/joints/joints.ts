import type { Bar, EndSide, Joint, JointKind, Path, Winding } from '../model.ts';
import type { Bends } from './bends.ts';
import { leanOf, regularBends, sideOfJoint } from './bends.ts';
import { sortedByKey } from './order.ts';

/**
 * Why a joint has its kind. regular, other-span, layer-step: bent from the bars themselves. bridge:
 * leans right but reaches over layers. turn-outer: two bars of the innermost or outermost layer.
 * turn-inner: two bars of a layer between others. against-lean: some leg would have to bend against
 * its layer. between-coils: tooth coils of one layer pair, whose bars no regular joint bends on this
 * side. unpaired: every joint of a layer without a partner that is not its coil's own span.
 */
export type JointReason =
  | 'regular'
  | 'other-span'
  | 'layer-step'
  | 'bridge'
  | 'turn-outer'
  | 'turn-inner'
  | 'against-lean'
  | 'between-coils'
  | 'unpaired';

/** A joint of a path, with where it stands and how it is made. */
export interface WindingJoint extends Joint {
  readonly kind: Exclude<JointKind, 'lead' | 'star'>;
  readonly reason: JointReason;
  /** Whether each leg bends the way its layer leans on this side; true for layers without a lean. */
  readonly fromLeans: boolean;
  readonly toLeans: boolean;
  /** Index into the list of paths, and of the joint in its path (bar i to bar i + 1). */
  readonly path: number;
  readonly position: number;
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Span between the bar ends where they leave the stack, in slots: leaning bars shift it. */
  readonly trueSpan: number;
  /** Number of its shape in `jointShapes`. */
  readonly shape: number;
}

/** Where a path ends: a lead to a terminal, or a connection to the star point. */
export interface PathEnd {
  readonly number: number;
  readonly kind: 'lead' | 'star';
  readonly side: EndSide;
  readonly bar: Bar;
  readonly terminal: string;
  /** Index in the list of paths. */
  readonly path: number;
  /** Index of the phase, from 0. */
  readonly phase: number;
  readonly end: 'start' | 'finish';
}

/** Joints that are bent alike. */
export interface JointShape {
  /** From 1. */
  readonly number: number;
  readonly side: EndSide;
  /** From 0. */
  readonly lowerLayer: number;
  /** From 0. */
  readonly upperLayer: number;
  /** Slots from the bar in the lower layer to the other; in one layer the size alone. */
  readonly offset: number;
  readonly kind: Exclude<JointKind, 'lead' | 'star'>;
  /** Joints of it. */
  readonly count: number;
}

/** All connections of a winding: joints, path ends and shapes, numbered from 1. */
export interface Connections {
  readonly bends: Bends;
  /** Connection side first, in welding order; `number` is the place in this list plus 1. */
  readonly joints: readonly WindingJoint[];
  /** Leads and star connections, numbered on from the joints. */
  readonly ends: readonly PathEnd[];
  readonly shapes: readonly JointShape[];
}

/** Counts of special joints: those on either side that are not regular. */
export interface JointCounts {
  /** Other than regular ones. */
  readonly special: number;
  /** Connecting pieces. */
  readonly jumpers: number;
  /** Shapes of the special ones. */
  readonly specialShapes: number;
}

/**
 * The joints of written or routed paths. Bars outside the winding's slots or layers, and spans that do
 * not lead from bar to bar or go round the bore, are a misuse and throw RangeError; anything else is
 * described as it stands, right or wrong.
 */
export function connectionsOf(
  winding: Winding,
  paths: readonly Path[],
  bends: Bends = regularBends(winding, paths),
): Connections {
  const drafts = paths.flatMap((path, index) => draftJoints(winding, bends, path, index));
  const joints = inWeldingOrder(winding, drafts);
  const shapes = numberJoints(winding, joints);
  return { bends, joints, ends: pathEnds(paths, joints.length), shapes };
}

/** Special joints, jumpers and special shapes among some joints (one phase, or all). */
export function countJoints(joints: readonly WindingJoint[]): JointCounts {
  let special = 0;
  let jumpers = 0;
  const shapes = new Set<number>();
  for (const { kind, shape } of joints) {
    if (kind === 'regular') continue;
    special++;
    if (kind === 'jumper') jumpers++;
    shapes.add(shape);
  }
  return { special, jumpers, specialShapes: shapes.size };
}

/** Why two bars joined on a side with a signed span count as regular or special. */
export function jointReason(bends: Bends, side: EndSide, from: Bar, to: Bar, span: number): JointReason {
  const lower = Math.min(from.layer, to.layer);
  const upper = Math.max(from.layer, to.layer);
  const offset = from.layer <= to.layer ? span : -span;
  const layers = 2 * bends.far.length + (bends.unpairedSpan === null ? 0 : 1);
  if (upper >= 2 * bends.far.length) {
    const own = side === 'far' && lower === upper && Math.abs(span) === Math.abs(bends.unpairedSpan ?? 0);
    return own ? 'regular' : 'unpaired';
  }
  if (lower === upper) return lower === 0 || lower === layers - 1 ? 'turn-outer' : 'turn-inner';
  const ownPair = lower % 2 === 0 && upper === lower + 1;
  if (ownPair && side === 'connection' && bends.connection[lower / 2] === null) return 'between-coils';
  if ((upper - lower) % 2 === 0 || Math.sign(offset) !== leanOf(bends, side, lower)) return 'against-lean';
  if (upper - lower > 1) return 'bridge';
  if (lower % 2 === 1) {
    return side === 'connection' && offset === bends.betweenPairs ? 'regular' : 'layer-step';
  }
  const nominal = (side === 'far' ? bends.far : bends.connection)[lower / 2];
  return offset === nominal ? 'regular' : 'other-span';
}

/** The report's kind of a joint that is bent, where its bars allow it, for this reason. */
export function kindOfReason(reason: JointReason): WindingJoint['kind'] {
  return reason === 'regular' || reason === 'other-span' || reason === 'layer-step' ? reason : 'jumper';
}

/** Whether a joint is made by a separate piece instead of by bending its bars. */
export function isPiece(joint: { readonly kind: string; readonly separatePiece: boolean }): boolean {
  return joint.separatePiece || joint.kind === 'jumper';
}

/** Slots between the two bar ends on a side, for bars that lean (mechanical radians over the stack). */
function trueSpan(winding: Winding, side: EndSide, from: Bar, to: Bar, span: number): number {
  const lean = (winding.lean[to.layer] ?? 0) - (winding.lean[from.layer] ?? 0);
  const shift = (winding.slots * lean) / (4 * Math.PI);
  return side === 'far' ? span + shift : span - shift;
}

/** A joint in the making: its number and shape follow from its place among all joints. */
type DraftJoint = { -readonly [Field in keyof WindingJoint]: WindingJoint[Field] };

function draftJoints(winding: Winding, bends: Bends, path: Path, index: number): DraftJoint[] {
  for (const bar of path.bars) requireBar(winding, bar);
  return path.spans.map((span, position): DraftJoint => {
    const from = path.bars[position]!;
    const to = path.bars[position + 1];
    requireSpan(winding, from, to, span);
    const side = sideOfJoint(path, position);
    const reason = jointReason(bends, side, from, to, span);
    const separatePiece = path.pieces[position] ?? false;
    return {
      number: 0,
      side,
      from,
      to,
      span,
      // A joint written as a separate piece is a jumper whatever it spans.
      kind: separatePiece ? 'jumper' : kindOfReason(reason),
      separatePiece,
      reason,
      fromLeans: reason === 'between-coils' || leansRight(bends, side, from.layer, span),
      toLeans: reason === 'between-coils' || leansRight(bends, side, to.layer, -span),
      path: index,
      position,
      phase: path.phase,
      trueSpan: trueSpan(winding, side, from, to, span),
      shape: 0,
    };
  });
}

function requireBar(winding: Winding, bar: Bar): void {
  const inside = bar.slot >= 1 && bar.slot <= winding.slots && bar.layer >= 0 && bar.layer < winding.layers;
  if (!inside) {
    throw new RangeError(
      `bar (${bar.slot}, ${bar.layer}) outside ${winding.slots} slots, ${winding.layers} layers`,
    );
  }
}

function requireSpan(winding: Winding, from: Bar, to: Bar | undefined, span: number): asserts to is Bar {
  const leads = to !== undefined && Math.abs(span) < winding.slots && Number.isInteger(span);
  if (!leads || (from.slot + span - to.slot) % winding.slots !== 0) {
    throw new RangeError(`span ${span} does not lead from slot ${from.slot} to slot ${to?.slot}`);
  }
}

/** Whether a bar end bends the way its layer leans on a side; true for layers without a lean. */
export function leansRight(bends: Bends, side: EndSide, layer: number, spanFromBar: number): boolean {
  const lean = leanOf(bends, side, layer);
  return lean === 0 || Math.sign(spanFromBar) === lean;
}

/**
 * Connection side first; joints bent from the bars before jumpers; inner radius before outer; then by
 * the slots of the lower and the upper bar; then as the paths run.
 */
function inWeldingOrder(winding: Winding, drafts: readonly DraftJoint[]): DraftJoint[] {
  const { slots, layers } = winding;
  const bySlot = sortedByKey(
    sortedByKey(drafts, slots + 1, (joint) => upperBar(joint).slot),
    slots + 1,
    (joint) => lowerBar(joint).slot,
  );
  return sortedByKey(bySlot, 4 * layers * layers, (joint) => groupOf(joint, layers));
}

/** Number for the side, the way of making and the layers of a joint, rising in welding order. */
function groupOf(joint: DraftJoint, layers: number): number {
  const making = 2 * sideRank(joint.side) + Number(joint.kind === 'jumper');
  return (making * layers + lowerBar(joint).layer) * layers + upperBar(joint).layer;
}

/** Numbers the joints in their order, and their shapes in order of appearance. */
function numberJoints(winding: Winding, joints: readonly DraftJoint[]): JointShape[] {
  const shapes: { -readonly [Field in keyof JointShape]: JointShape[Field] }[] = [];
  // Joints of one group that span alike have one shape: their kind follows from it.
  const known = new Map<number, number>();
  joints.forEach((joint, index) => {
    const offset = offsetOf(joint);
    const key = groupOf(joint, winding.layers) * 2 * winding.slots + offset + winding.slots;
    let shape = known.get(key);
    if (shape === undefined) {
      shape = shapes.length + 1;
      known.set(key, shape);
      shapes.push({
        number: shape,
        side: joint.side,
        lowerLayer: lowerBar(joint).layer,
        upperLayer: upperBar(joint).layer,
        offset,
        kind: joint.kind,
        count: 0,
      });
    }
    joint.number = index + 1;
    joint.shape = shape;
    shapes[shape - 1]!.count++;
  });
  return shapes;
}

function sideRank(side: EndSide): number {
  return side === 'connection' ? 0 : 1;
}

/** The bar in the lower layer; in one layer the one from which the span runs towards higher slots. */
export function lowerBar(joint: Pick<Joint, 'from' | 'to' | 'span'>): Bar {
  return runsUp(joint) ? joint.from : joint.to;
}

/** The joint's other bar. */
export function upperBar(joint: Pick<Joint, 'from' | 'to' | 'span'>): Bar {
  return runsUp(joint) ? joint.to : joint.from;
}

/** Slots from the joint's lower bar to its upper one. */
export function offsetOf(joint: Pick<Joint, 'from' | 'to' | 'span'>): number {
  return runsUp(joint) ? joint.span : -joint.span;
}

/** Whether the joint leads from its lower bar to its upper one. */
function runsUp({ from, to, span }: Pick<Joint, 'from' | 'to' | 'span'>): boolean {
  return from.layer === to.layer ? span >= 0 : from.layer < to.layer;
}

function pathEnds(paths: readonly Path[], before: number): PathEnd[] {
  const ends = paths.flatMap((path, index): Omit<PathEnd, 'number'>[] => {
    const first = path.bars[0];
    const last = path.bars.at(-1);
    if (!first || !last) return [];
    const common = { path: index, phase: path.phase };
    return [
      {
        ...common,
        kind: endKind(path.from),
        side: path.startsFar ? 'far' : 'connection',
        bar: first,
        terminal: path.from,
        end: 'start',
      },
      {
        ...common,
        kind: endKind(path.to),
        side: path.endsFar ? 'far' : 'connection',
        bar: last,
        terminal: path.to,
        end: 'finish',
      },
    ];
  });
  const rank = (end: Omit<PathEnd, 'number'>) => sideRank(end.side) * 2 + (end.kind === 'lead' ? 0 : 1);
  ends.sort((a, b) => rank(a) - rank(b) || a.path - b.path);
  return ends.map((end, index) => ({ ...end, number: before + index + 1 }));
}

/** A star point is N, or 1N and 2N of separate sets; every other name is a terminal. */
function endKind(terminal: string): 'lead' | 'star' {
  return /^\d?N$/.test(terminal) ? 'star' : 'lead';
}
