// Takes its time: draws large windings.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { PathShape, Picture, Text } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import type { DrawnEnd, LayoutInput } from '../../core/views/layout/input.ts';
import { layoutPicture } from '../../core/views/layout/layout.ts';
import type { Bar, JointKind, Winding } from '../../core/winding/model.ts';
import { barsOf, flat, readXml, troublesOf, valuesOf } from '../picture/checkPicture.ts';
import { tries, withMore } from '../support/tries.ts';
import { connectedWave, fromTable, generated, layoutInput, type WindingRequest } from './windings.ts';

function expectGood(input: LayoutInput): Picture {
  const picture = layoutPicture(input);
  expect(troublesOf(picture)).toEqual([]);
  const root = readXml(pictureToSvg(picture));
  expect([...valuesOf(root, 'data-bar')].sort()).toEqual([...barsOf(input.winding.table)].sort());
  const joints = input.ends.flatMap(({ number }) => (number === undefined ? [] : [String(number)]));
  expect([...valuesOf(root, 'data-joint')].sort()).toEqual(joints.sort());
  const terminals = input.leads.map(({ terminal }) => terminal);
  expect([...valuesOf(root, 'data-terminal')].sort()).toEqual(terminals.sort());
  return picture;
}

function shapeOf(picture: Picture, id: string): PathShape {
  const found = flat(picture.items).find((item) => item.id === id);
  if (found?.kind !== 'path') throw new RangeError(`no path ${id}`);
  return found;
}

const generatedCases: readonly WindingRequest[] = [
  { slots: 48, poles: 8, layers: 4, span: 6 },
  { slots: 12, poles: 10, layers: 2, span: 1 },
  { slots: 12, poles: 10, layers: 1, span: 1 },
  { slots: 9, poles: 8, layers: 2, span: 1 },
  { slots: 3, poles: 2, layers: 2, span: 1 },
  { slots: 36, poles: 4, layers: 1, span: 9 },
  { slots: 48, poles: 8, layers: 2, span: 6, lean: [7.5, -7.5] },
  { slots: 48, poles: 8, layers: 4, span: 5, lean: [7.5, 7.5, -7.5, -7.5] },
  { slots: 72, poles: 8, layers: 8, span: 9 },
  { slots: 72, poles: 8, layers: 8, span: 8, stagger: 1 },
  { slots: 48, poles: 4, phases: 6, apart: 30, layers: 2, span: 11 },
  { slots: 40, poles: 4, phases: 5, layers: 4, span: 9 },
  { slots: 60, poles: 2, phases: 15, layers: 2, span: 29 },
  { slots: 288, poles: 32, layers: 8, span: 9 },
  { slots: 27, poles: 24, layers: 2, span: 1 },
  { slots: 24, poles: 2, layers: 2, span: 12 },
];

test.each(generatedCases)('$slots slots, $poles poles, $layers layers, span $span', (request) => {
  expectGood(layoutInput(generated(request)));
});

test('2400 slots stay within the picture', () => {
  for (const [poles, span] of withMore([[400, 6]], [[8, 300]]))
    expectGood(layoutInput(generated({ slots: 2400, poles: poles!, layers: 2, span: span! })));
});

test('a connected winding shows joints, leads and star point', () => {
  for (const lean of [[], [5, -5], [7.5, 7.5]]) {
    const picture = expectGood(connectedWave(lean));
    const root = readXml(pictureToSvg(picture));
    expect([...valuesOf(root, 'data-terminal')].sort()).toEqual(['U1', 'U1', 'V1', 'V1', 'W1', 'W1']);
    expect(valuesOf(root, 'data-star')).toEqual(['N', 'N', 'N', 'N', 'N', 'N']);
    const names = flat(picture.items).filter(({ role }) => role === 'terminal-name');
    expect(names.map((name) => (name as Text).text).sort()).toEqual(['N', 'U1', 'V1', 'W1']);
  }
});

/** Slot pitch on paper, from the distance of the slot numbers. */
function slotPitch(picture: Picture): number {
  const [first, second] = [1, 2].map(
    (slot) => flat(picture.items).find(({ id }) => id === `slot-${slot}`) as Text,
  );
  return second!.x - first!.x;
}

test('bars lean by lean times slots over a full turn, joints reach as far as their true span', () => {
  const degrees = [7.5, -7.5, 3, 0];
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6, lean: degrees });
  const joints: DrawnEnd[] = [
    { side: 'far', from: { slot: 10, layer: 0 }, to: { slot: 16, layer: 1 }, span: 6, ...regular(1) },
    { side: 'connection', from: { slot: 16, layer: 1 }, to: { slot: 22, layer: 2 }, span: 6, ...regular(2) },
    { side: 'far', from: { slot: 30, layer: 3 }, to: { slot: 23, layer: 2 }, span: -7, ...regular(3) },
  ];
  const picture = expectGood({ winding, title: 'Lean', ends: joints, leads: [], starPoints: [] });
  const pitch = slotPitch(picture);
  const middle = (bar: Bar) => {
    const letter = 'abcd'[bar.layer];
    return (flat(picture.items).find(({ id }) => id === `label-${bar.slot}${letter}`) as Text).x;
  };
  for (const [layer, lean] of degrees.entries()) {
    const [upper, lower] = shapeOf(picture, `bar-20${'abcd'[layer]}`).parts;
    // Design formula Q gamma / (2 pi) with gamma = lean * pi / 180.
    expect((lower![2]! - upper![0]!) / pitch).toBeCloseTo((48 * lean) / 360, 9);
    const slope = (upper![2]! - upper![0]!) / (upper![3]! - upper![1]!);
    expect(slope).toBeCloseTo((lower![2]! - upper![0]!) / (lower![3]! - upper![1]!), 9);
  }
  for (const { number, side, from, to, span } of joints) {
    const [points] = shapeOf(picture, `joint-${number}`).parts;
    // True span after the layers' places in the slot are taken out: d +- Q (gamma_to - gamma_from) / (4 pi).
    const inSlot = (bar: Bar) => middle(bar) - (bar.slot - 1) * pitch;
    const reach = (points!.at(-2)! - points![0]! - inSlot(to) + inSlot(from)) / pitch;
    const turn = (48 * (degrees[to.layer]! - degrees[from.layer]!)) / 720;
    expect(reach).toBeCloseTo(side === 'far' ? span + turn : span - turn, 9);
    // Legs meet the ends of their bars.
    const [upper, lower] = shapeOf(picture, `bar-${from.slot}${'abcd'[from.layer]}`).parts;
    expect(points!.slice(0, 2)).toEqual(side === 'far' ? lower!.slice(2) : upper!.slice(0, 2));
  }
});

function regular(number: number): Pick<DrawnEnd, 'kind' | 'number' | 'separatePiece' | 'phase'> {
  return { kind: 'regular', number, separatePiece: false, phase: 0 };
}

test('crowns are two straight legs that meet at mid-span, all equally steep', () => {
  const picture = layoutPicture(connectedWave());
  const slopes = new Set<string>();
  for (const item of flat(picture.items)) {
    if (item.kind !== 'path' || (item.role !== 'joint' && item.role !== 'special-joint')) continue;
    if (item.parts.length > 1) continue;
    const [x1, y1, xm, ym, x2, y2] = item.parts[0] as [number, number, number, number, number, number];
    expect(xm).toBeCloseTo((x1 + x2) / 2, 9);
    expect(y1).toBe(y2);
    slopes.add((Math.abs(ym - y1) / Math.abs(xm - x1)).toFixed(9));
  }
  expect(slopes.size).toBe(1);
});

test('a line cut at the edge goes on at the other edge, with one number at both', () => {
  const input = connectedWave();
  const picture = layoutPicture(input);
  const width = 48 * slotPitch(picture);
  let cut = 0;
  for (const item of flat(picture.items)) {
    if (item.kind !== 'path' || item.parts.length !== 2 || !item.id.startsWith('joint-')) continue;
    cut++;
    const [before, after] = item.parts;
    const [x1, y1] = before!.slice(-2);
    const [x2, y2] = after!.slice(0, 2);
    expect(Math.abs(x1! - x2!)).toBeCloseTo(width, 9);
    expect(y1).toBeCloseTo(y2!, 9);
    const number = item.id.slice('joint-'.length);
    const marks = flat(picture.items).filter(
      (mark) => mark.role === 'cut-number' && (mark as Text).text === number,
    );
    expect(marks).toHaveLength(2);
  }
  // Independent: joints that pass from slot 48 to slot 1 or back.
  const passing = input.ends.filter(({ from, span }) => from.slot + span > 48 || from.slot + span < 1);
  expect(cut).toBe(passing.length);
});

test('leads of one terminal on both sides of the cut edge are joined over it, with its name at both', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 2, span: 6 });
  const lead = (slot: number) => ({
    side: 'connection' as const,
    bar: { slot, layer: 0 },
    phase: 0,
    terminal: 'U1',
  });
  const star = { side: 'far' as const, phase: 0 };
  const picture = expectGood({
    ...layoutInput(winding),
    ends: [],
    leads: [lead(2), lead(47), lead(1)],
    starPoints: [{ name: 'N', ends: [45, 3, 6].map((slot) => ({ ...star, bar: { slot, layer: 1 } })) }],
  });
  const pitch = slotPitch(picture);
  for (const [name, side, slots] of [
    ['U1', 'connection', 3],
    ['N', 'far', 9],
  ] as const) {
    const shapes = flat(picture.items).filter(({ id }) =>
      id.startsWith(name === 'N' ? 'star-N-' : 'lead-U1-'),
    );
    expect(shapes).toHaveLength(3);
    let level = 0;
    for (const part of shapes.flatMap((shape) => (shape as PathShape).parts))
      for (let at = 2; at < part.length; at += 2)
        if (part[at + 1] === part[at - 1]) level += Math.abs(part[at]! - part[at - 2]!);
    expect(level / pitch).toBeCloseTo(slots, 6);
    const marks = flat(picture.items).filter(
      ({ id }) => /^cut-(left|right)-/.test(id) && id.includes(`-${side}-`),
    );
    expect(marks.map((mark) => (mark as Text).text)).toEqual([name, name]);
  }
});

test('thick joints are told where there are some', () => {
  const words = (input: LayoutInput) =>
    flat(layoutPicture(input).items)
      .flatMap((item) => (item.role === 'note' ? [(item as Text).text] : []))
      .join(' ');
  const input = connectedWave();
  expect(words(input)).toContain('Thick joints are special');
  const regularOnly = input.ends.filter(({ kind }) => kind === 'regular');
  expect(words({ ...input, ends: regularOnly })).not.toContain('Thick joints');
});

test('connecting pieces do not lie on each other', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6 });
  const ends = Array.from({ length: 14 }, (_, index): DrawnEnd => {
    const from = { slot: 1 + 3 * index, layer: index % 4 };
    const span = (index % 2 === 0 ? 1 : -1) * (3 + ((5 * index) % 17));
    const to = { slot: ((from.slot - 1 + span + 96) % 48) + 1, layer: (index + 1) % 4 };
    return { ...regular(index + 1), side: 'connection', from, to, span, kind: 'jumper', phase: index % 3 };
  });
  const picture = expectGood({ winding, title: 'Pieces', ends, leads: [], starPoints: [] });
  const level: { y: number; from: number; to: number; id: string }[] = [];
  for (const item of flat(picture.items)) {
    if (item.kind !== 'path' || item.role !== 'connecting-piece') continue;
    for (const points of item.parts)
      for (let index = 2; index < points.length; index += 2)
        if (points[index + 1] === points[index - 1])
          level.push({
            id: item.id,
            y: points[index + 1]!,
            from: Math.min(points[index]!, points[index - 2]!),
            to: Math.max(points[index]!, points[index - 2]!),
          });
  }
  expect(level.length).toBeGreaterThanOrEqual(14);
  for (const one of level)
    for (const other of level)
      if (one.id < other.id && Math.abs(one.y - other.y) < 1)
        expect(one.to < other.from || other.to < one.from).toBe(true);
});

test('emphasis makes one path strong and the rest faded', () => {
  const input = { ...connectedWave(), emphasis: { phase: 1, path: 2 } };
  const bars = flat(expectGood(input).items).filter(({ role }) => role === 'bar');
  expect(bars.filter(({ emphasis }) => emphasis === 'strong')).toHaveLength(16);
  expect(bars.filter(({ emphasis }) => emphasis === 'faded')).toHaveLength(80);
  for (const { emphasis, phase, path } of bars) expect(emphasis === 'strong').toBe(phase === 1 && path === 2);
});

/** The number in the name of a joint's primitive. */
const jointOf = (id: string) => Number(id.replace('joint-', ''));

test('emphasis on a layer: its bars and the joints that end there', () => {
  const input = { ...connectedWave(), emphasis: { layer: 1 } };
  const items = flat(expectGood(input).items);
  for (const { id, emphasis } of items.filter(({ role }) => role === 'bar'))
    expect(emphasis).toBe(id.endsWith('b') ? 'strong' : 'faded');
  const joined = new Map(input.ends.map((end) => [end.number, [end.from.layer, end.to.layer]]));
  for (const { id, emphasis } of items.filter(({ role }) => role.endsWith('joint')))
    expect(emphasis).toBe(joined.get(jointOf(id))!.includes(1) ? 'strong' : 'faded');
  const arrows = items.filter(({ role }) => role === 'bar-arrow').map(({ emphasis }) => emphasis);
  expect(new Set(arrows)).toEqual(new Set(['strong', 'faded']));
});

test('emphasis on a side lets only the ends of the other side fade', () => {
  const input = { ...connectedWave(), emphasis: { side: 'far' as const } };
  const items = flat(expectGood(input).items);
  const sides = new Map(input.ends.map((end) => [end.number, end.side]));
  for (const { id, emphasis } of items.filter(({ role }) => role.endsWith('joint')))
    expect(emphasis).toBe(sides.get(jointOf(id)) === 'far' ? undefined : 'faded');
  for (const { emphasis } of items.filter(({ role }) => role === 'bar')) expect(emphasis).toBeUndefined();
  for (const { emphasis } of items.filter(({ role }) => role === 'lead')) expect(emphasis).toBe('faded');
});

test('emphases add up: one path, one layer, one side', () => {
  const input = { ...connectedWave(), emphasis: { path: 2, layer: 0, side: 'connection' as const } };
  const items = flat(expectGood(input).items);
  const ends = new Map(input.ends.map((end) => [end.number, end]));
  let strong = 0;
  for (const { id, emphasis } of items.filter(({ role }) => role.endsWith('joint'))) {
    const { path, side, from, to } = ends.get(jointOf(id))!;
    const wanted = path === 2 && side === 'connection' && (from.layer === 0 || to.layer === 0);
    expect(emphasis).toBe(wanted ? 'strong' : 'faded');
    if (wanted) strong++;
  }
  expect(strong).toBeGreaterThan(0);
});

test('bars and labels name the statement they stand for', () => {
  const input = {
    ...layoutInput(generated({ slots: 12, poles: 10, layers: 2, span: 1 })),
    barSource: ({ slot, layer }: Bar) => `path U ${10 * slot + layer}`,
  };
  const items = flat(layoutPicture(input).items);
  for (const id of ['bar-7b', 'label-7b'])
    expect(items.find((item) => item.id === id)!.source).toBe('path U 71');
});

test('titles of any length and script stay inside', () => {
  const winding = generated({ slots: 12, poles: 10, layers: 2, span: 1 });
  for (const title of [
    '',
    'x'.repeat(5000),
    '渡し船の駆動装置'.repeat(40),
    'a\u0000\u202e\n"<b>&',
    '\u{1f6a2}'.repeat(99),
  ])
    expectGood({ ...layoutInput(winding), title });
});

test('a bar outside the table is a misuse', () => {
  const input = connectedWave();
  const [first] = input.ends;
  for (const to of [
    { slot: 0, layer: 0 },
    { slot: 49, layer: 0 },
    { slot: 1, layer: 2 },
  ])
    expect(() => layoutPicture({ ...input, ends: [{ ...first!, to }] })).toThrow(RangeError);
});

/** Any table, lean and joints that bars of it allow, one at each bar end. */
const anyInput: fc.Arbitrary<LayoutInput> = fc
  .record({
    slots: fc.integer({ min: 2, max: 60 }),
    layers: fc.integer({ min: 1, max: 9 }),
    polePairs: fc.integer({ min: 1, max: 40 }),
    phases: fc.constantFrom(3, 5, 6, 7, 15),
    leans: fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 9, maxLength: 9 }),
    straight: fc.boolean(),
    seed: fc.integer({ min: 1, max: 1e6 }),
    fill: fc.double({ min: 0.3, max: 1, noNaN: true }),
  })
  .map(({ slots, layers, polePairs, phases, leans, straight, seed, fill }) => {
    const random = randomNumbers(seed);
    const cells = Int8Array.from({ length: slots * layers }, () => {
      const cell = 1 + Math.floor(random() * phases);
      return random() > fill ? 0 : random() < 0.5 ? cell : -cell;
    });
    const table = { slots, layers, cells };
    const winding = fromTable(table, 2 * polePairs, { kind: 'rows' }, straight ? [] : leans, phases);
    return anyConnections({ ...winding, parallelPaths: 3 }, random);
  });

function anyConnections(winding: Winding, random: () => number): LayoutInput {
  const ends: DrawnEnd[] = [];
  const leads: LayoutInput['leads'][number][] = [];
  const star: LayoutInput['starPoints'][number]['ends'][number][] = [];
  const kinds: readonly JointKind[] = ['regular', 'other-span', 'layer-step', 'jumper'];
  for (const side of ['connection', 'far'] as const) {
    const bars = barsOf(winding.table)
      .map((name) => ({ slot: Number(name.slice(0, -1)), layer: name.charCodeAt(name.length - 1) - 97 }))
      .map((bar) => ({ bar, order: random() }))
      .sort((one, other) => one.order - other.order)
      .map(({ bar }) => bar);
    while (bars.length > 1) {
      const [from, to] = [bars.pop()!, bars.pop()!];
      const phase = Math.floor(random() * winding.phases.names.length);
      const choice = random();
      if (choice < 0.1) leads.push({ side, bar: from, phase, path: 1, terminal: `U${leads.length % 7}` });
      else if (choice < 0.2) star.push({ side, bar: from, phase });
      else {
        const direct = to.slot - from.slot;
        const span = random() < 0.5 ? direct : direct > 0 ? direct - winding.slots : direct + winding.slots;
        if (Math.abs(span) >= winding.slots) continue;
        const kind = kinds[Math.floor(random() * kinds.length)]!;
        ends.push({
          side,
          from,
          to,
          span,
          kind,
          number: ends.length + 1,
          separatePiece: random() < 0.1,
          phase,
        });
      }
    }
  }
  const barPath = ({ slot }: Bar) => 1 + (slot % 7);
  return { winding, title: 'Any', ends, leads, starPoints: [{ name: 'N', ends: star }], barPath };
}

/** Numbers in 0..1 from a seed (linear congruential generator with the constants of Numerical Recipes). */
function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

test('any table with any joints is drawn well', () => {
  fc.assert(
    fc.property(anyInput, (input) => {
      expectGood(input);
    }),
    { seed: 20, numRuns: tries(20) },
  );
});
