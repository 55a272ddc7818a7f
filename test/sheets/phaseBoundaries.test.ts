// Takes its time: draws many sheets.

import { expect, test } from 'vitest';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { exampleText, sheetSet } from './sheetSets.ts';

/** Short pitch, crossed bars that lean, tooth coils, layers shifted against each other, one gap and two. */
const names = ['harbor-ferry-pod-drive', 'cable-ferry-drum', 'slipway-carriage', 'tidal-pump', 'ramp-hoist'];

/** Every number of a list of slots and runs of slots. */
const numbers = (words: string) =>
  [...words.matchAll(/(\d+)(?:\u2013(\d+))?/g)].flatMap(([, from, to]) =>
    Array.from({ length: Number(to ?? from) - Number(from) + 1 }, (_, index) => Number(from) + index),
  );

/** The rows of the table of phase insulation as they stand in the SVG files of the sheets: place, layers, where. */
function rowsInSvg(svgs: readonly string[]): readonly (readonly [string, string, string])[] {
  const cells = new Map<string, string>();
  for (const svg of svgs)
    for (const [, row, column, words] of svg.matchAll(
      /<text[^>]* id="phase-insulation-(\d+)-(\d+)"[^>]*>([^<]*)<\/text>/g,
    ))
      cells.set(`${row} ${column}`, words!);
  const rows: [string, string, string][] = [];
  for (let row = 1; cells.has(`${row} 2`); row++) {
    const [place, layers, where] = [0, 1, 2].map((column) => cells.get(`${row} ${column}`) ?? '');
    if (place === '') rows.at(-1)![2] += ` ${where}`;
    else rows.push([place!, layers!, where!]);
  }
  return rows;
}

test.each(names)('%s: the sheets name the boundaries of phases that the report lists', (name) => {
  const set = sheetSet(exampleText(name));
  const { phaseInsulation, winding } = set.study.report();
  const rows = rowsInSvg(set.pages.map((page) => pictureToSvg(page)));
  const slots = winding!.slots;
  const listed = phaseInsulation!.inSlots.flatMap((boundary) =>
    boundary.slots.map((slot) => `${boundary.lower} | ${boundary.upper} ${slot}`),
  );
  const drawn = rows
    .filter(([place]) => place === 'in the slots')
    .flatMap(([, layers, words]) => {
      const where = words.replace(/^separator in every slot(?:; two phases in )?/, '');
      const all =
        where === 'all slots' ? Array.from({ length: slots }, (_, index) => index + 1) : numbers(where);
      return all.map((slot) => `${layers} ${slot}`);
    });
  expect(drawn.sort()).toEqual(listed.sort());

  for (const side of ['connection', 'far']) {
    const ends = rows
      .filter(([place]) => place === 'ends, both sides' || place === `ends, ${side} side`)
      .flatMap(([, layers, where]) =>
        layers
          .split(' ')
          .flatMap((layer) => where.split(' ').map((pair) => `${layer} ${Number(pair.split('|')[0])}`)),
      );
    const expected = phaseInsulation!.inEnds.flatMap(({ layer, slots: before }) =>
      before.map((slot) => `${layer} ${slot}`),
    );
    expect(ends.sort()).toEqual(expected.sort());
  }
  expect(rows.length).toBeGreaterThan(0);
});

test('a separator has one row, which tells where it parts two phases', () => {
  const parted = (separators: string, span: number) =>
    rowsInSvg(
      sheetSet(`winding "Lamp oil pump"
        machine { slots 24 poles 4 phases 3 bore 110 mm stack 60 mm }
        slot { width 5.4 mm depth 16 mm ${separators} }
        bar { width 3.6 mm height 3 mm }
        layout { layers 4 span ${span} } connect { star }`).pages.map((page) => pictureToSvg(page)),
    ).filter(([place]) => place === 'in the slots');
  const odd = 'slots 2 4 6 8 10 12 14 16 18 20 22 24';
  expect(parted('separator a b 0.4 mm  separator c d 0.3 mm', 5)).toEqual([
    ['in the slots', 'a | b', `separator in every slot; two phases in ${odd}`],
    ['in the slots', 'b | c', odd],
    ['in the slots', 'c | d', `separator in every slot; two phases in ${odd}`],
  ]);
  expect(parted('separator b c 0.4 mm', 6)).toEqual([['in the slots', 'b | c', 'separator in every slot']]);
});
