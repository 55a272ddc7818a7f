// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import type { Text } from '../../core/picture/picture.ts';
import { flat } from '../picture/checkPicture.ts';
import { exampleText, type SheetSet, sheetSet, sheetTroubles } from './sheetSets.ts';

/** The slots of each row of the layout of all phases, sheet by sheet. */
function rowsBySheet({ pages }: SheetSet): readonly (readonly number[])[] {
  return pages
    .map((page) =>
      flat(page.items)
        .filter((item): item is Text => item.kind === 'text' && /^layout-\d+-row$/.test(item.id))
        .map(({ text }) => {
          const [, first, last] = /slots (\d+) to (\d+)$/.exec(text)!.map(Number) as [number, number, number];
          return last - first + 1;
        }),
    )
    .filter((rows) => rows.length > 0);
}

/** Crossed bars that lean, so that the slot pitch is widened in steps. */
const crossed = `winding "Mooring drum"
machine { slots 60 poles 10 phases 3 }
layout { layers 4 span 6 stagger 1 skew a b +1 slot skew c d -1 slot }
connect { star route paths 2 }`;

describe('rows of a layout that take several sheets', () => {
  test.each([
    ['whole pole pairs', exampleText('bow-thruster'), 18],
    ['no whole poles in even rows', crossed, 15],
  ])('are even and fill them: %s', (_, text, slots) => {
    const set = sheetSet(text);
    expect(rowsBySheet(set)).toEqual([
      [slots, slots],
      [slots, slots],
    ]);
    expect(sheetTroubles(set)).toEqual([]);
  });

  test('are cut between poles only where that leaves them even', () => {
    // Five poles of 12 slots and two rows: 36 and 24 would be cut between poles.
    const odd = sheetSet(`winding "Ten poles"
      machine { slots 120 poles 10 phases 3 } layout { layers 1 span 12 }`);
    const rows = rowsBySheet(odd).flat();
    expect(rows.reduce((sum, each) => sum + each, 0)).toBe(120);
    expect(Math.min(...rows) / Math.max(...rows)).toBeGreaterThanOrEqual(0.75);
  });
});
