// Takes its time: studies every example.

import { describe, expect, it } from 'vitest';
import { figureRegister, figuresOf } from '../../core/figures/register.ts';
import { compare } from '../../core/review/compare.ts';
import { movedTexts, quantityName, valueText } from '../../core/review/words.ts';
import { soundExamples } from '../support/files.ts';
import { tableRows } from '../support/markdown.ts';
import { type Study, study } from '../support/study.ts';

/** What one unit is in SI units: the prefixes of the SI brochure (BIPM, 9th ed., table 7). */
const unitInSi: Readonly<Record<string, number>> = {
  '': 1,
  '%': 0.01,
  m: 1,
  mm: 1e-3,
  'mm²': 1e-6,
  mΩ: 1e-3,
  µH: 1e-6,
  kg: 1,
  Hz: 1,
  V: 1,
  W: 1,
  kW: 1e3,
  Nm: 1,
  'Nm/A': 1,
  'Nm/√W': 1,
  T: 1,
  K: 1,
  '°C': 1,
  'A/mm²': 1e6,
  'kNm/rad': 1e3,
  rpm: 1 / 60,
  '°': 1,
  A: 1,
  kVA: 1e3,
  kPa: 1e3,
  MPa: 1e6,
};

/** The SI value of a shown text: `12.4 mΩ`. */
function read(text: string): number {
  const [number, unit = ''] = text.replace('\u2212', '-').split(' ');
  expect(unitInSi, text).toHaveProperty([unit]);
  return Number(number) * unitInSi[unit]!;
}

/** What stands at a place of the report. */
function at(report: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce((found: unknown, key) => (found as Record<string, unknown> | null)?.[key], report);
}

const studies = soundExamples.map(({ name, text }) => [name, study(text)] as const);

/** The figures of copper and EMF that are one number in this report, by what they are called. */
function numbersOf(one: Study): ReadonlyMap<string, number> {
  const report = one.report({ orders: 1 });
  return new Map(
    [...figuresOf('emf'), ...figuresOf('operation'), ...figuresOf('iron'), ...figuresOf('copper')].flatMap(
      (path) => {
        const value = at(report, path);
        return typeof value === 'number' ? [[figureRegister[path].words, value] as const] : [];
      },
    ),
  );
}

describe('the register of figures', () => {
  it('calls no two figures alike', () => {
    const words = Object.values(figureRegister).map((row) => row.words);
    expect(words.filter((each, i) => words.indexOf(each) !== i)).toEqual([]);
  });

  it.each(studies)('%s: the Markdown shows every figure of the JSON, at its size', (_name, one) => {
    const rows = new Map(tableRows(one.markdown()).map(([label, value]) => [label!, value!]));
    const figures = numbersOf(one);
    for (const [words, value] of figures) {
      expect(rows.has(words), words).toBe(true);
      const shown = rows.get(words)!;
      // Five significant digits, or four where a small share is shown; temperatures to a tenth of a degree.
      const rounding = / (°C|K)$/.test(shown) ? 0.0501 : 5.1e-4 * Math.abs(value) + 1e-12;
      expect(Math.abs(read(shown) - value), words).toBeLessThanOrEqual(rounding);
    }
  });

  it.each(studies)(
    '%s: a comparison calls the figures as the report does, in the same units',
    (_name, one) => {
      const rows = new Map(tableRows(one.markdown()).map(([label, value]) => [label!, value!]));
      let met = 0;
      for (const number of compare(null, one).numbers) {
        const shown = rows.get(quantityName(number));
        if (shown === undefined) continue;
        met++;
        expect(valueText(number.quantity, number.new, number.unit)).toBe(shown);
      }
      expect(met).toBeGreaterThanOrEqual(numbersOf(one).size);
    },
  );

  it('a comparison shows what moved with its sign and size', () => {
    const moved = { quantity: 'copper.resistance.phase20', old: 0.012, new: 0.0115, difference: -0.0005 };
    expect(movedTexts(moved)).toEqual({ old: '12 mΩ', new: '11.5 mΩ', difference: '\u22120.5 mΩ' });
  });
});
