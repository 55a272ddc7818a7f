// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { multiply, size, solveComplex, subtract } from '../../core/balance/complex.ts';
import { barPotentials, type PlacedNumbers, voltagesBetweenBars } from '../../core/balance/potentials.ts';
import { leakageMatrix, plainSlot, slotLeakageSplit } from '../../core/balance/slotLeakage.ts';
import {
  harmonicSpreads,
  inducedVoltages,
  orderVoltages,
  phaseBalances,
  phasePatterns,
  sumAlong,
} from '../../core/balance/voltages.ts';
import type { RouteOptions } from '../../core/routing/route.ts';
import { route } from '../../core/routing/route.ts';
import type { Path, Winding } from '../../core/winding/model.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';

function routed(
  request: MachineRequest,
  options: RouteOptions,
): { winding: Winding; paths: readonly Path[] } {
  const winding = machine(request);
  const result = route(winding, options);
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return { winding, paths: result.paths };
}

/** Two coils of 12 slots, 2 poles, one a path: one slot apart, so 30 electrical degrees. */
function slotApart(): { winding: Winding; paths: Path[] } {
  const winding = machine({ slots: 12, poles: 2, layers: 2 });
  const coil = (number: number, slot: number): Path => ({
    phase: 0,
    number,
    bars: [
      { slot, layer: 0 },
      { slot: slot + 6, layer: 1 },
    ],
    spans: [6],
    pieces: [false],
    from: 'U1',
    to: 'N',
    startsFar: false,
    endsFar: false,
  });
  return { winding, paths: [coil(1, 1), coil(2, 2)] };
}

/** One path of phase U in slots 1 and 7 of 12, in layers a and c of three; layer b stays empty. */
function sparseSlots(): { winding: Winding; paths: Path[] } {
  const { winding } = slotApart();
  const cells = new Int8Array(3 * 12);
  for (const layer of [0, 2]) {
    cells[layer * 12] = 1;
    cells[layer * 12 + 6] = -1;
  }
  const path: Path = {
    phase: 0,
    number: 1,
    bars: [
      { slot: 1, layer: 0 },
      { slot: 7, layer: 2 },
      { slot: 1, layer: 2 },
      { slot: 7, layer: 0 },
    ],
    spans: [6, 6, 6],
    pieces: [false, false, false],
    from: 'U1',
    to: 'N',
    startsFar: false,
    endsFar: false,
  };
  return {
    winding: {
      ...winding,
      layers: 3,
      table: { slots: 12, layers: 3, cells },
      lean: [0, 0, 0],
      origin: { kind: 'rows' },
    },
    paths: [path],
  };
}

/** The same machine seen in a mirror: slots count the other way, phases keep their names and axes. */
function mirrored(winding: Winding, paths: readonly Path[]): { winding: Winding; paths: Path[] } {
  const { slots, layers, table } = winding;
  const cells = new Int8Array(slots * layers);
  for (let layer = 0; layer < layers; layer++)
    for (let place = 0; place < slots; place++)
      cells[layer * slots + slots - 1 - place] = table.cells[layer * slots + place]!;
  return {
    winding: {
      ...winding,
      table: { slots, layers, cells },
      lean: winding.lean.map((lean) => -lean),
      origin: { kind: 'rows' },
    },
    paths: paths.map((path) => ({
      ...path,
      bars: path.bars.map(({ slot, layer }) => ({ slot: slots + 1 - slot, layer })),
      spans: path.spans.map((span) => -span),
    })),
  };
}

describe('a winding that runs against the slot numbers', () => {
  it.each([
    [{ slots: 48, poles: 8, layers: 4 }, 2],
    [{ slots: 40, poles: 4, phases: 5, layers: 2 }, 2],
    [{ slots: 72, poles: 6, phases: 6, layers: 2, span: 11 }, 2],
    [{ slots: 12, poles: 10, layers: 2 }, 2],
  ] as const)('has the voltages of its mirror image: %j, %i paths', (request, paths) => {
    const forward = routed(request, { paths });
    const backward = mirrored(forward.winding, forward.paths);
    for (const { difference } of phasePatterns(backward.winding, backward.paths)) {
      expect(difference).toBeLessThan(1e-9);
    }
    for (const reference of ['star', 'delta'] as const) {
      const [ahead, against] = [forward, backward].map((each) =>
        voltagesBetweenBars(each.winding, each.paths, reference),
      );
      expect(against!.inSlot!.value).toBeCloseTo(ahead!.inSlot!.value, 9);
      expect(against!.betweenSlots!.value).toBeCloseTo(ahead!.betweenSlots!.value, 9);
    }
    const result = route(backward.winding, { paths });
    if (!result.ok) throw new Error(JSON.stringify(result.reason));
    // Phases are alike up to a turn, as in the forward winding.
    const bars = (phase: number) =>
      result.paths.filter((path) => path.phase === phase).map((path) => path.spans.join());
    expect(bars(1)).toEqual(bars(0));
    for (const { difference } of phasePatterns(backward.winding, result.paths)) {
      expect(difference).toBeLessThan(1e-9);
    }
  });
});

describe('path voltages', () => {
  it('two coils 30 degrees apart: sizes and angles against the mean from elementary geometry', () => {
    const { winding, paths } = slotApart();
    const [balance] = phaseBalances(winding, paths);
    // Two unit vectors at +-15 degrees about their mean, whose length is cos 15 degrees.
    const mean = Math.cos(Math.PI / 12);
    expect(balance!.paths.map((path) => path.relative)).toEqual([
      expect.closeTo(1 / mean, 12),
      expect.closeTo(1 / mean, 12),
    ]);
    expect(balance!.paths.map((path) => path.angle)).toEqual([expect.closeTo(15, 9), expect.closeTo(-15, 9)]);
    expect(balance!.difference).toBeCloseTo(Math.tan(Math.PI / 12), 12);
    expect(balance!.sameAngles).toBe(false);
  });

  it('and at the harmonics: half the chord of h x 30 degrees', () => {
    const { winding, paths } = slotApart();
    for (const { harmonic, spread } of harmonicSpreads(winding, paths, [1, 3, 5, 7])) {
      expect(spread).toBeCloseTo(Math.abs(Math.sin((harmonic * Math.PI) / 12)), 12);
    }
  });

  it('phases stand on their axes; a phase out of place shows', () => {
    for (const phases of [3, 5, 6]) {
      const { winding, paths } = routed(
        { slots: phases === 6 ? 72 : 4 * phases, poles: phases === 6 ? 6 : 2, phases, layers: 2 },
        { paths: 1 },
      );
      expect(phasePatterns(winding, paths).map((phase) => phase.difference)).toEqual(Array(phases).fill(0));
      const swapped = { ...winding, phases: { ...winding.phases, axes: [...winding.phases.axes].reverse() } };
      expect(phasePatterns(swapped, paths).some((phase) => phase.difference! > 0.1)).toBe(true);
    }
  });
});

describe('induced voltages', () => {
  it('one bar induces pi f flux / sqrt 2: sqrt 2 pi f N flux with half a turn', () => {
    const [volts] = inducedVoltages([{ re: 2, im: 0 }], 50, 0.01);
    expect(volts!.re).toBeCloseTo(Math.SQRT2 * Math.PI * 50 * 0.01, 12);
  });
});

describe('current split by slot leakage', () => {
  it('strictly balanced paths share equally, whatever the slot', () => {
    for (const request of [
      { slots: 48, poles: 8, layers: 4, span: 5 },
      { slots: 48, poles: 8, layers: 4, stagger: 1 },
      { slots: 60, poles: 8, layers: 2 },
    ]) {
      const { winding, paths } = routed(request, { paths: 4 });
      for (const gap of ['inner', 'outer', 'both'] as const) {
        for (const mouth of [0, 0.7]) {
          const field = {
            ...plainSlot(winding, gap),
            mouth,
            heights: [1, 1.2, 0.8, 0.6].slice(0, winding.layers),
          };
          expect(slotLeakageSplit(winding, paths, field)!.deviation).toBe(0);
        }
      }
    }
  });

  it('equal angles and layers but unequal cells: 98 % with slot leakage alone (separate study)', () => {
    const { winding, paths } = routed(
      { slots: 48, poles: 8, layers: 4, span: 5 },
      { paths: 4, deviation: 2 },
    );
    const split = slotLeakageSplit(winding, paths, plainSlot(winding, 'inner'))!;
    expect(split.deviation).toBeCloseTo(0.98, 2);
    for (const [phase, axis] of [0, 120, 240].entries()) {
      const own = split.currents.filter((_, path) => paths[path]!.phase === phase);
      const sum = own.reduce((total, { re, im }) => ({ re: total.re + re, im: total.im + im }));
      expect(sum.re).toBeCloseTo(4 * Math.cos((axis * Math.PI) / 180), 9);
      expect(sum.im).toBeCloseTo(-4 * Math.sin((axis * Math.PI) / 180), 9);
    }
    // Much resistance evens it out.
    const damped = slotLeakageSplit(winding, paths, { ...plainSlot(winding, 'inner'), resistance: 1e6 })!;
    expect(damped.deviation).toBeLessThan(1e-3);
  });

  it('permeances equal a numeric integral of the slot field', () => {
    const { winding, paths } = slotApart();
    // One path with both bars of slot 1, to have neighbors in a slot.
    const stack: Path = {
      ...paths[0]!,
      bars: [
        { slot: 1, layer: 0 },
        { slot: 1, layer: 1 },
      ],
      spans: [0],
    };
    for (const innerShare of [0, 0.3, 1]) {
      const field = { innerShare, heights: [0.8, 1.4], mouth: 0.25, resistance: 0 };
      const [value] = leakageMatrix(winding, [stack], field);
      // Currents +1 in layer a and -1 in layer b: no net current, so the mouths see nothing.
      const steps = 20000;
      let energy = 0;
      for (const [index, height] of field.heights.entries()) {
        for (let i = 0; i < steps; i++) {
          const along = (i + 0.5) / steps;
          const enclosed = index === 0 ? along : 1 - along;
          energy += (enclosed * enclosed * height) / steps;
        }
      }
      expect(value).toBeCloseTo(energy, 6);
    }
  });

  it('handbook: z bars in series in a slot closed at its bottom have z^2 (height / 3) in all', () => {
    // Single-layer slot leakage of a full slot, h/(3b), with all bars carrying the same current.
    const winding = machine({ slots: 12, poles: 2, layers: 4 });
    const { paths } = slotApart();
    const bars = [0, 1, 2, 3].map((layer) => ({ slot: 1, layer }));
    const same = bars.map((bar) => ({ ...paths[0]!, bars: [bar], spans: [] }));
    for (const gap of ['inner', 'outer'] as const) {
      const matrix = leakageMatrix(winding, same, { ...plainSlot(winding, gap), heights: [1, 1, 1, 1] });
      const total = matrix.reduce((sum, value) => sum + value, 0);
      expect(total).toBeCloseTo((16 * 4) / 3, 9);
    }
    // Open on both sides alike: two slots of half the depth, each with half the current: a quarter of it.
    const both = leakageMatrix(winding, same, { ...plainSlot(winding, 'both'), heights: [1, 1, 1, 1] });
    expect(both.reduce((sum, value) => sum + value, 0)).toBeCloseTo((16 * 4) / 12, 9);
  });
});

describe('voltages between bars', () => {
  it('full pitch with mirrored paths: 1 - 2/N of the phase voltage in a slot', () => {
    // N bars in series a path: 32 and 16.
    for (const [count, expected] of [
      [2, 1 - 2 / 32],
      [4, 0.876],
    ] as const) {
      const { winding, paths } = routed({ slots: 48, poles: 8, layers: 4 }, { paths: count });
      const gaps = voltagesBetweenBars(winding, paths, 'star')!;
      expect(gaps.inSlot!.value).toBeCloseTo(expected, 3);
      expect(gaps.inSlotTwoPhases).toBeNull();
    }
  });

  it('short pitch lowers it: 0.39 within a phase for 48 slots, 8 poles, span 5, 2 paths (separate study)', () => {
    // The study's connection: of those with the fewest shapes and joints the one whose starts lie nearest.
    const { winding, paths } = routed(
      { slots: 48, poles: 8, layers: 2, span: 5 },
      { paths: 2, wishes: ['pieces', 'shapes', 'joints', 'window'], nodeBudget: 0 },
    );
    expect(voltagesBetweenBars(winding, paths, 'star')!.inSlotSamePhase!.value).toBeCloseTo(0.39, 2);
  });

  it('between slots no more than the line voltage', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 4, span: 5 }, { paths: 2 });
    const gaps = voltagesBetweenBars(winding, paths, 'star')!;
    expect(gaps.betweenSlots!.value).toBeGreaterThan(1);
    expect(gaps.betweenSlots!.value).toBeLessThanOrEqual(Math.sqrt(3) + 1e-9);
  });

  it('star: paths run from the phase voltage to zero; delta: from corner to corner', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 2 }, { paths: 2 });
    const star = barPotentials(winding, paths, 'star')!;
    const delta = barPotentials(winding, paths, 'delta')!;
    const at = (numbers: PlacedNumbers, path: Path, position: number) => {
      const { slot, layer } = path.bars.at(position)!;
      return { re: numbers.re[layer * 48 + slot - 1]!, im: numbers.im[layer * 48 + slot - 1]! };
    };
    for (const path of paths) {
      expect(size(at(star.connection, path, 0))).toBeCloseTo(1, 12);
      expect(size(at(star.connection, path, -1))).toBeCloseTo(0, 12);
      const next = paths.find((other) => other.phase === (path.phase + 1) % 3)!;
      const end = at(delta.connection, path, -1);
      expect(size(subtract(end, at(delta.connection, next, 0)))).toBeLessThan(1e-12);
    }
  });

  it('open phases float: only bars of one phase are compared', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 2, span: 5 }, { paths: 2 });
    const gaps = voltagesBetweenBars(winding, paths, 'open')!;
    expect(gaps.inSlotTwoPhases).toBeNull();
    expect(gaps.inSlot!.value).toBe(gaps.inSlotSamePhase!.value);
  });

  it('bars lie on each other across empty places: two empty layers between change nothing', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 2, span: 5 }, { paths: 2 });
    const cells = new Int8Array(4 * 48);
    cells.set(winding.table.cells.subarray(0, 48), 0);
    cells.set(winding.table.cells.subarray(48), 3 * 48);
    const spread: Winding = {
      ...winding,
      layers: 4,
      table: { slots: 48, layers: 4, cells },
      lean: [0, 0, 0, 0],
      origin: { kind: 'rows' },
    };
    const moved = paths.map((path) => ({
      ...path,
      bars: path.bars.map(({ slot, layer }) => ({ slot, layer: 3 * layer })),
    }));
    const dense = voltagesBetweenBars(winding, paths, 'star')!;
    const sparse = voltagesBetweenBars(spread, moved, 'star')!;
    for (const kind of ['inSlot', 'inSlotSamePhase', 'inSlotTwoPhases', 'betweenSlots'] as const) {
      expect(dense[kind]).not.toBeNull();
      expect(sparse[kind]!.value).toBeCloseTo(dense[kind]!.value, 12);
      expect(sparse[kind]!.bars.map(({ slot }) => slot)).toEqual(dense[kind]!.bars.map(({ slot }) => slot));
    }
  });

  it('an empty place does not hide a bar behind it from any pair of a slot (all pairs, told apart by hand)', () => {
    const { winding, paths } = sparseSlots();
    const gaps = voltagesBetweenBars(winding, paths, 'star')!;
    const { phase, ...potentials } = barPotentials(winding, paths, 'star')!;
    // Slot 1 holds a and c, slot 7 a and c, nothing in b: one pair a slot, c on a.
    const pairs = [0, 6].map((slot) => [slot, 2 * 12 + slot] as const);
    const values = pairs.flatMap(([a, c]) =>
      (['connection', 'far'] as const).map((side) => {
        const { re, im } = potentials[side];
        return Math.hypot(re[a]! - re[c]!, im[a]! - im[c]!);
      }),
    );
    expect(phase.filter((each) => each >= 0)).toHaveLength(4);
    expect(gaps.inSlot!.value).toBeCloseTo(Math.max(...values), 12);
    expect(gaps.inSlot!.value).toBeGreaterThan(0.4);
  });

  it('bar ends with an empty place between are neighbors where their bends pass each other, else not', () => {
    const { winding, paths } = slotApart();
    // Bars in layer a at slots 1 and 4; their far-side ends reach 3 slots on (span 6), those to the
    // connection side stay straight (leads): so only the far side counts.
    const apart = paths.map((path, index) => ({
      ...path,
      bars: path.bars.map(({ slot, layer }) => ({ slot: slot + 2 * index, layer })),
    }));
    const gaps = voltagesBetweenBars(winding, apart, 'star')!;
    expect(gaps.betweenSlots).toMatchObject({ side: 'far' });
    const layers = gaps.betweenSlots!.bars.map(({ layer }) => layer);
    expect(layers[0]).toBe(layers[1]);
    const farther = paths.map((path, index) => ({
      ...path,
      bars: path.bars.map(({ slot, layer }) => ({ slot: ((slot + 4 * index - 1) % 12) + 1, layer })),
    }));
    // Slots 1 and 6 of 12: 5 slots and 7 slots apart, and no end reaches more than 3.
    expect(voltagesBetweenBars(winding, farther, 'star')!.betweenSlots).toBeNull();
  });

  it('between two sets: the largest of all pairs of different sets; null for one set', () => {
    const one = routed({ slots: 48, poles: 8, layers: 2, span: 5 }, { paths: 2 });
    expect(voltagesBetweenBars(one.winding, one.paths, 'star')!.betweenSets).toBeNull();
    const two = routed({ slots: 48, poles: 4, layers: 2, phases: 6, span: 11 }, { paths: 2 });
    const gaps = voltagesBetweenBars(two.winding, two.paths, 'star')!;
    const setOf = (bar: { readonly slot: number; readonly layer: number }) =>
      Math.floor((Math.abs(two.winding.table.cells[bar.layer * 48 + bar.slot - 1]!) - 1) / 3);
    const [a, b] = gaps.betweenSets!.bars;
    expect(setOf(a)).not.toBe(setOf(b));
    expect(gaps.betweenSets!.value).toBeLessThanOrEqual(
      Math.max(gaps.inSlotTwoPhases!.value, gaps.betweenSlots!.value) + 1e-12,
    );
    expect(voltagesBetweenBars(two.winding, two.paths, 'open')!.betweenSets).toBeNull();
  });

  it('null for a path without voltage', () => {
    const { winding, paths } = slotApart();
    const dead: Path = {
      ...paths[0]!,
      bars: [
        { slot: 1, layer: 0 },
        { slot: 1, layer: 1 },
      ],
      spans: [0],
    };
    expect(size(sumAlong(orderVoltages(winding, 1), dead))).toBeLessThan(1e-12);
    expect(voltagesBetweenBars(winding, [dead], 'star')).toBeNull();
  });
});

describe('linear systems', () => {
  it('are solved, or found singular', () => {
    const matrix = [
      [
        { re: 0, im: 0 },
        { re: 2, im: 1 },
      ],
      [
        { re: 1, im: -1 },
        { re: 3, im: 0 },
      ],
    ];
    const wanted = [
      { re: 1, im: 2 },
      { re: -1, im: 0.5 },
    ];
    const right = matrix.map((row) => {
      const parts = row.map((entry, i) => multiply(entry, wanted[i]!));
      return { re: parts[0]!.re + parts[1]!.re, im: parts[0]!.im + parts[1]!.im };
    });
    const solved = solveComplex(matrix, right)!;
    solved.forEach((value, i) => {
      expect(size(subtract(value, wanted[i]!))).toBeLessThan(1e-12);
    });
    expect(solveComplex([matrix[0]!, matrix[0]!], right)).toBeNull();
  });
});
