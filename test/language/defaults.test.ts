// Takes its time: studies a winding for every word that has a default.

import { describe, expect, it } from 'vitest';
import { vocabulary } from '../../core/language/vocabulary/vocabulary.ts';
import { evaluator } from '../../core/variants/evaluate.ts';
import { questionOf } from '../../core/variants/question.ts';
import { readSources } from '../architecture/imports.ts';
import { sheetSet } from '../sheets/sheetSets.ts';
import { study } from '../support/study.ts';

/** A machine that every word with a default matters to, without these words. */
const blocks: Readonly<Record<string, string>> = {
  machine: `slots 12 poles 2 phases 3 bore 90 mm outside 170 mm stack 60 mm yoke-height 18 mm air-gap 1 mm
    magnet-height 4 mm speed 3000 rpm flux 4 mWb current 120 A voltage 90 V winding-temperature 90 degC end-temperature 60 degC`,
  slot: 'width 7 mm depth 20 mm opening 3 mm opening-height 1 mm side-conductance 3 W/(m K)',
  bar: 'width 5 mm height 3 mm',
  insulation: 'turn-voltage 500 V phase-voltage 500 V',
  layout: 'layers 2 span 5',
  connect: 'star',
};
/** What bars in space need beside; they take their time. */
const ends = 'end-straight 12 mm end-clearance 0.5 mm joint-straight 8 mm bend-radius 5 mm lead-length 20 mm';
/** Of each word with a default, another value, which shows that what is compared depends on it. */
const others: Readonly<Record<string, string>> = {
  'machine gap': 'outer',
  'machine stack-factor': '0.9',
  'machine magnet-permeability': '1.2',
  'machine carter': 'off',
  'machine current-angle': '20 edeg',
  'slot wedge': '1 mm',
  'slot liner': '0.3 mm',
  'bar strands': '2',
  'bar corner': '0.5 mm',
  'bar coating': '0.1 mm',
  'bar metal': 'aluminium',
  'bar form': 'straight',
  'bar joint-plane': 'level',
  'bar joint-resistance': '20 uohm',
  'insulation surge-factor': '20',
  'layout stagger': '1',
  'layout skew': 'all 1 slot',
  'connect route': 'paths 2',
  'connect specials': 'crowns',
  'vary hold': 'flux current sizes',
  'sheet document-type': '"Assembly drawing"',
  'sheet sheet-size': 'A2',
};

/** The text with a statement added to a block, for a word of it. */
function textWith(statement: string, to: string, word: string): string {
  const made = Object.entries(blocks).map(([block, said]) => {
    const more = block === 'bar' && word.startsWith('joint-') ? ends : '';
    return `${block} { ${said} ${more} ${block === to ? statement : ''} }`;
  });
  const text = `winding "Tide mill"\n${made.join('\n')}`;
  // Only further layer pairs are staggered.
  return word === 'stagger' ? text.replace('layers 2', 'layers 4') : text;
}

/** Everything computed, without places in the text and lines that tell defaults. */
function outcome(block: string, word: string, value: string | null): unknown {
  const statement = value === null ? '' : `${word} ${value}`;
  if (block === 'vary') {
    const question = questionOf(`${textWith('', '', word)} vary { machine stack 60 mm 70 mm ${statement} }`);
    const { field, load, room } = evaluator(question).holding;
    return [field, load, room];
  }
  if (block === 'sheet') {
    const draft = `winding "Draft" machine { slots 12 poles 2 phases 3 } layout { layers 2 span 6 } sheet { ${statement} }`;
    return sheetSet(draft).pages;
  }
  const { report, findings } = study(textWith(statement, block, word));
  const plain = JSON.stringify(report(), (key, value) =>
    /^(assumptions|findings|models|routing)$/.test(key) ? undefined : value,
  );
  return [plain, findings.map(({ code, severity }) => `${severity} ${code}`)];
}

const withDefault = vocabulary.filter((entry) => entry.default !== undefined);

describe('the default of a word', () => {
  it('is told in one place', () => {
    const telling = [...readSources('core')].filter(([, text]) => text.includes('(default)'));
    expect(telling.map(([path]) => path)).toEqual(['language/specification/defaults.ts']);
  });

  it.each(withDefault.map((entry) => [`${entry.block} ${entry.word}`, entry] as const))(
    '%s is what is computed with where the text leaves it out',
    (name, { block, word, default: standard }) => {
      const left = outcome(block, word, null);
      expect(outcome(block, word, standard!)).toEqual(left);
      expect(others[name], `another value of ${name}`).toBeDefined();
      expect(outcome(block, word, others[name]!)).not.toEqual(left);
    },
  );
});
