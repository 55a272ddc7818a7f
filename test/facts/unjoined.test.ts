import { describe, expect, it, test } from 'vitest';
import { sortedPart } from '../../core/figures/groups.ts';
import { layoutInput } from '../../core/views/layout/connectedLayout.ts';
import { layoutPicture } from '../../core/views/layout/layout.ts';
import { flat } from '../picture/checkPicture.ts';
import { sheetSet } from '../sheets/sheetSets.ts';
import { type Study, study } from '../support/study.ts';

const machine = `winding "Lock gate winch"
machine { slots 48 poles 8 phases 3 bore 162 mm stack 96 mm speed 3600 rpm current 210 A flux 4.1 mWb winding-temperature 120 degC }
slot { width 4.6 mm depth 15.2 mm opening 1.2 mm opening-height 0.8 mm liner 0.25 mm }
bar { width 3.6 mm height 3 mm end-straight 6 mm end-clearance 0.6 mm joint-straight 8 mm }
`;
const checks = `insulation { turn-voltage 100 V }
require { circulating-current <= 5 % bar-shapes <= 9 copper-loss <= 900 W }
`;
const laid = `${machine}layout { layers 2 span 6 }\n`;
const written = (shift: number) => `${laid}connect {
  star
  path U 1 from U1 1a (+6b +6a)*3 +6b +7a (+6b +6a)*3 +6b to N
  path U 2 from U1 2b (-6a -6b)*3 -6a -7b (-6a -6b)*3 -6a to N
  repeat U as V shift ${shift}
  repeat U as W shift 8
}
${checks}`;
const texts = {
  wrong: written(5),
  refused: `${laid}connect { star route paths 5 }\n${checks}`,
  'refused by default': `${machine}layout {
  layers 2
  layer a (+U +U -W -W +V +V -U -U +W +W -V -V)*4
  layer b (+U -W +V -U +W -V)*8
}
connect { star }\n${checks}`,
  misspelled: `${laid}connect { star rout paths 2 }\n${checks}`,
  'not said': `${laid}${checks}`,
} as const;

const why = '5 does not divide 8 pairs of bars of equal voltage and 16 pairs of bars in a layer pair';
const odd = 'in layers a and b no constant span leads each + bar to a - bar of its phase';

/** What is said for each text: why nothing follows from paths, and what the copper's loss needs instead. */
const said: readonly (readonly [keyof typeof texts, string, string])[] = [
  ['wrong', 'the written paths have errors', 'it needs written paths without errors.'],
  ['refused', `route paths 5 was refused: ${why}`, `it needs paths (route paths 5 was refused: ${why}).`],
  [
    'refused by default',
    `route paths 1, the default, was refused: ${odd}`,
    `it needs paths (route paths 1, the default, was refused: ${odd}).`,
  ],
  [
    'misspelled',
    'errors in the text may hide how the bars are joined',
    'it needs a text without errors that hide paths.',
  ],
];

function messages({ findings }: Study, code: string): readonly string[] {
  return findings.filter((each) => each.code === code).map(({ message }) => message);
}

describe.each(said)('%s', (name, reason, need) => {
  const studied = study(texts[name]);

  it('limits and insulation tell why there are no paths', () => {
    const [circulating, shapes, loss] = messages(studied, 'limit-not-computable');
    expect(circulating).toBe(`circulating-current cannot be computed: ${reason}.`);
    expect(shapes).toBe(`bar-shapes cannot be computed: ${reason}.`);
    expect(loss).toBe(`copper-loss cannot be computed: ${need}`);
    const [insulation] = messages(studied, 'insulation-not-checked');
    const both = [reason, need.replace(/\.$/, '')];
    expect(both).toContain(insulation!.replace(/^.*voltage: (.*)\.$/, '$1'));
  });

  it('report, layout and sheet tell it too, and none asks for what is written', () => {
    const markdown = studied.markdown();
    expect(markdown).toContain(`No joints, bar shapes and voltages, because ${reason}.`);
    const { facts, title, winding } = studied;
    const picture = layoutPicture(layoutInput(winding!, title, facts!.connection));
    const notes = flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    expect(notes.join(' ')).toContain(`: ${reason}.`);
    const words = sheetSet(texts[name]).pages.flatMap(({ items }) =>
      flat(items).flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
    );
    expect(words.join(' ')).toContain(`No bar list, joint list or leads, because ${reason.slice(0, 30)}`);
    const everything = [...markdown.split('\n'), ...notes, ...words];
    const asking =
      /needs? .*connect route|not (yet )?joined|does not say how the bars are joined|not yet given/;
    expect(everything.filter((line) => asking.test(line))).toEqual([]);
    const needs = studied.report().missing.flatMap((entry) => entry.needs);
    expect(needs.filter((each) => each.startsWith('connect'))).toEqual([]);
  });
});

test('where the text just does not say it, the statement is named', () => {
  const studied = study(texts['not said']);
  for (const message of messages(studied, 'limit-not-computable').slice(0, 2))
    expect(message).toContain("it needs 'connect star', 'delta' or 'open'");
  expect(messages(studied, 'insulation-not-checked')[0]).toContain(
    "it needs 'connect route' or written paths",
  );
  expect(studied.markdown()).toContain('does not say how the bars are joined; `connect` does.');
});

test('on the sheet a refused number of paths, or one with errors, is marked as such', () => {
  const words = (text: string) =>
    sheetSet(text).pages.flatMap(({ items }) =>
      flat(items).flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
    );
  expect(words(texts.refused)).toEqual(expect.arrayContaining(['star', '5, refused']));
  expect(words(texts.wrong)).toContain('2, with errors');
  expect(words(written(4))).toContain('2');
});

it('the EMF of paths that cannot be had is told to be for the number asked for', () => {
  const word = 'as asked for, though no connection';
  const told = (text: string) => {
    const { emf, assumptions } = study(text).report({ orders: 1 });
    return { voltage: emf?.phaseVoltage ?? null, lines: assumptions.filter((line) => line.includes(word)) };
  };
  const refused = told(texts.refused);
  expect(refused.voltage).toBeGreaterThan(0);
  expect(refused.lines).toEqual([expect.stringContaining('connect route: paths 5, as asked for')]);
  expect(told(laid + checks).lines).toEqual([]);
  expect(sortedPart('emf', study(texts.refused).facts!.emf()).assumptions.join()).toContain(word);
});
