// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import type { Text } from '../../core/picture/picture.ts';
import { flat } from '../picture/checkPicture.ts';
import { exampleText, type SheetSet, sheetSet, sheetTroubles } from './sheetSets.ts';

/** The slots of each row of the layout of all phases, or of the layouts of one phase each, sheet by sheet. */
function rowsBySheet({ pages }: SheetSet, ids = /^layout-\d+-row$/): readonly (readonly number[])[] {
  return pages
    .map((page) =>
      flat(page.items)
        .filter((item): item is Text => item.kind === 'text' && ids.test(item.id))
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

  test.each([
    ['six phases, 6 layers', 'slots 72 poles 6 phases 6 apart 30 edeg', 'layers 6 span 10', 'star', 18, 6],
    ['three phases, 8 layers', 'slots 96 poles 8 phases 3', 'layers 8 span 10', 'delta', 16, 3],
  ])('stand two on a sheet where one phase is shown: %s', (_, machine, layout, joined, slots, phases) => {
    const set = sheetSet(
      `winding "Wide" machine { ${machine} } layout { ${layout} } connect { ${joined} route paths 2 }`,
    );
    const rows = set.study.facts!.winding.slots / slots;
    expect(rowsBySheet(set)).toEqual(Array(rows).fill([slots]));
    expect(rowsBySheet(set, /^layout-\d?[UVW]-\d+-row$/)).toEqual(
      Array((phases * rows) / 2).fill([slots, slots]),
    );
    expect(sheetTroubles(set)).toEqual([]);
  });
});

test('layers are lettered at every bar that a layout shows', () => {
  const { pages, study } = sheetSet(exampleText('lock-gate-winch'));
  const { names } = study.facts!.winding.phases;
  const shown = pages.flatMap((page) => flat(page.items));
  const idsOf = (layout: string, what: string) => {
    const named = new RegExp(`^${layout}-\\d+-${what}-(\\w+)$`);
    return shown.flatMap(({ id }) => named.exec(id)?.[1] ?? []).sort();
  };
  const all = idsOf('layout', 'letter');
  expect(all).toHaveLength(study.facts!.winding.table.cells.length);
  expect(idsOf('layout', 'label')).toEqual(all);
  for (const name of names)
    expect(idsOf(`layout-${name}`, 'letter')).toEqual(idsOf(`layout-${name}`, 'label'));
});
