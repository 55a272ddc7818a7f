// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import { scheduleTable } from '../../core/tables/schedule.ts';
import { allTexts, type SheetSet, sheetSet, sheetTroubles, tableRows } from './sheetSets.ts';

// Joints of two layer pairs are longer than the others by a little: bars of one shape that are not all alike.
const hairpins = `winding "Ferry ramp hoist"
machine { slots 36 poles 4 phases 3 bore 130 mm stack 80 mm }
slot { width 5 mm depth 17 mm opening 1.2 mm opening-height 0.8 mm liner 0.25 mm
  separator a b 0.3 mm separator b c 0.5 mm separator c d 0.3 mm }
bar { width 3.6 mm height 3 mm corner 0.5 mm coating 0.1 mm form hairpin
  end-straight 9 mm end-clearance 0.8 mm joint-straight 10 mm lead-length 20 mm bend-radius 3.6 mm flat 1 mm }
layout { layers 4 span 9 }
connect { star specials crowns route paths 2 }
`;

const crossed = `winding "Capstan drum, crossed bars"
machine { slots 60 poles 10 phases 3 gap both bore 300 mm stack 110 mm air-gap 1 mm 1 mm }
slot a b { width 7 mm depth 10 mm opening 3 mm opening-height 0.6 mm liner 0.3 mm }
slot c d { width 7 mm depth 10 mm opening 3 mm opening-height 0.6 mm liner 0.3 mm }
bar { width 6 mm height 4.2 mm corner 0.5 mm coating 0.1 mm form straight end-straight 8 mm bend-radius 6 mm
  end-clearance 0.7 mm joint-straight 9 mm lead-length 30 mm }
layout { layers 4 span 6 stagger 1 skew a b +1 slot skew c d -1 slot }
connect { star route paths 2 }
`;

/** What stands in each place, by its name: the last word of the place's cell in the slot tables. */
function placed(set: SheetSet): ReadonlyMap<string, string> {
  const layers = set.study.facts!.winding.layers;
  return new Map(
    tableRows(set, 'slots-a').flatMap(([slot, ...cells]) => {
      expect(cells).toHaveLength(layers);
      return cells.map((words, layer) => [`${slot}${'abcd'[layer]}`, /\((.+)\)$/.exec(words)![1]!] as const);
    }),
  );
}

describe.each([
  ['hairpins', hairpins, 2],
  ['crossed bars', crossed, 1],
])('the sheets of %s', (_, text, legs) => {
  const set = sheetSet(text);
  const cuts = tableRows(set, 'bend-list').filter((row) => row[2] === 'cut');

  test('say which bar is put into each place, as many as are bent', () => {
    expect(sheetTroubles(set)).toEqual([]);
    const counts = new Map<string, number>();
    for (const name of placed(set).values()) counts.set(name, (counts.get(name) ?? 0) + 1);
    expect([...counts].sort()).toEqual(
      cuts.map(([name, pieces]) => [name!, legs * Number(pieces)] as [string, number]).sort(),
    );
    expect(cuts.some(([name]) => /-[A-Z]$/.test(name!))).toBe(true);
    const rows = scheduleTable(set.study.facts!, 'bars');
    const column = rows.columns.findIndex(({ heading }) => heading === 'bent bar');
    expect(new Map(rows.cells.map((cells) => [cells[0], cells[column]]))).toEqual(placed(set));
  });

  test('call no bar by what could be a place, and list no bar twice', () => {
    for (const [name] of cuts) expect(name).toMatch(/^\d+(-[A-Z])?$/);
    // What is made alike, by all numbers of the list, stands there once.
    const makes = new Map<string, string[]>();
    for (const [name, , ...numbers] of tableRows(set, 'bend-list'))
      makes.set(name!, [...(makes.get(name!) ?? []), numbers.join(' ')]);
    // How a shape's ends are joined, whichever of its bars are bent otherwise.
    const ends = new Map(
      tableRows(set, 'bar-list').map(([name, ...row]) => [name?.split('-')[0], row.slice(0, 6).join(' ')]),
    );
    const all = [...makes].map(([name, steps]) => `${ends.get(name.split('-')[0]!)} ${steps.join(' ')}`);
    expect(new Set(all).size).toBe(all.length);
  });

  test('name the slots of bars that are twisted otherwise than their ring', () => {
    const { facts } = set.study;
    const figure = facts!.space().space;
    if (!figure.known) throw new RangeError(figure.needs.join());
    const { bars, slots } = figure.value;
    const rings = new Map<string, { twist: string; where: string[] }[]>();
    let row: { twist: string; where: string[] } | undefined;
    for (const cells of tableRows(set, 'twist-list')) {
      if (cells.length > 1) {
        const [side, layer, , , twist] = cells as [string, string, string, string, string];
        row = { twist, where: [cells.at(-1)!] };
        rings.set(`${side} ${layer}`, [...(rings.get(`${side} ${layer}`) ?? []), row]);
      } else row!.where.push(cells[0]!);
    }
    expect([...rings.values()].some((rows) => rows.length > 1)).toBe(true);
    for (const [ring, rows] of rings) {
      const [side, layer] = ring.split(' ') as ['connection' | 'far', string];
      const index = 'abcd'.indexOf(layer);
      const told = new Map<number, string>();
      for (const { twist, where } of rows.slice(1))
        for (const run of where.join(' ').split(' ')) {
          const [first, last = first] = run.split('\u2013').map(Number) as [number, number];
          for (let slot = first; slot <= last; slot++) told.set(slot, twist);
        }
      expect(rows[0]!.where).toEqual([rows.length === 1 ? 'all' : 'the others']);
      // Bars that the list tells alike end at one angle from their slots, and no others are bent so.
      const tips = new Map<string, Set<string>>();
      const kinds = new Set<string>();
      rows.forEach((each, row) => {
        for (let slot = 1; slot <= slots; slot++) {
          if ((told.get(slot) ?? rows[0]!.twist) !== each.twist) continue;
          const { tip, top } = bars[index * slots + slot - 1]![side];
          tips.set(each.twist, (tips.get(each.twist) ?? new Set()).add(tip.angle.toFixed(5)));
          kinds.add(`${row} ${tip.angle.toFixed(5)} ${top.toFixed(6)}`);
        }
      });
      expect(
        [...tips.values()].map(({ size }) => size),
        ring,
      ).toEqual(rows.map(() => 1));
      const bent = [...kinds].map((kind) => kind.slice(kind.indexOf(' ')));
      expect(new Set(bent).size, ring).toBe(bent.length);
    }
  });
});

test('a crown is listed with the bar that it belongs to, of its span', () => {
  const set = sheetSet(hairpins);
  const at = placed(set);
  const crowns = new Map(tableRows(set, 'bar-list').map(([name, ...row]) => [name?.split('-')[0], row[3]]));
  const rows = tableRows(set, 'crowns');
  expect(rows).toHaveLength(72);
  for (const row of rows) {
    const [from, to, span, bar] = [row[3], row[4], row[5], row.at(-1)] as string[];
    expect([at.get(from!), at.get(to!)]).toEqual([bar, bar]);
    expect(crowns.get(bar!.split('-')[0]!)!.slice(1)).toBe(span!.slice(1));
  }
});

test('separators stand at the slot and in its sizes', () => {
  const set = sheetSet(hairpins);
  expect(tableRows(set, 'slot-sizes')[0]!.at(-1)).toBe('0.3 a|b c|d, 0.5 b|c');
  const words = allTexts(set)
    .filter(({ id }) => id.startsWith('slot-figure'))
    .map(({ text }) => text)
    .join(' ');
  expect(words).toContain('separators 0.3, 0.5 mm between layers');
});

test('the warnings that stand are told in words, not only counted', () => {
  const { pages: _, ...set } = sheetSet(crossed);
  const warnings = set.study.findings.filter(({ severity }) => severity === 'warning');
  expect(warnings.length).toBeGreaterThan(0);
  const printed = allTexts(sheetSet(crossed))
    .filter(({ id }) => /^warnings-\d+$/.test(id))
    .map(({ text }) => text)
    .join(' ');
  for (const { message } of warnings) expect(printed).toContain(message);
});

test('pieces are listed in an order in which none has to go under one that is on', () => {
  // Nine pieces over each other: those numbered first lie over ends of others.
  const set = sheetSet(`winding "Net winch"
machine { slots 36 poles 4 phases 3 bore 200 mm stack 60 mm }
slot { width 6 mm depth 11 mm opening 2 mm opening-height 0.8 mm liner 0.25 mm }
bar { width 5 mm height 4 mm corner 0.5 mm coating 0.1 mm bend-radius 5 mm flat 1.8 mm
  end-straight 9 mm end-clearance 1 mm joint-straight 10 mm lead-length 35 mm }
layout { layers 2 span 9 }
connect { star
  path U 1 from U1 1a +9b +9a +9b | +9b -9a -9b -9a to N
  path U 2 from U1 2a +9b +9a +9b | +9b -9a -9b -9a to N
  path U 3 from U1 3a +9b +9a +9b | +9b -9a -9b -9a to N
  repeat U as V shift 6
  repeat U as W shift 12 }`);
  const space = set.study.facts!.space().space;
  if (!space.known) throw new RangeError('no space');
  const { links } = space.value;
  expect(links).toHaveLength(9);
  const rows = tableRows(set, 'joints').filter((row) => row.includes('piece'));
  const listed = rows.map((row) => Number(row[1]));
  // Their place in the order stands before their number, which is no longer that of the order.
  expect(rows.map((row) => Number(row[0]))).toEqual(rows.map((_, index) => Number(rows[0]![0]) + index));
  expect(listed).not.toEqual([...listed].sort((one, other) => one - other));
  expect([...listed].sort((one, other) => one - other)).toEqual(
    links.map(({ joint }) => joint).sort((a, b) => a - b),
  );
  // A riser that starts between the feet of another piece and steps out past its level part passes below that.
  const between = (upper: (typeof links)[number], slot: number) => {
    const turns = (slot - upper.from.slot + 36) % 36;
    return turns > 0 && turns < 9;
  };
  let over = 0;
  for (const upper of links)
    for (const lower of links) {
      if (![lower.from, lower.to].some(({ slot }) => between(upper, slot))) continue;
      if (!(upper.beside > 0 && lower.beside > upper.beside)) continue;
      over++;
      expect(listed.indexOf(lower.joint), `${lower.joint} under ${upper.joint}`).toBeLessThan(
        listed.indexOf(upper.joint),
      );
    }
  expect(over).toBeGreaterThan(2);
  const words = allTexts(set)
    .filter(({ id }) => id.startsWith('joints-remark'))
    .map(({ text }) => text)
    .join(' ');
  expect(words).toContain('none comes to lie under one put on before');
});
