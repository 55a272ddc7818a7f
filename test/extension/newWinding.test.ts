// Takes its time: judges the variants of many layouts.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { finished } from '../../core/figures/steps.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { format } from '../../core/language/format/formatter.ts';
import { german } from '../../extension/german/main.ts';
import { barsChoices } from '../../extension/onDemand/newWinding/barsChoices.ts';
import { type LayersChoice, layersChoices } from '../../extension/onDemand/newWinding/layersChoices.ts';
import { type MachineWish, readPoles, readSlots } from '../../extension/onDemand/newWinding/machineWish.ts';
import { type Proposal, proposals } from '../../extension/onDemand/newWinding/proposals.ts';
import { windingText } from '../../extension/onDemand/newWinding/windingText.ts';
import { speak } from '../../extension/wording.ts';
import { keeping } from '../support/keeping.ts';
import { activateOnStub } from './activated.ts';
import { editorState } from './vscodeStub.ts';

const wish: MachineWish = { gap: 'inner', poles: 8, speed: null, phases: 3, slots: null, diameter: null };

describe('what is known of the machine', () => {
  test.each([
    ['8', { poles: 8, speed: null }],
    ['8 poles, 1500 rpm', { poles: 8, speed: 1500 }],
    ['8 100 Hz', { poles: 8, speed: 1500 }],
    ['1500 rpm 100 Hz', { poles: 8, speed: 1500 }],
    [' 100hz,1500RPM ', { poles: 8, speed: 1500 }],
    ['3333 rpm 166.66 Hz', { poles: 6, speed: 3333 }],
  ])('%j are poles', (answer, read) => {
    expect(readPoles(answer)).toEqual(read);
  });

  test('speed and frequency that give no whole pole pairs are told, with what would', () => {
    expect(readPoles('1500 rpm 110 Hz')).toBe(
      'That would be 8.8 poles. At 110 Hz 8 poles turn at 1650 rpm, 10 poles turn at 1320 rpm.',
    );
    for (const [answer, words] of [
      ['7', /even/],
      ['0', /even/],
      ['8 1500 rpm 100 Hz', /not all three/],
      ['', /Give the number of poles/],
      ['1500 rpm', /speed and frequency/],
      ['eight', /Give/],
      ['8 9', /Give/],
      ['0 rpm 100 Hz', /poles/],
    ] as const)
      expect(readPoles(answer), answer).toMatch(words);
  });

  test('slots and diameter, both or neither', () => {
    expect(readSlots(' ')).toEqual({ slots: null, diameter: null });
    expect(readSlots('48')).toEqual({ slots: 48, diameter: null });
    expect(readSlots('162.5 mm')).toEqual({ slots: null, diameter: 162.5 });
    expect(readSlots('48 slots, 162 mm')).toEqual({ slots: 48, diameter: 162 });
    for (const answer of ['4.5', '2', '48 162', '0 mm', 'many'])
      expect(typeof readSlots(answer)).toBe('string');
  });
});

/** The numbers of layers of a layout, judged once. */
const keep = keeping<readonly LayersChoice[]>(10);
const choicesOf = (machine: MachineWish, layout: Proposal) =>
  keep(JSON.stringify([machine, layout]), () => finished(layersChoices(machine, layout)));

describe('proposed layouts', () => {
  test('work, tell what they give, and become texts without an error, as the formatter writes them', () => {
    const found = finished(proposals(wish));
    expect(found.map(({ slots }) => slots)).toEqual(expect.arrayContaining([9, 12, 24, 36, 48, 72]));
    for (const proposal of [found[0]!, found.find(({ span }) => span === 1)!, found.at(-1)!]) {
      const text = windingText({ ...wish, diameter: 162, speed: 1500 }, proposal);
      const { findings, facts, limits } = checkText(text);
      expect(findings.filter(({ severity }) => severity === 'error').map(({ message }) => message)).toEqual(
        [],
      );
      expect(limits.map(({ met }) => met)).toEqual([true]);
      expect(Math.abs(facts!.factorRow(4).winding!)).toBeCloseTo(proposal.windingFactor, 12);
      expect(format(text)).toBe(text);
    }
  });

  test('are joined by the paths that are warned of least', () => {
    const machine = { ...wish, slots: 48 };
    const [best] = finished(proposals(machine));
    const choice = choicesOf(machine, best!).find(({ layers }) => layers === 2)!;
    const warnings = (paths: number) =>
      checkText(windingText(machine, { ...choice, paths })).findings.filter(
        ({ severity }) => severity === 'warning',
      ).length;
    const counts = [1, 2, 4].map(warnings);
    expect(warnings(choice.paths)).toBe(Math.min(...counts));
    expect(warnings(choice.paths)).toBeLessThan(warnings(1));
  });

  test.each([
    ['en', '# pole pitch: 3.429 slots'],
    ['de', '# Polteilung: 3.429 Nuten'],
  ] as const)(
    'become texts in the language of the reader (%s), in lines that fit beside the drawing',
    (name, told) => {
      speak(name, name === 'de' ? german : null);
      const lines: string[] = [];
      for (const gap of ['inner', 'outer', 'both'] as const)
        for (const phases of [3, 6, 9])
          for (const known of [
            { diameter: null, speed: null },
            { diameter: 162.5, speed: 1512.5 },
          ])
            for (const [slots, poles] of [
              [48, 14],
              [9, 8],
            ] as const) {
              const layout = {
                slots,
                layers: 6,
                span: 3,
                windingFactor: 0.9336,
                parallelPaths: 12,
                paths: 12,
              };
              const machine = { ...wish, ...known, gap, phases, poles };
              const unread = { leakage: null, fifthAndSeventh: 0, slotsPerPolePerPhase: '1' };
              const lean = { ahead: [0, 2, 4], back: [1, 3, 5], slots: 0.5 };
              for (const bars of [
                { form: 'hairpin', lean: null },
                { form: 'straight', lean },
              ] as const) {
                const text = windingText(machine, { ...layout, ...unread }, bars);
                expect(format(text)).toBe(text);
                lines.push(...text.split('\n'));
              }
            }
      speak('en', null);
      expect(lines.filter((line) => line.length > 38)).toEqual([]);
      expect(lines.some((line) => line.endsWith(told))).toBe(true);
      if (name === 'de') expect(lines.filter((line) => /# .*\b(or|the|of|while)\b/.test(line))).toEqual([]);
    },
  );

  test.each([
    [4, 24, 6, [2, 4, 6, 1]],
    [8, 48, 5, [2, 4, 6]],
    [8, 12, 1, [1, 2, 4, 6]],
    [8, 9, 1, [2, 4, 6]],
  ])('with %i poles, %i slots, span %i have these numbers of layers', (poles, slots, span, layers) => {
    const machine = { ...wish, poles, slots };
    const layout = finished(proposals(machine)).find((each) => each.span === span)!;
    const choices = choicesOf(machine, layout);
    expect(choices.map((choice) => choice.layers)).toEqual(layers);
    for (const choice of choices) {
      const { findings, facts, limits } = checkText(windingText(machine, choice));
      expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(limits.map(({ met }) => met)).toEqual([true]);
      expect(facts!.differentialLeakage()).toBeCloseTo(choice.leakage!, 12);
      const { connection } = facts!;
      if (connection.kind !== 'connected') throw new Error('The bars are not joined');
      expect(connection.facts.counts().special).toBe(choice.specialJoints);
      expect(connection.facts.counts().jumpers).toBe(choice.jumpers);
    }
  });

  test.each([
    [8, 48, 1],
    [8, 12, 0.5],
    [4, 24, 1],
  ])(
    'between two rotors, %i poles, %i slots, bars cross first, without more warnings',
    (poles, slots, lean) => {
      const machine = { ...wish, gap: 'both' as const, poles, slots };
      const [layout] = finished(proposals(machine));
      for (const choice of choicesOf(machine, layout!)) {
        const bars = finished(barsChoices(machine, choice));
        const crossed = choice.layers > 1;
        expect(bars.map((each) => [each.form, each.lean?.slots ?? 0])).toEqual([
          ...(crossed ? [['straight', lean]] : []),
          ['straight', 0],
          ['hairpin', 0],
        ]);
        const warnings = bars.map((each) => {
          const { findings, facts, limits } = checkText(windingText(machine, choice, each));
          expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
          expect(limits.map(({ met }) => met)).toEqual([true]);
          expect(Math.abs(facts!.factorRow(poles / 2).winding!)).toBeCloseTo(each.windingFactor, 12);
          expect(facts!.specification.bar?.form?.value).toBe(each.form);
          const { lean: leans } = facts!.winding;
          expect(leans.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 12);
          expect(new Set(leans).size).toBe(each.lean === null ? 1 : 2);
          return findings.filter(({ severity }) => severity === 'warning').length;
        });
        expect(Math.max(...warnings)).toBe(warnings.at(-1));
      }
    },
  );

  test('beside one rotor bars are hairpins first, and do not lean', () => {
    for (const gap of ['inner', 'outer'] as const) {
      const machine = { ...wish, gap, slots: 48 };
      const [layout] = finished(proposals(machine));
      expect(finished(barsChoices(machine, layout!))).toMatchObject([
        { form: 'hairpin', lean: null },
        { form: 'straight', lean: null },
      ]);
    }
  });

  test('of slots at hand are their spans, for every gap and six phases too', () => {
    const spans = finished(proposals({ ...wish, slots: 48 })).map(({ slots, span }) => [slots, span]);
    expect(spans).toEqual(
      expect.arrayContaining([
        [48, 5],
        [48, 6],
        [48, 4],
      ]),
    );
    for (const gap of ['outer', 'both'] as const)
      for (const phases of [5, 6]) {
        const machine = { ...wish, gap, phases, diameter: 300, slots: 8 * phases };
        const [best] = finished(proposals(machine));
        const errors = checkText(windingText(machine, best!)).findings.filter(
          ({ severity }) => severity === 'error',
        );
        expect(errors.map(({ message }) => message)).toEqual([]);
      }
    expect(finished(proposals({ ...wish, slots: 7 }))).toEqual([]);
  });
});

describe('a new winding', () => {
  let end: () => void;
  beforeEach(() => {
    end = activateOnStub();
  });
  afterEach(() => end());
  const run = () => editorState.commands.get('slotwright.newWinding')?.();
  type Items = readonly {
    readonly value: unknown;
    readonly label: string;
    readonly description?: string;
    readonly detail?: string;
  }[];
  const labeled = (label: string) => (items: Items) => items.find((item) => item.label === label);

  test('is asked for in seven questions, and opens with its drawing', async () => {
    let offered: Items = [];
    let layers: Items = [];
    editorState.answers.push(
      labeled('Inside the stator'),
      labeled('3'),
      '1500 rpm 100 Hz',
      '48 slots 162 mm',
      (items: Items) => {
        offered = items;
        return items.find(({ label }) => label === '48 slots, span 5');
      },
      (items: Items) => {
        layers = items;
        return items.find(({ label }) => label === '4 layers');
      },
      labeled('Hairpins'),
    );
    await run();
    expect(layers.map(({ label, description }) => [label, description])).toEqual([
      ['2 layers', '96 bars, 16 in series in each of 2 paths'],
      ['4 layers', '192 bars, 32 in series in each of 2 paths'],
      ['6 layers', '288 bars, 48 in series in each of 2 paths'],
    ]);
    expect(layers[1]?.detail).toBe('6 special joints a phase · up to 8 balanced parallel paths');
    expect(offered[0]?.detail).toMatch(/^winding factor 0\.\d{4} · differential leakage .* parallel paths$/);
    expect(offered[0]?.description).toMatch(/ slots a pole and phase · slot pitch 10\.6 mm$/);
    const [document] = editorState.documents;
    expect(document?.getText()).toMatch(/^winding "New winding"\n\n# 48 slots, 8 poles, 3 phases\./);
    expect(document?.getText()).toMatch(/speed +1500 rpm +# 100 Hz/);
    expect(document?.getText()).toMatch(/layers 4 .*\n +span +5 /);
    expect(editorState.shown[0]?.document).toBe(document);
    expect(editorState.executed.at(-1)).toEqual(['slotwright.showLayoutPanel']);
  });

  test('between two rotors it has crossed straight bars, which are the first answer', async () => {
    let offered: Items = [];
    editorState.answers.push(
      labeled('On both sides'),
      labeled('3'),
      '8',
      '48',
      labeled('48 slots, span 5'),
      labeled('4 layers'),
      (items: Items) => {
        offered = items;
        return items[0];
      },
    );
    await run();
    expect(offered.map(({ label, detail }) => [label, detail])).toEqual([
      [
        'Straight bars, crossed',
        'joined at both ends · a b lean by a slot pitch, c d the other way · winding factor 0.9224',
      ],
      ['Straight bars', 'joined at both ends'],
      ['Hairpins', 'crowns on the far side, joints on the connection side alone'],
    ]);
    const made = editorState.documents[0]?.getText();
    expect(made).toMatch(/form straight {2}# or hairpin/);
    expect(made).toMatch(/# crossed bars.*\n +skew +a b \+1 slot\n +skew +c d -1 slot\n/);
  });

  test('where a folder is open it has a name there that is free, and is saved as that', async () => {
    const first = (items: Items) => items[0];
    const answers = [labeled('Inside the stator'), labeled('3'), '2', '12', first, first, first];

    editorState.workspaceFolders = ['memory:/yard'];
    editorState.files.set('memory:/yard/New-Winding.winding', new Uint8Array());
    for (const name of ['new-winding-2', 'new-winding-3']) {
      editorState.answers.push(...answers);
      await run();
      const document = editorState.documents.at(-1);
      expect(document?.uri.toString()).toBe(`untitled:/yard/${name}.winding`);
      expect(document?.getText()).toMatch(/^winding "New winding"/);
      expect(editorState.shown.at(-1)?.document).toBe(document);
    }
    editorState.failing = (call) => {
      if (call === 'readDirectory') throw new Error('access denied');
    };
    editorState.answers.push(...answers);
    await run();
    expect(editorState.documents.at(-1)?.uri.toString()).toBe('memory:/Untitled-1');
  });

  test('Escape at any question makes nothing; slots that do not work are told', async () => {
    const answers = [labeled('On both sides'), labeled('5'), '8', '48'];
    for (let answered = 0; answered < answers.length; answered++) {
      editorState.answers.push(...answers.slice(0, answered));
      await run();
    }
    editorState.answers.push(labeled('Inside the stator'), labeled('3'), '8', '7');
    await run();
    expect(editorState.documents).toEqual([]);
    expect(editorState.information).toEqual([
      'No balanced layout of two layers was found for 7 slots, 8 poles and 3 phases. Leave the slots out to see which numbers of slots work.',
    ]);
  });
});
