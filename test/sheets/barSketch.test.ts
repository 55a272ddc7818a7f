// Takes its time: draws many sheets.

import { expect, test } from 'vitest';
import { joinedFacts } from '../../core/facts/connection.ts';
import { shopBars } from '../../core/facts/shop.ts';
import { orNull } from '../../core/figures/figure.ts';
import type { Text } from '../../core/picture/picture.ts';
import { barRows } from '../../core/tables/bars.ts';
import { jointRows } from '../../core/tables/joints.ts';
import { type Bar, barName } from '../../core/winding/model.ts';
import { told } from '../support/told.ts';
import { unmeasured } from '../support/withoutEnds.ts';
import {
  allItems,
  allTexts,
  exampleText,
  hatch,
  type SheetSet,
  sheetSet,
  sheetTroubles,
  tableRows,
} from './sheetSets.ts';

/** The dimensions of a sketch by their ids. */
function dimensions(set: SheetSet, shape: number): Readonly<Record<string, string>> {
  const prefix = `bar-shape-${shape}-`;
  return Object.fromEntries(
    allTexts(set)
      .filter(({ id, role }) => role === 'dimension-text' && id.startsWith(prefix))
      .map(({ id, text }) => [id.slice(prefix.length), text]),
  );
}

function notes(set: SheetSet, shape: number): string {
  return (allTexts(set).filter(({ id }) => id.startsWith(`bar-shape-${shape}-note-`)) as Text[])
    .map(({ text }) => text)
    .join(' ');
}

/**
 * Independent of the lengths' own formula: each sloping part is the long side of the right triangle of
 * its two printed dimensions (Pythagoras), all corners are rounded by the printed radius, and all parts of
 * a bar add up to its printed length.
 */
test('the dimensions of every straight bar add up to its developed length', () => {
  const set = sheetSet(exampleText('cable-ferry-drum'));
  const rows = tableRows(set, 'bar-list').slice(0, -1);
  expect(rows.length).toBeGreaterThan(8);
  const kinds = new Map<number, string[]>();
  for (const row of rows) {
    const shape = Number.parseInt(row[0]!, 10);
    const found = dimensions(set, shape);
    const number = (id: string) => Number(found[id]);
    const words = notes(set, shape);
    const layer = row[2]!;
    // Coated bars of 5.2 mm about the printed inner radius.
    const radius = Number(/Inner bend radius ([\d.]+) mm/.exec(words)![1]) + 2.6;
    const across = Number(/slots \(([\d.]+) mm\)/.exec(words)![1]);
    const lean = Math.atan(across / 120) * (layer < 'c' ? 1 : -1);
    const end = (side: 'connection' | 'far', values: readonly number[], offset: number): number => {
      const [straight, rise, joint] = values as [number, number, number];
      // Rings a and c bend to lower slots on the connection side and to higher ones on the far side.
      const sense = ((layer === 'a' || layer === 'c') === (side === 'far') ? 1 : -1) as 1 | -1;
      const ownLean = sense * lean * (side === 'far' ? 1 : -1);
      const slope = Math.atan(rise / offset);
      const corners = [Math.PI / 2 - ownLean - slope, Math.PI / 2 - slope];
      const saved = corners.reduce((sum, turn) => sum + radius * (2 * Math.tan(turn / 2) - turn), 0);
      return straight / Math.cos(lean) + Math.hypot(rise, offset) + joint - saved;
    };
    const upper = [number('right-2'), number('right-1'), number('right-0')];
    const lower = [number('far-0'), number('far-1'), number('far-2')];
    const sum =
      end('connection', upper, number('offset-0')) +
      number('along-0') +
      end('far', lower, number('far-offset'));
    expect(number('stack-0')).toBe(120);
    // Nine dimensions, each rounded to 0.1 mm.
    // Pieces that are not all alike have lines of their own, and the sketch shows those that most are.
    if (!kinds.has(shape)) expect(Math.abs(sum - Number(row[7]))).toBeLessThan(0.4);
    const kind = row[0]!.includes('-') ? ` (${row[0]})` : '';
    kinds.set(shape, [...(kinds.get(shape) ?? []), `${row[7]} mm${kind}`]);
    expect(words).toContain(`Developed length ${kinds.get(shape)!.join(', ')}`);
  }
  expect([...kinds.values()].filter(({ length }) => length > 1)).toHaveLength(2);
});

test('short notes share a line, so that two sketches stand one below the other', () => {
  const set = sheetSet(exampleText('cable-ferry-drum'));
  const lines = allTexts(set).filter(({ id }) => /^bar-shape-\d+-note-/.test(id));
  expect(
    lines.filter(({ text }) => /^Mean radius: [a-d] [\d.]+ mm\. Developed length /.test(text)).length,
  ).toBe(8);
  expect(
    lines.filter(({ text }) => text.startsWith('Tolerances: left to the shop. Not given: ')).length,
  ).toBe(10);

  const sketches = set.pages.map(
    (page) => new Set(JSON.stringify(page).match(/"bar-shape-\d+-heading"/g)).size,
  );
  expect(sketches.filter((count) => count > 0)).toEqual([2, 8]);
});

test('offsets and heights are those of the bar in space; regular ends reach half the span', () => {
  const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
  const { facts } = set.study;
  const { space } = facts!.space();
  if (!space.known || facts!.connection.kind !== 'connected') throw new RangeError('not in space');
  const shapes = facts!.connection.facts.barShapes();
  // Layers of the example from the bore outwards, by hand: 81 mm radius, 0.8 mm opening height, then
  // bars of 3 mm with 0.09 mm of coating on each face, stacked from the closed end of a 15.2 mm slot
  // with 0.25 mm of liner.
  const bottom = 81 + 0.8 + 15.2 - 0.25;
  const radius = (layer: number) => bottom - (3 - layer) * 3.18 - 1.59;
  let regular = 0;
  for (const row of tableRows(set, 'bar-list').slice(0, -1)) {
    const shape = Number.parseInt(row[0]!, 10);
    const found = dimensions(set, shape);
    const ends = row[5]!.split(', ').map((words) => /^([a-d]) (free|[+\u2212]\d+)$/.exec(words)!);
    const { bars } = shapes[shape - 1]!;
    ends.forEach(([, letter, bend], index) => {
      const layer = letter!.charCodeAt(0) - 97;
      const shown = Number(found[`offset-${index}`]);
      const turns = bars
        .filter((bar) => bar.layer === layer)
        .map((bar) => Math.abs(space.value.bars[layer * 48 + bar.slot - 1]!.connection.turn!));
      expect(turns.some((turn) => Math.abs(turn * radius(layer) - shown) < 0.06)).toBe(true);
      if (!/^.6$/.test(bend!) || new Set(turns.map((turn) => turn.toFixed(6))).size > 1) return;
      regular++;
      expect(shown).toBeCloseTo((3 * 2 * Math.PI * radius(layer)) / 48, 0);
    });
  }
  expect(regular).toBeGreaterThan(5);
});

test('without sizes a sketch shows letters and slots, and names the statements that are missing', () => {
  const set = sheetSet(`winding "No sizes"\n machine { slots 24 poles 4 phases 3 } layout { layers 2 span 5 }
    connect { star }`);
  const found = dimensions(set, 2);
  expect(Object.values(found).join(' ')).toMatch(/J.*H.*E/);
  expect(found['stack-0']).toBe('L');
  expect(found['crown-span']).toBe('5 slots');
  for (const need of ['machine stack', 'bar end-straight', 'bar joint-straight', 'bar bare-end', 'bar width'])
    expect(notes(set, 2), need).toContain(need);
});

test('connecting pieces have a sketch each, and the list counts them as the report does', () => {
  const set = sheetSet(exampleText('tidal-pump'));
  const jumpers = set.study.report().joints.filter(({ kind }) => kind === 'jumper');
  const rows = tableRows(set, 'piece-list').slice(0, -1);
  expect(rows.reduce((sum, row) => sum + Number(row[8]), 0)).toBe(jumpers.length);
  expect(jumpers.length).toBeGreaterThan(0);
  for (const row of rows)
    expect(allTexts(set).some(({ id }) => id === `piece-shape-${row[0]}-heading`)).toBe(true);
});

test('each level of connecting pieces has its own riser, length and quantity', () => {
  const set = sheetSet(exampleText('broken-unequal-paths'));
  const rows = tableRows(set, 'piece-list').slice(0, -1);
  const levels = rows.map((row) => Number(row[4]));
  expect([...new Set(levels)]).toEqual(Array.from({ length: Math.max(...levels) }, (_, index) => index + 1));
  expect(Math.max(...levels)).toBeGreaterThan(3);
  expect(rows.reduce((sum, row) => sum + Number(row[8]), 0)).toBe(6);
  // A level is higher by the coated height of a piece, 4.5 and 0.2 mm, and the clearance, 1 mm.
  const range = (text: string) => text.split(' \u2013 ').map(Number);
  const lowest = rows.map((row) => Math.min(...row[5]!.split(', ').map(Number)));
  lowest.slice(1).forEach((riser, index) => {
    expect(riser - lowest[index]!).toBeCloseTo(5.7 * (levels[index + 1]! - levels[index]!), 1);
  });
  for (const row of rows) {
    expect(row[6]).toMatch(/^\d+\.\d$/);
    expect(range(row[7]!)[0]!).toBeGreaterThan(Number(row[6]));
  }
});

test('the two risers of a piece on tips of different heights are told apart', () => {
  const set = sheetSet(hatch);
  const { links, bars } = orNull(set.study.facts!.space().space)!;
  const tipOf = ({ slot, layer }: Bar) => bars[layer * 12 + slot - 1]!.connection.plane;
  const listed = new Map<number, string>();
  for (const row of tableRows(set, 'piece-list').slice(0, -1))
    for (const run of row.at(-1)!.split(' ')) {
      const [first, last] = run.split('\u2013').map(Number);
      for (let joint = first!; joint <= (last ?? first!); joint++) listed.set(joint, row[5]!);
    }
  expect(listed.size).toBe(links.length);
  let differing = 0;
  for (const { joint: number, from, to, height } of links) {
    const joint = set.study.report().joints.find((each) => each.number === number)!;
    // From the bar from which the piece runs towards higher slots.
    const heights = (joint.span! > 0 ? [from, to] : [to, from]).map((bar) =>
      (1000 * (height - tipOf(bar))).toFixed(1),
    );
    const same = heights[0] === heights[1];
    differing += Number(!same);
    expect(listed.get(number), `piece ${number}`).toBe(same ? heights[0] : heights.join(', '));
  }
  expect(differing).toBeGreaterThan(0);
  expect(sheetTroubles(set)).toEqual([]);
});

test('bars of a shape that are bent otherwise than drawn are named as in the bend list', () => {
  const set = sheetSet(hatch);
  const words = notes(set, 1);
  expect(words).toMatch(/a: connection side under a connecting piece or star end/);
  const straight = /a, connection side, of bars ([-1A-D ]+): not bent to a side, lead 20\.0 mm instead/.exec(
    words,
  )!;
  // The bend list has them longer by the lead, and no other.
  const leads = set.study
    .report()
    .joints.filter(({ kind, to }) => kind === 'star' && to === 'N')
    .map(({ from }) => from);
  const names = new Set(
    barRows(set.study.facts!).flatMap(({ bar, bentBar }) => (leads.includes(barName(bar)) ? [bentBar] : [])),
  );
  expect(straight[1]!.split(' ')).toEqual([...names]);
});

test('bars that are bent otherwise are named where the bend radius is assumed, too', () => {
  const set = sheetSet(hatch.replace(/bend-radius \S+ mm( flat \S+ mm)?/, ''));
  const { facts } = set.study;
  expect(shopBars(facts!).bars.known).toBe(false);
  const named = new Map(barRows(facts!).map(({ bar, bentBar }) => [barName(bar), bentBar]));
  const joined = new Map(
    orNull(facts!.space().space)!.bars.flatMap((bar) => (bar ? [[barName(bar.bar), bar.connection]] : [])),
  );
  const sentences = [
    ...notes(set, 1).matchAll(/a, connection side, of bars ([-1A-D ]+): not bent to a side/g),
  ];
  const told = sentences.flatMap(([, names]) => names!.split(' '));
  // Those, and no other bars of the shape, stand straight out of layer a.
  const straight = [...named].flatMap(([bar, name]) =>
    bar.endsWith('a') && name!.startsWith('1') && joined.get(bar)!.turn === null ? [name] : [],
  );
  expect(told.sort()).toEqual([...new Set(straight)].sort());
  const others = [...named].flatMap(([bar, name]) =>
    bar.endsWith('a') && joined.get(bar)!.turn !== null ? [name] : [],
  );
  expect(others.filter((name) => straight.includes(name))).toEqual([]);
  expect(others.length).toBeGreaterThan(0);
});

test('the bar list says how many bars of a shape have which length, with a written bend radius and with an assumed one', () => {
  const text = exampleText('ramp-hoist');
  const assumed = text.replace(/bend-radius +\S+ mm( +flat +\S+ mm)?/, '');
  expect(assumed).not.toBe(text);
  for (const each of [text, assumed]) {
    const set = sheetSet(each);
    const lengths = new Map<string, number[]>();
    for (const { bar, bentBar, use, length } of barRows(set.study.facts!)) {
      // A hairpin once, by its leg in the lower layer.
      if (use!.shape === null || bar.layer % 2 > 0) continue;
      lengths.set(bentBar!, [...(lengths.get(bentBar!) ?? []), length!]);
    }
    const told = tableRows(set, 'bar-list').slice(0, -1);
    expect(told.map((row) => [row[0], row[7], row[8]]).sort()).toEqual(
      [...lengths].map(([name, all]) => [name, (1000 * all[0]!).toFixed(1), String(all.length)]).sort(),
    );
    for (const all of lengths.values()) expect(Math.max(...all) - Math.min(...all)).toBeLessThan(5e-5);
    expect(told.filter(([name]) => name!.includes('-')).length).toBeGreaterThan(2);
  }
});

test('pieces of many levels are told by their list, so that each sketch has room', () => {
  const set = sheetSet(`winding "Side thruster"
    machine { slots 36 poles 6 phases 3 bore 160 mm stack 100 mm }
    slot { width 7 mm depth 12 mm opening 2 mm opening-height 0.8 mm liner 0.3 mm }
    bar { width 5.8 mm height 10 mm corner 0.6 mm coating 0.1 mm form straight bend-radius 6 mm flat 10 mm
      end-straight 8 mm end-clearance 1 mm joint-straight 10 mm lead-length 25 mm }
    layout { layers 1 span 6 } connect { star route paths 1 }`);
  // Ends of one layer meet only by pieces.
  const joints = set.study.report().joints.filter(({ kind }) => kind !== 'lead' && kind !== 'star');
  const rows = tableRows(set, 'piece-list').slice(0, -1);
  expect(new Set(rows.map((row) => row[4])).size).toBeGreaterThan(12);
  // Every piece stands in the list with its riser, its length from riser to riser, and its joint.
  for (const row of rows) for (const at of [5, 6, 7]) expect(Number(row[at])).toBeGreaterThan(20);
  // Risers go from the tips, 18 mm above the stack, to the middle of a piece 10 mm high: no joint is bent in between.
  for (const row of rows) expect(Number(row[5])).toBeCloseTo(Number(row[12]) + 5 - 18, 0);
  expect(
    tableRows(set, 'end-sizes')
      .find(([name]) => name!.startsWith('Joint plane'))!
      .slice(1),
  ).toEqual(['\u2013', '\u2013']);
  // Bars whose ends nothing bends are one shape, longer by 25 mm where one is a lead or a star end: two a phase.
  expect(
    tableRows(set, 'bar-list')
      .slice(0, -1)
      .map((row) => [row[0], ...row.slice(-4)]),
  ).toEqual([
    ['1-A', 'a free', '136.0', '30', '7a'],
    ['1-B', 'a free', '161.0', '6', '1a'],
  ]);
  const { bars, joints: list } = {
    bars: barRows(set.study.facts!),
    joints: jointRows(set.study.facts!, joinedFacts(set.study.facts!)!),
  };
  expect(new Set(bars.map(({ bentBar, length }) => `${bentBar} ${Math.round(length! * 1e4)}`))).toEqual(
    new Set(['1-A 1360', '1-B 1610']),
  );
  expect(list.filter(({ kind, separatePiece }) => kind === 'regular' && !separatePiece)).toEqual([]);
  const listed = rows.map((row) => Number(row.at(-1))).sort((a, b) => a - b);
  expect(listed).toEqual(joints.map(({ number }) => number).sort((a, b) => a - b));
  for (const shape of new Set(rows.map((row) => row[0])))
    expect(allTexts(set).some(({ id }) => id === `piece-shape-${shape}-heading`)).toBe(true);
  expect(allTexts(set).filter(({ text }) => text.includes('larger than this sheet'))).toEqual([]);
  // The welder's list says which joints a piece makes, of regular span too.
  const kinds = new Map(tableRows(set, 'joints').map((row) => [Number(row.at(-8)), row.at(-2)!]));
  for (const { number, kind } of joints)
    expect(kinds.get(number)).toBe(kind === 'jumper' ? 'piece' : 'regular, piece');
  expect(sheetTroubles(set)).toEqual([]);
});

test('the dimensions of a connecting piece add up to its developed length', () => {
  const { facts } = unmeasured(
    exampleText('sluice-fan').replace(
      'layout {',
      `slot { width 6 mm depth 14 mm opening 2 mm opening-height 1 mm }
bar { width 5 mm height 3.5 mm end-straight 6 mm end-clearance 0.8 mm joint-straight 8 mm bend-radius 3 mm form straight }
layout {`,
    ),
  );
  const { pieces } = told('copper', facts!.copper()).length;
  expect(pieces!.length).toBeGreaterThan(0);
  const { space } = facts!.space();
  for (const { joint, across, risers, length, step } of pieces!) {
    const { beside } = (space.known ? space.value.links : []).find((link) => link.joint === joint)!;
    // Either riser may step aside on arcs of 3 mm and half of its width: two quarters beyond 11 mm.
    const [aside, bend] = [Math.abs(beside), 5.5e-3];
    const turn = aside > 2 * bend ? Math.PI / 2 : Math.acos(1 - aside / (2 * bend));
    const longer = 2 * bend * (turn - Math.sin(turn)) + Math.max(0, aside - 2 * bend);
    // Corners of 3 mm and half of its height, in place of sharp ones; a step between layers lengthens it by little.
    const sharp = across + risers[0] + risers[1] - 2 * 4.75e-3 * (2 - Math.PI / 2) + 2 * longer;
    if (step === 0) expect(length).toBeCloseTo(sharp, 9);
    else expect(Math.abs(length - sharp)).toBeLessThan(0.2e-3);
  }
});

test('a leaning bar is dimensioned along the bar, the stack along the axis', () => {
  const set = sheetSet(exampleText('cable-ferry-drum'));
  const found = dimensions(set, 3);
  expect(found['stack-0']).toBe('120.0');
  // Pythagoras with the printed lean: 120 mm of stack, 16.7 mm across.
  const across = Number(/Lean over the stack: a \+1\.00 slots \(([\d.]+) mm\)/.exec(notes(set, 3))![1]);
  expect(Number(found['along-0'])).toBeCloseTo(Math.hypot(120, across), 1);
  // Its line is parallel to the drawn bar.
  const slope = (points: readonly number[]) => (points[2]! - points[0]!) / (points[3]! - points[1]!);
  const items = allItems(set);
  const drawn = items.find(({ id }) => id === 'bar-shape-3-along-0-lines');
  const bar = items.find(({ id }) => id === 'bar-shape-3-bars');
  if (drawn?.kind !== 'path' || bar?.kind !== 'path') throw new RangeError('not drawn');
  const slopes = Array.from({ length: bar.parts[0]!.length / 2 - 1 }, (_, index) =>
    slope(bar.parts[0]!.slice(2 * index, 2 * index + 4)),
  );
  expect(slopes.some((each) => Math.abs(each - slope(drawn.parts[0]!)) < 1e-9)).toBe(true);
});

test('a shape names every layer that its pieces are joined to, with their number', () => {
  const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
  const joints = set.study.report().joints.filter(({ kind }) => kind !== 'lead' && kind !== 'star');
  let several = 0;
  for (const { number, bars, form } of barShapesOf(set)) {
    const said = [...notes(set, number).matchAll(/to layer ([a-d]) \((\d+) of the bars\)/g)];
    several += said.length;
    for (const [, layer, count] of said) {
      // Independently from the list of joints: bars of this shape with a joint to that layer on the side.
      const names = new Set(bars);
      const counted = joints.filter(
        ({ side, from, to, kind }) =>
          (side === 'connection' || form !== 'hairpin') &&
          kind !== 'jumper' &&
          ((names.has(from) && to.endsWith(layer!)) || (names.has(to) && from.endsWith(layer!))),
      ).length;
      expect(counted, `shape ${number}, layer ${layer}`).toBe(Number(count));
    }
  }
  expect(several).toBeGreaterThan(0);
});

function barShapesOf(set: SheetSet) {
  const { connection } = set.study.facts!;
  if (connection.kind !== 'connected') throw new RangeError('not connected');
  return connection.facts
    .barShapes()
    .map(({ number, bars, form }) => ({ number, form, bars: bars.map(barName) }));
}

test('every sketch says from where it is seen', () => {
  const set = sheetSet(exampleText('tidal-pump'));
  const sketches = new Set(
    allTexts(set).flatMap(({ id }) => /^((?:bar|piece)-shape-\d+)-heading$/.exec(id)?.[1] ?? []),
  );
  expect(sketches.size).toBe(2);
  for (const id of sketches)
    expect(allTexts(set).find((text) => text.id === `${id}-note-1`)!.text).toMatch(/^Seen from the axis/);
});
