// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import { schedule, scheduleTable } from '../../core/tables/schedule.ts';
import { study } from '../support/study.ts';
import { told } from '../support/told.ts';
import { allTexts, type SheetSet, sheetSet, sheetTroubles, tableRows } from './sheetSets.ts';

const hoist = (form: string, more = '') => `winding "Lock-gate hoist"
machine { slots 24 poles 4 phases 3 gap inner bore 110 mm stack 60 mm }
slot { width 5.4 mm depth 14.6 mm opening 1.2 mm opening-height 0.8 mm liner 0.25 mm }
bar { width 3.6 mm height 3 mm corner 0.5 mm coating 0.1 mm form ${form}
  end-straight 9 mm end-clearance 0.6 mm joint-straight 10 mm lead-length 20 mm ${more} }
layout { layers 4 span 5 }
connect { star route paths 2 }
`;
const bendRadius = 'bend-radius 3.6 mm flat 1 mm';

/** A step as it stands on the sheet: mm and degrees. */
interface SheetStep {
  readonly straight: number;
  readonly turn: number;
  readonly angle: number;
  readonly arc: number;
  readonly out: number;
  readonly end: readonly number[];
}

interface SheetBar {
  readonly name: string;
  readonly cut: number;
  readonly start: readonly number[];
  readonly steps: readonly SheetStep[];
}

const numberOf = (words = '') => Number(words.replace('\u2212', '-') || 0);

/** The bend list as read off the sheet. */
function bendList(set: SheetSet): readonly SheetBar[] {
  const bars: (SheetBar & { readonly steps: SheetStep[] })[] = [];
  for (const cells of tableRows(set, 'bend-list')) {
    // Empty cells are left out.
    const row = Array.from({ length: 14 }, (_, index) => cells[index] ?? '');
    const end = row.slice(10, 13).map(numberOf);
    const [straight, turn, angle, , arc, out] = row.slice(3, 9).map(numberOf) as number[];
    if (row[2] === 'cut') bars.push({ name: row[0]!, cut: straight!, start: end, steps: [] });
    else if (row[2]!.startsWith('as ')) {
      const like = bars.find(({ name }) => `as ${name}` === row[2]);
      bars.push({ ...like!, steps: [...like!.steps], name: row[0]! });
    } else
      bars.at(-1)!.steps.push({ straight: straight!, turn: turn!, angle: angle!, arc: arc!, out: out!, end });
  }
  return bars;
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/**
 * Bends a bar by hand: from the start along the axis, each step a straight or an arc of even curvature in
 * the surface round the axis, rolled to the radius where it is. Gives the place after each step, mm.
 */
function bentByHand({ start, steps }: SheetBar): readonly (readonly number[])[] {
  let [angle, radius, z] = [0, Math.hypot(start[0]!, start[1]!), start[2]!];
  // From rising angle towards the far side, and out of the surface.
  let [heading, slope] = [Math.PI / 2, 0];
  return steps.map(({ straight, turn, angle: bent, arc, out }) => {
    const length = straight + arc;
    const edgewise = turn === 0 ? radians(bent) : turn === 180 ? -radians(bent) : 0;
    const flatwise = turn === 90 ? radians(bent) : turn === 270 ? -radians(bent) : radians(out);
    const parts = 100;
    for (let part = 0; part < parts; part++) {
      heading += edgewise / parts / 2;
      slope += flatwise / parts / 2;
      const on = (Math.cos(slope) * length) / parts;
      radius += (Math.sin(slope) * length) / parts;
      angle += (on * Math.cos(heading)) / radius;
      z += on * Math.sin(heading);
      heading += edgewise / parts / 2;
      slope += flatwise / parts / 2;
    }
    return [radius * Math.cos(angle), radius * Math.sin(angle), z];
  });
}

describe('the bend list of hairpins', () => {
  const set = sheetSet(hoist('hairpin', bendRadius));
  const { facts } = set.study;
  const figure = facts!.space().space;
  if (!figure.known) throw new RangeError(figure.needs.join());
  const space = figure.value;

  test('stands on the sheet, legible', () => {
    expect(sheetTroubles(set)).toEqual([]);
    const pieces = tableRows(set, 'bend-list').reduce((sum, row) => sum + numberOf(row[1]), 0);
    const listed = tableRows(set, 'bar-list').at(-1)![8];
    expect(String(pieces)).toBe(listed);
  });

  test('bent by hand from the sheet alone, a bar meets every point and ends in its own slot', () => {
    const bars = bendList(set);
    expect(bars.length).toBeGreaterThan(3);
    for (const bar of bars) {
      const places = bentByHand(bar);
      places.forEach((place, index) => {
        const told = bar.steps[index]!.end;
        expect(Math.hypot(...place.map((at, axis) => at - told[axis]!)), `${bar.name} ${index}`).toBeLessThan(
          0.12,
        );
      });
      // Straight down the second slot: the last steps are all at one angle and radius, a span apart.
      const [x, y, z] = places.at(-1)! as [number, number, number];
      const first = Math.hypot(bar.start[0]!, bar.start[1]!);
      const layer = space.layers.findIndex(({ radius }) => Math.abs(radius * 1000 - Math.hypot(x, y)) < 0.1);
      expect(layer).toBeGreaterThanOrEqual(0);
      expect(space.layers.some(({ radius }) => Math.abs(radius * 1000 - first) < 0.006)).toBe(true);
      const slots = (Math.atan2(y, x) * 24) / (2 * Math.PI);
      expect(Math.abs(slots - Math.round(slots))).toBeLessThan(0.01);
      expect(z).toBeLessThan(-30 - 9);
    }
  });

  test('adds up to the length of each bar, and to the developed length of the report', () => {
    for (const { cut, steps } of bendList(set)) {
      const sum = steps.reduce((total, { straight, arc }) => total + straight + arc, 0);
      expect(Math.abs(sum - cut)).toBeLessThan(0.005 * steps.length + 0.006);
    }
    const { columns, cells } = scheduleTable(facts!, 'bends');
    const length = columns.findIndex(({ heading }) => heading === 'length');
    const byBar = new Map<string, { cut: number; sum: number; pieces: number }>();
    for (const row of cells) {
      const name = row[0];
      if (typeof name !== 'string') continue;
      const own = row[length] as number;
      const known = byBar.get(name);
      if (known) known.sum += own;
      else byBar.set(name, { cut: own, sum: 0, pieces: row[1] as number });
    }
    let total = 0;
    for (const { cut, sum, pieces } of byBar.values()) {
      expect(sum).toBeCloseTo(cut, 9);
      total += cut * pieces;
    }
    const all = [...told('copper', facts!.copper()).length.byPlace!].reduce((sum, length) => sum + length, 0);
    expect(total / all).toBeCloseTo(1, 4);
  });

  test('bends to the radii of the text, and rolls each ring to where its layer lies', () => {
    const { columns, cells } = scheduleTable(facts!, 'bends');
    const at = (name: string) => columns.findIndex(({ heading }) => heading === name);
    const millimeters = (row: (typeof cells)[number], name: string) => (row[at(name)] as number) * 1000;
    // Inner radii of 3.6 mm edgewise and 1 mm flatwise, to the middle of a coated bar of 3.8 x 3.2 mm.
    for (const row of cells.filter((each) => each[at('operation')] === 'bend')) {
      const edgewise = row[at('turn')] === 0 || row[at('turn')] === 180;
      expect(millimeters(row, 'radius')).toBeCloseTo(edgewise ? 5.5 : 2.6, 6);
      if (row[at('step angle')] !== null) expect(millimeters(row, 'step radius')).toBeCloseTo(2.6, 6);
    }
    // The outermost layer lies on the liner at the closed end of the slot, the others on it.
    const outermost = 55 + 0.8 + 14.6 - 0.25 - 1.6;
    for (const row of cells.filter((each) => each[at('operation')] === 'twist'))
      expect(millimeters(row, 'roll radius')).toBeCloseTo(
        outermost - 3.2 * (3 - 'abcd'.indexOf(row[at('layer')] as string)),
        6,
      );
  });

  test('twists each ring by half the span on either side, and down by what the slope loses', () => {
    const rows = tableRows(set, 'twist-list');
    expect(new Set(rows.map(([side]) => side))).toEqual(new Set(['connection']));
    expect(rows.reduce((sum, row) => sum + Number(row[3]), 0)).toBe(96);
    for (const layer of 'abcd') {
      const main = rows.find(([, own]) => own === layer)!;
      const turn = Math.abs(numberOf(main[4]));
      expect(turn / 15).toBeCloseTo(numberOf(main[5]) * Math.sign(numberOf(main[4])), 1);
      // A straight slope of the turn at the layer's radius, its bends rounded: the length it has less the
      // height it keeps. Bends of 5.5 mm save both together about 2 R (tan(t/2) - t/2) each.
      const radius = Number(main[7]);
      const across = radians(turn) * radius;
      const rise = across * Math.tan(space.slopes.connection[layer.charCodeAt(0) - 97]!.angle);
      const slope = space.slopes.connection[layer.charCodeAt(0) - 97]!.angle;
      const bend = Math.PI / 2 - slope;
      const saved = 2 * 5.5 * (2 * Math.tan(bend / 2) - bend);
      // The slope's angle is that at the layer's radius, where all of its leg lies.
      expect(numberOf(main[6])).toBeCloseTo(Math.hypot(across, rise) - rise - saved, 0);
    }
  });
});

describe('what a crown is rounded beyond its step, or stepped beyond its rounding', () => {
  // By some hundredths of a millimeter, by either of them; and by 0.3 mm, of which a bend is made.
  test.each([
    ['bend-radius 5 mm flat 0.42 mm', 2],
    ['bend-radius 5.4 mm flat 0.54 mm', 2],
    ['bend-radius 4.6 mm flat 0.36 mm', 2],
    ['bend-radius 4.6 mm flat 0.7 mm', 4],
  ])('is no bend of its own where no tool could make it: %s', (radii, bends) => {
    const bars = bendList(sheetSet(hoist('hairpin', radii)));
    // Between those into the slopes.
    expect(bars[0]!.steps.filter(({ arc }) => arc > 0).slice(1, -1)).toHaveLength(bends);
    for (const bar of bars) {
      for (const { arc } of bar.steps) expect(arc === 0 || arc > 0.1).toBe(true);
      bentByHand(bar).forEach((place, index) => {
        const told = bar.steps[index]!.end;
        expect(Math.hypot(...place.map((at, axis) => at - told[axis]!))).toBeLessThan(0.12);
      });
      expect(bar.steps.reduce((sum, { straight, arc }) => sum + straight + arc, 0)).toBeCloseTo(bar.cut, 1);
    }
  });
});

test('straight bars are cut and twisted only', () => {
  const set = sheetSet(hoist('straight', bendRadius));
  for (const { steps, cut } of bendList(set)) {
    expect(steps).toHaveLength(1);
    expect(steps[0]!.straight).toBe(cut);
  }
  expect(tableRows(set, 'twist-list').reduce((sum, row) => sum + Number(row[3]), 0)).toBe(2 * 96);
});

test('a bar that is cut and bent like one above it says so, in one row', () => {
  const set = sheetSet(hoist('straight', bendRadius));
  const rows = tableRows(set, 'bend-list');
  const alike = rows.filter((row) => row[2]!.startsWith('as '));
  expect(alike.length).toBeGreaterThan(0);
  expect(rows.reduce((sum, row) => sum + (/^(?:cut|as .+)$/.test(row[2]!) ? Number(row[1]) : 0), 0)).toBe(96);
  // Every number of a bar, as the schedule has all of them.
  const listed = schedule(set.study.facts!, 'bends')
    .split('\r\n')
    .map((row) => row.split(','));
  const sizesOf = (bar: string) =>
    listed.filter((row) => row[0] === bar).map((row) => row.slice(2).map(Number));
  const differ = (one: string, other: string) => {
    const [first, second] = [sizesOf(one).flat(), sizesOf(other).flat()];
    expect(first).toHaveLength(second.length);
    return Math.max(...first.map((size, index) => Math.abs(size - second[index]!) || 0));
  };
  const named = rows.map((row) => row[0]!).filter((bar, index, all) => all.indexOf(bar) === index);
  for (const [bar, , as] of alike) expect(differ(bar!, as!.slice(3))).toBeLessThanOrEqual(0.05);
  // All others differ.
  const others = named.filter((bar) => alike.every((row) => row[0] !== bar));
  for (const [index, bar] of others.entries())
    for (const other of others.slice(index + 1)) expect(differ(bar, other)).toBeGreaterThan(0.05);
});

test('without a bend radius there is no bend list, and what it needs is said', () => {
  const set = sheetSet(hoist('hairpin'));
  const words = allTexts(set)
    .filter(({ id }) => id.startsWith('no-bends'))
    .map(({ text }) => text)
    .join(' ');
  expect(words).toContain('No bend list: it needs bar bend-radius.');
  expect(schedule(set.study.facts!, 'bends').split('\r\n').slice(1)).toEqual(['']);
});

test('without sizes of the ends the sheets say what end winding and bend list need', () => {
  const set = sheetSet(hoist('hairpin', bendRadius).replace('end-straight 9 mm', ''));
  const words = (id: string) =>
    allTexts(set)
      .filter((each) => each.id.startsWith(id))
      .map(({ text }) => text)
      .join(' ');
  expect(words('no-ends')).toContain('No sizes and views of the end winding: it needs bar end-straight.');
  expect(words('no-bends')).toContain('No bend list: it needs bar end-straight.');
});

test('of bars of one shape that are bent otherwise, those there are most of have the first letter', () => {
  // Rings bend leads of one shape in several ways.
  const text = hoist('hairpin', `${bendRadius} ring-width 14 mm ring-height 3 mm piece-clearance 1 mm`);
  const facts = study(text.replace('paths 2', 'paths 2 rings all')).facts!;
  const counts = new Map<string, Map<string, number>>();
  const { columns, cells } = scheduleTable(facts, 'bars');
  const column = columns.findIndex(({ heading }) => heading === 'bent bar');
  for (const row of cells) {
    const [shape, letter] = String(row[column]).split('-');
    if (letter === undefined) continue;
    const ofShape = counts.get(shape!) ?? new Map<string, number>();
    counts.set(shape!, ofShape.set(letter, (ofShape.get(letter) ?? 0) + 1));
  }
  expect(counts.size).toBeGreaterThan(0);
  const many = [...counts.values()].map((each) => [...each].sort().map(([, count]) => count));
  for (const each of many) expect(each).toEqual([...each].sort((a, b) => b - a));
  expect(many.some((each) => each[0]! > each.at(-1)!)).toBe(true);
});

test('the steps of a bar are not parted between sheets or columns', () => {
  const set = sheetSet(hoist('hairpin', bendRadius), 'sheet-size A4');
  const rows = tableRows(set, 'bend-list');
  const parts = allTexts(set).flatMap(({ id }) => /^bend-list-heading-(\d+)$/.exec(id)?.[1] ?? []);
  expect(parts.length).toBeGreaterThan(1);
  for (const from of parts) expect(rows[Number(from)]![2]).toMatch(/^(?:cut$|as )/);
  expect(sheetTroubles(set)).toEqual([]);
});

test('the bend list tells inner radii edgewise and flatwise, once where they are equal', () => {
  const remarks = (more: string) =>
    allTexts(sheetSet(hoist('hairpin', more)))
      .filter(({ id }) => id.startsWith('bend-list-remark'))
      .map(({ text }) => text)
      .join(' ');
  expect(remarks(bendRadius)).toContain('inner radius 3.6 mm edgewise, 1 mm flatwise. Roll');
  expect(remarks('bend-radius 3.6 mm')).toContain('inner radius 3.6 mm edgewise and flatwise. Roll');
});

test('an arc is R times its angle where the bar stays in its layer, and elsewhere the list says that it is not', () => {
  const remarked = (set: SheetSet) =>
    allTexts(set)
      .filter(({ id }) => id.startsWith('bend-list-remark'))
      .map(({ text }) => text)
      .join(' ')
      .includes('an arc there is not R \u00d7 angle');
  const set = sheetSet(hoist('hairpin', bendRadius));
  const rows = tableRows(set, 'bend-list').map((cells) =>
    Array.from({ length: 14 }, (_, index) => cells[index] ?? ''),
  );
  const off = { kept: [] as number[], changed: [] as number[] };
  rows.forEach((row, index) => {
    if (row[2] === 'cut' || row[5] === '') return;
    const [angle, radius, arc] = [row[5], row[6], row[7]].map(numberOf) as [number, number, number];
    const isKept = row[8] === '' && row[13] === rows[index - 1]![13];
    off[isKept ? 'kept' : 'changed'].push(Math.abs(arc - radians(angle) * radius));
  });
  expect(off.kept.length).toBeGreaterThan(5);
  // Each is printed to two decimals.
  expect(Math.max(...off.kept)).toBeLessThan(0.02);
  expect(Math.max(...off.changed)).toBeGreaterThan(0.02);
  expect(remarked(set)).toBe(true);
  expect(remarked(sheetSet(hoist('straight', bendRadius)))).toBe(false);
});
