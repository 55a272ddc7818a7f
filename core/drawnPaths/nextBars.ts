import { isBentSpan } from '../routing/jointKind.ts';
import { type Bends, sideOfJoint } from '../winding/joints/bends.ts';
import { type JointReason, jointReason, kindOfReason, type WindingJoint } from '../winding/joints/joints.ts';
import { type Bar, cellAt, type Path, type Winding } from '../winding/model.ts';

/** What paths are drawn by hand on: a winding, and what counts as regular in it. */
export interface DrawingBase {
  readonly winding: Winding;
  /** Fixed for the whole drawing, so that no joint changes its kind while the path grows. */
  readonly bends: Bends;
}

/** How a joint to a bar is made: bent as all of its kind are, bent otherwise, or by a separate piece. */
export type NextKind = 'regular' | 'special' | 'piece';

/** A joint that leads from one bar to another, as it would be made. */
export interface MadeJoint {
  readonly span: number;
  readonly kind: NextKind;
  /** Why: what bending it would mean. */
  readonly reason: JointReason;
  /** It could be bent, but reaches over more than a pole pair. */
  readonly tooFar: boolean;
}

/** A bar to which the path may lead next. */
export interface NextBar extends MadeJoint {
  readonly bar: Bar;
}

/** A path so far. */
export type PathSoFar = Pick<Path, 'phase' | 'bars' | 'spans' | 'startsFar'>;

/** A bar's place among all of a winding: its index in the slot table's `cells`. */
export function placeOf({ slots }: Pick<Winding, 'slots'>, bar: Bar): number {
  return bar.layer * slots + bar.slot - 1;
}

/** The bars of a phase that no path holds, by layer, then by slot; `sense` +1 for those that lead away from the connection side. */
export function freeBars(
  { winding }: DrawingBase,
  phase: number,
  taken: ReadonlySet<number>,
  sense?: 1 | -1,
): readonly Bar[] {
  const bars: Bar[] = [];
  for (let layer = 0; layer < winding.layers; layer++)
    for (let slot = 1; slot <= winding.slots; slot++) {
      const cell = cellAt(winding.table, slot, layer);
      const wanted = sense === undefined ? Math.abs(cell) === phase + 1 : cell === sense * (phase + 1);
      if (wanted && !taken.has(placeOf(winding, { slot, layer }))) bars.push({ slot, layer });
    }
  return bars;
}

/**
 * The bars to which a path may lead from its last one, the nearest to regular first: those of its phase that no
 * path holds and that carry their current the other way. `taken` are the places that other paths hold; the path's
 * own bars need not be among them. Every one of them keeps the rules about bars, senses and sides; how the joint is
 * made keeps those about bending. A path without bars leads nowhere.
 */
export function nextBars(base: DrawingBase, path: PathSoFar, taken: ReadonlySet<number>): readonly NextBar[] {
  const from = path.bars.at(-1);
  if (from === undefined) return [];
  const { winding } = base;
  const sense = cellAt(winding.table, from.slot, from.layer) > 0 ? -1 : 1;
  const own = new Set([...taken, ...path.bars.map((bar) => placeOf(winding, bar))]);
  const side = sideOfJoint(path, path.bars.length - 1);
  return freeBars(base, path.phase, own, sense)
    .map((bar) => ({ bar, ...madeJoint(base, side, from, bar) }))
    .sort((a, b) => rankOf(a) - rankOf(b) || Math.abs(a.span) - Math.abs(b.span));
}

/**
 * How two bars are joined on a side: the way round the bore that is nearest to regular, else the shorter one. Bends
 * reach over at most a pole pair; what reaches farther, or would have to bend against its layer, is a piece.
 */
export function madeJoint(base: DrawingBase, side: 'connection' | 'far', from: Bar, to: Bar): MadeJoint {
  const { slots } = base.winding;
  const forward = (((to.slot - from.slot) % slots) + slots) % slots;
  const ways = forward === 0 ? [0] : [forward, forward - slots];
  const [best] = ways
    .map((span) => madeWith(base, side, from, to, span))
    .sort((a, b) => rankOf(a) - rankOf(b) || Math.abs(a.span) - Math.abs(b.span));
  return best!;
}

function madeWith(
  { winding, bends }: DrawingBase,
  side: 'connection' | 'far',
  from: Bar,
  to: Bar,
  span: number,
): MadeJoint {
  const reason = jointReason(bends, side, from, to, span);
  const kind: WindingJoint['kind'] = kindOfReason(reason);
  const tooFar = kind !== 'regular' && kind !== 'jumper' && !isBentSpan(winding, span);
  return {
    span,
    kind: kind === 'regular' ? 'regular' : kind === 'jumper' || tooFar ? 'piece' : 'special',
    reason,
    tooFar,
  };
}

const ranks: Readonly<Record<NextKind, number>> = { regular: 0, special: 1, piece: 2 };

/** Rising from regular joints to pieces that cross the others. */
export function rankOf({ kind, reason }: Pick<MadeJoint, 'kind' | 'reason'>): number {
  const crossing = reason === 'against-lean' || reason === 'turn-inner' || reason === 'bridge';
  return ranks[kind] + (kind === 'piece' && crossing ? 1 : 0);
}
