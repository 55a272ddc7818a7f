import { describe, expect, it } from 'vitest';
import { figureRow } from '../../core/figures/register.ts';
import { parse } from '../../core/language/text/parser.ts';
import { type Pattern, parsePattern, patternLiterals } from '../../core/language/vocabulary/pattern.ts';
import { unitNames, units } from '../../core/language/vocabulary/units.ts';
import { measuredEntries } from '../../core/language/vocabulary/varied.ts';
import { statementWords, vocabulary } from '../../core/language/vocabulary/vocabulary.ts';

const statements = vocabulary.filter(({ role }) => role === 'statement' || role === 'quantity');

// The words of each block as the language's design lists them.
const designed: Readonly<Record<string, string>> = {
  file: 'winding',
  machine:
    'slots poles phases gap bore outside stack stack-factor yoke-height air-gap magnet-height magnet-permeability carter speed frequency flux current current-angle d-inductance q-inductance voltage winding-temperature end-temperature core-temperature core-heat core-cooling coolant-temperature drive-end rotor-skew rotor-field current-harmonic current-ripple',
  slot: 'width depth opening opening-height wedge liner separator side-conductance bar-field',
  bar: 'width height corner coating metal form strands end-conductance end-straight end-clearance joint-straight joint-gap joint-plane bend-radius lead-length joint-resistance bare-end piece-width piece-height piece-clearance ring-width ring-height',
  insulation: 'turn-voltage phase-voltage surge-factor',
  layout: 'layers span stagger belt layer skew',
  connect: 'star delta open route path repeat rings specials',
  duty: 'point',
  require:
    'distribution-factor pitch-factor skew-factor winding-factor wave-relative end-clearance-left end-inductance differential-leakage path-voltage-difference phase-voltage-difference circulating-current path-current-deviation special-joints jumpers joint-shapes bar-shapes legs-bent-apart voltage-in-slot voltage-between-slots slot-fill current-density phase-resistance ac-ratio hot-spot-temperature copper-loss copper-mass cage-stiffness cage-stress torque line-voltage motor-constant terminal-voltage terminal-current cycle-copper-energy cycle-copper-loss cycle-copper-efficiency cycle-hot-spot cycle-current tooth-flux-density yoke-flux-density power-factor base-speed top-speed characteristic-current short-circuit-current accept',
  vary: 'machine slot bar insulation layout connect hold keep rank',
  sheet:
    'owner number title revision date drawn-by approved-by document-type status sheet-size language note',
};

function placeholdersOf(pattern: Pattern): readonly string[] {
  switch (pattern.kind) {
    case 'placeholder':
      return [pattern.name];
    case 'series':
    case 'choice':
      return pattern.parts.flatMap(placeholdersOf);
    case 'many':
      return placeholdersOf(pattern.part);
    default:
      return [];
  }
}

describe('the vocabulary', () => {
  it.each(Object.entries(designed))('%s holds the words of the design', (block, words) => {
    expect([...statementWords(block as never)].sort()).toEqual(words.split(' ').sort());
  });

  it('names each word once in its block and role', () => {
    const keys = vocabulary.map(({ block, role, word }) => `${block} ${role} ${word}`);
    expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([]);
  });

  it('has an entry for every literal of a pattern, and no entry without a pattern that holds it', () => {
    for (const block of Object.keys(designed)) {
      const inBlock = vocabulary.filter((entry) => entry.block === block);
      const literals = inBlock.flatMap(({ pattern }) => patternLiterals(parsePattern(pattern)));
      const own = inBlock
        .filter(({ role }) => role === 'keyword' || role === 'choice')
        .map(({ word }) => word);
      const starting = statementWords(block as never);
      // `harmonic` and `order` stand in every limit, whose pattern is named as a whole.
      const limits = /^(require|vary)$/.test(block) ? ['harmonic', 'order', 'at'] : [];
      // What rows and measures hold is named as a whole too.
      const named =
        block === 'vary'
          ? [
              'to',
              'by',
              'nominal',
              ...measuredEntries().flatMap(({ role, word }) => (role === 'choice' ? [word] : [])),
            ]
          : [];
      const expected = new Set(
        [...literals, ...limits, ...named].filter(
          (word) => /^[a-z]/.test(word) && (!starting.includes(word) || word === 'star'),
        ),
      );
      expect(new Set(own), block).toEqual(expected);
    }
  });

  it('has patterns whose placeholders have rules only where they stand', () => {
    for (const { word, pattern, rules } of statements) {
      const placeholders = placeholdersOf(parsePattern(pattern));
      expect(
        Object.keys(rules).filter((name) => !placeholders.includes(name)),
        word,
      ).toEqual([]);
    }
  });

  it('has no unit that begins a statement in a block where a number may stand before it', () => {
    for (const block of Object.keys(designed).filter((name) => name !== 'file')) {
      // `slot` begins a row of vary behind a count, which has no unit.
      const words = statementWords(block as never).filter((word) => block !== 'vary' || word !== 'slot');
      expect(
        units.filter(({ name }) => words.includes(name)),
        block,
      ).toEqual([]);
    }
  });

  it('has no word that begins a statement and continues another of its block', () => {
    for (const block of Object.keys(designed)) {
      const words = statementWords(block as never);
      const literals = statements
        .filter((entry) => entry.block === block)
        .flatMap(({ word, pattern }) =>
          patternLiterals(parsePattern(pattern)).map((literal) => [word, literal] as const),
        )
        // `layer b = layer a`: the second stands behind `=`, where no statement can begin. `rings star`:
        // rings takes a word in any case.
        .filter(([word, literal]) => !(word === 'layer' && literal === 'layer'))
        .filter(([word, literal]) => !(word === 'rings' && literal === 'star'));
      expect(
        literals.filter(([, literal]) => words.includes(literal)),
        block,
      ).toEqual([]);
    }
  });

  it('has a meaning, a sentence, for every word', () => {
    for (const { word, meaning } of vocabulary) expect(meaning, word).toMatch(/^[^a-z].*[.]$/);
  });

  it('has a report path, a direction and a dimension for every quantity', () => {
    for (const { word, role, reportPath, dimension } of vocabulary) {
      if (role !== 'quantity') continue;
      expect([
        word,
        reportPath !== undefined,
        figureRow(reportPath ?? '')?.better !== undefined,
        dimension !== undefined,
      ]).toEqual([word, true, true, true]);
    }
  });
});

describe('every example of the vocabulary', () => {
  it.each(vocabulary.map((entry) => [`${entry.block} ${entry.role} ${entry.word}`, entry] as const))(
    '%s',
    (_, { block, example, word }) => {
      const text = block === 'file' ? example : `${block} { ${example} }`;
      const document = parse(text);
      expect(document.findings).toEqual([]);
      expect(example.split(/[\s(]+/)).toContain(word);
      const written = block === 'file' && document.title ? [document.title] : document.blocks[0]!.statements;
      expect(written.length).toBeGreaterThan(0);
    },
  );

  it('of a default is a statement too', () => {
    for (const entry of statements.filter((candidate) => candidate.default !== undefined)) {
      const document = parse(`${entry.block} { ${entry.word} ${entry.default} }`);
      expect(document.findings, entry.word).toEqual([]);
    }
  });
});

describe('defaults', () => {
  // All there are; that of belt, 180/phases, depends on the machine and cannot be written as one value.
  it('are the documented ones', () => {
    const given = statements
      .filter((entry) => entry.default !== undefined)
      .map((entry) => `${entry.word} ${entry.default}`);
    expect(given.sort()).toEqual(
      [
        'gap inner',
        'current-angle 0 edeg',
        'stack-factor 0.95',
        'route paths 1',
        'specials joined',
        'stagger 0',
        'skew all 0 deg',
        'metal copper',
        'form hairpin',
        'corner 0 mm',
        'coating 0 mm',
        'liner 0 mm',
        'wedge 0 mm',
        'strands 1',
        'joint-plane free',
        'joint-resistance 0 uohm',
        'surge-factor 1',
        'sheet-size A3',
        'magnet-permeability 1.05',
        'carter on',
        'document-type "Winding drawing"',
        'hold gap-flux-density torque shares',
      ].sort(),
    );
  });
});

describe('patterns', () => {
  it.each(['(', 'a)', '?', '*a', "('a' b", 'a ? b ) c'])('malformed ones are refused: %s', (source) => {
    expect(() => parsePattern(source)).toThrow(RangeError);
  });
});

describe('units', () => {
  it('have one spelling each and a positive factor', () => {
    const names = units.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { name, factor } of units) expect(factor, name).toBeGreaterThan(0);
  });

  it('exist for every dimension a quantity has', () => {
    for (const { word, dimension } of statements)
      if (dimension && dimension !== 'none') expect(unitNames(dimension).length, word).toBeGreaterThan(0);
  });
});
