import { expect, test } from 'vitest';
import type { Text } from '../../core/drawing/picture.ts';
import { allTexts, exampleText, type SheetSet, sheetSet, tableRows } from './sheetSets.ts';

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
    const sum = end('right', 'offset-0') + number('stack-0') + farEnd;
    // Seven dimensions, each rounded to 0.1 mm.
    expect(Math.abs(sum - Number(row[6]))).toBeLessThan(0.4);
    expect(notes(set, shape)).toContain(`Developed length ${row[6]} mm`);
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
    const ends = row[4]!.split(', ').map((words) => /^([a-d]) (straight|[+\u2212]\d+)$/.exec(words)!);
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
  const rows = tableRows(set, 'piece-list');
  expect(rows.reduce((sum, row) => sum + Number(row[5]), 0)).toBe(jumpers.length);
  expect(jumpers.length).toBeGreaterThan(0);
  for (const row of rows)
    expect(allTexts(set).some(({ id }) => id === `piece-shape-${row[0]}-heading`)).toBe(true);
});
