// Takes its time: makes everything of every example.

import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findingLines } from '../cli/outcome.ts';
import { plural } from '../core/language/lists.ts';
import { decimal, fixed, percent, significant } from '../core/language/numbers.ts';
import type { Primitive } from '../core/picture/picture.ts';
import { pictureToSvg } from '../core/picture/svg.ts';
import { junitXml } from '../core/report/junit.ts';
import { compare } from '../core/review/compare.ts';
import { comparisonMarkdown } from '../core/review/markdown/markdown.ts';
import { schedule, scheduleTables } from '../core/tables/schedule.ts';
import { drawView, viewNames } from '../core/views/views.ts';
import { flat } from './picture/checkPicture.ts';
import { sheetSet } from './sheets/sheetSets.ts';
import { examples, projectFolder } from './support/files.ts';
import { type Study, study } from './support/study.ts';

const wide = { machine: 'bore 162 mm stack 96 mm speed 3600 rpm current 210 A flux 4.1 mWb', sizes: '' };
wide.sizes =
  'slot { width 4.6 mm depth 15.2 mm opening 1.2 mm liner 0.25 mm }\nbar { width 3.6 mm height 3 mm end-clearance 0.6 mm }';

/** Windings that have one of a thing, or values about zero. */
const edgeCases: readonly (readonly [string, string])[] = [
  ['one coil a phase', 'machine { slots 6 poles 2 phases 3 } layout { layers 1 span 3 } connect { star }'],
  ['one path', 'machine { slots 12 poles 2 phases 3 } layout { layers 2 span 5 } connect { delta }'],
  ['a step of layers', 'machine { slots 12 poles 2 phases 3 } layout { layers 4 span 6 } connect { star }'],
  ['tooth coils', 'machine { slots 3 poles 2 phases 3 } layout { layers 2 span 1 } connect { star }'],
  ['one turn', 'machine { slots 12 poles 8 phases 3 } layout { layers 1 span 1 } connect { star }'],
  [
    'two paths of a large machine',
    `machine { slots 48 poles 8 phases 3 ${wide.machine} rotor-skew -1 slot } ${wide.sizes} layout { layers 2 span 5 skew all -1 slot } connect { star route paths 2 }`,
  ],
  [
    'more than fits',
    'machine { slots 97 poles 2 phases 3 } layout { layers 1 layer a (+U -U)*48 +V } connect { open }',
  ],
  [
    'one error, one bar short',
    'machine { slots 6 poles 2 phases 3 } layout { layers 1 layer a +U -W +V -U +W } connect { star }',
  ],
  [
    'one limit, not held',
    'machine { slots 12 poles 2 phases 3 } layout { layers 2 span 6 stagger 1 } connect { star } require { bar-shapes <= 1 }',
  ],
  [
    'written paths of one bar',
    'machine { slots 6 poles 2 phases 3 } layout { layers 1 span 3 } bar { form straight } connect { open\n path U 1 from U1 1a to U2 far\n path U 2 from U1 4a to U2 far\n }',
  ],
  [
    'one special joint on the far side',
    'machine { slots 12 poles 2 phases 3 } layout { layers 2 span 6 } connect { star\n path U 1 from U1 1a +6b +6a | -5a +6b +5b -6a +6b to N\n }',
  ],
  [
    'one lead in an inner layer, one leg bent apart',
    'machine { slots 12 poles 4 phases 3 } layout { layers 4 span 3 } connect { star route paths 2 }',
  ],
];

/** The bars in space take as long as their drawing is large. */
const little = { coarse: true, room: { width: 90, height: 80 } };

/** Every text that comes out of a winding, by where it comes out. */
function outputs(name: string, text: string, before: Study | null): readonly (readonly [string, string])[] {
  const studied = study(text);
  const { facts, specification, title, findings, limits } = studied;
  const report = studied.report();
  const pages = facts ? sheetSet(text).pages : [];
  const views = facts
    ? viewNames.map(
        (view) =>
          [view, drawView({ title, specification, facts }, view, view === 'space' ? little : {})] as const,
      )
    : [];
  const comparison = comparisonMarkdown(compare(before, studied), 'old', 'new');
  return [
    ['check', findingLines(name, text, findings)],
    ['junit', junitXml([{ file: name, text, findings, limits }])],
    ['markdown', studied.markdown()],
    ['json', JSON.stringify(report, null, 1)],
    [
      'figures',
      studied
        .keyFigures()
        .map(({ label, value }) => `${label}: ${value}`)
        .join('\n'),
    ],
    ...[...views, ...pages.map((page, i) => [`sheet ${i + 1}`, page] as const)].map(
      ([view, picture]) =>
        [
          view,
          [picture.title, picture.description, ...(picture.notes ?? []), ...written(picture.items)].join(
            '\n',
          ),
        ] as const,
    ),
    // Of all of them, which go through one writer, the layout, the charts of operation and the first sheet.
    ...[
      ...views.filter(([view]) => view === 'layout' || view === 'operation'),
      ...pages.slice(0, 1).map((page) => ['sheet 1', page] as const),
    ].map(([view, picture]) => [`${view} drawn`, pictureToSvg(picture)] as const),
    ...(facts ? scheduleTables.map((table) => [`csv ${table}`, schedule(facts, table)] as const) : []),
    ['comparison', comparison],
  ].map(([where, content]) => [`${name}: ${where}`, content!] as const);
}

function written(items: readonly Primitive[]): readonly string[] {
  return flat(items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
}

let all: readonly (readonly [string, string])[];
beforeAll(() => {
  const texts = [...examples.map(({ name, text }) => [name, text] as const), ...edgeCases];
  let before: Study | null = null;
  all = texts.flatMap(([name, text]) => {
    const found = outputs(name, text, before);
    before = study(text);
    return found;
  });
});

// The files share a worker's memory.
afterAll(() => {
  all = [];
});

describe('what is counted', () => {
  it('stands in the singular where it is one', () => {
    expect([
      '3 bars',
      '1 bar',
      '-1 slot',
      '+1 slot',
      '\u22121 slot',
      '1.5 slots',
      '0 bars',
      '21 bars',
    ]).toEqual([
      plural(3, 'bar'),
      plural(1, 'bar'),
      plural(-1, 'slot'),
      plural('+1', 'slot'),
      plural('\u22121', 'slot'),
      plural('1.5', 'slot'),
      plural(0, 'bar'),
      plural(21, 'bar'),
    ]);
    expect(plural(2, 'slot pitch', 'slot pitches')).toBe('2 slot pitches');
  });

  // `1 pieces`, `1 bar shapes`, `1 of 1 required limits hold`.
  it('and does so in every text of every winding', () => {
    const one =
      /(?<![\w.,/^+\u2212-] ?)(?<!\b(?:layer|layers|slots?|order|path|phase|from|to|line|number|sheet|is|a) )1 (?:(?:more|special|separate|connecting|bar|joint|hairpin|required|winding|parallel|layer|slot|pole|changed|new|electrical|mechanical) )*(?:pieces|shapes|joints|bars|steps|layers|slots|poles|paths|legs|leads|errors|warnings|remarks|findings|files|rows|limits|degrees|pitches|pairs|places|coils|levels|turns|numbers|statements|strands|schedules)\b/g;
    const wrong = all.flatMap(([where, text]) =>
      [...text.matchAll(one)].map((match) => `${where}: ${text.slice(match.index - 30, match.index + 40)}`),
    );
    expect(wrong).toEqual([]);
  });

  it('is worded by one helper: nowhere else a plural is made by hand', () => {
    const byHand = sources().flatMap(([name, source]) =>
      /\? '' : 's'|\? 's' : ''|=== 1 \? '[a-z]+' : '[a-z]+s'/.test(source) ? [name] : [],
    );
    expect(byHand).toEqual([]);
  });
});

/** Sources of all that speaks to people. */
function sources(): readonly (readonly [string, string])[] {
  return ['core', 'cli', 'extension'].flatMap((folder) =>
    readdirSync(`${projectFolder}${folder}`, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map(
        (name) => [`${folder}/${name}`, readFileSync(`${projectFolder}${folder}/${name}`, 'utf8')] as const,
      ),
  );
}

describe('a zero', () => {
  it('has no sign, however it came about', () => {
    for (const value of [-0, -1e-9, -0.00004, -0.49e-3]) {
      expect(fixed(value, 3)).toBe('0.000');
      expect(decimal(value, 3)).toBe('0');
    }
    expect(significant(-0)).toBe('0');
    expect(percent(-0)).toBe('0 %');
    expect([fixed(-1.5, 1), decimal(-1.5), significant(-1.5)]).toEqual(['-1.5', '-1.5', '-1.5']);
  });

  it('has none in any output of any winding', () => {
    const signed = /(?<![\w.\u2212-])[-\u2212]0(?:\.0+)?(?![\w.]|\u2212)/g;
    const wrong = all.flatMap(([where, text]) =>
      [...text.matchAll(signed)].map(
        (match) => `${where}: ${text.slice(match.index - 30, match.index + 20)}`,
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('is written by one formatter: nowhere else are digits made', () => {
    const byHand = sources()
      .filter(([name]) => name !== 'core/language/numbers.ts')
      .flatMap(([name, source]) =>
        /\.to(?:Fixed|Precision|Exponential|LocaleString)\(/.test(source) ? [name] : [],
      );
    expect(byHand).toEqual([]);
  });
});
