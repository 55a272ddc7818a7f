import type { Winding } from '../../core/winding/model.ts';

// A second method for what the gap field of leaning bars does: the stack cut into thin slices, each with
// bars at their places, and the staircases of its winding functions integrated step by step. No kernel, no
// sinc in it.

/** Where the bars of a slice stand (radians round the bore) and which conductor they belong to, in what sense. */
interface SliceBar {
  readonly angle: number;
  readonly owner: number;
  readonly sense: number;
}

/** Bars of a slice at `height`, from -1/2 to 1/2 of the stack; owners below 0 are left out. */
function sliceBars(winding: Winding, owners: ArrayLike<number>, height: number): SliceBar[] {
  const { slots, cells } = winding.table;
  const bars: SliceBar[] = [];
  for (let place = 0; place < cells.length; place++) {
    if (cells[place] === 0 || owners[place]! < 0) continue;
    const lean = winding.lean[Math.floor(place / slots)]!;
    const angle = ((place % slots) * 2 * Math.PI) / slots + lean * height;
    const turn = 2 * Math.PI;
    bars.push({
      angle: ((angle % turn) + turn) % turn,
      owner: owners[place]!,
      sense: Math.sign(cells[place]!),
    });
  }
  return bars.sort((a, b) => a.angle - b.angle);
}

/** Integrals over the bore of the products of all owners' zero-mean winding functions in one slice. */
function sliceOverlaps(bars: readonly SliceBar[], count: number): number[] {
  const steps: { readonly width: number; readonly values: readonly number[] }[] = [];
  const values = new Array<number>(count).fill(0);
  const [first] = bars;
  bars.forEach(({ angle, owner, sense }, index) => {
    values[owner]! += sense;
    const next = bars[index + 1]?.angle ?? first!.angle + 2 * Math.PI;
    steps.push({ width: next - angle, values: [...values] });
  });
  const means = values.map(
    (_, owner) => steps.reduce((sum, step) => sum + step.width * step.values[owner]!, 0) / (2 * Math.PI),
  );
  return Array.from({ length: count * count }, (_, entry) => {
    const [i, j] = [Math.floor(entry / count), entry % count];
    return steps.reduce(
      (sum, step) => sum + step.width * (step.values[i]! - means[i]!) * (step.values[j]! - means[j]!),
      0,
    );
  });
}

/** Their means over the stack, entry i n + j, in square radians of turns. */
export function slicedOverlaps(
  winding: Winding,
  owners: ArrayLike<number>,
  count: number,
  slices = 400,
): number[] {
  const sums = new Array<number>(count * count).fill(0);
  for (let slice = 0; slice < slices; slice++) {
    const height = (slice + 0.5) / slices - 0.5;
    sliceOverlaps(sliceBars(winding, owners, height), count).forEach((value, entry) => {
      sums[entry]! += value / slices;
    });
  }
  return sums;
}

/** Mean over the stack of the square of a phase's winding factor at an order, the rotor straight. */
export function slicedMeanSquare(winding: Winding, order: number, slices = 4000): number {
  const { slots, cells } = winding.table;
  let total = 0;
  let bars = 0;
  for (let slice = 0; slice < slices; slice++) {
    const height = (slice + 0.5) / slices - 0.5;
    let [re, im] = [0, 0];
    bars = 0;
    for (let place = 0; place < cells.length; place++) {
      if (Math.abs(cells[place]!) !== 1) continue;
      const lean = winding.lean[Math.floor(place / slots)]!;
      const angle = order * (((place % slots) * 2 * Math.PI) / slots + lean * height);
      re += Math.sign(cells[place]!) * Math.cos(angle);
      im += Math.sign(cells[place]!) * Math.sin(angle);
      bars++;
    }
    total += (re * re + im * im) / slices;
  }
  return total / bars ** 2;
}

/** Which phase each place belongs to, -1 for none. */
export function phaseOwners(winding: Winding): Int32Array {
  return Int32Array.from(winding.table.cells, (cell) => Math.abs(cell) - 1);
}
