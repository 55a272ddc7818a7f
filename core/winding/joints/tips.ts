import { modulo } from '../integers.ts';
import type { Bar, EndSide, Winding } from '../model.ts';
import { type Bends, leanOf, regularPartner } from './bends.ts';
import { type JointHeight, type LegEnd, lackingHeight, legsCross, passedFrom } from './crossing.ts';
import type { Connections } from './joints.ts';
import { lowerBar, offsetOf, upperBar } from './joints.ts';
import { type PairValues, pairTable, widest } from './widest.ts';

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
  /** Legs that run through each other's joints for this choice; empty where some choice keeps all apart. */
  readonly crossings: readonly TipCrossing[];
  /** Free ends for which this choice leaves no place among the joint tips; empty where sizes are not known. */
  readonly lost: readonly Bar[];
}

/** Bars of one layer whose ends pass through each other: the longer leg and the one it runs into, by slot. */
export interface TipCrossing {
  readonly layer: number;
  readonly longer: number;
  readonly shorter: number;
  /** Height, m, by which the longer leg misses passing above; infinite where heights are not known. */
  readonly lacking: number;
}

/** The same for a winding's joints, with the choice for each shape, by shape number. */
export interface TipSpacing extends Omit<TipSpread, 'choices'> {
  readonly side: EndSide;
  readonly choices: ReadonlyMap<number, TipChoice>;
}

/** What the sizes of the bars tell of their ends. */
export interface TipSizes {
  /** How far leaning bars go on along their lean beyond the stack, over the stack's length. */
  readonly straightShare: number;
  /** How high the joints of each layer stand; null where that is not known: legs then pass above none. */
  readonly heights: readonly JointHeight[] | null;
  /**
   * Slots that the tips of two layers have to be apart, a row a layer; 0 where they are far enough apart along
   * the radius. Null where that is not known.
   */
  readonly between: readonly (readonly number[])[] | null;
}

/** Bars that do not lean beyond the stack, of unknown height and width. */
export const withoutSizes: TipSizes = { straightShare: 0, heights: null, between: null };

const choicesInOrder: readonly TipChoice[] = ['upper-leg', 'lower-leg', 'middle'];

/** Spreads the joint tips of a side as `spreadTips` does. Jumpers have no tips; null where no joint is bent. */
export function tipSpacing(
  winding: Winding,
  connections: Connections,
  side: EndSide,
  sizes: TipSizes = withoutSizes,
): TipSpacing | null {
  const groups = new Map<number, TipGroup & { readonly slots: number[] }>();
  const free = connections.ends.filter((end) => end.side === side).map(({ bar }) => bar);
  for (const joint of connections.joints) {
    if (joint.side !== side) continue;
    if (joint.kind === 'jumper') {
      free.push(joint.from, joint.to);
      continue;
    }
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
    { winding, bends: connections.bends, side, sizes },
    sorted.map(([, group]) => group),
    free,
  );
  return { ...spread, side, choices: new Map(sorted.map(([shape], index) => [shape, choices[index]!])) };
}

/**
 * Chooses for each group of joints where its tips lie: first so that no leg runs through another's joint,
 * where that can be, then so that the `free` ends of bars find places among them, then so that the smallest
 * distance between tips in one layer is as large as possible. Leaning bars are taken where they end.
 * Without groups the gap is the whole bore.
 */
export function spreadTips(
  tipSide: TipSide,
  groups: readonly TipGroup[],
  free: readonly Bar[] = [],
): TipSpread {
  const { winding, sizes } = tipSide;
  const { slots } = winding;
  const options = groups.map((group) => distinctTips(tipSide, group));
  const distances: PairValues<GroupTips> = {
    alone: ({ step }) => rounded(step),
    between: (first, second) => gapBetween(slots, first, second),
  };
  const keptApart = pairTable(options, {
    ...distances,
    between: (first, second) =>
      crossingsOf(tipSide, first, second, 1).length > 0 ? crossed : distances.between(first, second),
  });
  const isPlaced = freeEndRoom(tipSide, options, free);
  const room = sizes.between ? Math.min(...sizes.between.map((row, layer) => row[layer]!)) : 0;
  const allPlaced = (choice: readonly number[]) => free.every((_, index) => isPlaced(index, choice));
  const chosen =
    (free.length > 0 && sizes.between ? widest(keptApart, room - rounding, allPlaced) : null) ??
    widest(keptApart, rounding) ??
    widest(pairTable(options, distances), crossed) ??
    options.map(() => 0);
  const tips = chosen.map((choice, group) => options[group]![choice]!);
  const layerGaps = Array.from({ length: winding.layers }, (_, layer) =>
    layerGap(winding.slots, layer, tips),
  );
  const known = layerGaps.filter((gap) => gap !== null);
  return {
    gap: known.length > 0 ? Math.min(...known) : winding.slots,
    layerGaps,
    choices: tips.map(({ choice }) => choice),
    crossings: tips.flatMap((first, index) =>
      tips.slice(index + 1).flatMap((second) => crossingsOf(tipSide, first, second)),
    ),
    lost: free.filter((_, index) => !isPlaced(index, chosen)),
  };
}

/** Stands for the distance of tips whose legs cross: below all that there are. */
const crossed = -1;

/** Tips of all joints of one group for one choice. */
interface GroupTips {
  readonly choice: TipChoice;
  /** Both layers of the group: its tips stand in each of them. */
  readonly layers: readonly [number, number];
  /** Positions in slots, 0 <= position < slots, rising. */
  readonly places: Float64Array;
  /** Smallest distance between two of them. */
  readonly step: number;
  /** How the legs of both layers are bent, and which slots of each they stand in. */
  readonly legs: readonly [LegEnd, LegEnd];
  readonly feet: readonly [Uint8Array, Uint8Array];
}

/** One side of a winding, with how its rings of bar ends bend. */
export interface TipSide {
  readonly winding: Winding;
  readonly bends: Bends;
  readonly side: EndSide;
  readonly sizes: TipSizes;
}

function distinctTips(tips: TipSide, group: TipGroup): GroupTips[] {
  const { slots } = tips.winding;
  const seen = new Set<number>();
  const { lowerLayer, upperLayer, offset } = group;
  const feetFrom = (by: number) => {
    const feet = new Uint8Array(slots);
    for (const slot of group.slots) feet[modulo(slot + by - 1, slots)] = 1;
    return feet;
  };
  const feet = [feetFrom(0), feetFrom(offset)] as const;
  return choicesInOrder.flatMap((choice) => {
    const shift = tipFromLower(tips, group, choice);
    const key = Math.round(shift * 1e6);
    if (seen.has(key)) return [];
    seen.add(key);
    const places = Float64Array.from(group.slots, (slot) => modulo(slot + shift, slots)).sort();
    const turns = [shift - endShift(tips, lowerLayer), shift - offset - endShift(tips, upperLayer)] as const;
    const legs = legEnds(tips.sizes, [lowerLayer, upperLayer], turns);
    const step = smallestStep(slots, places);
    return [{ choice, layers: [lowerLayer, upperLayer], places, step, legs, feet }];
  });
}

/** The two legs of a joint that ends at the height of the higher one. */
function legEnds(
  { heights }: TipSizes,
  layers: readonly [number, number],
  turns: readonly [number, number],
): readonly [LegEnd, LegEnd] {
  const rises = layers.map((layer, leg) => Math.abs(turns[leg]!) * (heights?.[layer]?.rise ?? 0));
  const end = (leg: 0 | 1): LegEnd => {
    const height = heights?.[layers[leg]];
    const higher = Math.max(...rises) - rises[leg]!;
    return { turn: turns[leg], passedFrom: height ? passedFrom(height, higher) : Number.POSITIVE_INFINITY };
  };
  return [end(0), end(1)];
}

/** The pairs of ends of two groups that cross in a layer, `most` of them. Joints within one layer have no leg to pass. */
function crossingsOf(
  { winding: { slots }, sizes: { heights } }: TipSide,
  first: GroupTips,
  second: GroupTips,
  most = Number.POSITIVE_INFINITY,
): readonly TipCrossing[] {
  const found: TipCrossing[] = [];
  for (let i = 0; i < 2; i++)
    for (let j = 0; j < 2; j++) {
      const layer = first.layers[i]!;
      if (layer !== second.layers[j]) continue;
      const a = first.legs[i]!;
      const b = second.legs[j]!;
      // Feet further apart than the legs differ do not overtake.
      const farthest = Math.ceil(Math.abs(a.turn - b.turn)) - 1;
      for (let steps = 1; steps <= farthest; steps++) {
        const apart = a.turn > b.turn ? steps : -steps;
        const lacking = lackingHeight(a, b, apart);
        if (lacking === 0) continue;
        const own = first.feet[i]!;
        const others = second.feet[j]!;
        for (let slot = 0; slot < slots && found.length < most; slot++) {
          const beside = modulo(slot + apart, slots);
          if (own[slot] === 0 || others[beside] === 0) continue;
          const longer = Math.abs(a.turn) >= Math.abs(b.turn);
          found.push({
            layer,
            longer: (longer ? slot : beside) + 1,
            shorter: (longer ? beside : slot) + 1,
            lacking: lacking * (heights?.[layer]?.rise ?? 1),
          });
        }
      }
    }
  return found;
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
function ringTip(tips: TipSide, layer: number): number | null {
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
export function endShift({ winding, side, sizes }: TipSide, layer: number): number {
  const lean = (winding.slots * (winding.lean[layer] ?? 0)) / (2 * Math.PI);
  return (side === 'far' ? lean : -lean) * (0.5 + sizes.straightShare);
}

/**
 * Tells whether a free end, by its index, finds a place among the joint tips of a choice: bent as its ring or half a
 * slot more or less it comes near to no tip, and no leg crosses.
 */
function freeEndRoom(
  tips: TipSide,
  options: readonly (readonly GroupTips[])[],
  free: readonly Bar[],
): (index: number, choice: readonly number[]) => boolean {
  const { between } = tips.sizes;
  if (!between) return () => true;
  const candidates = free.map((bar) => freeEndTurns(tips, bar.layer));
  let count = 0;
  const firstOption = options.map((own) => {
    count += own.length;
    return count - own.length;
  });
  // By free end, how it is bent, and option: 0 not looked at, 1 clear, 2 not.
  const known = new Uint8Array(free.length * mostTurns * count);
  const clear = (index: number, candidate: number, group: number, option: number): boolean => {
    const at = (index * mostTurns + candidate) * count + firstOption[group]! + option;
    if (known[at] === 0) {
      const turn = candidates[index]![candidate]!;
      known[at] = isClear(tips, between, free[index]!, turn, options[group]![option]!) ? 1 : 2;
    }
    return known[at] === 1;
  };
  return (index, choice) => {
    for (let candidate = 0; candidate < mostTurns; candidate++) {
      let group = 0;
      while (group < choice.length && clear(index, candidate, group, choice[group]!)) group++;
      if (group === choice.length) return true;
    }
    return false;
  };
}

/** Ways to bend a free end. */
const mostTurns = 3;

/** How the end of a bar of a layer that is not joined may turn, in slots, the best first. */
export function freeEndTurns(tips: TipSide, layer: number): readonly [number, number, number] {
  const ring = ringTip(tips, layer);
  const turn = ring === null ? 0 : ring - endShift(tips, layer);
  const sense = Math.sign(turn) || leanOf(tips.bends, tips.side, layer) || 1;
  return [turn, turn + sense / 2, turn - sense / 2];
}

/** Whether a free end turned so keeps clear of the joints of a group. */
function isClear(
  tips: TipSide,
  between: readonly (readonly number[])[],
  bar: Bar,
  turn: number,
  { layers, places, legs, feet }: GroupTips,
): boolean {
  const { slots } = tips.winding;
  const own = between[bar.layer]!;
  const needed = Math.max(own[layers[0]]!, own[layers[1]]!);
  if (needed > 0) {
    const place = modulo(bar.slot + endShift(tips, bar.layer) + turn, slots);
    if (distanceTo(slots, place, places) < needed - rounding) return false;
  }
  const end: LegEnd = { turn, passedFrom: Number.POSITIVE_INFINITY };
  for (let leg = 0; leg < layers.length; leg++) {
    if (layers[leg] !== bar.layer) continue;
    const most = Math.ceil(Math.abs(turn) + Math.abs(legs[leg]!.turn));
    for (let apart = -most; apart <= most; apart++) {
      if (feet[leg]![modulo(bar.slot + apart - 1, slots)] === 0) continue;
      if (legsCross(end, legs[leg]!, apart)) return false;
    }
  }
  return true;
}

/** Smallest distance between any tips of two groups in a layer; the whole bore where they share none. */
function gapBetween(slots: number, first: GroupTips, second: GroupTips): number {
  if (!first.layers.some((layer) => second.layers.includes(layer))) return slots;
  return rounded(Math.min(first.step, second.step, smallestDistance(slots, first.places, second.places)));
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
    smallest = Math.min(smallest, distanceAt(slots, place, second, next));
  }
  return smallest;
}

/** Smallest distance round the bore of a place from those of a rising list, at most the whole bore. */
function distanceTo(slots: number, place: number, others: Float64Array): number {
  let next = 0;
  let end = others.length;
  while (next < end) {
    const middle = (next + end) >> 1;
    if (others[middle]! < place) next = middle + 1;
    else end = middle;
  }
  return distanceAt(slots, place, others, next);
}

/** The same, where the first of them that is not before the place is known. */
function distanceAt(slots: number, place: number, others: Float64Array, next: number): number {
  const after = next < others.length ? others[next]! : others[0]! + slots;
  const before = next > 0 ? others[next - 1]! : others.at(-1)! - slots;
  return Math.min(slots, after - place, place - before);
}

// Distances are sums of slots and shifts: what differs by less than this is equal.
const rounding = 1e-6;

function rounded(distance: number): number {
  return Math.round(distance * 1e6) / 1e6;
}
