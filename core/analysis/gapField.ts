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
  const { slots, cells } = winding.table;
  const leans = [...new Set(winding.lean)];
  const turns = turnsBySlot(winding, owners, count, leans);
  const overlaps = new Float64Array(count * count);
  const field = new Float64Array(slots);
  leans.forEach((lean, group) => {
    const tables = leans.map((other) => overlapTable(slots, lean - other));
    for (let owner = 0; owner < count; owner++) {
      const own = turns[owner * leans.length + group]!;
      leans.forEach((other, index) => {
        if (!addField(field.fill(0), own, tables[index]!)) return;
        for (let place = 0; place < cells.length; place++) {
          const conductor = owners[place]!;
          if (conductor < 0 || cells[place] === 0) continue;
          if (winding.lean[Math.floor(place / slots)] !== other) continue;
          const sense = cells[place]! > 0 ? 1 : -1;
          overlaps[owner * count + conductor]! += sense * field[place % slots]!;
        }
      });
    }
  });
  return overlaps;
}

/** Net turns of each conductor in each slot, for each lean: entry conductor x leans + lean. */
function turnsBySlot(
  winding: Winding,
  owners: ArrayLike<number>,
  count: number,
  leans: readonly number[],
): Int16Array[] {
  const { slots, cells } = winding.table;
  const turns = Array.from({ length: count * leans.length }, () => new Int16Array(slots));
  for (let place = 0; place < cells.length; place++) {
    const owner = owners[place]!;
    if (owner < 0 || cells[place] === 0) continue;
    const group = leans.indexOf(winding.lean[Math.floor(place / slots)]!);
    turns[owner * leans.length + group]![place % slots]! += cells[place]! > 0 ? 1 : -1;
  }
  return turns;
}

/** Overlaps of bars that stand whole slots apart. */
function overlapTable(slots: number, lean: number): Float64Array {
  return Float64Array.from({ length: slots }, (_, slot) => barOverlap((slot * turn) / slots, lean));
}

/** Adds what turns in the slots make at every slot; tells whether there were any. */
function addField(field: Float64Array, turns: Int16Array, table: Float64Array): boolean {
  const slots = field.length;
  let any = false;
  for (let slot = 0; slot < slots; slot++) {
    const count = turns[slot]!;
    if (count === 0) continue;
    any = true;
    // Overlaps are alike on both sides of a bar.
    for (let at = 0; at < slot; at++) field[at]! += count * table[slot - at]!;
    for (let at = slot; at < slots; at++) field[at]! += count * table[at - slot]!;
  }
  return any;
}
