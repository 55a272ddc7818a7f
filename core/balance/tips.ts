import { modulo } from '../winding/integers.ts';
import type { Connections, WindingJoint } from '../winding/joints.ts';
import { lowerBar, offsetOf, upperBar } from '../winding/joints.ts';
import type { EndSide, Winding } from '../winding/model.ts';

/**
 * Where the two legs of a joint meet: at mid span, or where the lower or the upper leg ends when it is
 * bent as the regular joints bend its ring.
 */
export type TipChoice = 'middle' | 'lower-leg' | 'upper-leg';

export interface TipSpacing {
  readonly side: EndSide;
  /** Smallest distance between neighboring tips of one layer, in slots, for the best choice. */
  readonly gap: number;
  /** The same for each layer; null where a layer has fewer than two tips. */
  readonly layerGaps: readonly (number | null)[];
  /** The choice made for each shape, by shape number. */
  readonly choices: ReadonlyMap<number, TipChoice>;
}

const choicesInOrder: readonly TipChoice[] = ['upper-leg', 'lower-leg', 'middle'];
const mostSearchNodes = 20_000;

/**
 * Spreads the joint tips of a side: chooses for each shape where its tip lies so that the smallest
 * distance between tips in one layer is as large as possible. Jumpers have no tips. Null where a side
 * has no bent joints. Spans are true spans, so leaning bars are taken as they end.
 */
export function tipSpacing(winding: Winding, connections: Connections, side: EndSide): TipSpacing | null {
  const groups = bentJoints(connections, side);
  if (groups.length === 0) return null;
  const options = groups.map((joints) => distinctTips(winding, connections, joints));
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
  const tips = chosen.map((choice, shape) => options[shape]![choice]!);
  const layerGaps = Array.from({ length: winding.layers }, (_, layer) =>
    layerGap(winding.slots, layer, tips),
  );
  const known = layerGaps.filter((gap) => gap !== null);
  return {
    side,
    gap: known.length > 0 ? Math.min(...known) : winding.slots,
    layerGaps,
    choices: new Map(groups.map((joints, index) => [joints[0]!.shape, tips[index]!.choice])),
  };
}

/** The bent joints of a side, shape by shape. */
function bentJoints({ joints, shapes }: Connections, side: EndSide): WindingJoint[][] {
  const groups: WindingJoint[][] = shapes.map(() => []);
  for (const joint of joints) {
    if (joint.side === side && joint.kind !== 'jumper') groups[joint.shape - 1]!.push(joint);
  }
  return groups.filter((group) => group.length > 0);
}

/** Tips of all joints of one shape for one choice. */
interface ShapeTips {
  readonly choice: TipChoice;
  /** Both layers of the shape: its tips stand in each of them. */
  readonly layers: readonly [number, number];
  /** Positions in slots, 0 <= position < slots, rising. */
  readonly places: Float64Array;
}

function distinctTips(
  winding: Winding,
  connections: Connections,
  joints: readonly WindingJoint[],
): ShapeTips[] {
  const { slots } = winding;
  const [first] = joints as [WindingJoint];
  const { layer } = lowerBar(first);
  const ends = joints.map((joint) => endPlace(winding, joint.side, lowerBar(joint).slot, layer));
  const seen = new Set<number>();
  return choicesInOrder.flatMap((choice) => {
    const shift = tipFromLower(connections, first, choice);
    const key = Math.round(shift * 1e6);
    if (seen.has(key)) return [];
    seen.add(key);
    const places = Float64Array.from(ends, (end) => modulo(end + shift, slots)).sort();
    return [{ choice, layers: [layer, upperBar(first).layer], places }];
  });
}

/** Where a bar leaves the stack, in slots. */
function endPlace(winding: Winding, side: EndSide, slot: number, layer: number): number {
  const shift = (winding.slots * (winding.lean[layer] ?? 0)) / (4 * Math.PI);
  return slot + (side === 'far' ? shift : -shift);
}

/** Slots from the lower bar's end to the tip. */
function tipFromLower(connections: Connections, joint: WindingJoint, choice: TipChoice): number {
  const offset = joint.trueSpan * (offsetOf(joint) === joint.span ? 1 : -1);
  const { bends } = connections;
  const regular = joint.side === 'far' ? bends.far : bends.connection;
  const lower = lowerBar(joint).layer;
  const upper = upperBar(joint).layer;
  const ring = (layer: number): number | null => {
    const pair = regular[Math.floor(layer / 2)];
    return pair == null ? null : layer % 2 === 0 ? pair : -pair;
  };
  const lowerRing = ring(lower);
  const upperRing = ring(upper);
  if (choice === 'lower-leg' && lowerRing !== null) return lowerRing / 2;
  if (choice === 'upper-leg' && upperRing !== null) return offset + upperRing / 2;
  return offset / 2;
}

/** Smallest distance between neighboring tips of one shape; a single tip has the whole bore. */
function ownGap(slots: number, { places }: ShapeTips): number {
  return rounded(smallestStep(slots, places));
}

/** Smallest distance between any tips of two shapes in a layer; the whole bore where they share none. */
function gapBetween(slots: number, first: ShapeTips, second: ShapeTips): number {
  if (!first.layers.some((layer) => second.layers.includes(layer))) return slots;
  const own = Math.min(smallestStep(slots, first.places), smallestStep(slots, second.places));
  return rounded(Math.min(own, smallestDistance(slots, first.places, second.places)));
}

/** Smallest distance of neighboring tips in a layer; null where it has fewer than two. */
function layerGap(slots: number, layer: number, tips: readonly ShapeTips[]): number | null {
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

/** One choice for each shape such that no two come closer than `level`, or null. */
function chooseAt(
  gaps: readonly (readonly (readonly (readonly number[])[])[])[],
  level: number,
): number[] | null {
  const chosen: number[] = [];
  let nodes = 0;
  const next = (): boolean => {
    const shape = chosen.length;
    if (shape === gaps.length) return true;
    for (let choice = 0; choice < gaps[shape]!.length; choice++) {
      if (++nodes > mostSearchNodes) return false;
      const pairs = gaps[shape]![choice]!;
      if (pairs[shape]![choice]! < level) continue;
      if (chosen.some((other, index) => pairs[index]![other]! < level)) continue;
      chosen.push(choice);
      if (next()) return true;
      chosen.pop();
    }
    return false;
  };
  return next() ? chosen : null;
}

/** What end bends need, in meters; one diameter and width for each layer. */
export interface EndGeometry {
  /** Diameter of the circle on which each layer's bars lie. */
  readonly diameters: readonly number[];
  /** Bar width with its insulation. */
  readonly widths: readonly number[];
  /** Clearance between neighboring bends. */
  readonly clearance: number;
}

/** Layers whose tips come too close. */
export interface TipProblem {
  readonly side: EndSide;
  readonly layer: number;
  /** Distance there is, and needed, in meters. */
  readonly actual: number;
  readonly expected: number;
}

/** Layers where the best spacing of tips is narrower than a bar with its clearance. */
export function tipProblems(winding: Winding, spacing: TipSpacing, geometry: EndGeometry): TipProblem[] {
  return spacing.layerGaps.flatMap((gap, layer) => {
    if (gap === null) return [];
    const actual = (gap * Math.PI * geometry.diameters[layer]!) / winding.slots;
    const expected = geometry.widths[layer]! + geometry.clearance;
    return actual < expected ? [{ side: spacing.side, layer, actual, expected }] : [];
  });
}

/** How steeply a layer's end bends rise; `sine` of 1 and more cannot be bent. */
export interface BendSlope {
  readonly layer: number;
  /** Needed width over slot pitch: sine of the bend's angle from the circumference. */
  readonly sine: number;
  /** Smallest clearance that would be too much, in meters: slot pitch less bar width. */
  readonly clearanceLimit: number;
}

/** Slope of each layer's end bends. */
export function bendSlopes(winding: Winding, geometry: EndGeometry): BendSlope[] {
  return geometry.diameters.map((diameter, layer) => {
    const pitch = (Math.PI * diameter) / winding.slots;
    const width = geometry.widths[layer]!;
    return { layer, sine: (width + geometry.clearance) / pitch, clearanceLimit: pitch - width };
  });
}

/** Height of a joint's bends above the stack in meters, the higher of its legs; null where they cannot pass. */
export function bendHeight(winding: Winding, joint: WindingJoint, geometry: EndGeometry): number | null {
  const slopes = bendSlopes(winding, geometry);
  const heights = [joint.from.layer, joint.to.layer].map((layer) => {
    const { sine } = slopes[layer]!;
    const pitch = (Math.PI * geometry.diameters[layer]!) / winding.slots;
    return sine >= 1 - 1e-12
      ? null
      : (Math.abs(joint.trueSpan) / 2) * pitch * (sine / Math.sqrt(1 - sine * sine));
  });
  return heights.some((height) => height === null) ? null : Math.max(...heights.map((height) => height ?? 0));
}
