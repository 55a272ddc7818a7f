import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { occupationProblems } from '../../core/balance/occupation.ts';
import { type JointProblem, jointProblems } from '../../core/balance/validity.ts';
import { phaseBalances } from '../../core/balance/voltages.ts';
import { route } from '../../core/routing/route.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import type { Bar, Path, Winding } from '../../core/winding/model.ts';
import { tries } from '../support/tries.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';

function routed(request: MachineRequest, paths: number): { winding: Winding; paths: readonly Path[] } {
  const winding = machine(request);
  const result = route(winding, { paths, nodeBudget: 20_000 });
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return { winding, paths: result.paths };
}

const machines: readonly (readonly [MachineRequest, number])[] = [
  [{ slots: 48, poles: 8, layers: 4 }, 4],
  [{ slots: 48, poles: 8, layers: 2, span: 5 }, 2],
  [{ slots: 60, poles: 8, layers: 2 }, 2],
  [{ slots: 36, poles: 4, layers: 6 }, 3],
  [{ slots: 72, poles: 6, phases: 6, layers: 2 }, 3],
  [{ slots: 40, poles: 4, phases: 5, layers: 4 }, 4],
  [{ slots: 12, poles: 10, layers: 2 }, 2],
  [{ slots: 24, poles: 4, layers: 1, span: 6 }, 2],
];

describe('routed windings are without fault', () => {
  for (const [request, count] of machines) {
    it(`${request.slots} slots, ${request.poles} poles, ${request.layers} layers, ${count} paths`, () => {
      const { winding, paths } = routed(request, count);
      expect(occupationProblems(winding, paths)).toEqual([]);
      const errors = jointProblems(winding, connectionsOf(winding, paths));
      expect(errors.filter((problem) => problem.kind !== 'jumper')).toEqual([]);
      for (const balance of phaseBalances(winding, paths)) {
        expect(balance.sameAngles).toBe(true);
        expect(balance.difference).toBeLessThan(1e-12);
      }
    });
  }
});

/** Rebuilds a path from its bars, keeping spans where they still lead from bar to bar. */
function withBars(winding: Winding, path: Path, bars: readonly Bar[]): Path {
  const spans = bars.slice(1).map((bar, index) => {
    const old = path.spans[index] ?? 0;
    const from = bars[index]!.slot;
    if ((from + old - bar.slot) % winding.slots === 0) return old;
    const forward = (((bar.slot - from) % winding.slots) + winding.slots) % winding.slots;
    return 2 * forward <= winding.slots ? forward : forward - winding.slots;
  });
  return { ...path, bars, spans, pieces: spans.map((_, index) => path.pieces[index] ?? false) };
}

describe('what is changed is found where it stands', () => {
  const ready = machines.map(([request, count]) => routed(request, count));
  const anyPlace = fc.record({ machine: fc.nat(), path: fc.nat(), place: fc.nat() });
  const run = { seed: 11, numRuns: tries(80) };

  it('a joint turned the other way round the bore: its two legs collide', () => {
    fc.assert(
      fc.property(anyPlace, (pick) => {
        const { winding, paths } = ready[pick.machine % ready.length]!;
        const index = pick.path % paths.length;
        const path = paths[index]!;
        const joint = pick.place % path.spans.length;
        const tooth = winding.slots === 12 && joint % 2 === 1;
        if (winding.layers === 1 || path.pieces[joint] || tooth) return;
        const spans = path.spans.map((span, i) =>
          i === joint ? span - Math.sign(span) * winding.slots : span,
        );
        const changed = paths.map((other, i) => (i === index ? { ...path, spans } : other));
        const found = jointProblems(winding, connectionsOf(winding, changed)).filter(
          (problem) => problem.kind === 'lean-collision',
        );
        expect(found.map((problem) => [problem.joint.path, problem.joint.position])).toEqual([
          [index, joint],
        ]);
        expect(found[0]!.layers.length).toBe(2);
      }),
      run,
    );
  });

  it('bars of two layers exchanged between paths: layers unequal', () => {
    const { winding, paths } = ready[0]!;
    const first = paths[0]!;
    const second = paths[1]!;
    const mine = first.bars.findIndex((bar) => bar.layer === 0);
    const theirs = second.bars.findIndex((bar) => bar.layer === 2);
    const changed = [
      withBars(
        winding,
        first,
        first.bars.map((bar, i) => (i === mine ? second.bars[theirs]! : bar)),
      ),
      withBars(
        winding,
        second,
        second.bars.map((bar, i) => (i === theirs ? first.bars[mine]! : bar)),
      ),
      ...paths.slice(2),
    ];
    const problems = occupationProblems(winding, changed);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems[0]).toMatchObject({ phase: 0, kind: 'layers' });
  });
});

describe('paths of unequal cells', () => {
  it('are named with the cell that differs', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 4, span: 5 });
    const result = route(winding, { paths: 4, deviation: 2 });
    if (!result.ok) throw new Error('refused');
    const problems = occupationProblems(winding, result.paths);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.every((problem) => problem.kind === 'cells' && problem.cell !== null)).toBe(true);
  });
});

describe('joints that need care', () => {
  it('jumpers at the free radius are information, those across the end winding warnings', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 4 }, 1);
    const problems: JointProblem[] = jointProblems(winding, connectionsOf(winding, paths));
    expect(problems.map((problem) => problem.kind)).toEqual(['jumper', 'jumper', 'jumper']);
    expect(problems.every((problem) => problem.kind === 'jumper' && problem.severity === 'info')).toBe(true);
  });

  it('a piece against the lean is a collision only while it is not marked', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2 });
    const path: Path = {
      phase: 0,
      number: 1,
      bars: [
        { slot: 1, layer: 0 },
        { slot: 7, layer: 1 },
        { slot: 1, layer: 0 },
      ],
      spans: [6, -6],
      pieces: [false, false],
      from: 'U1',
      to: 'N',
      startsFar: false,
      endsFar: true,
    };
    const kinds = (pieces: boolean[]) =>
      jointProblems(winding, connectionsOf(winding, [{ ...path, pieces }])).map((problem) => problem.kind);
    expect(kinds([false, false])).toEqual(['lean-collision']);
    expect(kinds([false, true])).toEqual(['jumper']);
  });
});
