import type { Winding } from '../winding/model.ts';

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
  const { slots } = winding.table;
  const leans = [...new Set(winding.lean)];
  const turns = turnsBySlot(winding, owners, count, leans);
  const overlaps = new Float64Array(count * count);
  const field = new Float64Array(slots);
  leans.forEach((lean, group) => {
    leans.forEach((other, otherGroup) => {
      const table = overlapTable(slots, lean - other);
      for (let owner = 0; owner < count; owner++) {
        setField(field, turns[owner * leans.length + group]!, table);
        for (let conductor = owner; conductor < count; conductor++)
          overlaps[owner * count + conductor]! += product(
            field,
            turns[conductor * leans.length + otherGroup]!,
          );
      }
    });
  });
  for (let owner = 0; owner < count; owner++)
    for (let conductor = 0; conductor < owner; conductor++)
      overlaps[owner * count + conductor] = overlaps[conductor * count + owner]!;
  return overlaps;
}

/** Net turns of each conductor in each slot, for each lean: entry conductor x leans + lean. */
function turnsBySlot(
  { table, lean }: Winding,
  owners: ArrayLike<number>,
  count: number,
  leans: readonly number[],
): Float64Array[] {
  const { slots, layers, cells } = table;
  const turns = Array.from({ length: count * leans.length }, () => new Float64Array(slots));
  for (let layer = 0; layer < layers; layer++) {
    const group = leans.indexOf(lean[layer]!);
    for (let slot = 0; slot < slots; slot++) {
      const place = layer * slots + slot;
      const owner = owners[place]!;
      if (owner >= 0) turns[owner * leans.length + group]![slot]! += Math.sign(cells[place]!);
    }
  }
  return turns;
}

/** Overlaps of bars that stand whole slots apart, alike on both sides of a bar. */
function overlapTable(slots: number, lean: number): Float64Array {
  const table = new Float64Array(slots);
  for (let slot = 0; slot <= slots / 2; slot++) {
    table[slot] = barOverlap((slot * turn) / slots, lean);
    if (slot > 0) table[slots - slot] = table[slot]!;
  }
  return table;
}

/** What turns in the slots make at every slot. */
function setField(field: Float64Array, turns: Float64Array, table: Float64Array): void {
  const slots = field.length;
  field.fill(0);
  for (let slot = 0; slot < slots; slot++) {
    const count = turns[slot]!;
    if (count === 0) continue;
    for (let at = 0; at < slot; at++) field[at]! += count * table[slot - at]!;
    for (let at = slot; at < slots; at++) field[at]! += count * table[at - slot]!;
  }
}

function product(field: Float64Array, turns: Float64Array): number {
  let sum = 0;
  for (let slot = 0; slot < field.length; slot++) sum += field[slot]! * turns[slot]!;
  return sum;
}
