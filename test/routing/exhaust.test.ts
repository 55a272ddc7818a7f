import { describe, expect, it } from 'vitest';
import { jointTable } from '../../core/routing/bars/jointTable.ts';
import { isMade, strandsOfOrder } from '../../core/routing/bars/order.ts';
import { barsOfPhase, type PhaseBars } from '../../core/routing/bars/phaseBars.ts';
import { measureStrands } from '../../core/routing/measure.ts';
import { closestShifts } from '../../core/routing/phases.ts';
import { compareMeasures, type RouteMeasure } from '../../core/routing/ranking.ts';
import { type RouteWish, route } from '../../core/routing/route.ts';
import type { Bends } from '../../core/winding/joints/bends.ts';
import { regularBends } from '../../core/winding/joints/bends.ts';
import { withoutSizes } from '../../core/winding/joints/tips.ts';
import type { Winding } from '../../core/winding/model.ts';
import { needsStrictBalance } from '../../core/winding/strictBalance.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';

/** Every order of a list. */
function* permutations(list: readonly number[]): Generator<readonly number[]> {
  if (list.length === 0) yield [];
  for (const first of list)
    for (const rest of permutations(list.filter((each) => each !== first))) yield [first, ...rest];
}

/** Whether paths hold the same voltages and layers; where strict, the same voltages in each layer. */
function balanced(bars: PhaseBars, order: Int32Array, length: number, strict: boolean): boolean {
  const held = (path: number) => {
    const own = [...order.subarray(path * length, (path + 1) * length)];
    const voltages = own.map((bar) => `v${bars.voltage[bar]}`);
    const layers = own.map((bar) => `l${bars.layer[bar]}`);
    return strict
      ? voltages.map((voltage, index) => voltage + layers[index]).sort()
      : [...voltages, ...layers].sort();
  };
  const first = held(0).join();
  return Array.from({ length: order.length / length }, (_, path) => held(path).join()).every(
    (each) => each === first,
  );
}

/** The best of all orders of the first phase's bars, each measured. */
function bestOfAll(
  winding: Winding,
  bends: Bends,
  paths: number,
  wishes: readonly RouteWish[],
): RouteMeasure {
  const strict = needsStrictBalance(winding);
  const bars = barsOfPhase(winding, 0, strict);
  const table = jointTable(winding, bends, 'joined');
  const shifts = closestShifts(winding).filter((shift) => shift !== null);
  const measuring = {
    winding,
    bends,
    shifts,
    form: 'hairpin',
    connection: 'star',
    wishes,
    limits: [],
    tipSizes: { connection: withoutSizes, far: withoutSizes },
  } as const;
  const length = bars.count / paths;
  const all = Array.from({ length: bars.count }, (_, bar) => bar);
  const minus = [...permutations(all.filter((bar) => bars.away[bar] === 0))];
  let best: RouteMeasure | null = null;
  for (const away of permutations(all.filter((bar) => bars.away[bar] === 1)))
    for (const back of minus) {
      const order = Int32Array.from(all, (_, at) => (at % 2 === 0 ? away : back)[at >> 1]!);
      const made = { bars: order, length };
      if (!isMade(bars, table, made) || !balanced(bars, order, length, strict)) continue;
      const measure = measureStrands(measuring, strandsOfOrder(bars, table, made));
      const ranking = { wishes, limits: [], leading: [], leastTipGap: 0 };
      if (!best || compareMeasures(measure, best, ranking) < 0) best = measure;
    }
  return best!;
}

describe('small phases: nothing is better than what is found', () => {
  const cases: readonly [MachineRequest, paths: number, wishes: readonly RouteWish[]][] = [
    [{ slots: 12, poles: 10, layers: 2 }, 1, []],
    [{ slots: 12, poles: 10, layers: 2 }, 2, []],
    [{ slots: 9, poles: 8, layers: 2 }, 1, []],
    [{ slots: 24, poles: 20, layers: 1 }, 2, []],
    [{ slots: 24, poles: 4, layers: 1, span: 6 }, 1, []],
    [{ slots: 12, poles: 10, layers: 2 }, 1, ['legs-apart', 'copper']],
    [{ slots: 24, poles: 20, layers: 1 }, 2, ['window']],
  ];
  it.each(cases)('%o in %i paths, wanted %s', (request, paths, wishes) => {
    const winding = machine(request);
    const result = route(winding, { paths, wishes });
    if (!result.ok) throw new Error('refused');
    const { measure, tried } = result.explanation;
    expect(tried.at(-1)).toMatchObject({ method: 'exchange', exhausted: true });
    expect(measure).toMatchObject({
      ...bestOfAll(winding, regularBends(winding), paths, wishes),
      tipGap: measure.tipGap,
    });
  });
});
