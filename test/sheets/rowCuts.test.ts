import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BrokenOverhang, breakOverhang, type RowBreaks } from '../../core/sheets/layout/rowCuts.ts';
import type { DrawnLead } from '../../core/views/layout/input.ts';
import { planOverhang } from '../../core/views/layout/overhang.ts';
import { layoutScale } from '../../core/views/layout/scale.ts';
import type { Bar } from '../../core/winding/model.ts';
import { tries } from '../support/tries.ts';
import { generated } from '../views/windings.ts';

const slots = 48;

function scaleOf(lean: readonly number[] = []) {
  return layoutScale(generated({ slots, poles: 8, layers: 2, span: 6, lean }), { pitch: 7 });
}

function rowsOf(perRow: number): RowBreaks {
  return { slots, perRow, rows: Math.ceil(slots / perRow) };
}

/** The line that joins the leads of one terminal at these bars, in rows. */
function joined(bars: readonly Bar[], breaks: RowBreaks, scale = scaleOf()): BrokenOverhang {
  const leads = bars.map((bar): DrawnLead => ({ side: 'connection', bar, phase: 0, terminal: 'U1' }));
  return breakOverhang(
    planOverhang('connection', scale, { ends: [], leads, starPoints: [] }),
    scale,
    breaks,
    () => 'none',
  );
}

function runsOf(broken: BrokenOverhang) {
  return broken.buses.flatMap(({ ends }) =>
    ends.flatMap(({ pieces }) => pieces.flatMap(({ row, runs }) => runs.map((run) => ({ row, run })))),
  );
}

/** Length of what runs level. */
function levelLength(broken: BrokenOverhang): number {
  let length = 0;
  for (const { run } of runsOf(broken))
    for (let at = 2; at < run.length; at += 2)
      if (run[at + 1] === run[at - 1]) length += Math.abs(run[at]! - run[at - 2]!);
  return length;
}

/** Whether an end of one run lies on the other. */
function touch(one: readonly number[], other: readonly number[]): boolean {
  const onRun = (x: number, h: number, run: readonly number[]) => {
    for (let at = 2; at < run.length; at += 2) {
      const [x1, h1, x2, h2] = run.slice(at - 2, at + 2) as [number, number, number, number];
      const inside = (value: number, a: number, b: number) =>
        value > Math.min(a, b) - 1e-6 && value < Math.max(a, b) + 1e-6;
      const off = (x - x1) * (h2 - h1) - (h - h1) * (x2 - x1);
      if (inside(x, x1, x2) && inside(h, h1, h2) && Math.abs(off) < 1e-6) return true;
    }
    return false;
  };
  const ends = (run: readonly number[]) => [
    [run[0]!, run[1]!],
    [run.at(-2)!, run.at(-1)!],
  ];
  return ends(one).some(([x, h]) => onRun(x!, h!, other)) || ends(other).some(([x, h]) => onRun(x!, h!, one));
}

/** How many separate things the runs are, those that go on at a name of the next row being joined. */
function separate(broken: BrokenOverhang, { rows }: RowBreaks): number {
  const runs = runsOf(broken);
  const group = runs.map((_, index) => index);
  const rootOf = (index: number): number => (group[index] === index ? index : rootOf(group[index]!));
  const join = (one: number, other: number) => {
    group[rootOf(one)] = rootOf(other);
  };
  const cuts = broken.rows.flatMap((row) => row.cuts);
  const at = (cut: (typeof cuts)[number]) =>
    runs.findIndex(({ row, run }) => row === cut.row && touch([cut.x, cut.height], run));
  runs.forEach(({ row, run }, index) => {
    runs.forEach((other, place) => {
      if (other.row === row && touch(run, other.run)) join(index, place);
    });
  });
  for (const cut of cuts.filter(({ edge }) => edge === 'right')) {
    const next = cuts.filter(({ row, edge }) => edge === 'left' && row === (cut.row + 1) % rows);
    expect(next).toHaveLength(1);
    expect(next[0]!.height).toBeCloseTo(cut.height, 9);
    expect([at(cut), at(next[0]!)]).not.toContain(-1);
    join(at(cut), at(next[0]!));
  }
  return new Set(runs.map((_, index) => rootOf(index))).size;
}

describe('leads of one terminal', () => {
  const bars = [1, 3, 46].map((slot) => ({ slot, layer: 0 }));

  test.each([48, 24, 16])('near the cut edge are joined over it, of %s slots a row', (perRow) => {
    const breaks = rowsOf(perRow);
    const broken = joined(bars, breaks);
    expect(levelLength(broken) / scaleOf().pitch).toBeCloseTo(5, 6);
    expect(separate(broken, breaks)).toBe(1);
    const cuts = broken.rows.flatMap(({ cuts }) => cuts);
    expect(cuts.map(({ row, edge, label }) => [row, edge, label])).toEqual([
      [0, 'left', 'U1'],
      [breaks.rows - 1, 'right', 'U1'],
    ]);
  });

  test('are joined without a cut where the way over the edge saves little', () => {
    const broken = joined(
      [1, 17, 30].map((slot) => ({ slot, layer: 0 })),
      rowsOf(48),
    );
    expect(broken.rows.flatMap(({ cuts }) => cuts)).toEqual([]);
  });

  test('are one thing, wherever they stand and however their rows are cut and lean', () => {
    const anyBar = fc.record({ slot: fc.integer({ min: 1, max: slots }), layer: fc.nat({ max: 1 }) });
    const some = fc.uniqueArray(anyBar, {
      minLength: 2,
      maxLength: 6,
      selector: (bar) => JSON.stringify(bar),
    });
    fc.assert(
      fc.property(some, fc.constantFrom(48, 24, 18, 16, 12), fc.constantFrom(0, 20), (ends, perRow, lean) => {
        const breaks = rowsOf(perRow);
        const broken = joined(ends, breaks, scaleOf([lean, -lean]));
        expect(separate(broken, breaks)).toBe(1);
      }),
      { seed: 12, numRuns: tries(60) },
    );
  });
});
