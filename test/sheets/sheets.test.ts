// Takes its time: draws many sheets.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Text } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { barName } from '../../core/winding/model.ts';
import { barsOf, flat, readXml } from '../picture/checkPicture.ts';
import { hostileWords } from '../picture/fileFormats.ts';
import { tries, withMore } from '../support/tries.ts';
import {
  allItems,
  allTexts,
  exampleText,
  type SheetSet,
  sheetSet,
  sheetSetAnew,
  sheetTroubles,
  someHash,
  tableRows,
} from './sheetSets.ts';

/** Trimmed sizes of ISO 5457:1999 in millimeters, from memory; the A series of ISO 216. */
const trimmed = { A4: [210, 297], A3: [420, 297], A2: [594, 420], A1: [841, 594], A0: [1189, 841] } as const;

const windings: Readonly<Record<string, string>> = {
  '48 slots, hairpins': exampleText('harbor-ferry-pod-drive'),
  'tooth coils': exampleText('tidal-pump'),
  'crossed bars between two gaps': exampleText('cable-ferry-drum'),
  'two three-phase sets': exampleText('dredge-pump'),
  '24 slots, 8 layers': `winding "Lock-gate pump"
    machine { slots 24 poles 4 phases 3 voltage 690 V drive-end far }
    layout { layers 8 span 6 } connect { star route paths 4 }`,
  '120 slots': `winding "Tidal barrage"
    machine { slots 120 poles 20 phases 3 } layout { layers 2 span 6 } connect { star route paths 4 }`,
  'not joined': 'winding "Draft"\nmachine { slots 36 poles 4 phases 3 } layout { layers 2 span 8 }',
  '26 layers': `winding "Deep slots"\n machine { slots 12 poles 2 phases 3 }
    layout { layers 26 span 6 } connect { delta route paths 2 }`,
  '15 phases, leaning': `winding "Fifteen"\n machine { slots 60 poles 2 phases 15 }
    layout { layers 2 span 27 skew all 9 slot } connect { open }`,
};

const sizes: readonly [winding: string, size: keyof typeof trimmed][] = [
  ['48 slots, hairpins', 'A4'],
  ['tooth coils', 'A4'],
  ['crossed bars between two gaps', 'A1'],
  ['two three-phase sets', 'A3'],
  ['24 slots, 8 layers', 'A4'],
  ['120 slots', 'A4'],
  ['not joined', 'A3'],
  ['26 layers', 'A4'],
  ['15 phases, leaning', 'A1'],
];
const moreSizes: typeof sizes = [
  ['tooth coils', 'A3'],
  ['48 slots, hairpins', 'A1'],
  ['crossed bars between two gaps', 'A4'],
  ['24 slots, 8 layers', 'A1'],
  ['120 slots', 'A3'],
  ['15 phases, leaning', 'A3'],
];

/** A winding on sheets of a size, with a note. */
const noted = (name: string, size: string) =>
  sheetSet(windings[name]!, `sheet-size ${size} note "Clean bare ends before joining."`);

test.each(withMore(sizes, moreSizes))('%s on %s', (name, size) => {
  const set = noted(name, size);
  expect(sheetTroubles(set)).toEqual([]);
  for (const { width, height } of set.pages) expect([width, height]).toEqual(trimmed[size]);
  // All sheets go through one writer: one of each set is read back, and all of those with hostile words.
  readXml(pictureToSvg(set.pages[0]!));
  expectComplete(set);
});

/** Every bar once in the layout of all phases and once in the layouts of single phases; every number in a table. */
function expectComplete(set: SheetSet): void {
  const { winding, facts } = set.study;
  const bars = [...barsOf(winding!.table)].sort();
  const drawn = allItems(set).filter(({ role, subject }) => role === 'bar' && subject && 'bar' in subject);
  const names = (pattern: RegExp) =>
    drawn
      .filter(({ id }) => pattern.test(id))
      .map(({ subject }) => (subject as { bar: string }).bar)
      .sort();
  expect(names(/^layout-\d+-bar-/)).toEqual(bars);
  expect(names(/^layout-\d?[A-Z]-\d+-bar-/)).toEqual(bars);
  const slots = allTexts(set).filter(({ id }) => /^slots-a-\d+-0$/.test(id));
  expect(slots.map(({ text }) => Number(text))).toEqual(
    Array.from({ length: winding!.slots }, (_, index) => index + 1),
  );
  if (facts!.connection.kind !== 'connected') return;
  const report = set.study.report();
  const listed = [
    ...tableRows(set, 'joints').map((row) => Number(row.at(-8))),
    ...tableRows(set, 'crowns').map((row) => Number(row[0])),
    ...tableRows(set, 'ends').map((row) => Number(row[0])),
  ].sort((a, b) => a - b);
  expect(listed).toEqual(report.joints.map(({ number }) => number).sort((a, b) => a - b));
  const counts = new Map<number, number>();
  for (const row of tableRows(set, 'bar-list').slice(0, -1)) {
    const shape = Number.parseInt(row[0]!, 10);
    counts.set(shape, (counts.get(shape) ?? 0) + Number(row[8]));
  }
  expect([...counts]).toEqual(report.shapes.bars.map(({ number, count }) => [number, count]));
  for (const { number } of report.shapes.bars)
    expect(allTexts(set).filter(({ id }) => id === `bar-shape-${number}-heading`)).toHaveLength(1);
}

test('A3 where the text names no size', () => {
  const [page] = sheetSet(windings['tooth coils']!).pages;
  expect([page!.width, page!.height]).toEqual(trimmed.A3);
});

test('A2 and A0 have their sizes', () => {
  for (const size of ['A2', 'A0'] as const) {
    const set = sheetSet(windings['tooth coils']!, `sheet-size ${size}`);
    expect(sheetTroubles(set)).toEqual([]);
    expect([set.pages[0]!.width, set.pages[0]!.height]).toEqual(trimmed[size]);
  }
});

test('rows of joints agree with the report', () => {
  const set = sheetSet(windings['48 slots, hairpins']!);
  const joints = new Map(set.study.report().joints.map((joint) => [joint.number, joint]));
  const rows = [
    ...tableRows(set, 'joints').map((row) => row.slice(-8)),
    ...tableRows(set, 'crowns'),
  ] as string[][];
  expect(rows).toHaveLength(186);
  for (const [number, side, , from, to, span] of rows) {
    const joint = joints.get(Number(number))!;
    const spanNumber = Number(span!.replace('\u2212', '-'));
    expect({ from, to, span: spanNumber, far: side === 'far' }).toEqual({
      from: joint.from,
      to: joint.to,
      span: joint.span,
      far: joint.side === 'far',
    });
  }
});

test('the welder’s order is the one in which no joint hides another', () => {
  const set = noted('24 slots, 8 layers', 'A4');
  const { connection } = set.study.facts!;
  if (connection.kind !== 'connected') throw new RangeError('not connected');
  const crowns = new Set(connection.facts.barShapes().flatMap((shape) => shape.crowns));
  const order = connection.facts.access().order.filter((number) => !crowns.has(number));
  expect(tableRows(set, 'joints').map((row) => Number(row.at(-8)))).toEqual(order);
});

test('every row of a layout is numbered at both ends alike', () => {
  const set = noted('120 slots', 'A4');
  const cuts = allTexts(set).filter(({ id, role }) => role === 'cut-number' && id.startsWith('layout-'));
  const at = (row: number, edge: string) =>
    cuts
      .filter(({ id }) => id.startsWith(`layout-${row}-cut-${edge}-`))
      .map(({ text }) => text)
      .sort();
  const rows = Math.max(...cuts.flatMap(({ id }) => Number(/^layout-(\d+)-cut/.exec(id)?.[1] ?? 0)));
  expect(rows).toBeGreaterThan(5);
  for (let row = 1; row <= rows; row++) {
    expect(at(row, 'right').length).toBeGreaterThan(0);
    expect(at(row, 'right')).toEqual(at((row % rows) + 1, 'left'));
  }
});

test('a joint’s pieces are as long together as its true span', () => {
  const set = noted('120 slots', 'A4');
  const { connection } = set.study.facts!;
  if (connection.kind !== 'connected') throw new RangeError('not connected');
  const items = allItems(set);
  const [first, second] = [1, 2].map(
    (slot) => items.find(({ id }) => id === `layout-1-slot-${slot}`) as Text,
  );
  const pitch = second!.x - first!.x;
  const reach = new Map<number, number>();
  for (const item of items) {
    const number = Number(/^layout-\d+-joint-(\d+)$/.exec(item.id)?.[1]);
    if (item.kind !== 'path' || Number.isNaN(number)) continue;
    const across = item.parts.reduce((sum, part) => sum + Math.abs(part.at(-2)! - part[0]!), 0);
    reach.set(number, (reach.get(number) ?? 0) + across);
  }
  const inSlot = (layer: number) =>
    (items.find(({ id }) => id === `layout-1-label-1${'ab'[layer]}`) as Text).x - first!.x;
  for (const { number, span, from, to } of connection.facts.joints().joints) {
    const wanted = Math.abs(span * pitch + inSlot(to.layer) - inSlot(from.layer));
    expect(reach.get(number), `joint ${number} ${barName(from)}`).toBeCloseTo(wanted, 6);
  }
});

describe('title block', () => {
  const block = `owner "Estuary Drives workshop" number "EW-104-B" revision "B" date "2026-05-01"
    drawn-by "Winding office" approved-by "Head of shop" status "In work" language "en" title "Pod drive"`;

  function fieldsOf(set: SheetSet, page: number): Readonly<Record<string, string>> {
    const items = flat(set.pages[page]!.items);
    return Object.fromEntries(
      items.flatMap((item) => {
        const key = /^field-(?!name-)(.+)$/.exec(item.id)?.[1];
        return item.kind === 'text' && key ? [[key, item.text]] : [];
      }),
    );
  }

  test('holds the fields of ISO 7200 on every sheet', () => {
    const set = sheetSet(windings['tooth coils']!, block);
    set.pages.forEach((_, page) => {
      expect(fieldsOf(set, page)).toMatchObject({
        owner: 'Estuary Drives workshop',
        number: 'EW-104-B',
        revision: 'B',
        date: '2026-05-01',
        'drawn-by': 'Winding office',
        'approved-by': 'Head of shop',
        'document-type': 'Winding drawing',
        status: 'In work',
        language: 'en',
        title: 'Pod drive',
        size: 'A3',
        sheet: `${page + 1} of ${set.pages.length}`,
      });
    });
  });

  test('takes the winding’s title, and no date where none is given', () => {
    const fields = fieldsOf(sheetSet(windings['tooth coils']!), 0);
    expect(fields.title).toBe('Tidal pump, tooth coils');
    expect(fields).not.toHaveProperty('date');
    expect(fields).not.toHaveProperty('owner');
  });

  test('is 180 mm wide and ends at the frame’s corner', () => {
    // ISO 7200:2004, from memory: no wider than 180 mm.
    const lines = allItems(sheetSet(windings['tooth coils']!)).find(({ id }) => id === 'title-block-lines');
    if (lines?.kind !== 'path') throw new RangeError('no lines');
    const xs = lines.parts.flatMap((part) => part.filter((_, index) => index % 2 === 0));
    expect(Math.max(...xs)).toBe(410);
    expect(Math.max(...xs) - Math.min(...xs)).toBeLessThanOrEqual(180);
  });

  test('each field lies within its cell, however long', () => {
    const long = 'Working party for long names '.repeat(300);
    const fields = ['owner', 'number', 'revision', 'drawn-by', 'approved-by', 'document-type', 'status'];
    const set = sheetSet(
      windings['tooth coils']!,
      [...fields, 'title', 'note'].map((field) => `${field} "${long}"`).join(' '),
    );
    expect(sheetTroubles(set)).toEqual([]);
    const shown = fieldsOf(set, 0);
    for (const field of [...fields.slice(1), 'title']) expect(shown[field], field).toMatch(/…$/);
    expect(shown['owner-2']).toMatch(/…$/);
  });
});

test('hostile words neither break a sheet nor leave it', () => {
  const quoted = hostileWords
    .replaceAll('\\', '\\\\')
    .replaceAll('"', '\\"')
    .replace(/[\r\n]/g, ' ');
  const text = windings['tooth coils']!.replace('"Tidal pump, tooth coils"', () => `"${quoted}"`);
  const set = sheetSet(text, `owner "${quoted}" number "${quoted}" note "${quoted}"`);
  expect(sheetTroubles(set)).toEqual([]);
  for (const page of set.pages) {
    const svg = pictureToSvg(page);
    readXml(svg);
    expect(svg).not.toMatch(/<script|[\u0000-\u0008\u000b-\u001f\u202e]/);
  }
});

describe('what is not released', () => {
  const failing = `${windings['tooth coils']!.replace(/require \{[^}]*\}/, '')}
    require { winding-factor harmonic 1 >= 0.999  differential-leakage <= 0.1 % }`;

  test('says so on every sheet, with the number of errors', () => {
    const set = sheetSet(failing);
    expect(sheetTroubles(set)).toEqual([]);
    const errors = set.study.findings.filter(({ severity }) => severity === 'error');
    expect(errors).toHaveLength(2);
    for (const { items } of set.pages) {
      const words = flat(items).filter(({ role }) => role === 'band-text') as Text[];
      expect(words.map(({ text }) => text)).toEqual(['NOT RELEASED: 2 errors']);
      const status = flat(items).find(({ id }) => id === 'field-status') as Text;
      expect(status.text).toBe('NOT RELEASED');
    }
    const all = allTexts(set)
      .map(({ text }) => text)
      .join(' ');
    for (const { message } of errors) expect(all).toContain(message.slice(0, 30));
  });

  test('a winding without errors has no band', () => {
    expect(allItems(sheetSet(windings['tooth coils']!)).some(({ role }) => role === 'band-text')).toBe(false);
  });
});

describe('test values', () => {
  const testValue = (set: SheetSet, name: string) =>
    tableRows(set, 'tests').find((row) => row[0]!.startsWith(name))?.[1];
  const machine = (words: string) =>
    sheetSet(`winding "M"\n machine { slots 12 poles 2 phases 3 ${words} } layout { layers 2 span 5 }
      connect { star }`);

  test('withstand voltage: 2U + 1000 V, at least 1500 V', () => {
    // IEC 60034-1, from memory; the sheet says so.
    expect(testValue(machine('voltage 400 V'), 'Withstand')).toBe('1800 V rms');
    expect(testValue(machine('voltage 100 V'), 'Withstand')).toBe('1500 V rms');
    expect(testValue(machine(''), 'Withstand')).toBeUndefined();
    expect(tableRows(machine('voltage 400 V'), 'tests').flat().join(' ')).toContain('from memory: verify');
  });

  test('rotation turns round when seen from the other end', () => {
    const seen = (words: string) => [
      testValue(machine(words), 'Rotation seen from the connection'),
      testValue(machine(words), 'Rotation seen from the drive'),
    ];
    // A 2-pole winding with U V W rising with the slot numbers: the wave runs with them, and
    // the slot numbers are clockwise as seen from the connection side.
    expect(seen('')).toEqual(['clockwise', undefined]);
    expect(seen('drive-end connection')).toEqual(['clockwise', 'clockwise']);
    expect(seen('drive-end far')).toEqual(['clockwise', 'counterclockwise']);
  });

  test('agree with the report', () => {
    const set = sheetSet(windings['48 slots, hairpins']!);
    const { copper, factors } = set.study.report();
    const shown = (name: string) => Number.parseFloat(testValue(set, name)!);
    expect(shown('Resistance of a phase') / 1e3).toBeCloseTo(copper!.resistance.phase20!, 6);
    expect(shown('Resistance between two line terminals') / 1e3).toBeCloseTo(copper!.resistance.line20!, 6);
    expect(shown('Mass')).toBeCloseTo(copper!.mass!, 2);
    expect(shown('Winding factor')).toBeCloseTo(factors[3]!.winding, 4);
  });
});

test('notes, cautions, hash and revision are there', () => {
  const set = sheetSet(windings['tooth coils']!, 'revision "C" note "Bake slowly." note "Then test."');
  const words = allTexts(set).map(({ text }) => text);
  expect(words).toEqual(expect.arrayContaining(['Bake slowly.', 'Then test.', someHash.slice(0, 32)]));
  expect(words.some((each) => each.startsWith('Preliminary design aid.'))).toBe(true);
  expect(words.some((each) => each.includes('Revision: C'))).toBe(true);
});

test('an outside diameter that bore and slots give stands among the machine data as such', () => {
  const slot = '{ width 5 mm depth 9 mm opening 3 mm opening-height 0.6 mm liner 0.3 mm }';
  const left = `winding "Drum" machine { slots 12 poles 2 phases 3 gap both bore 40 mm stack 30 mm }
    slot a ${slot}\n slot b ${slot}
    layout { layers 2 span 6 skew a +1 slot skew b -1 slot }`;
  const words = allTexts(sheetSet(left)).map(({ text }) => text);
  // Twice two slots with their openings: 4 x 9.6 mm.
  expect(words).toContain('78.4 mm, from bore and slots');
  expect(words.filter((each) => each.startsWith('Not given'))).not.toContainEqual(
    expect.stringContaining('outside'),
  );
  const neither = allTexts(sheetSet(left.replaceAll('opening-height 0.6 mm', ''))).map(({ text }) => text);
  expect(neither.find((each) => each.startsWith('Not given'))).toContain('outside');
});

test('without paths the sheets say what is missing', () => {
  const words = allTexts(sheetSet(windings['not joined']!))
    .map(({ text }) => text)
    .join(' ');
  expect(words).toContain('The text does not say how the bars are joined');
});

test('the list of sheets names the sheet on which each section begins', () => {
  const set = sheetSet(windings['48 slots, hairpins']!);
  const texts = allTexts(set);
  const named = texts.filter(({ id }) => /^contents-\d+$/.test(id));
  expect(named.length).toBeGreaterThan(10);
  for (const { id, text } of named) {
    const number = Number(
      texts.find((other) => other.id === id.replace('contents-', 'contents-sheet-'))!.text,
    );
    const shows = flat(set.pages[number - 1]!.items).find((item) => item.id === 'field-shows') as Text;
    expect(shows.text.toLowerCase()).toContain(text.toLowerCase());
  }
});

test('the same text gives the same sheets', () => {
  const bytes = () => sheetSetAnew(windings['tooth coils']!).pages.map(pictureToSvg).join('');
  expect(bytes()).toBe(bytes());
});

test('a winding that leans too far for the sheet is said to need a larger one', () => {
  const text = `winding "Leaning"\n machine { slots 48 poles 4 phases 3 }
    layout { layers 4 span 10 skew all 30 slot }`;
  const words = (size: string) =>
    allTexts(sheetSet(text, `sheet-size ${size}`))
      .map(({ text: each }) => each)
      .join(' ');
  expect(words('A4')).toContain('name a larger sheet-size');
  expect(sheetTroubles(sheetSet(text, 'sheet-size A4'))).toEqual([]);
});

const anyText = fc
  .record({
    poles: fc.integer({ min: 1, max: 8 }).map((pairs) => 2 * pairs),
    perPole: fc.integer({ min: 1, max: 4 }),
    phases: fc.constantFrom('3', '5', '6 apart 30 edeg', '7'),
    layers: fc.integer({ min: 1, max: 8 }),
    chord: fc.integer({ min: 0, max: 2 }),
    lean: fc.constantFrom('', 'skew all 1.3 slot', 'skew all -2 slot'),
    connection: fc.constantFrom('star', 'delta', 'open'),
    form: fc.constantFrom('hairpin', 'straight'),
    paths: fc.integer({ min: 1, max: 4 }),
    size: fc.constantFrom('A4', 'A3', 'A2'),
  })
  .map((any) => {
    const phases = Number.parseInt(any.phases, 10);
    const slots = any.poles * any.perPole * phases;
    const span = Math.max(1, any.perPole * phases - any.chord);
    return `winding "Any"\n machine { slots ${slots} poles ${any.poles} phases ${any.phases} }
      bar { form ${any.form} } layout { layers ${any.layers} span ${span} ${any.lean} }
      connect { ${any.connection} route paths ${any.paths} } sheet { sheet-size ${any.size} }`;
  });

test('any winding has good sheets', () => {
  let drawn = 0;
  fc.assert(
    fc.property(anyText, (text) => {
      fc.pre(!/slots (1[2-9]\d|[2-9]\d\d)/.test(text));
      let set: SheetSet;
      try {
        set = sheetSet(text);
      } catch (error) {
        // Layouts that the generator refuses have no sheets; sheets themselves never throw.
        if (error instanceof RangeError && error.message.startsWith('no winding')) return;
        throw error;
      }
      drawn++;
      expect(sheetTroubles(set)).toEqual([]);
    }),
    { seed: 7, numRuns: tries(4) },
  );
  expect(drawn).toBeGreaterThan(tries(4) / 3);
});
