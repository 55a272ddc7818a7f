// Takes its time: searches connections.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RouteMeasure, RouteWish } from '../../core/routing/route.ts';
import { possibleParallelPaths, route, routeSteps } from '../../core/routing/route.ts';
import { connectionsOf, countJoints } from '../../core/winding/joints/joints.ts';
import type { Path, Winding } from '../../core/winding/model.ts';
import { tries, withMore } from '../support/tries.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';
import type { RefereeLayout } from './checkRouting.ts';
import { classOf, flatten, refereeCounts, refereeProblems } from './checkRouting.ts';
import type { Counts } from './routingCases.ts';
import { moreRoutingCases, routingCases, tipsAlone, toothCoilCases } from './routingCases.ts';

/** A tenth of what is searched by default finds all of them too; with more tries all of it is. */
const nodeBudget = tries(1) > 1 ? 400_000 : 40_000;

function layoutOf(request: MachineRequest): RefereeLayout {
  const span = request.span ?? Math.max(1, Math.floor(request.slots / request.poles));
  return { span, tooth: span === 1 && (2 * request.slots) % request.poles !== 0 };
}

function titleOf(request: MachineRequest, paths: number): string {
  const { slots, poles, phases = 3, layers, span, stagger = 0 } = request;
  return `${slots} slots, ${poles} poles, ${phases} phases, ${layers} layers, span ${span ?? 'full'}, stagger ${stagger}, ${paths} paths`;
}

type RouteObjective = 'fewest-jumpers' | 'fewest-joints';

/** The orders in which the counts of the table are given. */
const wishesOf: Readonly<Record<RouteObjective, readonly RouteWish[]>> = {
  'fewest-jumpers': ['pieces', 'shapes', 'joints'],
  'fewest-joints': ['joints'],
};

function routed(winding: Winding, paths: number, objective: RouteObjective) {
  const result = route(winding, {
    paths,
    wishes: wishesOf[objective],
    nodeBudget,
    tipSizes: tipsAlone(winding.layers),
  });
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.reason)}`);
  return result;
}

/** Rank by jumpers, shapes, special joints. */
function rank([special, jumpers, shapes]: Counts): number[] {
  return [jumpers, shapes, special];
}

function notWorse(a: readonly number[], b: readonly number[]): boolean {
  const first = a.findIndex((value, index) => value !== b[index]);
  return first < 0 || a[first]! < b[first]!;
}

describe('routing the table of known machines', () => {
  for (const known of withMore(routingCases, moreRoutingCases)) {
    const all = [...(known.helix ? [known.helix] : []), ...known.fewest];
    it(titleOf(known.machine, known.paths), () => {
      const winding = machine(known.machine);
      const layout = layoutOf(known.machine);
      const best = all.map(rank).reduce((a, b) => (notWorse(a, b) ? a : b));
      const fewest = Math.min(...all.map(([special]) => special));
      for (const objective of ['fewest-jumpers', 'fewest-joints'] as const) {
        const { paths, explanation } = routed(winding, known.paths, objective);
        expect(refereeProblems(winding, layout, paths)).toEqual([]);
        const own = flatten(paths.filter((path) => path.phase === 0));
        const counts = refereeCounts(winding, layout, own);
        expect(explanation.measure).toMatchObject({
          specialJoints: counts.special,
          jumpers: counts.jumpers,
          jointShapes: counts.shapes,
        });
        if (objective === 'fewest-joints') expect(counts.special).toBeLessThanOrEqual(fewest);
        else {
          const got = rank([counts.special, counts.jumpers, counts.shapes]);
          expect(notWorse(got, best), `${got} against ${best}`).toBe(true);
        }
      }
    });
  }

  for (const [paths, special] of toothCoilCases) {
    it(`tooth coils, 12 slots, 10 poles, 4 layers, ${paths} paths: ${special} special joints`, () => {
      const request = { slots: 12, poles: 10, layers: 4 };
      const winding = machine(request);
      const options = {
        paths,
        wishes: ['joints'],
        nodeBudget,
        ...(paths === 4 ? { deviation: 2 } : {}),
      } as const;
      const result = route(winding, options);
      if (!result.ok) throw new Error('refused');
      const problems = refereeProblems(winding, layoutOf(request), result.paths);
      expect(problems.filter((problem) => paths < 4 || !problem.includes('hold different bars'))).toEqual([]);
      expect(result.explanation.measure.specialJoints).toBeLessThanOrEqual(special);
    });
  }

  const unequalCells: [MachineRequest, number, number][] = [
    [{ slots: 60, poles: 8, layers: 4 }, 2, 10],
    [{ slots: 60, poles: 8, layers: 4 }, 4, 20],
    [{ slots: 45, poles: 6, layers: 4 }, 3, 17],
  ];
  for (const [request, paths, special] of unequalCells) {
    it(`${titleOf(request, paths)}, cells allowed to differ: ${special} special joints`, () => {
      const winding = machine(request);
      const result = route(winding, {
        paths,
        wishes: ['joints'],
        nodeBudget,
        deviation: 2,
        tipSizes: tipsAlone(winding.layers),
      });
      if (!result.ok) throw new Error('refused');
      const problems = refereeProblems(winding, layoutOf(request), result.paths);
      expect(problems.filter((problem) => !problem.includes('hold different bars'))).toEqual([]);
      expect(result.explanation.measure.specialJoints).toBeLessThanOrEqual(special);
    });
  }
});

describe('what cannot be balanced is refused with the divisor that fails', () => {
  const refused: [MachineRequest, number, number[]][] = [
    [{ slots: 36, poles: 4, layers: 2 }, 3, [2, 4]],
    [{ slots: 60, poles: 8, layers: 2 }, 8, [4]],
    [{ slots: 12, poles: 10, layers: 2 }, 4, [2]],
    [{ slots: 48, poles: 8, layers: 4, span: 5 }, 16, [8]],
  ];
  for (const [request, paths, nearest] of refused) {
    it(titleOf(request, paths), () => {
      const result = route(machine(request), { paths });
      expect(result.ok).toBe(false);
      if (result.ok || result.reason.kind !== 'paths-do-not-divide') throw new Error('other reason');
      expect(result.reason.nearest).toEqual(nearest);
      expect(result.reason.failing.length).toBeGreaterThan(0);
      for (const { count } of result.reason.failing) expect(count % paths).not.toBe(0);
    });
  }

  it('bars that divide for no crowns are refused where crowns may be special', () => {
    const result = route(machine({ slots: 36, poles: 4, layers: 2 }), { paths: 5, specials: 'either' });
    expect(result).toEqual({
      ok: false,
      reason: { kind: 'bars-do-not-divide', paths: 5, possible: [1, 2, 4] },
    });
  });

  it('counts that are no positive integers are a misuse', () => {
    const winding = machine({ slots: 12, poles: 4, layers: 2 });
    expect(() => route(winding, { paths: 0 })).toThrow(RangeError);
    expect(() => route(winding, { paths: 1.5 })).toThrow(/1\.5/);
  });

  it('integral windings allow exactly the counts of the closed forms', () => {
    // Unmixed slots: a | pL and a | 2pq. Mixed: a | 2p (integral q), a | p (q = k/2).
    const divides = (counts: number[]) => (a: number) => counts.every((count) => count % a === 0);
    const expectCounts = (request: MachineRequest, counts: number[]) => {
      const most = Math.max(...counts);
      const expected = Array.from({ length: most }, (_, i) => i + 1).filter(divides(counts));
      expect(possibleParallelPaths(machine(request))).toEqual(expected);
    };
    for (const [slots, poles] of [
      [36, 4],
      [48, 8],
      [72, 8],
      [54, 6],
      [24, 2],
    ] as const) {
      for (const layers of [2, 4, 6]) {
        const p = poles / 2;
        const q = slots / (3 * poles);
        expectCounts({ slots, poles, layers }, [p * layers, 2 * p * q]);
        if (q > 1) expectCounts({ slots, poles, layers, span: slots / poles - 1 }, [2 * p]);
      }
    }
    expectCounts({ slots: 60, poles: 8, layers: 2 }, [4]);
    expectCounts({ slots: 45, poles: 6, layers: 4 }, [3]);
  });
});

/** Bars of a random machine at most. */
const mostBars = tries(1) > 1 ? 1200 : 240;

/** Machines with whole or half q, and tooth coils, that allow a layout. */
const anyMachine: fc.Arbitrary<{ request: MachineRequest; winding: Winding; paths: number }> = fc
  .record({
    poles: fc.integer({ min: 1, max: 6 }).map((pairs) => 2 * pairs),
    doubleQ: fc.integer({ min: 1, max: 8 }),
    phases: fc.constantFrom(3, 3, 3, 5, 6),
    pairs: fc.integer({ min: 1, max: 4 }),
    shorter: fc.integer({ min: 0, max: 2 }),
    stagger: fc.integer({ min: 0, max: 2 }),
    choice: fc.nat(),
  })
  .map(({ poles, doubleQ, phases, pairs, shorter, stagger, choice }) => {
    const slots = (doubleQ * phases * poles) / 2;
    const span = Math.max(1, Math.floor(slots / poles) - shorter);
    const request = { slots, poles, phases, layers: 2 * pairs, span, stagger };
    try {
      const winding = machine(request);
      const possible = possibleParallelPaths(winding);
      return { request, winding, paths: possible[choice % possible.length] ?? 0 };
    } catch {
      return null;
    }
  })
  .filter((found) => found !== null)
  .filter(({ paths, request }) => paths > 0 && request.slots * request.layers <= mostBars);

const small = { seed: 7, numRuns: tries(12) };

describe('random machines', () => {
  it('every routing passes the referee, within its own bounds', () => {
    fc.assert(
      fc.property(anyMachine, fc.constantFrom('fewest-jumpers', 'fewest-joints'), (found, objective) => {
        const { request, winding, paths } = found;
        const result = route(winding, {
          paths,
          wishes: wishesOf[objective as RouteObjective],
          nodeBudget: 4_000,
        });
        if (!result.ok) throw new Error(JSON.stringify(result.reason));
        expect(result.paths.length).toBe(paths * winding.phases.names.length);
        expect(refereeProblems(winding, layoutOf(request), result.paths)).toEqual([]);
        const { bounds, measure } = result.explanation;
        if (!bounds) return;
        expect(measure.jumpers).toBeGreaterThanOrEqual(bounds.jumpers);
        expect(measure.specialJoints).toBeGreaterThanOrEqual(bounds.specialJoints);
        if (measure.jumpers === bounds.jumpers) {
          expect(measure.jointShapes).toBeGreaterThanOrEqual(bounds.jointShapes);
        }
      }),
      small,
    );
  });

  it('kinds of joints agree with the referee, joint by joint', () => {
    fc.assert(
      fc.property(anyMachine, ({ request, winding, paths }) => {
        const result = route(winding, { paths, nodeBudget: 4_000 });
        if (!result.ok) throw new Error(JSON.stringify(result.reason));
        const layout = layoutOf(request);
        const { joints } = connectionsOf(winding, result.paths);
        const kinds = {
          A: 'regular',
          B: 'other-span',
          C: 'layer-step',
          D: 'jumper',
          E: 'jumper',
          F: 'jumper',
        };
        for (const joint of joints) {
          const letter = classOf(winding, layout, {
            side: joint.side === 'far' ? 'F' : 'C',
            fromSlot: joint.from.slot,
            fromLayer: joint.from.layer,
            toSlot: joint.to.slot,
            toLayer: joint.to.layer,
            span: joint.span,
            path: joint.path,
          });
          expect(joint.kind).toBe(kinds[letter]);
        }
        expect(joints.map((joint) => joint.number)).toEqual(joints.map((_, index) => index + 1));
        const counts = countJoints(joints.filter((joint) => joint.phase === 0));
        const flat = flatten(result.paths.filter((path) => path.phase === 0));
        expect({ ...counts }).toEqual({
          special: refereeCounts(winding, layout, flat).special,
          jumpers: refereeCounts(winding, layout, flat).jumpers,
          specialShapes: refereeCounts(winding, layout, flat).shapes,
        });
      }),
      small,
    );
  });

  it('turning the machine by whole pole pairs, renaming phases and mirroring change no count', () => {
    fc.assert(
      fc.property(anyMachine, fc.integer({ min: 1, max: 30 }), ({ winding, paths }, turn) => {
        const counts = (other: Winding) => withoutWindow(route(other, { paths, nodeBudget: 4_000 }));
        const plain = asRows(winding);
        const original = counts(plain);
        // Exchanges follow the order in which bars are numbered: other counts by luck.
        if (original === null) return;
        expect(counts(turned(plain, turn))).toEqual(original);
        expect(counts(renamed(plain))).toEqual(original);
        expect(counts(mirroredMachine(plain))).toEqual(original);
      }),
      { ...small, numRuns: tries(10) },
    );
  });

  it('one changed joint, bar or layer is always found', () => {
    fc.assert(
      fc.property(anyMachine, fc.nat(), fc.nat(), fc.constantFrom(0, 1, 2, 3, 4), (found, a, b, how) => {
        const { request, winding, paths } = found;
        // Any connection will do.
        const result = route(winding, { paths, nodeBudget: 500 });
        if (!result.ok) throw new Error(JSON.stringify(result.reason));
        const changed = mutated(winding, result.paths, a, b, how);
        if (!changed) return;
        expect(refereeProblems(winding, layoutOf(request), changed)).not.toEqual([]);
      }),
      { ...small, numRuns: tries(40) },
    );
  });
});

/** The same table as written rows, so that spans have to be read from it. */
function asRows(winding: Winding): Winding {
  return { ...winding, origin: { kind: 'rows' } };
}

function withCells(winding: Winding, code: (slot: number, layer: number) => number): Winding {
  const cells = new Int8Array(winding.slots * winding.layers);
  for (let layer = 0; layer < winding.layers; layer++) {
    for (let slot = 1; slot <= winding.slots; slot++) {
      cells[layer * winding.slots + slot - 1] = code(slot, layer);
    }
  }
  return { ...winding, table: { slots: winding.slots, layers: winding.layers, cells } };
}

function codeAt(winding: Winding, slot: number, layer: number): number {
  const folded = (((slot - 1) % winding.slots) + winding.slots) % winding.slots;
  return winding.table.cells[layer * winding.slots + folded]!;
}

function turned(winding: Winding, slots: number): Winding {
  return withCells(winding, (slot, layer) => codeAt(winding, slot - slots, layer));
}

/** Phases swapped in name: codes and axes move together. */
function renamed(winding: Winding): Winding {
  const last = winding.phases.names.length;
  const swap = (code: number) =>
    Math.abs(code) === 1 ? Math.sign(code) * last : Math.abs(code) === last ? Math.sign(code) : code;
  const axes = [...winding.phases.axes];
  [axes[0], axes[last - 1]] = [axes[last - 1]!, axes[0]!];
  const moved = withCells(winding, (slot, layer) => swap(codeAt(winding, slot, layer)));
  const offset = axes[0]!;
  return {
    ...moved,
    phases: { ...winding.phases, axes: axes.map((axis) => (axis - offset + 360) % 360) },
  };
}

function mirroredMachine(winding: Winding): Winding {
  const moved = withCells(winding, (slot, layer) => codeAt(winding, 1 - slot, layer));
  return {
    ...moved,
    phases: { ...winding.phases, axes: winding.phases.axes.map((axis) => (360 - axis) % 360) },
    lean: winding.lean.map((lean) => -lean),
  };
}

function withoutWindow(
  result: ReturnType<typeof route>,
): Pick<RouteMeasure, 'specialJoints' | 'jumpers' | 'jointShapes'> | string | null {
  if (!result.ok) return result.reason.kind;
  if (result.explanation.tried.some(({ method }) => method === 'exchange')) return null;
  const { specialJoints, jumpers, jointShapes } = result.explanation.measure;
  return { specialJoints, jumpers, jointShapes };
}

/** One mutation that must not go unseen, or null where it would change nothing. */
function mutated(winding: Winding, paths: readonly Path[], a: number, b: number, how: number): Path[] | null {
  const list = paths.map((path) => ({ ...path, bars: [...path.bars], spans: [...path.spans] }));
  const path = list[a % list.length]!;
  const joint = b % path.spans.length;
  switch (how) {
    case 0: // A bar used twice in place of its neighbor.
      path.bars[joint + 1] = path.bars[joint]!;
      return list;
    case 1: // A joint the other way round the bore. It must be seen as a bend against the lean.
      if (winding.layers < 2 || path.bars[joint]!.layer === path.bars[joint + 1]!.layer) return null;
      path.spans[joint] = path.spans[joint]! - Math.sign(path.spans[joint]!) * winding.slots;
      return path.spans[joint] === 0 || path.pieces[joint] ? null : list;
    case 2: // Two bars of a path exchanged.
      [path.bars[joint], path.bars[joint + 1]] = [path.bars[joint + 1]!, path.bars[joint]!];
      return list;
    case 3: // A bar left out at the end.
      path.bars.pop();
      path.spans.pop();
      return list;
    default: // A span one slot longer.
      path.spans[joint] = path.spans[joint]! + 1;
      return list;
  }
}

describe('phases, terminals and other machines', () => {
  const singleLayers: [MachineRequest, number[]][] = [
    [{ slots: 12, poles: 8, layers: 1, span: 1 }, [1, 2]],
    [{ slots: 12, poles: 10, layers: 1, span: 1 }, [1, 2]],
    [{ slots: 24, poles: 20, layers: 1, span: 1 }, [1, 2, 4]],
    [{ slots: 24, poles: 22, layers: 1, span: 1 }, [1, 2]],
    [{ slots: 24, poles: 4, layers: 1, span: 6 }, [1, 2]],
    [{ slots: 36, poles: 6, layers: 1, span: 6 }, [1, 3]],
  ];
  for (const [request, possible] of singleLayers) {
    it(`one layer, ${request.slots} slots, ${request.poles} poles, coils of span ${request.span}`, () => {
      for (const winding of [machine(request), asRows(machine(request))]) {
        expect(possibleParallelPaths(winding)).toEqual(possible);
        for (const paths of possible) {
          const result = route(winding, { paths, nodeBudget: 4_000 });
          if (!result.ok) throw new Error('refused');
          expect(refereeProblems(winding, layoutOf(request), result.paths)).toEqual([]);
          // Every connection-side joint is a jumper there: one less than coils for each path.
          const coils = winding.slots / 6;
          expect(result.explanation.measure.jumpers).toBe(coils - paths);
        }
      }
    });
  }

  it('one layer: bars that no coils of one span join are refused', () => {
    const winding = asRows(machine({ slots: 12, poles: 10, layers: 1, span: 1 }));
    const cells = winding.table.cells.slice();
    [cells[1], cells[2]] = [cells[2]!, cells[1]!];
    const mixed = { ...winding, table: { ...winding.table, cells } };
    expect(route(mixed, { paths: 1 })).toEqual({
      ok: false,
      reason: { kind: 'no-constant-span', layers: [0] },
    });
  });

  it('terminals: star, separate stars, joined star, delta', () => {
    const names = (phases: number, connection: 'star' | 'star-joined' | 'delta' | 'open') => {
      const winding = machine({ slots: 72, poles: 6, phases, layers: 2, span: 12 });
      const result = route(winding, { paths: 2, connection });
      if (!result.ok) throw new Error('refused');
      return [...new Set(result.paths.map((path) => `${path.from}-${path.to}`))];
    };
    expect(names(3, 'star')).toEqual(['U1-N', 'V1-N', 'W1-N']);
    expect(names(3, 'delta')).toEqual(['U1-U2', 'V1-V2', 'W1-W2']);
    expect(names(3, 'open')).toEqual(['U1-U2', 'V1-V2', 'W1-W2']);
    expect(names(6, 'star')).toEqual(['1U1-1N', '1V1-1N', '1W1-1N', '2U1-2N', '2V1-2N', '2W1-2N']);
    expect(names(6, 'star-joined')).toEqual(['1U1-N', '1V1-N', '1W1-N', '2U1-N', '2V1-N', '2W1-N']);
  });

  it('delta changes nothing but names', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 4 });
    const star = routed(winding, 4, 'fewest-jumpers').paths;
    const wishes = wishesOf['fewest-jumpers'];
    const options = { paths: 4, wishes, connection: 'delta', nodeBudget, tipSizes: tipsAlone(4) } as const;
    const delta = route(winding, options);
    if (!delta.ok) throw new Error('refused');
    expect(delta.paths.map(({ bars, spans }) => ({ bars, spans }))).toEqual(
      star.map(({ bars, spans }) => ({ bars, spans })),
    );
  });

  it('leaning layers ask for equal cells, and get them', () => {
    const lean = [0, 0, 0.1, -0.1];
    const request = { slots: 48, poles: 8, layers: 4, lean };
    const winding = machine(request);
    const { explanation, paths } = routed(winding, 4, 'fewest-jumpers');
    expect(explanation.strict).toBe(true);
    expect(explanation.measure).toMatchObject({ specialJoints: 12, jumpers: 0, jointShapes: 3 });
    expect(refereeProblems(winding, layoutOf(request), paths)).toEqual([]);
    const upright = route(machine({ slots: 36, poles: 4, layers: 6 }), { paths: 3 });
    const leaning = route(machine({ slots: 36, poles: 4, layers: 6, lean: [0, 0, 0, 0, 0.1, -0.1] }), {
      paths: 3,
    });
    expect([upright.ok, leaning.ok]).toEqual([true, false]);
  });

  it('layers crossing at opposite leans stay alike, so equal angles and layers are enough', () => {
    const lean = [0.1, -0.1, 0.1, -0.1];
    const { explanation } = routed(machine({ slots: 48, poles: 8, layers: 4, lean }), 4, 'fewest-jumpers');
    expect(explanation.strict).toBe(false);
    expect(explanation.measure).toMatchObject({ specialJoints: 4, jumpers: 0, jointShapes: 2 });
  });

  it('is deterministic and gives way', () => {
    const winding = machine({ slots: 72, poles: 8, layers: 6 });
    const first = routed(winding, 6, 'fewest-jumpers');
    expect(routed(winding, 6, 'fewest-jumpers')).toEqual(first);
    const steps = routeSteps(winding, { paths: 4, nodeBudget });
    let slices = 0;
    while (!steps.next().done) slices++;
    expect(slices).toBeGreaterThan(10);
  });

  it('large machines: the climbing layout at once', () => {
    for (const paths of withMore([1, 8], [2, 4, 16])) {
      const winding = machine({ slots: 288, poles: 32, layers: 8 });
      const result = route(winding, { paths, nodeBudget: 50_000 });
      if (!result.ok) throw new Error('refused');
      expect(refereeProblems(winding, { span: 9, tooth: false }, result.paths)).toEqual([]);
      expect(result.explanation.measure.jumpers).toBe(paths % 2);
    }
  });

  it('the largest machines neither end the stack nor hold everything up in one slice', () => {
    for (const [layers, paths] of [
      [2, 1],
      [12, 4],
    ] as const) {
      const winding = machine({ slots: 2400, poles: 400, layers });
      const steps = routeSteps(winding, { paths, nodeBudget: 8000 });
      let slices = 1;
      let step = steps.next();
      for (; !step.done; step = steps.next()) slices++;
      // One for each phase's units, each candidate and each phase's paths, at the least.
      expect(slices).toBeGreaterThan(8);
      if (!step.value.ok) throw new Error('refused');
      expect(step.value.explanation.measure.jumpers).toBe(paths % 2);
      expect(step.value.paths.flatMap((path) => path.bars)).toHaveLength(2400 * layers);
    }
  });

  it('two poles: spans stay unreduced and the leans right', () => {
    const request = { slots: 12, poles: 2, layers: 4 };
    const winding = machine(request);
    for (const paths of possibleParallelPaths(winding)) {
      const result = routed(winding, paths, 'fewest-jumpers');
      expect(refereeProblems(winding, layoutOf(request), result.paths)).toEqual([]);
    }
  });
});
