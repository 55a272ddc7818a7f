import { describe, expect, it } from 'vitest';
import { parse } from '../../core/language/text/parser.ts';
import * as kinds from '../../core/language/textFindingKinds.ts';
import { parsePattern } from '../../core/language/vocabulary/pattern.ts';
import { unitNames, units } from '../../core/language/vocabulary/units.ts';
import { type VocabularyEntry, vocabulary } from '../../core/language/vocabulary/vocabulary.ts';
import { expectFindings, marked } from '../support/marked.ts';

const findingsOf = (text: string) => parse(text).findings;

const statements = vocabulary.filter(
  ({ role, block }) => (role === 'statement' || role === 'quantity') && block !== 'file',
);

function inBlock({ block }: VocabularyEntry, statement: string): string {
  return `${block} {\n  ${statement}\n}\n`;
}

/** Statements whose example holds a number with a unit: its parts, the first such number. */
const measured = statements.flatMap((entry) => {
  const parts = /^(.*?)([+-]?\d+(?:\.\d+)?) (.+)$/.exec(entry.example);
  if (!parts) return [];
  const unit = units
    .map(({ name }) => name)
    .sort((a, b) => b.length - a.length)
    .find((name) => parts[3]!.startsWith(name) && !/^[a-z0-9/-]/i.test(parts[3]!.slice(name.length)));
  if (!unit) return [];
  const dimension = units.find(({ name }) => name === unit)!.dimension;
  return [
    {
      key: `${entry.block} ${entry.word}`,
      entry,
      before: parts[1]!,
      number: parts[2]!,
      unit,
      dimension,
      after: parts[3]!.slice(unit.length),
    },
  ];
});

describe('a number that measures something', () => {
  it('is in the examples of as many words as the language has', () => {
    expect(measured.length).toBeGreaterThanOrEqual(50);
  });

  it.each(measured.map((item) => [item.key, item] as const))('needs a unit it can have: %s', (_, item) => {
    const { entry, before, number, unit, dimension, after } = item;
    const names = unitNames(dimension);
    const wrong = dimension === 'length' ? 'kHz' : 'mm';
    const [finding] = expectFindings(
      inBlock(entry, `${before}${number} «${wrong}»${after}`),
      ['unit-wrong'],
      findingsOf,
    );
    expect(finding!.message).toBe(
      kinds.unitWrong.message({ unit: wrong, dimension, units: names, suggestion: undefined }),
    );

    // A share may be a plain number where it is a limit.
    if (!(entry.role === 'quantity' && dimension === 'ratio')) {
      const [missing] = expectFindings(
        inBlock(entry, `${before}«${number}»${after}`),
        ['unit-missing'],
        findingsOf,
      );
      expect(missing!.message).toBe(kinds.unitMissing.message({ number, dimension, units: names }));
    }

    // Percent may touch its number; a unit with a blank inside is cut at the blank.
    if (unit !== '%' && !unit.includes(' ')) {
      const source = inBlock(entry, `${before}«${number}${unit}»${after}`);
      const [glued] = expectFindings(source, ['unit-without-blank'], findingsOf);
      expect(glued!.message).toBe(kinds.unitGlued.message({ number, unit }));
      expect(glued!.fix!.edits[0]!.text).toBe(`${number} ${unit}`);
    }
  });

  it.each(
    measured
      .filter(({ unit }) => /[a-zA-Z]/.test(unit) && !unit.includes(' '))
      .map((item) => [item.key, item] as const),
  )('has its unit in the right case: %s', (_, { entry, before, number, unit, after }) => {
    const other = unit === unit.toUpperCase() ? unit.toLowerCase() : unit.toUpperCase();
    const [finding] = expectFindings(
      inBlock(entry, `${before}${number} «${other}»${after}`),
      ['unit-wrong'],
      findingsOf,
    );
    expect(finding!.message).toContain("did you mean '");
    const suggested = finding!.fix!.edits[0]!.text;
    expect(suggested.toLowerCase()).toBe(other.toLowerCase());
    expect(unitNames(units.find(({ name }) => name === unit)!.dimension)).toContain(suggested);
  });

  it('may be written with signs people use, which are explained', () => {
    for (const [written, meant, statement] of [
      ['µm', 'um', 'bore 162000'],
      ['°C', 'degC', 'winding-temperature 120'],
      ['°', 'deg', 'rotor-skew 3.75'],
      ['slots', 'slot', 'rotor-skew 1'],
    ] as const) {
      const source = `machine {\n  ${statement} «${written}»\n}`;
      if (written === 'slots') continue;
      const [finding] = expectFindings(source, ['unit-wrong'], findingsOf);
      expect(finding!.fix!.edits[0]!.text).toBe(meant);
    }
    const [finding] = expectFindings('layout {\n  skew all 1 «slots»\n}', ['unit-wrong'], findingsOf);
    expect(finding!.fix!.edits[0]!.text).toBe('slot');
  });

  it('has no unit where it counts', () => {
    for (const statement of [
      'slots 48 «mm»',
      'poles 8 «V»',
      'rotor-skew 3 deg in 4 «mm» steps',
      'magnet-permeability 1.05 «%»',
    ]) {
      const [finding] = expectFindings(`machine {\n  ${statement}\n}`, ['unit-wrong'], findingsOf);
      expect(finding!.message).toMatch(/^No unit belongs here/);
    }
  });
});

describe('every number has a range', () => {
  const ruled = statements.filter(({ rules }) => Object.keys(rules).length > 0);

  it('unless a rule says why not', () => {
    const numeric = statements
      .filter(
        ({ role, pattern, block }) =>
          role === 'statement' &&
          // What varies obeys the rules of its own block.
          block !== 'vary' &&
          /count|integer|number|length|angle|speed|frequency|flux|current|voltage|temperature|ratio|conductance/.test(
            pattern,
          ),
      )
      .filter(({ rules }) => Object.keys(rules).length === 0);
    expect(numeric.map(({ word }) => word)).toEqual([]);
  });

  it.each(ruled.map((entry) => [`${entry.block} ${entry.word}`, entry] as const))('%s', (_, entry) => {
    const document = parse(inBlock(entry, entry.example));
    const statement = document.blocks[0]!.statements[0]!;
    const quantities = statement.values.filter((value) => value.kind === 'quantity');
    expect(quantities.length).toBeGreaterThan(0);
    for (const value of quantities) {
      if (value.kind !== 'quantity') continue;
      const rule = entry.rules[value.placeholder];
      if (!rule) continue;
      for (const amount of ['1e300', '-1e300', '1e999', '0.123456789e-300']) {
        const allowed = rule.schema.safeParse(Number(amount)).success;
        const unit = value.unit ? ` ${value.unit}` : '';
        const offset = document.text.indexOf(entry.example);
        const source = `${document.text.slice(0, value.range.start)}«${amount}${unit}»${document.text.slice(value.range.end)}`;
        expect(offset).toBeGreaterThan(0);
        if (allowed) expect(findingsOf(marked(source).text)).toEqual([]);
        else {
          const [finding] = expectFindings(source, ['value-out-of-range'], findingsOf);
          expect(finding!.message).toBe(
            kinds.outOfRange.message({
              word: entry.word,
              name: rule.name,
              written: `${amount}${unit}`,
              expected: rule.words,
              advice: rule.advice,
            }),
          );
        }
      }
    }
  });

  it.each([
    [
      'connect { star route paths «0» }',
      "The number of paths in 'route' has to be a whole number from 1 to 2400, not '0'.",
    ],
    [
      'layout { layer a +U repeat «0» }',
      "The number after 'repeat' in 'layer' has to be a whole number from 1 to 2400, not '0'.",
    ],
    [
      'connect { repeat U as V shift «1.5» }',
      "The shift in 'repeat' has to be a whole number from -2399 to 2399, not '1.5'.",
    ],
    [
      'machine { phases 6 apart «400 edeg» }',
      "The angle after 'apart' in 'phases' has to be an angle from -360 to 360 deg, edeg or slot, not '400 edeg'.",
    ],
    ['machine { bore «0 mm» }', "'bore' has to be a length from 0.1 mm to 100 m, not '0 mm'."],
  ])('and the message names the value: %s', (source, message) => {
    const [finding] = expectFindings(source, ['value-out-of-range'], findingsOf);
    expect(finding!.message).toBe(message);
  });

  it.each([
    ['end-clearance-left >= «-1e307 m»', 'end-clearance-left', '-1e307 m'],
    ['hot-spot-temperature <= «2e15 degC»', 'hot-spot-temperature', '2e15 degC'],
    ['winding-factor harmonic «1e300» >= 0.9', 'winding-factor', '1e300'],
    ['wave-relative order 5 <= «1e308»', 'wave-relative', '1e308'],
    ['copper-loss <= «1e306 kW»', 'copper-loss', '1e306 kW'],
  ])('and a limit is no larger than can be shown: %s', (limit, word, written) => {
    const [finding] = expectFindings(`require { ${limit} }`, ['value-out-of-range'], findingsOf);
    const expected = 'a number from -1e15 to 1e15';
    expect(finding!.message).toBe(`'${word}' has to be ${expected}, not '${written}'.`);
    expectFindings(`require { ${limit.replace(/«\S+/, '1e15').replace('»', '')} }`, [], findingsOf);
  });

  it('and a skew in one step is told how to be written', () => {
    const source = 'machine { rotor-skew 3 deg in «1» steps }';
    const [finding] = expectFindings(source, ['value-out-of-range'], findingsOf);
    expect(finding!.message).toContain("The number of steps in 'rotor-skew' has to be a whole number from 2");
    expect(finding!.message).toContain("without 'in ... steps' the skew is continuous");
  });

  it('with its unit, where the number measures something', () => {
    const measuring = statements.flatMap(({ word, pattern, rules }) =>
      Object.entries(rules)
        .filter(([placeholder]) => !/^(count|integer|number)$/.test(placeholder))
        .map(([, { words }]) => [word, pattern, words] as const),
    );
    expect(measuring.length).toBeGreaterThan(20);
    const names = units.map(({ name }) => name);
    for (const [word, , words] of measuring)
      expect(
        names.some((name) => words.split(/[ ,]+/).includes(name.split(' ')[0]!)),
        word,
      ).toBe(true);
  });

  it.each([
    ['machine', 'slots 3', true],
    ['machine', 'slots «2»', false],
    ['machine', 'slots 2400', true],
    ['machine', 'slots «2401»', false],
    ['machine', 'slots «1e9»', false],
    ['machine', 'slots «48.5»', false],
    ['machine', 'slots «-48»', false],
    ['machine', 'slots «0»', false],
    ['machine', 'poles 2', true],
    ['machine', 'poles «0»', false],
    ['machine', 'poles «7»', false],
    ['machine', 'poles 2400', true],
    ['machine', 'poles «2402»', false],
    ['machine', 'phases 15', true],
    ['machine', 'phases «17»', false],
    ['machine', 'phases «4»', false],
    ['machine', 'phases «1»', false],
    ['machine', 'phases «2»', false],
    ['machine', 'rotor-skew 3 deg in «1» steps', false],
    ['machine', 'rotor-skew «361 deg»', false],
    ['machine', 'rotor-skew -360 deg', true],
    ['machine', 'bore «0 mm»', false],
    ['machine', 'bore «-162 mm»', false],
    ['machine', 'magnet-permeability «0.9»', false],
    ['machine', 'winding-temperature «-61 degC»', false],
    ['machine', 'speed «0 rpm»', false],
    ['machine', 'rotor-field harmonic «0» 12 %', false],
    ['machine', 'rotor-field harmonic «2.5» 12 %', false],
    ['layout', 'layers 26', true],
    ['layout', 'layers «27»', false],
    ['layout', 'layers «0»', false],
    ['layout', 'span «0»', false],
    ['layout', 'stagger -2399', true],
    ['layout', 'stagger «-2400»', false],
    ['layout', 'stagger «0.5»', false],
    ['layout', 'layer a +U repeat 2400', true],
    ['layout', 'layer a +U repeat «2401»', false],
    ['layout', 'layer a +U repeat «0»', false],
    ['bar', 'strands a b «0»', false],
    ['bar', 'width «2 m»', false],
    ['insulation', 'surge-factor «0.5»', false],
    ['connect', 'route paths «0»', false],
    ['sheet', 'sheet-size «A5»', false],
    ['sheet', 'date «"2026-02-30"»', false],
    ['sheet', 'date «"2026-5-1"»', false],
    ['sheet', 'date «"tomorrow"»', false],
    ['sheet', 'date "2024-02-29"', true],
  ])('%s { %s }', (block, statement, allowed) => {
    expectFindings(`${block} {\n  ${statement}\n}`, allowed ? [] : ['value-out-of-range'], findingsOf);
  });
});

describe('a value that is missing', () => {
  const needy = statements.filter(
    ({ role, pattern }) => role === 'quantity' || (pattern !== '' && !/^'[a-z]+'\?$/.test(pattern)),
  );

  it.each(needy.map((entry) => [`${entry.block} ${entry.word}`, entry] as const))('%s', (_, entry) => {
    const [finding] = expectFindings(inBlock(entry, `«${entry.word}»`), ['value-expected'], findingsOf);
    expect(finding!.message).toContain(entry.example);
    expect(finding!.message).toContain('not the end of the statement');
  });
});

describe('a misspelled word', () => {
  it.each(statements.map((entry) => [`${entry.block} ${entry.word}`, entry] as const))(
    'in a wrong case: %s',
    (_, entry) => {
      const { word, example } = entry;
      for (const other of [word.toUpperCase(), word[0]!.toUpperCase() + word.slice(1)]) {
        // Capitals with hyphens are cut at the hyphen; the first part is enough to know the word.
        const finding = findingsOf(inBlock(entry, other + example.slice(word.length)))[0]!;
        expect(finding.code).toBe('word-unknown');
        expect(finding.message).toBe(
          kinds.unknownWord.message({ text: other, block: entry.block, suggestion: word, elsewhere: [] }),
        );
        expect(finding.fix!.edits[0]!.text).toBe(word);
      }
    },
  );

  it.each(statements.map((entry) => [`${entry.block} ${entry.word}`, entry] as const))(
    'with a letter doubled: %s',
    (_, entry) => {
      const { word, example } = entry;
      const other = word.slice(0, 2) + word.slice(1);
      const findings = expectFindings(
        inBlock(entry, `«${other}»${example.slice(word.length)}`),
        ['word-unknown'],
        findingsOf,
      );
      expect(findings[0]!.message).toBe(
        kinds.unknownWord.message({ text: other, block: entry.block, suggestion: word, elsewhere: [] }),
      );
    },
  );

  it('is suggested among the values too', () => {
    for (const [source, code, meant] of [
      ['machine {\n  gap «Inner»\n}', 'value-expected', 'inner'],
      ['machine {\n  gap «boht»\n}', 'value-expected', 'both'],
      ['bar {\n  metal «aluminum»\n}', 'value-expected', 'aluminium'],
      ['connect {\n  star «Joined»\n}', 'text-unexpected', 'joined'],
      ['connect {\n  route «pahts» 2\n}', 'value-expected', 'paths'],
      ['layout {\n  layer b = layer a moved 5 «negatd»\n}', 'text-unexpected', 'negated'],
      ['layout {\n  layer a +U «+v» +W\n}', 'text-unexpected', '+V'],
      ['require {\n  winding-factor «harmonik» 5 <= 0.3\n}', 'value-expected', 'harmonic'],
      ['«Machine» { slots 48 }', 'block-unknown', 'machine'],
      ['«machin» { slots 48 }', 'block-unknown', 'machine'],
      ['«Winding» "x"', 'block-unknown', 'winding'],
    ] as const) {
      const [finding] = expectFindings(source, [code], findingsOf);
      expect(finding!.message, source).toContain(`did you mean '${meant}'?`);
      expect(finding!.fix!.edits[0]!.text, source).toBe(meant);
    }
  });

  it('on a line with others is reported alone; the others are understood', () => {
    const source = 'machine { slots 48 «Poles» 8 phases 3 }';
    expectFindings(source, ['word-unknown'], findingsOf);
    expect(parse(marked(source).text).blocks[0]!.statements.map(({ entry }) => entry.word)).toEqual([
      'slots',
      'phases',
    ]);
  });

  it('that belongs in another block is sent there', () => {
    const [finding] = expectFindings('machine {\n  «stagger» 1\n}', ['word-unknown'], findingsOf);
    expect(finding!.message).toBe(
      kinds.unknownWord.message({
        text: 'stagger',
        block: 'machine',
        suggestion: undefined,
        elsewhere: ['layout'],
      }),
    );
  });
});

describe('patterns with a choice of values', () => {
  it('hold every form of the design', () => {
    const texts = ['machine { phases 6 apart 30 edeg  rotor-skew 3.75 deg in 4 steps  rotor-skew 1 slot }'];
    expect(parse(texts[0]!).findings.map(({ code }) => code)).toEqual(['statement-repeated']);
    for (const text of [
      'machine { phases 6 apart 30 edeg  rotor-skew 3.75 deg in 4 steps }',
      'machine { rotor-skew 1 slot  air-gap 0.8 mm 0.9 mm  magnet-height 5 mm 6 mm }',
      'machine { rotor-field harmonic 3 12 %  rotor-field harmonic 5 2% }',
      'slot a b { width 4 mm } slot c d { width 5 mm }',
      'bar { height a b 3.4 mm  height c d 2.2 mm  width 3 mm  strands a 2 }',
      'layout { layers 4  span 6  stagger -1  belt 60 edeg  skew all 1 slot }',
      'layout { layer a (+U -W)*6  layer b = layer a moved 5 negated  layer c = layer a  layer d = layer a negated  layer e = layer a moved -2 }',
      'layout { layer a +U . -W repeat 4 alternating  skew a b +7.5 deg  skew c d -7.5 deg }',
      'connect { star }',
      'connect { star joined  route paths 2 fewest joints }',
      'connect { delta  path U 1 from U1 1a +6b to U2 }',
      'connect { open  path 1U 1 from 1U1 far 1a ((+6b | -6a)*3 7b)*2 to 1U2 far  repeat 1U as 1V shift -4 }',
      'connect {\n  star\n  path U 1 from U1 1a (+6b +6a)*3 +6b\n                   +7a (+6b +6a)*3 +6b to N\n  path U 2 from U1 2b (-6a -6b)*3 -6a\n                   -7b (-6a -6b)*3 -6a to N\n  repeat U as V shift 4\n  repeat U as W shift 8\n}',
      'require { winding-factor >= 0.9  winding-factor order 4 >= 0.9  winding-factor harmonic 0.5 <= 0.1  slot-fill <= 0.78  slot-fill <= 78%  jumpers <= 0 }',
      'sheet { note "one"  note "two"  sheet-size A0 }',
    ])
      expect(parse(text).findings, text).toEqual([]);
  });

  it('take the longest match', () => {
    const document = parse(
      'layout { layers 2 span 5 layer a +U +V layer b = layer a moved 5 skew all 1 slot }',
    );
    expect(document.findings).toEqual([]);
    expect(document.blocks[0]!.statements.map(({ entry }) => entry.word)).toEqual([
      'layers',
      'span',
      'layer',
      'layer',
      'skew',
    ]);
  });

  it('are refused where they hold nothing', () => {
    for (const source of [
      'layout {\n  skew «1» deg\n}',
      'layout {\n  layer «+U» -W\n}',
      'connect {\n  path «1» from U1 1a to N\n}',
    ])
      expectFindings(source, ['value-expected'], findingsOf);
  });

  it('have readable notations', () => {
    for (const { pattern } of vocabulary) expect(() => parsePattern(pattern)).not.toThrow();
  });
});
