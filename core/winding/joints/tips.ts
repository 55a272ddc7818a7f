import { modulo } from '../integers.ts';
import type { EndSide, Winding } from '../model.ts';
import { type Bends, regularPartner } from './bends.ts';
import type { Connections } from './joints.ts';
import { lowerBar, offsetOf, upperBar } from './joints.ts';

/**
 * Where the two legs of a joint meet: at mid span, or where the lower or the upper leg ends when it is
 * bent as the regular joints bend its ring.
 */
export type TipChoice = 'middle' | 'lower-leg' | 'upper-leg';

/** Joints of one shape on one side, by the slots of their lower bars. */
export interface TipGroup {
  readonly lowerLayer: number;
  readonly upperLayer: number;
  /** Slots from the lower bar to the upper one. */
  readonly offset: number;
  readonly slots: readonly number[];
}

/** How the tips of a side lie for the best choice. */
export interface TipSpread {
  /** Smallest distance between neighboring tips of one layer, in slots. */
  readonly gap: number;
  /** The same for each layer; null where a layer has fewer than two tips. */
  readonly layerGaps: readonly (number | null)[];
  /** The choice made for each group. */
  readonly choices: readonly TipChoice[];
}

/** The same for a winding's joints, with the choice for each shape, by shape number. */
export interface TipSpacing extends Omit<TipSpread, 'choices'> {
  readonly side: EndSide;
  readonly choices: ReadonlyMap<number, TipChoice>;
}

const choicesInOrder: readonly TipChoice[] = ['upper-leg', 'lower-leg', 'middle'];
const mostSearchNodes = 20_000;

/**
 * Spreads the joint tips of a side as `spreadTips` does. Jumpers have no tips; null where no joint is
 * bent. `straightShare`: how far leaning bars go on along their lean beyond the stack, over the stack's length.
 */
export function tipSpacing(
  winding: Winding,
  connections: Connections,
  side: EndSide,
  straightShare = 0,
): TipSpacing | null {
  const groups = new Map<number, TipGroup & { readonly slots: number[] }>();
  for (const joint of connections.joints) {
    if (joint.side !== side || joint.kind === 'jumper') continue;
    const lower = lowerBar(joint);
    const known = groups.get(joint.shape);
    if (known) known.slots.push(lower.slot);
    else {
      const layers = { lowerLayer: lower.layer, upperLayer: upperBar(joint).layer };
      groups.set(joint.shape, { ...layers, offset: offsetOf(joint), slots: [lower.slot] });
    }
  }
  if (groups.size === 0) return null;
  // One order for a winding and its mirror image, so that among equal choices both make the same one.
  const { direction } = connections.bends;
  const sorted = [...groups].sort(
    ([, a], [, b]) =>
      a.lowerLayer - b.lowerLayer ||
      a.upperLayer - b.upperLayer ||
      Math.abs(a.offset) - Math.abs(b.offset) ||
      direction * (b.offset - a.offset),
  );
  const { choices, ...spread } = spreadTips(
    winding,
    connections.bends,
    side,
    sorted.map(([, group]) => group),
    straightShare,
  );
  return { ...spread, side, choices: new Map(sorted.map(([shape], index) => [shape, choices[index]!])) };
}

/**
 * Chooses for each group of joints where its tips lie so that the smallest distance between tips in
 * one layer is as large as possible. Leaning bars are taken where they end. Without groups the gap is
 * the whole bore.
 */
export function spreadTips(
  winding: Winding,
  bends: Bends,
  side: EndSide,
  groups: readonly TipGroup[],
  straightShare = 0,
): TipSpread {
  const options = groups.map((group) => distinctTips({ winding, bends, side, straightShare }, group));
  const gaps = options.map((own, a) =>
    own.map((first) =>
      options.map((others, b) =>
        others.map((second) =>
          a === b ? ownGap(winding.slots, first) : gapBetween(winding.slots, first, second),
        ),
      ),
    ),
  );
  const levels = [...new Set(gaps.flat(3))].sort((x, y) => y - x);
  let chosen = options.map(() => 0);
  for (const level of levels) {
    const found = chooseAt(gaps, level);
    if (!found) continue;
    chosen = found;
    break;
  }
  const tips = chosen.map((choice, group) => options[group]![choice]!);
  const layerGaps = Array.from({ length: winding.layers }, (_, layer) =>
    layerGap(winding.slots, layer, tips),
  );
  const known = layerGaps.filter((gap) => gap !== null);
  return {
    gap: known.length > 0 ? Math.min(...known) : winding.slots,
    layerGaps,
    choices: tips.map(({ choice }) => choice),
  };
}

/** Tips of all joints of one group for one choice. */
interface GroupTips {
  readonly choice: TipChoice;
  /** Both layers of the group: its tips stand in each of them. */
  readonly layers: readonly [number, number];
  /** Positions in slots, 0 <= position < slots, rising. */
  readonly places: Float64Array;
}

/** One side of a winding, with how its rings of bar ends bend. */
export interface TipSide {
  readonly winding: Winding;
  readonly bends: Bends;
  readonly side: EndSide;
  /** How far leaning bars go on along their lean beyond the stack, over the stack's length. */
  readonly straightShare: number;
}

function distinctTips(tips: TipSide, group: TipGroup): GroupTips[] {
  const { slots } = tips.winding;
  const seen = new Set<number>();
  return choicesInOrder.flatMap((choice) => {
    const shift = tipFromLower(tips, group, choice);
    const key = Math.round(shift * 1e6);
    if (seen.has(key)) return [];
    seen.add(key);
    const places = Float64Array.from(group.slots, (slot) => modulo(slot + shift, slots)).sort();
    return [{ choice, layers: [group.lowerLayer, group.upperLayer], places }];
  });
}

/** Slots from the lower bar's slot to the tip of a joint. */
export function tipFromLower(
  tips: TipSide,
  { lowerLayer, upperLayer, offset }: Omit<TipGroup, 'slots'>,
  choice: TipChoice,
): number {
  if (choice === 'lower-leg') {
    const tip = ringTip(tips, lowerLayer);
    if (tip !== null) return tip;
  }
  if (choice === 'upper-leg') {
    const tip = ringTip(tips, upperLayer);
    if (tip !== null) return offset + tip;
  }
  return halfWay(tips, lowerLayer, upperLayer, offset);
}

/**
 * Slots from a bar's slot to where its end comes to stand when it is bent as the regular joints bend its
 * ring; null where none is regular.
 */
export function ringTip(tips: TipSide, layer: number): number | null {
  const { bends, side } = tips;
  const partner = regularPartner(bends, side, layer);
  if (partner === null) return null;
  const betweenPairs = Math.floor(layer / 2) !== Math.floor(partner / 2);
  const ofPair = (side === 'far' ? bends.far : bends.connection)[Math.floor(layer / 2)];
  const span = betweenPairs ? bends.betweenPairs : ofPair;
  return span == null ? null : halfWay(tips, layer, partner, layer < partner ? span : -span);
}

/** Half way between two bars' ends, from the slot of the first: where their layers lean, ends are moved. */
function halfWay(tips: TipSide, from: number, to: number, span: number): number {
  return (span + endShift(tips, from) + endShift(tips, to)) / 2;
}

/** Slots by which a layer's bars stand off their slot at mid-stack where their straight parts end. */
export function endShift({ winding, side, straightShare }: TipSide, layer: number): number {
  const lean = (winding.slots * (winding.lean[layer] ?? 0)) / (2 * Math.PI);
  return (side === 'far' ? lean : -lean) * (0.5 + straightShare);
}

/** Smallest distance between neighboring tips of one group; a single tip has the whole bore. */
function ownGap(slots: number, { places }: GroupTips): number {
  return rounded(smallestStep(slots, places));
}

/** Smallest distance between any tips of two groups in a layer; the whole bore where they share none. */
function gapBetween(slots: number, first: GroupTips, second: GroupTips): number {
  if (!first.layers.some((layer) => second.layers.includes(layer))) return slots;
  const own = Math.min(smallestStep(slots, first.places), smallestStep(slots, second.places));
  return rounded(Math.min(own, smallestDistance(slots, first.places, second.places)));
}

/** Smallest distance of neighboring tips in a layer; null where it has fewer than two. */
function layerGap(slots: number, layer: number, tips: readonly GroupTips[]): number | null {
  const inLayer = tips.filter((tip) => tip.layers.includes(layer));
  const places = new Float64Array(inLayer.reduce((sum, tip) => sum + tip.places.length, 0));
  if (places.length < 2) return null;
  let filled = 0;
  for (const tip of inLayer) {
    places.set(tip.places, filled);
    filled += tip.places.length;
  }
  return rounded(smallestStep(slots, places.sort()));
}

/** Smallest step between neighbors round the bore, of rising places. */
function smallestStep(slots: number, places: Float64Array): number {
  let smallest = places[0]! + slots - places.at(-1)!;
  for (let index = 1; index < places.length; index++) {
    smallest = Math.min(smallest, places[index]! - places[index - 1]!);
  }
  return smallest;
}

/** Smallest distance round the bore between a place of one rising list and a place of another. */
function smallestDistance(slots: number, first: Float64Array, second: Float64Array): number {
  let smallest = slots;
  let next = 0;
  for (const place of first) {
    while (next < second.length && second[next]! < place) next++;
    const after = next < second.length ? second[next]! : second[0]! + slots;
    const before = next > 0 ? second[next - 1]! : second.at(-1)! - slots;
    smallest = Math.min(smallest, after - place, place - before);
  }
  return smallest;
}

// Distances are sums of slots and shifts: what differs by less than this is equal.
function rounded(distance: number): number {
  return Math.round(distance * 1e6) / 1e6;
}

/** One choice for each group such that no two come closer than `level`, or null. */
function chooseAt(
  gaps: readonly (readonly (readonly (readonly number[])[])[])[],
  level: number,
): number[] | null {
  const chosen: number[] = [];
  let nodes = 0;
  const next = (): boolean => {
    const group = chosen.length;
    if (group === gaps.length) return true;
    for (let choice = 0; choice < gaps[group]!.length; choice++) {
      if (++nodes > mostSearchNodes) return false;
      const pairs = gaps[group]![choice]!;
      if (pairs[group]![choice]! < level) continue;
      if (chosen.some((other, index) => pairs[index]![other]! < level)) continue;
      chosen.push(choice);
      if (next()) return true;
      chosen.pop();
    }
    return false;
  };
  return next() ? chosen : null;
}
