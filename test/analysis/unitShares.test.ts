// Takes its time: goes through many cases.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { possibleShares } from '../../core/analysis/unitShares.ts';
import { possibleParallelPaths, route } from '../../core/routing/route.ts';
import { regularBends } from '../../core/winding/joints/bends.ts';
import type { Winding } from '../../core/winding/model.ts';
import { refereeProblems } from '../routing/checkRouting.ts';
import { study as studied } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import { machine } from '../winding/windings.ts';

// What paths must hold equally: bars of each voltage and of each layer; where a slot holds two phases, of each voltage
// in each layer. Tried here bar by bar, with coils of the span that the winding is read with.

interface Bar {
  readonly slot: number;
  readonly layer: number;
  readonly sense: number;
}

/** All ways to join the bars of a list two by two, each by one of `joins`. */
function pairings(bars: readonly Bar[], joins: (from: Bar, to: Bar) => boolean): (readonly [Bar, Bar])[][] {
  const [first, ...rest] = bars;
  if (!first) return [[]];
  return rest
    .filter((other) => joins(first, other))
    .flatMap((other) =>
      pairings(
        rest.filter((each) => each !== other),
        joins,
      ).map((others) => [[first, other] as const, ...others]),
    );
}

/** Whether coils can be dealt to so many paths that hold the same, coil by coil. */
function canDeal(coils: readonly (readonly string[])[], paths: number): boolean {
  const totals = new Map<string, number>();
  for (const each of coils.flat()) totals.set(each, (totals.get(each) ?? 0) + 1);
  if ([...totals.values()].some((total) => total % paths !== 0)) return false;
  const held = Array.from({ length: paths }, () => new Map<string, number>());
  const deal = (index: number): boolean => {
    if (index === coils.length) return true;
    const coil = coils[index]!;
    for (const share of held) {
      const empty = share.size === 0;
      for (const each of coil) share.set(each, (share.get(each) ?? 0) + 1);
      const fits = coil.every((each) => share.get(each)! <= totals.get(each)! / paths);
      if (fits && deal(index + 1)) return true;
      for (const each of coil) share.set(each, share.get(each)! - 1);
      if (empty) share.clear();
      // The next shares that are empty are just like this one.
      if (empty) break;
    }
    return false;
  };
  return deal(0);
}

/** Numbers of parallel paths by trying. */
function byTrying(winding: Winding): number[] {
  const { slots, layers, polePairs, table } = winding;
  const bends = regularBends(winding);
  const cell = (slot: number, layer: number) => table.cells[layer * slots + slot]!;
  const mixed = Array.from({ length: slots }, (_, slot) => slot).some((slot) => {
    const phases = Array.from({ length: layers }, (_, layer) => Math.abs(cell(slot, layer))).filter(Boolean);
    return new Set(phases).size > 1;
  });
  const keys = ({ slot, layer, sense }: Bar) => {
    const angle = ((360 * polePairs * slot) / slots + (sense < 0 ? 180 : 0)) % 360;
    const voltage = `${angle.toFixed(6)}`;
    return mixed ? [`${voltage} in ${layer}`] : [voltage, `layer ${layer}`];
  };
  const joins = (from: Bar, to: Bar) => {
    if (from.sense === to.sense) return false;
    const distance = (to.slot - from.slot + slots) % slots;
    const alone = layers % 2 === 1 && from.layer === layers - 1;
    if (alone || to.layer === from.layer)
      return (
        alone &&
        to.layer === from.layer &&
        [distance, slots - distance].includes(Math.abs(bends.unpairedSpan!))
      );
    if (from.layer % 2 === 1 || to.layer !== from.layer + 1) return false;
    return distance === (bends.far[from.layer / 2]! + slots) % slots;
  };
  const phases = [1, 2, 3].map((phase) => {
    const bars: Bar[] = [];
    for (let layer = 0; layer < layers; layer++)
      for (let slot = 0; slot < slots; slot++)
        if (Math.abs(cell(slot, layer)) === phase)
          bars.push({ slot, layer, sense: Math.sign(cell(slot, layer)) });
    return pairings(bars, joins).map((coils) => coils.map((coil) => coil.flatMap(keys)));
  });
  const most = Math.max(...phases.map((ways) => ways[0]?.length ?? 0));
  return Array.from({ length: most }, (_, index) => index + 1).filter((paths) =>
    phases.every((ways) => ways.some((coils) => canDeal(coils, paths))),
  );
}

function rowsOf(slots: number, poles: number, layers: number, cells: Int8Array): Winding {
  return {
    ...machine({ slots: 12, poles: 2, layers: 2 }),
    slots,
    poles,
    polePairs: poles / 2,
    layers,
    lean: Array.from({ length: layers }, () => 0),
    table: { slots, layers, cells },
    origin: { kind: 'rows' },
  };
}

/** Rows of chains: bars some slots apart with alternate senses, the same for each phase a third of the bore on. */
const chains = fc
  .record({
    slots: fc.constantFrom(12, 18, 24, 36),
    pairs: fc.integer({ min: 1, max: 9 }),
    layers: fc.constantFrom(1, 1, 1, 2, 2, 3),
    span: fc.integer({ min: 1, max: 12 }),
    starts: fc.array(
      fc.record({ slot: fc.nat(35), length: fc.integer({ min: 1, max: 4 }), sense: fc.constantFrom(1, -1) }),
      { minLength: 2, maxLength: 5 },
    ),
  })
  .map(({ slots, pairs, layers, span, starts }) => {
    const cells = new Int8Array(slots * layers);
    const put = (copy: Int8Array, layer: number, slot: number, sense: number): boolean =>
      [0, 1, 2].every((phase) => {
        const place = layer * slots + ((slot + (phase * slots) / 3) % slots);
        if (copy[place] !== 0) return false;
        copy[place] = sense * (phase + 1);
        return true;
      });
    starts.forEach(({ slot, length, sense }, index) => {
      const copy = cells.slice();
      const layer = layers === 3 && index % 2 === 1 ? 2 : 0;
      const alone = layers === 1 || layer === 2;
      const whole = Array.from({ length: alone ? 2 * length : length }, (_, step) => step).every((step) => {
        const own = sense * (step % 2 === 0 ? 1 : -1);
        const at = slot + step * span;
        if (alone) return put(copy, layer, at, own);
        return put(copy, 0, at, own) && put(copy, 1, at + span, -own);
      });
      if (whole) cells.set(copy);
    });
    return rowsOf(slots, 2 * pairs, layers, cells);
  })
  .filter((winding) => {
    const bars = winding.table.cells.filter((cell) => Math.abs(cell) === 1).length;
    return bars >= 4 && bars <= 16 && possibleParallelPaths(winding).length > 0;
  });

describe('numbers of parallel paths with regular crowns', () => {
  it('are those by trying, for rows in chains and rings of one to three layers, and are met', () => {
    fc.assert(
      fc.property(chains, (winding) => {
        const possible = possibleParallelPaths(winding);
        expect(possible).toEqual(byTrying(winding));
        for (const paths of possible) {
          const result = route(winding, { paths, specials: 'joined', nodeBudget: 2000 });
          if (!result.ok) throw new Error(JSON.stringify(result.reason));
          const layout = { span: 0, tooth: false };
          const unequal = refereeProblems(winding, layout, result.paths).filter((problem) =>
            /voltages differ|hold different|used/.test(problem),
          );
          expect(unequal).toEqual([]);
        }
      }),
      { seed: 12, numRuns: tries(50) },
    );
  });

  it('count single bars where a path may hold more of every second pair: 12 slots, 6 poles, coils of 3', () => {
    // Coils of 3 slots join the four voltages of a phase to an even ring, each pair of neighbors twice in one layer
    // pair: 2 divides no pair of voltages, but the bars of each, and one path takes two opposite pairs.
    const text = `winding "Weir gate"
machine { slots 12 poles 6 phases 3 }
layout { layers 2
  layer a (+U -W +V -U +W -V)*2
  layer b (+U -W +V -U +W -V)*2 }
connect { star route paths 2 }`;
    const { facts, findings, ...study } = studied(text);
    // Three phases do not fit these poles; each alone has balanced paths.
    const errors = findings.filter(({ severity }) => severity === 'error').map(({ code }) => code);
    expect(errors).toEqual(['phases-unbalanced']);
    expect(possibleParallelPaths(facts!.winding)).toEqual([1, 2]);
    const report = study.report();
    expect(report.winding).toMatchObject({ parallelPaths: 2, largestParallelPaths: 2 });
    for (const { layerCounts } of report.paths) expect(layerCounts).toEqual([2, 2]);
    const refused = studied(text.replace('paths 2', 'paths 3')).findings;
    expect(refused.find(({ code }) => code === 'routing-refused')?.message).toContain(
      '3 does not divide 2 bars of equal voltage and 4 pairs of bars in a layer pair. Nearest numbers that work: 2.',
    );
  });

  it('pairs and voltages can stand against each other: two ways round a ring, each in one pair', () => {
    // Each of two paths has one bar of each voltage only with units across from each other, which are of one pair.
    const ring = (pairs: readonly number[]) =>
      pairs.map((pair, index) => ({ ends: [index, (index + 1) % 4] as const, pair, count: 1 }));
    expect(possibleShares([ring([0, 1, 0, 1])], false)).toEqual([1]);
    expect(possibleShares([ring([0, 0, 1, 1])], false)).toEqual([1, 2]);
    expect(possibleShares([ring([0, 1, 0, 1])], true)).toEqual([1, 2]);
  });
});
