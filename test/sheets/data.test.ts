// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import { stacked } from '../../core/review/movePicture.ts';
import { flat } from '../picture/checkPicture.ts';
import {
  allItems,
  allTexts,
  exampleText,
  type SheetSet,
  sheetSet,
  sheetTroubles,
  tableRows,
} from './sheetSets.ts';

function words(set: SheetSet, ids: RegExp): string {
  return allTexts(set)
    .filter(({ id }) => ids.test(id))
    .map(({ text }) => text)
    .join(' ');
}

function cell(set: SheetSet, table: string, name: string): string | undefined {
  return tableRows(set, table).find(([first]) => first === name)?.[1];
}

const machine = (more: {
  machine?: string;
  layout?: string;
  connect?: string;
  rest?: string;
  phases?: string;
}) =>
  sheetSet(`winding "M"
    machine { slots 12 poles 2 phases ${more.phases ?? '3'} ${more.machine ?? ''} }
    layout { layers 4 span 6 ${more.layout ?? ''} }
    connect { ${more.connect ?? 'star'} }
    ${more.rest ?? ''}`);

describe('machine, bars and slots', () => {
  test('show what the text says', () => {
    const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
    expect(sheetTroubles(set)).toEqual([]);
    for (const [name, value] of [
      ['Bore diameter', '162 mm'],
      ['Stack length', '96 mm'],
      ['Voltage', '140 V'],
      ['Current at the terminals', '210 A rms'],
      ['Speed', '3600 rpm'],
      ['Frequency', '240 Hz'],
      ['Flux per pole', '3.9 mWb'],
    ] as const)
      expect(cell(set, 'machine', name), name).toBe(value);
    // 3.6 x 3 mm less (4 - pi) 0.5^2; coated by 0.09 mm on each face; of one piece, so that no strands are told.
    expect(tableRows(set, 'conductors')).toEqual([
      ['a b c d', '3.6', '3', '0.5', '0.09', '3.78 \u00d7 3.18', '10.59', 'copper'],
    ]);
    expect(tableRows(set, 'slot-sizes')).toEqual([
      ['all', '4.6', '15.2', '1.2', '0.8', '0.25', 'none', 'none'],
    ]);
    for (const row of tableRows(set, 'bar-list').slice(0, -1)) expect(row[3]).toBe('3.6 \u00d7 3');
  });

  test('a slot without liner and wedge has none of them, written or left out', () => {
    const text = exampleText('harbor-ferry-pod-drive');
    const rows = (liner: string) =>
      tableRows(sheetSet(text.replace('liner   0.25 mm', liner)), 'slot-sizes')[0]!.slice(5, 7);
    expect(rows('')).toEqual(['none', 'none']);
    expect(rows('liner 0 mm  wedge 0 mm')).toEqual(['none', 'none']);
  });

  test('name what is not given', () => {
    const set = machine({});
    expect(words(set, /^machine-remark/)).toBe(
      'Not given: bore, stack, voltage, current, speed or frequency.',
    );
    expect(words(set, /^conductors-remark/)).toContain('Not given: bar width, bar height.');
    expect(words(set, /^slot-sizes-remark/)).toContain('Not given: slot width, slot depth.');
    expect(allTexts(set).some(({ id }) => id.startsWith('slot-figure'))).toBe(false);
  });

  test('layers that differ have a row each', () => {
    const set = machine({
      rest: 'bar { width 4 mm height a b 3 mm height c d 2 mm strands c d 2 coating 0.1 mm metal aluminium }',
    });
    expect(tableRows(set, 'conductors').map((row) => [row[0], row[2], row[6], row[8]])).toEqual([
      ['a b', '3', '1', 'aluminium'],
      ['c d', '2', '2', 'aluminium'],
    ]);
    const sections = new Set(tableRows(set, 'bar-list').map((row) => row[3]));
    expect(sections).toContain('4 \u00d7 3');
    expect(sections).toContain('4 \u00d7 2');
  });

  const slotText = 'slot { width 6 mm depth 16 mm opening 2 mm opening-height 1 mm liner 0.3 mm }';
  const barText = 'bar { width 5 mm height 3.2 mm corner 0.4 mm coating 0.1 mm }';

  test.each([
    ['inside', 'bore 180 mm', slotText],
    ['outside', 'gap outer outside 180 mm', slotText],
    [
      'deep and narrow',
      'bore 400 mm',
      slotText.replace('depth 16', 'depth 34').replace('width 6', 'width 5.8'),
    ],
    ['shallow', 'bore 180 mm', slotText.replace('depth 16', 'depth 14')],
  ])('the figure of the slot is dimensioned and to its scale: rotor %s', (_, sizes, slot) => {
    const set = machine({ machine: sizes, rest: `${slot} ${barText}` });
    expect(sheetTroubles(set)).toEqual([]);
    const [paper, real] = /, ([\d.]+):([\d.]+)$/
      .exec(words(set, /^slot-figure-heading$/))!
      .slice(1)
      .map(Number);
    const scale = paper! / real!;
    const items = allItems(set);
    const stretches = (id: string) => {
      const item = items.find((each) => each.id === id);
      if (item?.kind !== 'path') throw new RangeError(`no ${id}`);
      return item.parts.map((part) => Math.hypot(part[2]! - part[0]!, part[3]! - part[1]!) / scale);
    };
    const [width, depth] = [/width ([\d.]+)/.exec(slot)![1]!, /depth ([\d.]+)/.exec(slot)![1]!];
    expect(words(set, /^slot-figure-slot-width$/)).toBe(width);
    expect(stretches('slot-figure-slot-width-line')[0]).toBeCloseTo(Number(width), 6);
    expect(words(set, /^slot-figure-bar-width$/)).toBe('5');
    expect(stretches('slot-figure-bar-width-line')[0]).toBeCloseTo(5, 6);
    expect(words(set, /^slot-figure-depth-\d$/)).toContain(depth);
    expect(stretches('slot-figure-depth-lines').some((each) => Math.abs(each - Number(depth)) < 1e-6)).toBe(
      true,
    );
    expect(words(set, /^slot-figure-note/)).toContain('Liner 0.3 mm on each wall');
  });

  test('a slot that the bars do not fit says so, and has no dimensions of bars', () => {
    const set = machine({
      machine: 'bore 180 mm',
      rest: `${slotText.replace('depth 16', 'depth 9')} ${barText}`,
    });
    expect(sheetTroubles(set)).toEqual([]);
    expect(words(set, /^slot-figure-note/)).toContain('do not fit');
    expect(words(set, /^slot-figure-bar-width$/)).toBe('');
  });
});

describe('delta, open and star', () => {
  const joins = 'U2\u2013V1, V2\u2013W1, W2\u2013U1';

  test('a delta names the terminals to be joined, and no star point', () => {
    const set = machine({ connect: 'delta' });
    expect(sheetTroubles(set)).toEqual([]);
    expect(words(set, /^ends-remark/)).toBe(`Terminals to be joined: ${joins}.`);
    expect(words(set, /^scheme-joining/)).toBe(`Delta: join ${joins}.`);
    expect(words(set, /^convention-/)).toContain(`the delta joins ${joins}`);
    expect(words(set, /^scheme-U-to$/)).toBe('U2\u2013V1');
    for (const row of tableRows(set, 'ends')) {
      const partner = { U1: 'W2', V1: 'U2', W1: 'V2', U2: 'V1', V2: 'W1', W2: 'U1' }[row[1]!];
      expect(row[6]).toBe(partner);
    }
    expect(words(set, /./)).not.toMatch(/star point/i);
  });

  test('two sets are two deltas', () => {
    const set = machine({ connect: 'delta', phases: '6 apart 30 edeg' });
    expect(sheetTroubles(set)).toEqual([]);
    expect(words(set, /^ends-remark/)).toBe(
      'Terminals to be joined: 1U2\u20131V1, 1V2\u20131W1, 1W2\u20131U1, 2U2\u20132V1, 2V2\u20132W1, 2W2\u20132U1.',
    );
  });

  test('open phases have leads alone', () => {
    const set = machine({ connect: 'open' });
    expect(words(set, /^ends-heading/)).toBe('Leads');
    expect(words(set, /./)).not.toMatch(/star point/i);
    expect(words(set, /^convention-/)).toContain('both ends of every phase are led out');
  });

  test('star points by name', () => {
    expect(words(machine({}), /^convention-/)).toContain('N is the star point');
    expect(words(machine({ phases: '6 apart 30 edeg' }), /^convention-/)).toContain(
      '1N and 2N are the star points',
    );
  });
});

describe('test values of a closed winding', () => {
  /** A small machine, for its bars are measured in space. */
  const sized = (connect: string, phases = '3') =>
    sheetSet(`winding "M"
      machine { slots 12 poles 2 phases ${phases} bore 90 mm stack 100 mm }
      layout { layers 2 span 6 }
      connect { ${connect} }
      ${rest}`);
  const rest = `slot { width 6 mm depth 16 mm opening 2 mm opening-height 1 mm liner 0.3 mm }
    bar { width 5 mm height 3.2 mm coating 0.1 mm end-straight 5 mm end-clearance 0.5 mm joint-straight 8 mm }`;
  const row = (set: SheetSet, name: string) =>
    tableRows(set, 'tests').find(([first]) => first!.startsWith(name));
  const ohms = (set: SheetSet, name: string) => Number.parseFloat(row(set, name)![1]!);

  /** Resistance between two nodes of a network of equal resistors, by Kirchhoff's current law, relaxed. */
  function between(
    nodes: number,
    edges: readonly (readonly [number, number])[],
    from: number,
    to: number,
  ): number {
    const potential = new Array<number>(nodes).fill(0.5);
    potential[from] = 1;
    potential[to] = 0;
    const neighbors = (node: number) =>
      edges.flatMap(([a, b]) => (a === node ? [potential[b]!] : b === node ? [potential[a]!] : []));
    for (let round = 0; round < 2000; round++)
      for (let node = 0; node < nodes; node++) {
        if (node === from || node === to) continue;
        const around = neighbors(node);
        potential[node] = around.reduce((sum, each) => sum + each, 0) / around.length;
      }
    return 1 / neighbors(from).reduce((sum, each) => sum + (1 - each), 0);
  }

  test('star: line to line over the star point', () => {
    const set = sized('star');
    const ratio = between(
      4,
      [
        [0, 3],
        [1, 3],
        [2, 3],
      ],
      0,
      1,
    );
    expect(
      ohms(set, 'Resistance between two line terminals') / ohms(set, 'Resistance of a phase'),
    ).toBeCloseTo(ratio, 3);
    expect(row(set, 'Resistance between two line terminals')![2]).toBe(
      'U1\u2013V1, V1\u2013W1, W1\u2013U1, with the star closed',
    );
  });

  test('delta: one phase in parallel with the others', () => {
    const set = sized('delta');
    const ratio = between(
      3,
      [
        [0, 1],
        [1, 2],
        [2, 0],
      ],
      0,
      1,
    );
    expect(
      ohms(set, 'Resistance between two line terminals') / ohms(set, 'Resistance of a phase'),
    ).toBeCloseTo(ratio, 3);
    expect(row(set, 'Resistance of a phase')![2]).toBe('U1\u2013U2 of each phase, with the delta open');
  });

  test('the places of two sets are those of the first, and nothing is cut', () => {
    const set = sized('delta', '6 apart 30 edeg');
    expect(row(set, 'Resistance between two line terminals')![2]).toBe(
      '1U1\u20131V1, 1V1\u20131W1, 1W1\u20131U1, set 2 alike, with the delta closed',
    );
  });

  test('a phase of one path has no further resistance', () => {
    const names = tableRows(sized('star'), 'tests').flatMap(
      ([name]) => /^Resistance of a (?:path|phase)/.exec(name!) ?? [],
    );
    expect(names).toEqual(['Resistance of a phase']);
  });

  test('open phases have none', () => {
    expect(row(sized('open'), 'Resistance between two line terminals')).toBeUndefined();
  });
});

describe('winding data', () => {
  test('stagger and skew of each group of layers, and which factor includes the stagger', () => {
    const set = sheetSet(exampleText('cable-ferry-drum'));
    expect(cell(set, 'winding', 'Stagger')).toBe('c d by +1 slot');
    expect(cell(set, 'winding', 'Skew of the bars')).toBe('a b: +1 slot, c d: \u22121 slot');
    expect(cell(set, 'winding', 'Skew of the rotor')).toBe('1.875\u00b0 in 3 steps');
    // Full pitch; two pairs 30 electrical degrees apart: cos 15 degrees.
    expect(cell(set, 'winding', '\u2013 pitch')).toBe(
      `${Math.cos(Math.PI / 12).toFixed(4)} span and stagger`,
    );
    expect(cell(set, 'winding', '\u2013 \u2013 span alone')).toBe('1.0000');
  });

  test('nothing of stagger and skew where there is none', () => {
    const set = sheetSet(exampleText('harbor-ferry-pod-drive'));
    for (const name of ['Stagger', 'Skew of the bars', 'Skew of the rotor'])
      expect(cell(set, 'winding', name)).toBeUndefined();
  });
});

test('a layout that goes on on another sheet has a heading there', () => {
  const set = sheetSet(`winding "Barrage"
    machine { slots 240 poles 40 phases 3 } layout { layers 2 span 6 } connect { star route paths 4 }
    sheet { sheet-size A4 }`);
  let going = 0;
  for (const { items } of set.pages) {
    const page: SheetSet = { ...set, pages: [{ ...set.pages[0]!, items }] };
    const rows = allTexts(page).filter(({ id }) => /^layout-\d+-row$/.test(id));
    if (rows.length === 0) continue;
    going++;
    expect(words(page, /^layout-heading-\d+$/)).toMatch(
      going === 1 ? /^Developed layout, not to scale: all phases$/ : /: all phases, continued$/,
    );
  }
  expect(going).toBeGreaterThan(1);
});

test('the list of sheets names every section', () => {
  const listed = allTexts(sheetSet(exampleText('harbor-ferry-pod-drive')))
    .filter(({ id }) => /^contents-\d+$/.test(id))
    .map(({ text }) => text);
  for (const section of ['Machine', 'Winding', 'Bars and slots', 'Connection scheme'])
    expect(listed).toContain(section);
});

test('a short connection scheme stands on the first sheet, beside two slot rows too', () => {
  const { pages } = sheetSet(`winding "Tide gate"
machine { slots 60 poles 10 phases 3 gap both bore 300 mm stack 100 mm air-gap 1 mm 1 mm magnet-height 6 mm 6 mm
  speed 800 rpm flux 6 mWb current 250 A voltage 60 V winding-temperature 100 degC end-temperature 70 degC }
slot a { width 6 mm depth 6 mm opening 6 mm opening-height 0 mm liner 0.3 mm }
slot b { width 6 mm depth 6 mm opening 6 mm opening-height 0 mm liner 0.3 mm }
bar { width 5 mm height 5 mm corner 0.5 mm coating 0.1 mm form straight bend-radius 5 mm end-straight 7 mm
  end-clearance 1 mm joint-straight 9 mm lead-length 25 mm }
layout { layers 2 span 6 skew a +1 slot skew b -1 slot }
connect { star route paths 2 }
`);
  expect(flat(pages[0]!.items).map(({ id }) => id)).toContain('scheme-U-boxes');
});

test('sheets in one drawing have a title for all of them', () => {
  const { pages } = sheetSet(exampleText('tidal-pump'));
  expect(stacked(pages, 'Pump: all').title).toBe('Pump: all');
  expect(stacked(pages).title).toBe(pages.at(-1)!.title);
});

test('a note without blanks is broken, not cut', () => {
  const word = 'Estuary'.repeat(60);
  const set = sheetSet(exampleText('tidal-pump'), `note "${word}"`);
  expect(sheetTroubles(set)).toEqual([]);
  const lines = allTexts(set).filter(({ id }) => /^notes-\d+$/.test(id));
  expect(lines.map(({ text }) => text).join('')).toBe(word);
});

test('characters that the letters lack are named', () => {
  const set = sheetSet(exampleText('tidal-pump'), 'note "\u6f22\u5b57, \u6f22"');
  expect(words(set, /^source-/)).toContain('lack 2 characters of the text');
  expect(words(set, /^source-/)).toContain('U+6F22, U+5B57');
  expect(words(sheetSet(exampleText('tidal-pump'), 'note "\u00e4 \u03a9"'), /^source-/)).not.toContain(
    'lack',
  );
});

test('limits tell what they require, what there is and what they count in', () => {
  const set = machine({ rest: 'require { special-joints <= 90\n winding-factor >= 0.99\n torque >= 9 Nm }' });
  const [joints, factor] = set.study.limits;
  expect(tableRows(set, 'limits')).toEqual([
    ['special-joints a phase', 'at most 90', String(joints!.actual), 'yes'],
    ['winding-factor', 'at least 0.99', factor!.actual!.toFixed(4), 'NO'],
    ['torque', 'at least 9 Nm', '\u2013', 'NOT KNOWN'],
  ]);
});

test('the slot figure is as large as the letters of its bars need, where that is not too large', () => {
  const deep = (layers: number, height: number) =>
    sheetSet(`winding "Lock gate" machine { slots 12 poles 2 phases 3 bore 260 mm stack 60 mm }
      slot { width 8.6 mm depth 48 mm opening 3 mm opening-height 1.2 mm liner 0.4 mm }
      bar { width 7.4 mm height ${height} mm } layout { layers ${layers} span 5 }`);
  const lettered = (set: SheetSet) =>
    allTexts(set).flatMap(({ id, text }) => (/^slot-figure-layer-/.test(id) ? [text] : []));
  const eight = deep(8, 4.3);
  expect(words(eight, /^slot-figure-heading$/)).toBe('Slot with its bars, 1:1');
  expect(lettered(eight).join('')).toBe('abcdefgh');
  expect(sheetTroubles(eight)).toEqual([]);
  // So thin that no size would do.
  expect(words(deep(26, 1.5), /^slot-figure-heading$/)).toBe('Slot with its bars, 1:2');
});

/** A pole pair of an example, for its losses, heat and bars in space are worked out. */
const pair = exampleText('harbor-ferry-pod-drive')
  .replace('slots   48', 'slots   12')
  .replace('poles   8', 'poles   2')
  .replace('bore    162 mm', 'bore    40.5 mm');

test('units of limits and warnings are printed as everywhere on the sheets, words in quotes as written', () => {
  const set = sheetSet(
    `${pair}
    duty { point "climb at 9 degC" speed 900 rpm current 210 A for 60 s }`.replace(
      'require {',
      `require { hot-spot-temperature <= 150 degC
      hot-spot-temperature at "climb at 9 degC" <= 20 degC
      current-density <= 2 A/mm2
      phase-resistance <= 1 uohm `,
    ),
  );
  const rows = tableRows(set, 'limits');
  expect(rows.slice(0, 4).map((row) => row[1])).toEqual([
    'at most 150 \u00b0C',
    'at most 20 \u00b0C',
    'at most 2 A/mm\u00b2',
    'at most 1 \u00b5\u03a9',
  ]);
  expect(rows[2]![2]).toMatch(/^\d+\.\d+ A\/mm\u00b2$/);
  const errors = words(set, /^errors-/);
  expect(errors).toMatch(/at "climb at 9 degC"/);
  expect(errors).toMatch(/\d \u00b0C/);
  expect(words(set, /^(?:limits|errors|warnings)-/)).not.toMatch(/A\/mm2|uohm|\d degC(?!")/);
  expect(sheetTroubles(set)).toEqual([]);
});

test('of parallel paths the test values tell the resistance of one, before it is joined to others', () => {
  const ohms = (text: string) =>
    tableRows(sheetSet(text), 'tests').flatMap(([name, value, basis]) =>
      /^Resistance of a (?:path|phase)/.test(name!)
        ? [[name!.split(' ')[3]!, parseFloat(value!), basis!]]
        : [],
    );
  const [path, phase] = ohms(exampleText('harbor-ferry-pod-drive'));
  expect(path![0]).toBe('path');
  expect(path![2]).toContain('before it is joined');
  // Two alike paths in parallel.
  expect((path![1] as number) / (phase![1] as number)).toBeCloseTo(2, 3);
});

test('test values name the metal that is weighed, and what the resistances count for joints', () => {
  const text = pair;
  const words = (set: ReturnType<typeof sheetSet>) =>
    allTexts(set)
      .filter(({ id }) => id.startsWith('tests-'))
      .map(({ text: each }) => each)
      .join(' ');
  expect(words(sheetSet(text))).toContain('Mass of the copper');
  expect(words(sheetSet(text))).toContain('joints not counted (bar joint-resistance)');
  const other = words(sheetSet(text.replace(/metal +copper/, 'metal aluminium joint-resistance 5 uohm')));
  expect(other).toContain('Mass of the aluminium');
  expect(other).not.toContain('copper');
  expect(other).toMatch(/0\.005 m\u03a9 for each joint/);
});

test('words of the sheets are those of the winding: one layer, no star, five phases, levels of pieces', () => {
  const sizes = `slot { width 6.6 mm depth 9 mm opening 2 mm opening-height 0.8 mm liner 0.25 mm }
    bar { width 5.4 mm height 6 mm corner 0.6 mm coating 0.1 mm form straight end-straight 7 mm end-clearance 0.9 mm
      joint-straight 9 mm bend-radius 6 mm lead-length 25 mm }`;
  const single = sheetSet(`winding "Net drum" machine { slots 24 poles 4 phases 3 bore 120 mm stack 90 mm }
    ${sizes} layout { layers 1 span 6 } connect { open }`);
  expect(words(single, /^winding-/)).toContain(
    'Phase insulation between neighboring bar ends, in layer a: after slot 2 and every',
  );
  expect(words(single, /^phase-insulation/)).not.toContain('neighboring layers');
  expect(words(single, /^end-sizes/)).toContain('Leads: where they stop');
  expect(words(single, /^cross-view/)).toMatch(/pieces, level 2: \d/);
  const five = sheetSet(`winding "Weir screen" machine { slots 40 poles 8 phases 5 bore 200 mm stack 70 mm }
    ${sizes.replace('height 6', 'height 3')} layout { layers 2 span 5 } connect { star }`);
  expect(words(five, /^winding-/)).toContain(
    'Phase insulation between neighboring bar ends, in layers a, b: after every slot.',
  );
  expect(words(five, /^tests-/)).toContain('phase order U-V-W-X-Y, field of the winding');
  expect(words(five, /^end-sizes/)).toContain('Leads and star ends: where they stop');
  const ferry = sheetSet(exampleText('harbor-ferry-pod-drive'));
  expect(words(ferry, /^winding-/)).toContain('none by separate pieces');
  // 48 slots of four layers in 96 hairpins: what a welder has to make, and what he has not.
  expect(cell(ferry, 'winding', 'Joints to be made')).toBe('90, none by separate pieces');
  expect(cell(ferry, 'winding', 'Crowns, bent and not joined')).toBe('96');
  expect(words(ferry, /^slots-/)).toContain('Mark slot 1 and the connection side on the stack first');
  expect(words(ferry, /^slots-/)).toContain('from the far side');
  expect(words(five, /^slots-/)).toContain('Straight bars go in along their slots');
  expect(cell(five, 'winding', 'Crowns, bent and not joined')).toBeUndefined();
  const dredge = sheetSet(exampleText('dredge-pump'));
  expect(words(dredge, /^tests-/)).toContain('phase order 1U-1V-1W, field');
});

test('the list of sheets stands whole, and the connection scheme has no sheet of its own', () => {
  const text = `winding "Pilot boat" machine { slots 36 poles 6 phases 6 apart 30 edeg bore 160 mm stack 160 mm
      yoke-height 20 mm air-gap 1 mm magnet-height 6 mm speed 1500 rpm flux 4 mWb current 150 A voltage 230 V
      winding-temperature 110 degC end-temperature 80 degC drive-end connection }
    slot { width 6 mm depth 20 mm opening 1.6 mm opening-height 0.8 mm liner 0.25 mm separator b c 0.3 mm }
    bar { width 4 mm height 4 mm corner 0.5 mm coating 0.09 mm end-straight 8 mm end-clearance 1.3 mm
      joint-straight 9 mm bend-radius 4.5 mm flat 2 mm lead-length 30 mm bare-end 9 mm }
    layout { layers 4 span 5 } connect { star }`;
  for (const limit of ['', 'require { winding-factor harmonic 1 >= 0.999999 }']) {
    const set = sheetSet(`${text} ${limit}`);
    const onPage = (id: RegExp) =>
      set.pages.map(({ items }) =>
        flat(items).flatMap((item) => (item.kind === 'text' && id.test(item.id) ? [item.text] : [])),
      );
    const entries = onPage(/^contents-\d+$/);
    expect(entries.filter((names) => names.length > 0)).toHaveLength(1);
    expect(entries.flat()).toHaveLength(new Set(entries.flat()).size);
    expect(onPage(/^contents-heading/).flat()).toEqual(['Sheets']);
    const headings = onPage(/-heading(-\d+)?$/).find((names) => names.includes('Connection scheme'))!;
    expect(headings.length, headings.join()).toBeGreaterThan(1);
    expect(sheetTroubles(set)).toEqual([]);
  }
});
