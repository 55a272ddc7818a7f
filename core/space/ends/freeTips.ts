import { modulo } from '../../winding/integers.ts';

/** A bar end that stands upright on one side: a joint's, an apex, a lead's. Places in slots, sizes in m. */
export interface Tip {
  readonly layer: number;
  /** Round the axis, and where its bar leaves the stack. */
  readonly place: number;
  readonly foot: number;
  readonly radius: number;
  readonly coatedWidth: number;
  readonly coatedHeight: number;
}

/** A bar end that may stand at several places, the best first. */
export interface FreeTip {
  readonly candidates: readonly Tip[];
  /** Tips of one group, such as those of the same path end in every phase, stand alike where they can. */
  readonly group: string;
}

/** What was found for a free tip. */
export interface PlacedTip {
  /** Index of its candidate; 0 where none is clear. */
  readonly candidate: number;
  /** Null: it is clear of all others. Else the clearance with which its best candidate would be, m; may be negative. */
  readonly clearance: number | null;
}

/** How many others may be moved, one because of the other, to make room for one. */
const mostMoves = 3;
const rounding = 1e-9;

/**
 * Places free tips among fixed ones: group after group takes the first candidate with which all its
 * tips keep the clearance round the axis or along the radius and pass over no tip of their layer; where
 * none does, each for itself; where one finds no place, others are moved for it. Where some find none, all
 * may pass over tips.
 */
export function placeFreeTips(
  slots: number,
  clearance: number,
  fixed: readonly Tip[],
  free: readonly FreeTip[],
): readonly PlacedTip[] {
  const behind = placedTips(slots, clearance, fixed, free, { mayPass: false });
  const lost = behind.some((tip) => tip.clearance !== null);
  return lost ? placedTips(slots, clearance, fixed, free, { mayPass: true }) : behind;
}

function placedTips(
  slots: number,
  clearance: number,
  fixed: readonly Tip[],
  free: readonly FreeTip[],
  { mayPass }: { readonly mayPass: boolean },
): readonly PlacedTip[] {
  const gapOf = (a: Tip, b: Tip) =>
    !mayPass && passes(slots, a, b) ? Number.NEGATIVE_INFINITY : roomBetween(slots, a, b);
  const reach = reachOf(slots, clearance, [...fixed, ...free.flatMap(({ candidates }) => candidates)]);
  const standing = bySlot(slots, reach, fixed, (tip) => tip.place);
  const movable = looseTips(slots, reach, free);
  const tooNear = (a: Tip, b: Tip) => gapOf(a, b) < clearance - rounding;
  const known = free.map((): boolean[] => []);
  const isClear = (index: number, candidate: number): boolean => {
    const tip = free[index]!.candidates[candidate]!;
    known[index]![candidate] ??= !standing(tip.place).some((other) => tooNear(tip, other));
    return known[index]![candidate];
  };
  let chosen: (number | null)[] = free.map(() => null);
  const tipOf = (index: number) => free[index]!.candidates[chosen[index]!]!;
  const placed = (index: number) => movable(index).filter((other) => chosen[other] !== null);
  const place = (index: number, moves: number, held: readonly number[]): boolean => {
    for (const [candidate, tip] of free[index]!.candidates.entries()) {
      if (!isClear(index, candidate)) continue;
      const inTheWay = placed(index).filter((other) => tooNear(tip, tipOf(other)));
      if (inTheWay.length > 0 && (moves === 0 || inTheWay.some((other) => held.includes(other)))) continue;
      const before = inTheWay.length > 0 ? [...chosen] : [];
      chosen[index] = candidate;
      for (const other of inTheWay) chosen[other] = null;
      if (inTheWay.every((other) => place(other, moves - 1, [...held, index]))) return true;
      chosen = before;
    }
    return false;
  };
  /** Places all of a group by the same candidate, if that is clear for all. */
  const placeAlike = (members: readonly number[]): boolean => {
    const most = Math.min(...members.map((index) => free[index]!.candidates.length));
    for (let candidate = 0; candidate < most; candidate++) {
      const before = [...chosen];
      const fits = members.every((index) => {
        const tip = free[index]!.candidates[candidate]!;
        if (!isClear(index, candidate) || placed(index).some((other) => tooNear(tip, tipOf(other))))
          return false;
        chosen[index] = candidate;
        return true;
      });
      if (fits) return true;
      chosen = before;
    }
    return false;
  };
  const lost = new Set<number>();
  for (const members of groupsOf(free)) {
    if (placeAlike(members)) continue;
    for (const index of members) {
      if (!place(index, 0, []) && !place(index, mostMoves, [])) lost.add(index);
    }
  }
  return free.map(({ candidates }, index): PlacedTip => {
    if (!lost.has(index)) return { candidate: chosen[index]!, clearance: null };
    const others = placed(index).map(tipOf);
    const widest = candidates.map((tip) =>
      [...standing(tip.place), ...others].reduce(
        (least, other) => Math.min(least, gapOf(tip, other)),
        Number.POSITIVE_INFINITY,
      ),
    );
    return { candidate: 0, clearance: Math.max(...widest) };
  });
}

/** The tips of each group, in the order in which the groups first come. */
function groupsOf(free: readonly FreeTip[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  free.forEach(({ group }, index) => {
    const members = groups.get(group);
    if (members) members.push(index);
    else groups.set(group, [index]);
  });
  return [...groups.values()];
}

/** Whether the leg of one tip passes over the other in its layer. */
function passes(slots: number, a: Tip, b: Tip): boolean {
  return (
    a.layer === b.layer &&
    stepsBetween(slots, a.place, b.place) * stepsBetween(slots, a.foot, b.foot) < -rounding
  );
}

/** Slots from the second place to the first, the shorter way round. */
function stepsBetween(slots: number, a: number, b: number): number {
  return modulo(a - b + slots / 2, slots) - slots / 2;
}

/** Room between two tips: the larger of that round the axis and that along the radius, m. */
function roomBetween(slots: number, a: Tip, b: Tip): number {
  const inner = Math.min(a.radius - a.coatedHeight / 2, b.radius - b.coatedHeight / 2);
  const round = (Math.abs(stepsBetween(slots, a.place, b.place)) * 2 * Math.PI * inner) / slots;
  const width = (a.coatedWidth + b.coatedWidth) / 2;
  return Math.max(round - width, Math.abs(a.radius - b.radius) - (a.coatedHeight + b.coatedHeight) / 2);
}

/** Slots within which tips may be too near each other round the axis. */
function reachOf(slots: number, clearance: number, tips: readonly Tip[]): number {
  let widest = 0;
  let innermost = Number.POSITIVE_INFINITY;
  for (const { coatedWidth, radius, coatedHeight } of tips) {
    widest = Math.max(widest, coatedWidth);
    innermost = Math.min(innermost, radius - coatedHeight / 2);
  }
  return ((widest + clearance) * slots) / (2 * Math.PI * innermost);
}

/** Items by their place round the axis: all within `reach` slots of a place, and some beyond. */
function bySlot<T>(
  slots: number,
  reach: number,
  items: readonly T[],
  placeOf: (item: T) => number,
): (place: number) => readonly T[] {
  const cells = new Map<number, T[]>();
  const cellOf = (place: number) => Math.floor(modulo(place, slots));
  for (const item of items) {
    const cell = cellOf(placeOf(item));
    const others = cells.get(cell);
    if (others) others.push(item);
    else cells.set(cell, [item]);
  }
  const steps = Math.ceil(reach);
  if (2 * steps + 1 >= slots) return () => items;
  return (place) => {
    const found: T[] = [];
    for (let step = -steps; step <= steps; step++) {
      found.push(...(cells.get(modulo(cellOf(place) + step, slots)) ?? []));
    }
    return found;
  };
}

/** For each free tip those that may come near it, whichever candidates they take. */
function looseTips(
  slots: number,
  reach: number,
  free: readonly FreeTip[],
): (index: number) => readonly number[] {
  const first = (index: number) => free[index]!.candidates[0]!.place;
  let spread = 0;
  free.forEach(({ candidates }, index) => {
    for (const { place } of candidates) spread = Math.max(spread, Math.abs(place - first(index)));
  });
  const around = bySlot(slots, reach + 2 * spread, [...free.keys()], first);
  return (index) => around(first(index)).filter((other) => other !== index);
}
