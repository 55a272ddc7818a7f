import { describe, expect, test } from 'vitest';
import { troubleWords } from '../../core/tables/import/grid.ts';
import type { TableWishes } from '../../core/tables/import/head.ts';
import { windingFromTable } from '../../core/tables/import/windingFromTable.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { study } from '../support/study.ts';

/** Slots of a plain winding of 12 slots and 2 poles: two slots a belt, +U -W +V -U +W -V. */
const belts = ['+U', '+U', '-W', '-W', '+V', '+V', '-U', '-U', '+W', '+W', '-V', '-V'];

const original = study(`winding "Sluice gate"
machine { slots 12 poles 2 phases 3 }
layout { layers 2 span 6 }
connect { star route paths 1 }
`);

function imported(csv: string, wishes: TableWishes = {}) {
  const made = windingFromTable(csv, wishes);
  if (made.kind !== 'winding')
    throw new Error(made.kind === 'lacking' ? made.words : made.troubles.map(troubleWords).join('\n'));
  const studied = study(made.text);
  expect(studied.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  return { ...made, studied, cells: [...studied.facts!.winding.table.cells] };
}

function refusal(csv: string, wishes: TableWishes = {}): readonly string[] {
  const made = windingFromTable(csv, wishes);
  if (made.kind === 'winding') return [];
  return made.kind === 'lacking' ? [made.words] : made.troubles.map(troubleWords);
}

/** A slot table with places as given, `at` writing the place of a slot in a layer. */
const wide = (
  at: (place: string, layer: number, slot: number) => string,
  delimiter = ',',
  head = 'slot,a,b',
) =>
  [
    head.replaceAll(',', delimiter),
    ...belts.map((place, i) => [String(i + 1), at(place, 0, i), at(place, 1, i)].join(delimiter)),
  ].join('\r\n');

const cells = [...original.facts!.winding.table.cells];

describe('our own schedules come back as the winding they are of', () => {
  test('slots', () => {
    const { studied, notes } = imported(schedule(original.facts!, 'slots'));
    expect([...studied.facts!.winding.table.cells]).toEqual(cells);
    expect(notes).toEqual(["poles 2 is that of the table's strongest wave"]);
  });

  test('bars, with their paths: the same joints, in star, delta and open', () => {
    for (const connection of ['star', 'delta', 'open'] as const) {
      const text = original.text.replace('star', connection).replace('paths 1', 'paths 2');
      const before = study(text);
      const { studied } = imported(schedule(before.facts!, 'bars'), { connection });
      expect(studied.report({ orders: 1 }).paths).toEqual(before.report({ orders: 1 }).paths);
      const joints = (of: typeof studied) =>
        of.report({ orders: 1 }).joints.map(({ from, to, span, side }) => ({ from, to, span, side }));
      expect(joints(studied)).toEqual(joints(before));
    }
  });

  test('six phases in two sets', () => {
    const sets = study(
      'winding "T"\nmachine { slots 24 poles 2 phases 6 apart 30 edeg }\nlayout { layers 2 span 11 }\n',
    );
    const { studied } = imported(`phases,6 apart 30 edeg\r\n${schedule(sets.facts!, 'slots')}`);
    expect([...studied.facts!.winding.table.cells]).toEqual([...sets.facts!.winding.table.cells]);
    expect(studied.facts!.winding.phases.axes).toEqual(sets.facts!.winding.phases.axes);
  });

  test('places without a bar', () => {
    const half = study(`winding "T"
machine { slots 12 poles 2 phases 3 }
layout {
  layers 2
  layer a  +U . -W . +V . -U . +W . -V .
  layer b  . +U . -W . +V . -U . +W . -V
}`);
    const table = half.facts!.winding.table;
    expect(imported(schedule(half.facts!, 'slots')).cells).toEqual([...table.cells]);
    expect(imported(wide((place, layer, i) => (layer === i % 2 ? place : '-'))).cells).toEqual([
      ...table.cells,
    ]);
  });
});

describe('slot tables of a spreadsheet', () => {
  const plain = imported(wide((place) => place));

  test('any usual delimiter, marks of order, blanks and line ends', () => {
    for (const csv of [
      wide((place) => place, ';'),
      wide((place) => place, '\t'),
      wide((place) => ` ${place} `, '|'),
      `\ufeffsep=;\n${wide((place) => place, ';').replaceAll('\r\n', '\n')}\n\n`,
      wide((place) => `"${place}"`),
      `\r\n,,\r\n${wide((place) => place)}\r\n,,\r\n`,
    ])
      expect(imported(csv).cells).toEqual(plain.cells);
  });

  test.each<readonly [string, (place: string) => string]>([
    ['behind the phase', (place) => `${place[1]}${place[0]}`],
    ['a true minus, nothing for plus', (place) => place.replace('-', '\u2212').replace('+', '')],
    ['a prime', (place) => (place[0] === '-' ? `${place[1]}'` : place[1]!)],
    ['a curved prime', (place) => (place[0] === '-' ? `${place[1]}\u2032` : place[1]!)],
    ['small letters back', (place) => (place[0] === '-' ? place[1]!.toLowerCase() : place[1]!)],
    ['an apostrophe against formulas', (place) => `'${place}`],
    ['arrow tips and tails', (place) => `${place[1]}${place[0] === '-' ? '\u2299' : '\u2297'}`],
  ])('the sense as %s', (_, write) => {
    expect(imported(wide(write)).cells).toEqual(plain.cells);
  });

  test.each([
    ['A B C', 'ABC'],
    ['R S T', 'RST'],
    ['1 2 3', '123'],
  ])('phases %s, told', (_, names) => {
    const made = imported(wide((place) => place[0]! + names['UVW'.indexOf(place[1]!)]));
    expect(made.cells).toEqual(plain.cells);
    expect(made.notes).toContain(`the phases ${[...names].join(' ')} of the table are U V W`);
  });

  test('senses in columns of their own, with a decimal comma', () => {
    const rows = belts.map((place, i) => `${i + 1},0;${place[1]};${place[0]}1,0;${place[1]};${place[0]}1`);
    const csv = [
      'Nut;Lage 1;Richtung Lage 1;Lage 2;Richtung Lage 2',
      ...rows.map((row) => row.replaceAll('+', '')),
    ];
    const made = imported(csv.join('\n').replace(/^(\d+),0/gm, '$1'));
    expect(made.cells).toEqual(plain.cells);
    expect(imported(csv.join('\n')).cells).toEqual(plain.cells);
    expect(made.notes).toContain('layer 1 of the table is taken as the one nearest the axis, a');
  });

  test('layers by number from outside, layers as rows, headings of other kinds, rows in any order', () => {
    const chorded = (place: string, layer: number, i = belts.indexOf(place)) =>
      layer === 0 ? place : belts[(i + 1) % 12]!;
    const byLetter = imported(wide(chorded), { poles: 2 }).cells;
    const reversed = wide((place, layer, i) => chorded(place, 1 - layer, i), ';', 'slot,1,2');
    expect(imported(`first layer;outside\n${reversed}`, { poles: 2 }).cells).toEqual(byLetter);
    expect(imported(wide(chorded, ',', 'Slot No.,Inner layer,Outer layer'), { poles: 2 }).cells).toEqual(
      byLetter,
    );
    expect(imported(wide(chorded, ',', 'SLOT,Layer A,Layer_B'), { poles: 2 }).cells).toEqual(byLetter);
    const across = [
      ['layer', ...belts.map((_, i) => i + 1)],
      ['b', ...belts.map((place, i) => chorded(place, 1, i))],
      ['a', ...belts],
    ];
    expect(imported(across.map((row) => row.join(';')).join('\n'), { poles: 2 }).cells).toEqual(byLetter);
    const [head, ...rows] = wide(chorded).split('\r\n');
    expect(imported([head, ...rows.reverse()].join('\n'), { poles: 2 }).cells).toEqual(byLetter);
  });

  test('rows above the table are read; the row of a layer is written by what repeats itself', () => {
    const made = imported(
      `Winding of the "lock" pump\n\npoles: 2\nslots;12;;\nconnection;delta\n${wide((place) => place, ';')}`,
    );
    expect(made.text).toContain('winding "Winding of the \\"lock\\" pump"');
    expect(made.text).toMatch(/layer +a +\+U \+U -W -W \+V \+V +repeat 2 alternating/);
    expect(made.text).toContain('delta');
    expect(made.notes).toEqual([]);
    // A heading over merged cells is no title.
    expect(imported(`;Layer;\n${wide((place) => place, ';')}`).text).toContain('winding "Imported winding"');
    expect(imported(`${wide((place) => place).replace('slot,a,b', 'slot,a,b,remark')}`).notes).toContain(
      "column D ('remark') was not read",
    );
  });

  test('tooth coils fit several numbers of poles: none is guessed', () => {
    const teeth = study('winding "T"\nmachine { slots 12 poles 10 phases 3 }\nlayout { layers 2 span 1 }\n');
    const csv = schedule(teeth.facts!, 'slots');
    expect(refusal(csv)).toEqual([
      'the table does not tell the number of poles, and its waves fit 10, 14 poles.',
    ]);
    expect([...imported(csv, { poles: 14 }).cells]).toEqual([...teeth.facts!.winding.table.cells]);
  });
});

describe('bars of paths', () => {
  const bars = [
    ['1a', '7b', '2a', '8b', '7a', '1b', '8a', '2b'],
    ['5a', '11b', '6a', '12b', '11a', '5b', '12a', '6b'],
    ['9a', '3b', '10a', '4b', '3a', '9b', '4a', '10b'],
  ];
  const wishes = { poles: 2, connection: 'star' } as const;
  const expected = bars.map((own) => own.join(' '));
  const pathsOf = (csv: string) => {
    const made = windingFromTable(csv, wishes);
    if (made.kind !== 'winding') throw new Error(refusal(csv, wishes).join('\n'));
    return study(made.text)
      .report({ orders: 1 })
      .paths.map((path) => path.bars.join(' '));
  };

  test.each<readonly [string, string]>([
    [
      'a row a path, bars in one cell',
      `phase;path;bars\n${bars.map((own, i) => `${'UVW'[i]};1;${own.join(' ')}`).join('\n')}`,
    ],
    [
      'a row a path, a cell a bar',
      `phase,1,2,3,4,5,6,7,8\n${bars.map((own, i) => `${'ABC'[i]},${own.join(',')}`).join('\n')}`,
    ],
    [
      'a column a path',
      ['U1;V1;W1', ...bars[0]!.map((_, k) => bars.map((own) => own[k]).join(';'))].join('\n'),
    ],
    [
      'bars with dashes between',
      `phase;bars\n${bars.map((own, i) => `${'UVW'[i]};${own.join('-')}`).join('\n')}`,
    ],
    [
      'slot and number of the layer',
      `path\tbars\n${bars.map((own, i) => `${'UVW'[i]} 1\t${own.map((bar) => bar.replace('a', '/1').replace('b', '/2')).join(' > ')}`).join('\n')}`,
    ],
    [
      'a row a bar',
      [
        'bar,phase,path,place in path',
        ...bars.flatMap((own, i) => own.map((bar, k) => `${bar},${'UVW'[i]},1,${k + 1}`)).reverse(),
      ].join('\n'),
    ],
  ])('%s', (_, csv) => {
    expect(pathsOf(csv)).toEqual(expected);
  });

  test('a phase whose cell is merged over the rows of its paths counts for all of them, which is told', () => {
    const halves = bars.map((own) => [own.slice(0, 4), own.slice(4)]);
    const csv = `phase;path;bars\n${halves
      .flatMap((own, i) => own.map((half, k) => `${k === 0 ? 'UVW'[i] : ''};${k + 1};${half.join(' ')}`))
      .join('\n')}`;
    expect(pathsOf(csv)).toEqual(halves.flatMap((own) => own.map((half) => half.join(' '))));
    const made = windingFromTable(csv, wishes);
    expect(made.kind === 'winding' && made.notes).toContain(
      'rows without a phase (3, 5, 7) are taken to be of the phase above them, as in merged cells',
    );
    // The first row has none above it.
    expect(refusal(csv.replace('U;1', ';1'), wishes)[0]).toMatch(/^row 2, column A: no phase stands here; /);
  });

  test('a separate connecting piece stays one; how phases are joined is asked for', () => {
    const csv = `phase;bars\n${bars.map((own, i) => `${'UVW'[i]};${own.join(' ').replace(' 7a', ' | 7a')}`).join('\n')}`;
    const made = windingFromTable(csv, wishes);
    expect(made.kind === 'winding' && made.text).toContain('8b | 7a');
    expect(refusal(csv, { poles: 2 })).toEqual([
      'the table does not tell how the phases are joined; star, delta or open is expected.',
    ]);
  });
});

describe('what cannot be read is told at its row and column', () => {
  test.each<readonly [string, string, string]>([
    [
      'a phase',
      wide((place) => place).replace('3,-W', '3,-Q?'),
      "row 4, column B: '-Q?' is not understood; a phase",
    ],
    [
      'a slot',
      wide((place) => place).replace('\n3,', '\nthree,'),
      "row 4, column A: 'three' is no slot; a number from 1",
    ],
    [
      'a slot twice',
      wide((place) => place).replace('\n3,', '\n2,'),
      'row 4, column A: slot 2 has a row above already',
    ],
    ['a slot left out', wide((place) => place).replace('\r\n3,-W,-W', ''), 'slot 3 has no row'],
    ['signs on both sides', wide((place) => `${place}'`), "row 2, column B: '+U'' is not understood"],
    [
      'no phase',
      'slot,layer,phase,sense\n1,a,,1',
      'row 2, column C: no phase stands here; a phase is expected',
    ],
    ['no sense at all', wide((place) => place[1]!), 'no bar carries its phase back; +U and -U'],
    [
      'unknown phases',
      wide((place) => place.replace('W', 'Q')),
      'the phases Q U V are not known; U V W, A B C',
    ],
    [
      'a phase of its own',
      wide((place) => place).replace('3,-W', '3,-X'),
      "row 4, column B: 'X' is no phase of this table; U, V, W are.",
    ],
    [
      'layers of no place',
      wide((place) => place, ',', 'slot,top,bottom'),
      "row 1, column B: 'top' does not say which layer is nearer the axis",
    ],
    ['no header', '1;2;+U\n2;3;-U', 'row 1, column A: these headings are not understood'],
    ['nothing', '', 'there is no table; a header row is expected'],
    [
      'a wrong row above',
      `poles;7\n${wide((place) => place, ';')}`,
      "row 1, column B: '7' stands for poles; an even number from 2 to 2400",
    ],
    ['a bar', 'U1;V1;W1\n1a;5.1;9a', "row 2, column B: '5.1' is no bar (spreadsheets drop the last zero"],
    ['a bar twice', 'U1;V1;W1\n1a;5a;9a\n7b;7b;3b', 'row 3, column B: slot 7, layer b holds a bar already'],
    [
      'a place in the path',
      'bar,phase,path,order\n1a,U,1,1\n7b,U,1,3\n5a,V,1,1\n9a,W,1,1',
      'row 3, column D: place 3 of its path stands here',
    ],
    [
      'a sense against the path',
      'bar,phase,sense,path,order\n1a,U,1,1,1\n7b,U,1,1,2\n5a,V,1,1,1\n9a,W,1,1,1',
      'row 3, column B: path U 1 passes this bar back',
    ],
  ])('%s', (_, csv, words) => {
    const [first] = refusal(csv, { poles: 2, connection: 'star' });
    expect(first).toContain(words);
  });

  test('many troubles are cut, hostile text is shown as such, and nothing throws', () => {
    const many = refusal(`slot;a\n${Array.from({ length: 500 }, (_, i) => `${i + 1};?`).join('\n')}`);
    expect(many).toHaveLength(21);
    expect(many.at(-1)).toBe('480 more rows or cells are wrong.');
    const hostile = refusal('slot;a\n1;\u202e\u0007<b>\n');
    expect(hostile[0]).toContain("'\ufffd\ufffd<b>'");
    for (const csv of [
      '"',
      'slot,a\n"1',
      '\u0000',
      ',',
      ';;;\n;;',
      'sep=',
      'U1\n',
      'slot;a\n2400;+U',
      `a${','.repeat(5000)}`,
    ])
      expect(refusal(csv).length).toBeGreaterThan(0);
  });
});
