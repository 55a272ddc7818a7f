import { expect, test } from 'vitest';
import type { Text } from '../../core/picture/picture.ts';
import { barName } from '../../core/winding/model.ts';
import { allItems, allTexts, exampleText, type SheetSet, sheetSet, tableRows } from './sheetSets.ts';

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
 * its two printed dimensions (Pythagoras), and all parts of a bar add up to its printed length.
 */
test('the dimensions of every straight bar add up to its developed length', () => {
  const set = sheetSet(exampleText('cable-ferry-drum'));
  const rows = tableRows(set, 'bar-list').slice(0, -1);
  expect(rows.length).toBeGreaterThan(8);
  for (const row of rows) {
    const shape = Number(row[0]);
    const found = dimensions(set, shape);
    const number = (id: string) => Number(found[id]);
    const end = (chain: string, offset: string): number => {
      const ids = Object.keys(found).filter((id) => id.startsWith(`${chain}-`) && /-\d$/.test(id));
      const values = ids.map(number);
      if (found[offset] === undefined) return values.reduce((sum, value) => sum + value, 0);
      const [first, slope, last] = values as [number, number, number];
      return first + Math.hypot(slope, number(offset)) + last;
    };
    const far = Object.fromEntries(
      Object.entries(found).filter(([id]) => id.startsWith('far-') && id !== 'far-offset'),
    );
    expect(Object.keys(far).length).toBeGreaterThanOrEqual(2);
    const farValues = Object.values(far).map(Number);
    const farEnd =
      found['far-offset'] === undefined
        ? farValues.reduce((sum, value) => sum + value, 0)
        : farValues[0]! + Math.hypot(farValues[1]!, number('far-offset')) + farValues[2]!;
    const sum = end('right', 'offset-0') + number('along-0') + farEnd;
    expect(number('stack-0')).toBe(120);
    // Seven dimensions, each rounded to 0.1 mm.
    expect(Math.abs(sum - Number(row[7]))).toBeLessThan(0.4);
    expect(notes(set, shape)).toContain(`Developed length ${row[7]} mm`);
  }
});

test('offsets are half the true span at the layer’s mean radius', () => {
  const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
  // Layers of the example from the bore outwards, by hand: 81 mm radius, 0.8 mm opening height, then
  // bars of 3 mm with 0.09 mm of coating on each face, stacked from the closed end of a 15.2 mm slot
  // with 0.25 mm of liner.
  const bottom = 81 + 15.2 - 0.25;
  const radius = (layer: number) => bottom - (3 - layer) * 3.18 - 1.59;
  for (const row of tableRows(set, 'bar-list').slice(0, -1)) {
    const found = dimensions(set, Number(row[0]));
    const ends = row[5]!.split(', ').map((words) => /^([a-d]) (straight|[+\u2212]\d+)$/.exec(words)!);
    ends.forEach(([, letter, bend], index) => {
      const shown = found[`offset-${index}`];
      expect(shown === undefined).toBe(bend === 'straight');
      if (shown === undefined) return;
      const slots = Math.abs(Number(bend!.replace('\u2212', '-')));
      const wanted = ((slots / 2) * 2 * Math.PI * radius(letter!.charCodeAt(0) - 97)) / 48;
      expect(Number(shown)).toBeCloseTo(wanted, 0);
    });
  }
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
  expect(rows.reduce((sum, row) => sum + Number(row[7]), 0)).toBe(jumpers.length);
  expect(jumpers.length).toBeGreaterThan(0);
  for (const row of rows)
    expect(allTexts(set).some(({ id }) => id === `piece-shape-${row[0]}-heading`)).toBe(true);
});

test('each level of connecting pieces has its own riser, length and quantity', () => {
  const set = sheetSet(exampleText('broken-unequal-paths'));
  const rows = tableRows(set, 'piece-list').slice(0, -1);
  expect(rows.map((row) => row[4])).toEqual(['1', '2', '3', '4']);
  expect(rows.map((row) => row[7])).toEqual(['2', '2', '1', '1']);
  // By hand, mm: layer b lies at 90 + 1 + 12 - 0.3 - 0.1 - 2.25 = 100.35; arc of 8 of 36 slots; a level is
  // higher by coated width 6.2 and clearance 1. The lengths are the arc and two risers.
  const arc = (2 * Math.PI * 100.35 * 8) / 36;
  const risers = rows.map((row) => Number(row[5]));
  risers.slice(1).forEach((riser, index) => {
    expect(riser - risers[index]!).toBeCloseTo(7.2, 6);
  });
  rows.forEach((row, index) => {
    expect(Math.abs(Number(row[6]) - arc - 2 * risers[index]!)).toBeLessThan(0.16);
  });
  const notes = allTexts(set)
    .filter(({ id }) => /^piece-shape-\d+-note-/.test(id))
    .map(({ text }) => text)
    .join(' ');
  rows.forEach((row) => {
    expect(notes).toContain(
      `Level ${row[4]} above the end winding: R ${row[5]} mm, developed length ${row[6]} mm, quantity ${row[7]}`,
    );
  });
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
  const { joints } = set.study.report();
  let several = 0;
  for (const { number, bars, form } of barShapesOf(set)) {
    const said = [...notes(set, number).matchAll(/to layer ([a-d]) \((\d+) of the pieces\)/g)];
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
