import { cellByCell, sharesOf } from '../../analysis/shareOut.ts';
import type { Strand } from '../units/units.ts';
import type { JointTable } from './jointTable.ts';
import { jointPlace, rankOf } from './jointTable.ts';
import type { PhaseBars } from './phaseBars.ts';
import { barAt } from './phaseBars.ts';

/** Paths of one phase as numbers of bars in order, one path after the other, all equally long. */
export interface BarOrder {
  /** Places of the bars in `PhaseBars`. */
  readonly bars: Int32Array;
  /** Bars of a path. */
  readonly length: number;
}

/** Place in the table of the joint between two bars; side 0 is the far side, 1 the connection side. */
export function placeBetween(
  bars: PhaseBars,
  table: JointTable,
  side: 0 | 1,
  from: number,
  to: number,
): number {
  const distance = bars.slot[to]! - bars.slot[from]!;
  return jointPlace(
    table,
    side,
    bars.layer[from]!,
    bars.layer[to]!,
    distance < 0 ? distance + table.slots : distance,
  );
}

/** The order that strands give; null where they are not equally long or leave bars out. */
export function orderOfStrands(
  bars: PhaseBars,
  table: JointTable,
  strands: readonly Strand[],
): BarOrder | null {
  const numbers = new Map<number, number>();
  for (let bar = 0; bar < bars.count; bar++)
    numbers.set(bars.layer[bar]! * table.slots + bars.slot[bar]! - 1, bar);
  const length = strands[0]?.bars.length ?? 0;
  const order = strands.flatMap((strand) =>
    strand.bars.map(({ slot, layer }) => numbers.get(layer * table.slots + slot - 1) ?? -1),
  );
  const whole = strands.every((strand) => strand.bars.length === length) && order.length === bars.count;
  return whole && length > 0 && !order.includes(-1) ? { bars: Int32Array.from(order), length } : null;
}

/** Whether every joint of an order can be made. */
export function isMade(bars: PhaseBars, table: JointTable, { bars: order, length }: BarOrder): boolean {
  return order.every(
    (bar, position) =>
      position % length === 0 ||
      table.rank[
        placeBetween(bars, table, (position % length) % 2 === 1 ? 0 : 1, order[position - 1]!, bar)
      ] !== rankOf.refused,
  );
}

/** The strands that an order gives. */
export function strandsOfOrder(
  bars: PhaseBars,
  table: JointTable,
  { bars: order, length }: BarOrder,
): Strand[] {
  return Array.from({ length: order.length / length }, (_, path) => {
    const own = order.subarray(path * length, (path + 1) * length);
    return {
      bars: Array.from(own, (bar) => barAt(bars, bar)),
      spans: Array.from({ length: length - 1 }, (_, index) => {
        const side = index % 2 === 0 ? 0 : 1;
        return table.span[placeBetween(bars, table, side, own[index]!, own[index + 1]!)]!;
      }),
    };
  });
}

/**
 * Balanced paths whose bars follow each other as they come: shares with equal voltages and layers, each
 * walked to the bar that is joined most easily. Null where no shares are found within the effort.
 */
export function dealtOrder(
  bars: PhaseBars,
  table: JointTable,
  paths: number,
  strict: boolean,
  effort: { steps: number },
): BarOrder | null {
  const kinds = new Map<number, { voltage: number; layer: number; plus: number[]; minus: number[] }>();
  for (let bar = 0; bar < bars.count; bar++) {
    const voltage = bars.voltage[bar]!;
    const layer = bars.layer[bar]!;
    const key = voltage * table.layers + layer;
    const kind = kinds.get(key) ?? { voltage, layer, plus: [], minus: [] };
    kinds.set(key, kind);
    (bars.away[bar] === 1 ? kind.plus : kind.minus).push(bar);
  }
  const list = [...kinds.values()];
  const counted = list.map(({ voltage, layer, plus, minus }) => ({
    voltage,
    layer,
    plus: plus.length,
    minus: minus.length,
  }));
  const shares = sharesOf(strict ? cellByCell(counted) : counted, paths, effort);
  if (!shares) return null;
  const length = bars.count / paths;
  const order = shares.flatMap((share) => {
    const plus = share.flatMap((part, kind) => list[kind]!.plus.splice(0, part.plus));
    const minus = share.flatMap((part, kind) => list[kind]!.minus.splice(0, part.minus));
    return walkNearest(bars, table, plus, minus);
  });
  return { bars: Int32Array.from(order), length };
}

/** + and - bars by turns, each the one that is joined most easily to the bar before. */
function walkNearest(bars: PhaseBars, table: JointTable, plus: number[], minus: number[]): number[] {
  const order = plus.splice(0, 1);
  while (minus.length > 0) {
    const side = order.length % 2 === 1 ? 0 : 1;
    const rest = side === 0 ? minus : plus;
    const before = order.at(-1)!;
    let nearest = 0;
    let least = Number.POSITIVE_INFINITY;
    rest.forEach((bar, index) => {
      const place = placeBetween(bars, table, side, before, bar);
      const cost = table.rank[place]! * table.slots + Math.abs(table.span[place]!);
      if (cost >= least) return;
      least = cost;
      nearest = index;
    });
    order.push(...rest.splice(nearest, 1));
  }
  return order;
}
