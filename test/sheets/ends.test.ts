// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
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

/** A small hoist of an invented lock: 24 slots, four layers, everything about the ends given. */
const hoist = (form: string, more = '') => `winding "Lock-gate hoist"
machine { slots 24 poles 4 phases 3 gap inner bore 110 mm stack 60 mm }
slot { width 5.4 mm depth 15.6 mm opening 1.2 mm opening-height 0.8 mm liner 0.25 mm separator b c 0.3 mm }
bar { width 3.6 mm height 3 mm corner 0.5 mm coating 0.1 mm form ${form}
  end-straight 7 mm end-clearance 0.6 mm joint-straight 10 mm bare-end 7 mm bend-radius 3.65 mm flat 4 mm
  lead-length 30 mm ring-width 14 mm ring-height 3 mm piece-clearance 1 mm joint-plane level ${more} }
layout { layers 4 span 5 }
connect { star route paths 2 rings all }
`;

const cell = (set: SheetSet, table: string, name: string, column: number) =>
  tableRows(set, table).find(([first]) => first === name)?.[column];

const noteWords = (set: SheetSet, id: string) =>
  allTexts(set)
    .filter((text) => text.id.startsWith(`${id}-note-`))
    .map(({ text }) => text)
    .join(' ');

/** The stretches of a path, by its id. */
const partsOf = (set: SheetSet, id: string): readonly (readonly number[])[] => {
  const found = allItems(set).find((item) => item.id === id);
  if (found?.kind !== 'path') throw new RangeError(id);
  return found.parts;
};

/** A number as print has it. */
const numberOf = (words: string) => Number(words.replace('\u2212', '-'));

describe('the end winding on the sheets', () => {
  const set = sheetSet(hoist('hairpin'));

  test('is legible, and stands in frames of any size', () => {
    expect(sheetTroubles(set)).toEqual([]);
    expect(sheetTroubles(sheetSet(hoist('straight'), 'sheet-size A4'))).toEqual([]);
  });

  test('has the joint plane, and rings one above the other by their coated height and clearance', () => {
    const plane = Number(cell(set, 'end-sizes', 'Joint plane: ends of the joined bars', 1));
    const rows = tableRows(set, 'rings');
    expect(rows.map(([name]) => name)).toEqual(['N', 'U1', 'V1', 'W1']);
    rows.forEach((row, index) => {
      const above = Number(row[6]);
      // Flat bends of 4 mm and half a coated bar, 5.6 mm, to the middle of the first; then 3 + 0.2 + 1 mm for each,
      // and half of what a bar is wider than high, 0.6 mm, below and above one whose ends step aside.
      if (index === 0) expect(above).toBeCloseTo(5.6 - 1.5, 1);
      else {
        const more = above - Number(rows[index - 1]![6]);
        expect([4.2, 4.5, 4.8].some((step) => Math.abs(more - step) < 0.11)).toBe(true);
      }
      expect(Math.abs(Number(row[5]) - plane - above)).toBeLessThan(0.11);
      expect(row[3]).toBe('14 \u00d7 3');
      // A ring's length is its angle at its mean radius.
      const length = (Number(row[8]) * Math.PI * Number(row[4])) / 180;
      // Angle and radius are printed to a tenth each.
      expect(Math.abs(length - Number(row[9]))).toBeLessThan(0.25);
    });
    // Both paths of three phases end at the star point.
    expect(rows[0]![10]!.split(' ')).toHaveLength(6);
  });

  test('tells corners apart from where arcs begin, and crowns by the middle of the bar', () => {
    const space = set.study.facts!.space().space;
    if (!space.known) throw new RangeError('no space');
    const ends = space.value.ends.filter(({ side }) => side === 'connection');
    const lengthsOf = (kind: string, uses: readonly string[]) =>
      ends
        .filter(({ use }) => uses.includes(use))
        .map(({ pieces }) => 1e3 * pieces.find((piece) => piece.kind === kind)!.length);
    // The text gives 7 mm to the sharp corner; the arc begins r tan(turn / 2) below it, here on bars that do not lean.
    expect(cell(set, 'end-sizes', 'First bend: its sharp corner', 1)).toBe('7');
    const [least, most = least] = cell(set, 'end-sizes', 'First bend: its arc begins', 1)!
      .split(' \u2013 ')
      .map(Number);
    const straights = lengthsOf('straight', ['joint', 'piece', 'lead', 'star']);
    expect(least).toBeCloseTo(Math.min(...straights), 1);
    expect(most).toBeCloseTo(Math.max(...straights), 1);
    expect(most).toBeLessThan(7 - 2);
    // What is left of 10 mm where two bars lie face to face.
    const joined = cell(set, 'end-sizes', 'Joints: straight above their arcs', 1)!
      .split(' \u2013 ')
      .map(Number);
    expect(joined[0]).toBeCloseTo(Math.min(...lengthsOf('joint', ['joint', 'piece'])), 1);
    expect(joined[0]).toBeLessThan(10 - 2);
    expect(cell(set, 'end-sizes', 'Joints: straight above their arcs', 2)).toBe('\u2013');
    // Center lines of crowns; the overhang has half a coated bar of 3.8 mm more.
    const apex = cell(set, 'end-sizes', 'Apex of the crowns, middle of the bar', 2)!.split(' \u2013 ').at(-1);
    expect(Math.abs(Number(apex) + 1.9 - Number(cell(set, 'end-sizes', 'Overhang', 2)))).toBeLessThan(0.11);
    expect(noteWords(set, 'cross-view')).toContain('crowns to the middle of the bar');
    const marks = allTexts(set).filter(({ id }) => /^cross-view-(connection|far)-mark-/.test(id));
    expect(marks.filter(({ text }) => text === 'first corner 7.0')).toHaveLength(2);
    expect(marks.some(({ text }) => text.startsWith('straight'))).toBe(false);
  });

  test('dimensions the step of the crowns: a coated bar, or that and the separator', () => {
    // Layers are 3.2 mm apart, b and c by the separator of 0.3 mm more.
    expect(noteWords(set, 'crown-view-ab')).toContain('Step along the radius 3.2 mm');
    expect(noteWords(set, 'crown-view-cd')).toContain('Step along the radius 3.2 mm');
    const radii = ['ab', 'cd'].flatMap((pair) =>
      [...noteWords(set, `crown-view-${pair}`).matchAll(/[a-d] (\d+\.\d) mm/g)].map(([, mm]) => Number(mm)),
    );
    // Each is told to 0.1 mm.
    expect(Math.abs(radii[2]! - radii[1]! - 3.5)).toBeLessThan(0.11);
  });

  test('names the legs of crowns where they stand, the inner one to the left', () => {
    const space = set.study.facts!.space().space;
    if (!space.known) throw new RangeError('no space');
    for (const pair of ['ab', 'cd']) {
      const heading = allTexts(set).find(({ id }) => id === `crown-view-${pair}-heading`)!;
      expect(heading.text).toContain(`Crown ${pair[0]} \u2013 ${pair[1]},`);
      const told = [...noteWords(set, `crown-view-${pair}`).matchAll(/([a-d]) (\d+\.\d) mm/g)];
      expect(told.map(([, letter]) => letter).join('')).toBe(pair);
      for (const [, letter, radius] of told) {
        const layer = space.value.layers['abcd'.indexOf(letter!)]!;
        expect(Math.abs(1e3 * layer.radius - Number(radius))).toBeLessThan(0.051);
      }
      const letters = allTexts(set).filter(
        ({ id, role }) => role === 'layer-letter' && id.startsWith(`crown-view-${pair}-`),
      );
      const fromLeft = [...letters].sort((one, other) => one.x - other.x);
      expect(fromLeft.map(({ text }) => text).join('')).toBe(pair);
    }
  });

  test('dimensions crowns to scale: from the apex to the straight part, and from there to the stack', () => {
    for (const pair of ['ab', 'cd']) {
      const words = (id: string) =>
        allTexts(set).find((text) => text.id === `crown-view-${pair}-${id}`)!.text;
      const [, paper, machine] = /(\d+):(\d+)$/.exec(words('heading'))!;
      const ratio = Number(paper) / Number(machine);
      const [apex, straight] = [0, 1].map((index) => Number(words(`heights-${index}`)));
      // The text gives the straight part; the note tells the apex from the stack.
      expect(straight).toBe(7);
      const told = Number(/Apex ([\d.]+)/.exec(noteWords(set, `crown-view-${pair}`))![1]);
      expect(Math.abs(apex! + straight! - told)).toBeLessThan(0.11);
      // On paper the chain stands at the heights that it tells, on the face of the stack.
      const face = partsOf(set, `crown-view-${pair}-core`)[0]![1]!;
      const chain = partsOf(set, `crown-view-${pair}-heights-lines`).filter(([x, , end]) => x === end);
      const heights = [...new Set(chain.flatMap(([, from, , to]) => [from!, to!]))].sort((a, b) => a - b);
      const above = heights.map((y) => (face - y) / ratio);
      for (const height of [told, straight!, 0])
        expect(Math.min(...above.map((each) => Math.abs(each - height)))).toBeLessThan(0.06);
      // The bar's middle is at the apex: half its width of 3.6 mm stands above.
      const drawn = partsOf(set, `crown-view-${pair}-bars`).flatMap((part) =>
        part.filter((_, index) => index % 2 === 1),
      );
      expect((face - Math.min(...drawn)) / ratio - 1.8).toBeCloseTo(told, 0);
    }
  });

  test('draws connecting pieces in the radial section where they run, beside the bars they step past', () => {
    // A tooth coil, all of whose joints are pieces, which lie past the leads of the outer layer.
    const stepping = sheetSet(`winding "Buoy winch"
machine { slots 12 poles 10 phases 3 bore 100 mm stack 60 mm }
slot { width 11.5 mm depth 16 mm opening 3 mm opening-height 1.5 mm liner 0.4 mm }
bar { width 5 mm height 6 mm corner 0.8 mm coating 0.1 mm bend-radius 5 mm end-straight 7 mm end-clearance 1 mm
  joint-straight 8 mm lead-length 25 mm }
layout { layers 2 span 1 }
connect { star route paths 2 }
`);
    const [row] = tableRows(stepping, 'piece-list');
    const beside = Number(/([\d.]+) outwards/.exec(row!.join(' '))![1]);
    expect(beside).toBeGreaterThan(6.2);
    // Layers a and b, 6 mm high and 6.2 mm apart: edges at 0 and 6, 6.2 and 12.2 mm.
    const edges = partsOf(stepping, 'cross-view-slots').map(([x]) => x!);
    const ratio = (Math.max(...edges) - Math.min(...edges)) / 12.2;
    const middleOfA = Math.min(...edges) + 3 * ratio;
    const [box] = partsOf(stepping, 'cross-view-connection-links');
    const across = box!.filter((_, index) => index % 2 === 0);
    const [left, right] = [Math.min(...across), Math.max(...across)];
    expect((right - left) / ratio).toBeCloseTo(5, 2);
    expect(Math.abs((left + right) / 2 - middleOfA - beside * ratio)).toBeLessThan(0.06 * ratio);
    // Its riser leads there from the end of its bar.
    const drawn = partsOf(stepping, 'cross-view-connection-bars');
    const reaches = drawn.some((part) => {
      const at = part.filter((_, index) => index % 2 === 0);
      return Math.min(...at) < middleOfA && Math.max(...at) > right - 5.01 * ratio;
    });
    expect(reaches).toBe(true);
  });

  test('says where each lead stands and where it stops: at its ring', () => {
    const rings = new Map(tableRows(set, 'rings').map((row) => [row[0], row]));
    const rows = tableRows(set, 'ends');
    expect(rows).toHaveLength(12);
    for (const row of rows) {
      const ring = rings.get(row[1]!)!;
      const bent = (row[11] ?? '') !== '';
      // To the middle of the ring's side, half its 3 mm above its underside; or 0.1 mm of coating below that.
      const above = bent ? 1.5 : -0.1;
      expect(Math.abs(Number(ring[5]) + above - Number(row[8]))).toBeLessThan(0.11);
      // 7 mm of half its width, and 0.1 mm of coating.
      if (bent)
        expect(Math.abs(Number(row[7]) + numberOf(row[11]!) - Number(ring[4]) + 7.1)).toBeLessThan(0.21);
      const aside = (numberOf(row[10] ?? '0') / Number(row[7])) * (180 / Math.PI);
      const from = (Number(row[6]) + aside - Number(ring[7]) + 720) % 360;
      expect(from).toBeLessThan(Number(ring[8]));
      expect(ring[10]!.split(' ')).toContain(row[4]);
    }
  });

  test('tells bend radii as written, on sketches and in the list of sizes alike', () => {
    expect(cell(set, 'end-sizes', 'Inner bend radius', 1)).toBe('3.65, flatwise 4');
    expect(noteWords(set, 'bar-shape-1')).toContain('Inner bend radius 3.65 mm, flatwise 4 mm;');
  });

  test('sketches bend leads aside to the same side as the list of ends', () => {
    const aside = new Set(
      tableRows(set, 'ends').flatMap((row) => (numberOf(row[10] ?? '0') ? [row[10]!] : [])),
    );
    expect(aside.size).toBe(1);
    const [told] = aside;
    // The list counts angles, and with them ways round, towards higher slots.
    const way = numberOf(told!) > 0 ? 'higher' : 'lower';
    expect(noteWords(set, 'bar-shape-1')).toContain(
      `${Math.abs(numberOf(told!))} mm towards ${way} slots, then 15.5 mm away from the axis to its ring`,
    );
  });

  test('names every boundary of phases, as the slot table has them', () => {
    const { table } = set.study.facts!.winding;
    const phase = (slot: number, layer: number) => Math.abs(table.cells[layer * 24 + (slot % 24)]!);
    const numbers = (words: string) =>
      [...words.matchAll(/(\d+)(?:\u2013(\d+))?/g)].flatMap(([, from, to]) =>
        Array.from({ length: Number(to ?? from) - Number(from) + 1 }, (_, i) => Number(from) + i),
      );
    const rows: { place: string; layers: string; where: string }[] = [];
    for (const [place, layers, where] of tableRows(set, 'phase-insulation')) {
      if (place === undefined) rows.at(-1)!.where += ` ${where}`;
      else rows.push({ place, layers: layers!, where: where! });
    }
    for (const layer of [0, 1, 2]) {
      const pair = `${'abcd'[layer]} | ${'abcd'[layer + 1]}`;
      const expected = Array.from({ length: 24 }, (_, slot) => slot)
        .filter((slot) => phase(slot, layer) !== phase(slot, layer + 1))
        .map((slot) => slot + 1);
      const found = rows.filter(({ layers, where }) => layers === pair && /(?:^| )slots /.test(where));
      expect(found.flatMap(({ where }) => numbers(where))).toEqual(expected);
    }
    expect(rows.filter(({ where }) => where.startsWith('separator')).map(({ layers }) => layers)).toEqual([
      'b | c',
    ]);
    // The text puts a separator of 0.3 mm between b and c alone.
    const separators = tableRows(set, 'phase-insulation').flatMap(([place, layers, , thickness]) =>
      place === 'in the slots' ? [`${layers}: ${thickness}`] : [],
    );
    expect([...new Set(separators)]).toEqual(
      expect.arrayContaining(['a | b: none', 'b | c: 0.3', 'c | d: none']),
    );
    expect(new Set(separators).size).toBe(3);
    for (const layer of [0, 1, 2, 3]) {
      const expected = Array.from({ length: 24 }, (_, slot) => slot)
        .filter((slot) => phase(slot, layer) !== phase(slot + 1, layer))
        .map((slot) => `${slot + 1}|${((slot + 1) % 24) + 1}`);
      const found = rows.filter(
        ({ place, layers }) => place.startsWith('ends') && layers.split(' ').includes('abcd'[layer]!),
      );
      expect(found).toHaveLength(1);
      expect(found[0]!.where.split(' ')).toEqual(expected);
    }
  });

  // The radial section names heights; the lists tell them for every end.
  test.each(['slipway-carriage', 'cable-ferry-drum', 'harbor-ferry-pod-drive'])(
    'names the heights at which leads and star ends of %s stop, as their list has them',
    (name) => {
      const drawn = sheetSet(exampleText(name));
      const rows = tableRows(drawn, 'ends').filter((row) => row.length > 8);
      const marks = allTexts(drawn)
        .filter(({ id }) => /^cross-view-connection-mark-\d+$/.test(id))
        .map(({ text }) => text);
      for (const [kind, words] of [
        ['lead', 'leads end'],
        ['star point', 'star ends'],
      ] as const) {
        const heights = rows.filter((row) => row[2] === kind).map((row) => row.at(-2)!);
        const [least, most] = [Math.min(...heights.map(Number)), Math.max(...heights.map(Number))];
        const told = marks
          .filter((mark) => mark.startsWith(words))
          .map((mark) => mark.slice(words.length + 1));
        const range = least === most ? most.toFixed(1) : `${least.toFixed(1)} – ${most.toFixed(1)}`;
        expect(told).toEqual(heights.length > 0 ? [range] : []);
      }
    },
  );

  test('draws both ends to scale: the joint plane stands as high on paper as it is', () => {
    const heading = allTexts(set).find(({ id }) => id === 'cross-view-heading')!.text;
    const [, paper, machine] = /(\d+):(\d+)$/.exec(heading)!;
    const face = partsOf(set, 'cross-view-faces')[0]![1]!;
    const plane = partsOf(set, 'cross-view-connection-plane')[0]![1]!;
    const told = Number(cell(set, 'end-sizes', 'Joint plane: ends of the joined bars', 1));
    expect(((face - plane) * Number(machine)) / Number(paper)).toBeCloseTo(told, 0);
  });
});

test('pieces have their section, corners and height above the joints, level above level', () => {
  const set = sheetSet(
    exampleText('broken-unequal-paths').replace(
      'end-clearance 1 mm',
      'end-clearance 1 mm piece-width 3 mm piece-height 5 mm piece-clearance 2 mm bend-radius 6 mm',
    ),
  );
  const rows = tableRows(set, 'piece-list').slice(0, -1);
  expect(rows.length).toBeGreaterThan(2);
  const heights = rows.map((row) => ({
    level: Number(row[4]),
    stack: Number(row[12]),
    joints: Number(row[13]),
  }));
  const plane = heights[0]!.stack - heights[0]!.joints;
  const lowest = heights.find(({ level }) => level === 1)!;
  expect(lowest.joints).toBeGreaterThanOrEqual(2);
  for (const { level, stack, joints } of heights) {
    // Each level is higher by 5 and 0.2 mm of the piece and its clearance of 2 mm.
    expect(Math.abs(stack - lowest.stack - 7.2 * (level - 1))).toBeLessThan(0.11);
    expect(Math.abs(stack - joints - plane)).toBeLessThan(0.11);
  }
  for (const row of rows) {
    expect(row[9]).toBe('3 \u00d7 5');
    expect(Number(row[10])).toBe(6);
  }
  expect(sheetTroubles(set)).toEqual([]);
});

test('a ring of many ends names all of them, and without rings the list of ends says what is not given', () => {
  const text = hoist('hairpin').replace('route paths 2', 'route paths 4');
  const ringed = sheetSet(text);
  const ends = tableRows(ringed, 'ends');
  const joined = new Map<string, string[]>();
  for (const row of tableRows(ringed, 'rings')) {
    const name = row[0] ?? [...joined.keys()].at(-1)!;
    joined.set(name, [...(joined.get(name) ?? []), ...row.at(-1)!.split(' ')]);
  }
  expect(joined.size).toBe(4);
  for (const [name, bars] of joined)
    expect([...bars].sort()).toEqual(ends.flatMap((row) => (row[1] === name ? [row[4]!] : [])).sort());
  expect(joined.get('N')).toHaveLength(12);
  const remarks = (set: SheetSet) =>
    allTexts(set)
      .filter(({ id }) => id.startsWith('ends-remark'))
      .map(({ text: words }) => words)
      .join(' ');
  expect(remarks(ringed)).not.toContain('not given');
  expect(remarks(sheetSet(text.replace('rings all', '')))).toContain(
    'What joins the ends of U1, V1, W1, N is not given (connect rings): it is left to the shop.',
  );
});

test('every lead in sight among the bars in space has its name, at the end of a line where there is no room at its end', () => {
  const set = sheetSet(hatch);
  const names = allTexts(set).filter(({ id }) => id.startsWith('space-lead-name-'));
  // The lead of U alone ends behind a connecting piece.
  expect(names.map(({ text }) => text).sort()).toEqual(['N', 'N', 'N', 'V1', 'W1']);
  const leads = set.study.report().joints.filter(({ kind }) => kind === 'lead' || kind === 'star');
  let led = 0;
  for (const { id, x, y, text } of names) {
    const number = id.slice('space-lead-name-'.length);
    const { from, to } = leads.find((each) => each.number === Number(number))!;
    expect([from, to]).toContain(text);
    const line = allItems(set).find((item) => item.id === `space-lead-leader-${number}`);
    const lead = partsOf(set, `space-lead-${number}`).flat();
    const across = lead.filter((_, index) => index % 2 === 0);
    const down = lead.filter((_, index) => index % 2 === 1);
    if (line?.kind !== 'path') {
      // Above the end, or beside it.
      expect(Math.min(...across.map((each) => Math.abs(each - x)))).toBeLessThan(8);
      continue;
    }
    led++;
    const [x1, y1, x2, y2] = line.parts[0]!;
    // From the lead's end towards its letters.
    expect(x1).toBeGreaterThan(Math.min(...across) - 0.5);
    expect(x1).toBeLessThan(Math.max(...across) + 0.5);
    expect(y1).toBeCloseTo(Math.min(...down), -1);
    expect(Math.hypot(x2! - x, y2! - (y - 0.9))).toBeLessThan(Math.hypot(x1! - x, y1! - (y - 0.9)));
  }
  expect(led).toBeGreaterThan(1);
  expect(sheetTroubles(set)).toEqual([]);
});

test('of crowns of several spans the side view says which is drawn', () => {
  // Crowns over five, six and seven slots; the apex of those over six is at 24.38 mm.
  const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
  expect(noteWords(set, 'crown-view-ab')).toContain(
    'Apex 21.5 \u2013 27.2 mm above the stack, to the middle of the bar; drawn is a crown over 6 slots.',
  );
  const heights = [0, 1].map((index) =>
    Number(allTexts(set).find(({ id }) => id === `crown-view-ab-heights-${index}`)!.text),
  );
  expect(heights[0]! + heights[1]!).toBeCloseTo(24.4, 6);
  // Both halves that are drawn are of that crown.
  const drawn = partsOf(set, 'crown-view-ab-bars').map((part) =>
    Math.min(...part.filter((_, index) => index % 2 === 1)),
  );
  expect(Math.min(...drawn.slice(0, 4))).toBeCloseTo(Math.min(...drawn.slice(4)), 1);
});
