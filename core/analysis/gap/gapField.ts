import type { Winding } from '../../winding/model.ts';

// A current round the bore drives its winding function N across the gap: it rises by the turns of each
// bar and has no mean. The field energy is the integral of its square, the coupling of two conductors
// that of their product (linear iron, radial field; Pyrhonen, Jokinen, Hrabovcova, ch. 2, from memory).
// N is the sum, over the bars, of sawtooth functions that rise by 1 at the bar and fall evenly elsewhere:
// with as many bars there as back, the falls cancel.

const turn = 2 * Math.PI;

/**
 * Integral over the bore of the product of two bars' sawtooth functions, rad: the bars stand `apart`
 * radians from each other at mid-stack, and one leans by `lean` radians over the stack against the
 * other; mean over the stack. Of straight bars pi/6 - d/2 + d^2/(4 pi), d from 0 to 2 pi.
 */
export function barOverlap(apart: number, lean: number): number {
  const width = Math.abs(lean);
  if (width >= turn) {
    // The overlap has no mean over a whole turn: only what is left of the lean counts.
    const turns = Math.floor(width / turn);
    const rest = width - turns * turn;
    return (rest / width) * barOverlap(apart - Math.PI * turns, rest);
  }
  const distance = Math.abs(apart - turn * Math.round(apart / turn));
  // Mean distance of a bar that crosses the other within the stack, or does not.
  const mean = distance * 2 >= width ? distance : (distance * distance) / width + width / 4;
  return Math.PI / 6 - mean / 2 + (distance * distance + (width * width) / 12) / (2 * turn);
}

/**
 * Integrals over the bore of the products of the winding functions of conductors, mean over the stack, in
 * radians times turns squared: entry i n + j for conductors i and j of n. `owners` names, by place as in
 * the slot table's `cells`, the conductor a bar belongs to, or -1; a bar's sense is the table's. A
 * conductor whose bars do not lie there and back in equal numbers has no winding function: its entries
 * mean something only in sums in which all currents together are zero.
 */
export function gapOverlaps(winding: Winding, owners: ArrayLike<number>, count: number): Float64Array {
  const overlaps = straightOverlaps(winding, owners, count);
  const known = new Map<number, LeanChange>();
  for (let one = 0; one < winding.layers; one++) {
    for (let other = 0; other < winding.layers; other++) {
      const lean = Math.abs(winding.lean[one]! - winding.lean[other]!);
      if (lean === 0) continue;
      const change = known.get(lean) ?? leanChange(winding.slots, lean);
      known.set(lean, change);
      addLeaning(overlaps, count, winding, owners, [one, other], change);
    }
  }
  return overlaps;
}

/** The products at mid-stack, where each winding function is a staircase over the teeth. */
function straightOverlaps({ table }: Winding, owners: ArrayLike<number>, count: number): Float64Array {
  const tooth = turn / table.slots;
  const staircases = Array.from({ length: count }, () => new Float64Array(table.slots));
  for (let place = 0; place < table.cells.length; place++) {
    const owner = owners[place]!;
    if (owner >= 0) staircases[owner]![place % table.slots]! += Math.sign(table.cells[place]!);
  }
  for (const steps of staircases) climb(steps);
  const overlaps = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j <= i; j++) {
      const value = tooth * product(staircases[i]!, staircases[j]!);
      overlaps[i * count + j] = value;
      overlaps[j * count + i] = value;
    }
  }
  return overlaps;
}

/** Turns by slot become their running sum without its mean. */
function climb(steps: Float64Array): void {
  let sum = 0;
  for (let slot = 0; slot < steps.length; slot++) {
    if (slot > 0) steps[slot]! += steps[slot - 1]!;
    sum += steps[slot]!;
  }
  const mean = sum / steps.length;
  for (let slot = 0; slot < steps.length; slot++) steps[slot]! -= mean;
}

function product(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < one.length; at++) sum += one[at]! * other[at]!;
  return sum;
}

/**
 * What the mean over the stack changes in the overlap of bars that lean apart: the same for all that do not
 * cross within the stack, and more for those that do, which stand a few slots apart at most.
 */
interface LeanChange {
  readonly common: number;
  readonly crossing: readonly { readonly apart: number; readonly more: number }[];
}

function leanChange(slots: number, lean: number): LeanChange {
  const change = (slot: number) => {
    const apart = (slot * turn) / slots;
    return barOverlap(apart, lean) - barOverlap(apart, 0);
  };
  const common = change(Math.floor(slots / 2));
  const all = Array.from({ length: slots }, (_, apart) => ({ apart, more: change(apart) - common }));
  return { common, crossing: all.filter(({ more }) => Math.abs(more) > 1e-14) };
}

/** Adds that change for the bars of two layers. */
function addLeaning(
  overlaps: Float64Array,
  count: number,
  { table }: Winding,
  owners: ArrayLike<number>,
  [one, other]: readonly [number, number],
  { common, crossing }: LeanChange,
): void {
  const { slots, cells } = table;
  const [net, otherNet] = [one, other].map((layer) => netTurns(table, owners, count, layer));
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) overlaps[i * count + j]! += common * net![i]! * otherNet![j]!;
  for (const { apart, more } of crossing) {
    for (let slot = 0; slot < slots; slot++) {
      const first = one * slots + slot;
      const second = other * slots + ((slot + apart) % slots);
      const [i, j] = [owners[first]!, owners[second]!];
      if (i >= 0 && j >= 0)
        overlaps[i * count + j]! += more * Math.sign(cells[first]!) * Math.sign(cells[second]!);
    }
  }
}

/** Bars there less bars back of each conductor in a layer. */
function netTurns(
  { slots, cells }: Winding['table'],
  owners: ArrayLike<number>,
  count: number,
  layer: number,
): Float64Array {
  const net = new Float64Array(count);
  for (let place = layer * slots; place < (layer + 1) * slots; place++)
    if (owners[place]! >= 0) net[owners[place]!]! += Math.sign(cells[place]!);
  return net;
}
