import { coveringArc } from '../../winding/coveringArc.ts';
import type { Winding } from '../../winding/model.ts';
import type { RouteRanking } from '../ranking.ts';
import { rankingOrder, searchedFor } from '../ranking.ts';
import type { ImproveWeights } from './improve.ts';
import type { JointTable } from './jointTable.ts';
import { rankOf } from './jointTable.ts';
import type { BarOrder } from './order.ts';
import { placeBetween } from './order.ts';
import type { PhaseBars } from './phaseBars.ts';

/** What a criterion weighs by its place in the order; found by trial on the cases of the tests. */
const byPlace = [30, 15, 6, 2, 1, 0.5, 0.25] as const;

/** One unit of each criterion beside a connecting piece. */
const units = {
  pieces: 1,
  levels: 1 / 30,
  shapes: 1,
  joints: 1,
  'legs-apart': 0.5,
  copper: 1 / 50,
  voltage: 10,
  window: 1 / 20,
  'bar-shapes': 0.5,
} as const;

/** Weights that lead the search towards what a ranking puts first. */
export function weightsOf(
  winding: Winding,
  bars: PhaseBars,
  table: JointTable,
  ranking: RouteRanking,
): ImproveWeights {
  const wishes = searchedFor(ranking);
  const order = rankingOrder({ wishes }).filter((criterion) => criterion !== 'tips');
  const weigh = (criterion: keyof typeof units): number => {
    const place = order.indexOf(criterion);
    return place < 0 ? 0 : (byPlace[place] ?? byPlace.at(-1)!) * units[criterion];
  };
  const wished = (criterion: keyof typeof units) =>
    wishes.some((wish) => wish === criterion) ? weigh(criterion) : 0;
  const voltage = wished('voltage');
  const window = wished('window');
  const shapes = wished('bar-shapes');
  const apart = voltage > 0 ? voltageTerm(winding, bars) : null;
  const whole = (connection: BarOrder): number =>
    (apart ? voltage * apart(connection) : 0) +
    (window > 0 ? window * windowTerm(winding, bars, connection) : 0) +
    (shapes > 0 ? shapes * barShapeTerm(bars, table, connection) : 0);
  return {
    piece: weigh('pieces'),
    pieceSlot: weigh('levels'),
    shape: weigh('shapes'),
    joint: weigh('joints'),
    legApart: weigh('legs-apart'),
    slot: weigh('copper'),
    whole: voltage + window + shapes > 0 ? whole : null,
  };
}

/**
 * The largest share of a path's bars that lies, along the paths, between two neighboring bars of the
 * phase in a slot: near enough to the voltage between them where voltages of bars are about alike.
 */
function voltageTerm(winding: Winding, bars: PhaseBars): (order: BarOrder) => number {
  const { slots } = winding;
  const above = new Int32Array(bars.count).fill(-1);
  const last = new Map<number, number>();
  const byLayer = Array.from({ length: bars.count }, (_, bar) => bar).sort(
    (a, b) => bars.layer[a]! - bars.layer[b]!,
  );
  for (const bar of byLayer) {
    const slot = bars.slot[bar]! % slots;
    const below = last.get(slot);
    if (below !== undefined) above[below] = bar;
    last.set(slot, bar);
  }
  const place = new Int32Array(bars.count);
  return ({ bars: order, length }) => {
    for (let position = 0; position < order.length; position++) place[order[position]!] = position % length;
    let most = 0;
    for (let bar = 0; bar < above.length; bar++) {
      const other = above[bar]!;
      if (other < 0) continue;
      // Where a bar's ends stand along its path, on the far side and on the connection side.
      const own = place[bar]!;
      const next = place[other]!;
      const far = Math.abs(own + (own % 2 === 0 ? 1 : 0) - next - (next % 2 === 0 ? 1 : 0));
      const near = Math.abs(own + (own % 2) - next - (next % 2));
      most = Math.max(most, far, near);
    }
    return most / length;
  };
}

/** Slots of the arc that holds all starts of the phase. */
function windowTerm({ slots }: Winding, bars: PhaseBars, { bars: order, length }: BarOrder): number {
  const starts: number[] = [];
  for (let position = 0; position < order.length; position += length)
    starts.push(bars.slot[order[position]!]!);
  return coveringArc(starts, slots);
}

/** Different ways in which hairpins are bent: their layers, their crown, and how each leg is bent. */
function barShapeTerm(bars: PhaseBars, table: JointTable, { bars: order, length }: BarOrder): number {
  const shapes = new Set<number>();
  const bendTo = (side: 0 | 1, from: number, to: number): number => {
    const place = placeBetween(bars, table, side, from, to);
    return table.rank[place] === rankOf.piece ? 0 : table.span[place]! + table.slots;
  };
  for (let position = 0; position < order.length; position += 2) {
    const first = order[position]!;
    const second = order[position + 1]!;
    const crown = table.span[placeBetween(bars, table, 0, first, second)]!;
    const before = position % length === 0 ? 0 : bendTo(1, first, order[position - 1]!);
    const after = (position + 2) % length === 0 ? 0 : bendTo(1, second, order[position + 2]!);
    const low = bars.layer[first]!;
    const high = bars.layer[second]!;
    const parts = low <= high ? [low, high, crown, before, after] : [high, low, -crown, after, before];
    shapes.add(parts.reduce((key, part) => key * 2 * table.slots + part + table.slots, 0));
  }
  return shapes.size;
}
