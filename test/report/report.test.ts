// Takes its time: studies whole windings.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reportSchema } from '../../core/report/schema.ts';
import { study as studyAnew } from '../../core/study.ts';
import { anyTexts, damagedTexts, validTexts } from '../support/documents.ts';
import { examples, soundExamples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import { windingText } from '../support/windingText.ts';

/** The report as it would be read from its JSON. */
function reported(text: string, orders?: number) {
  return reportSchema.parse(JSON.parse(JSON.stringify(study(text).report({ orders }))));
}

describe('the report', () => {
  it.each(examples.map(({ name, text }) => [name, text] as const))('follows its schema: %s', (_, text) => {
    const report = reported(text);
    expect(reportSchema.parse(study(text).report())).toEqual(report);
    expect(report.schema).toBe('slotwright-report/1');
  });

  it('of a text without a winding holds null and empty lists', () => {
    for (const text of ['', 'winding "x"', windingText({ layout: 'layers 2 span 12' })]) {
      const report = reported(text);
      expect(report).toMatchObject({
        winding: null,
        symmetry: null,
        factors: [],
        mmf: null,
        noise: [],
        emf: null,
        paths: [],
        joints: [],
        routing: null,
        copper: null,
        space: null,
      });
      expect(report.findings.length).toBeGreaterThan(0);
    }
  });

  it('lists every order up to four times the slots or twenty times the pole pairs', () => {
    expect(reported(windingText({})).factors.map(({ order }) => order)).toEqual(
      Array.from({ length: 48 }, (_, i) => i + 1),
    );
    const machine = 'slots 12 poles 10 phases 3';
    expect(reported(windingText({ machine, layout: 'layers 2 span 1' })).factors).toHaveLength(100);
  });

  it('lists as many orders as asked for, the same figures', () => {
    const text = soundExamples[0]!.text;
    const all = reported(text);
    for (const orders of [1, 7, 500]) {
      const report = reported(text, orders);
      expect(report.factors).toHaveLength(orders);
      expect(report.factors.slice(0, 100)).toEqual(all.factors.slice(0, Math.min(100, orders)));
      expect(Math.max(...report.mmf!.waves.map(({ order }) => order))).toBeLessThanOrEqual(orders);
      expect(report.mmf!.differentialLeakage).toBe(all.mmf!.differentialLeakage);
    }
  });

  it('counts lines and columns from 1, columns in UTF-16 units, ends not included', () => {
    const { findings } = reported(
      'winding "😀" 12\nmachine { slots 12 poles 2 phases 3 }\r\nlayout { layers 2\r\n\tspan 5 x }\n',
    );
    expect(findings.map(({ code, range }) => [code, range])).toEqual([
      ['text-unexpected', { start: { line: 1, column: 14 }, end: { line: 1, column: 16 } }],
      ['text-unexpected', { start: { line: 4, column: 9 }, end: { line: 4, column: 10 } }],
    ]);
  });

  it('is the same each time', () => {
    for (const { text } of examples.filter((_, index) => index % 2 === 0))
      expect(JSON.stringify(studyAnew(text).report())).toBe(JSON.stringify(study(text).report()));
  });

  it('tells limits as they were written', () => {
    const text = windingText({
      rest: 'require { winding-factor order 3 <= 5  wave-relative harmonic 5 <= 30 %  winding-factor >= 0.5 }',
    });
    expect(
      reported(text).limits.map(({ quantity, harmonic, order, relation, limit, met }) => [
        quantity,
        harmonic,
        order,
        relation,
        limit,
        met,
      ]),
    ).toEqual([
      ['winding-factor', null, 3, '<=', 5, true],
      ['wave-relative', 5, 5, '<=', 0.3, true],
      ['winding-factor', 1, 1, '>=', 0.5, true],
    ]);
  });
});

describe('limits whose line cannot be read', () => {
  const text = windingText({
    rest: 'require {\n torque >= 80 mm\n winding-factor >= 0.5\n torqe >= 3 Nm\n}',
  });

  it('are listed, not met, beside the error that says why', () => {
    const { limits, findings } = reported(text);
    expect(limits.map(({ quantity, relation, limit, met }) => [quantity, relation, limit, met])).toEqual([
      ['torque', null, null, null],
      ['winding-factor', '>=', 0.5, true],
      ['torqe', null, null, null],
    ]);
    expect(findings.map(({ code, range }) => [code, range.start.line])).toEqual([
      ['unit-wrong', 5],
      ['word-unknown', 7],
    ]);
  });

  it('count in the summary and are named under the table', () => {
    const markdown = study(text).markdown();
    expect(markdown).toContain('1 of 3 required limits hold.');
    expect(markdown).toContain('so not met: `torque`, `torqe`.');
  });
});

describe('rounding', () => {
  const isNoise = (value: number) => value !== 0 && Math.abs(value) < 1e-12;

  it('is no angle and no difference', () => {
    let angles = 0;
    for (const { text } of examples) {
      const { paths, balance } = study(text).report();
      for (const { path, voltage } of paths) {
        if (voltage.angle !== null) angles++;
        expect(isNoise(voltage.angle ?? 0), String(path)).toBe(false);
      }
      for (const value of Object.values(balance)) expect(isNoise(value ?? 0)).toBe(false);
    }
    expect(angles).toBeGreaterThan(20);
  });
});

describe('defaults and what is missing', () => {
  it('are listed where they were used, and not where a value is given', () => {
    const defaults = ['gap inner', 'route paths 1', 'belt 60 edeg', 'stagger 0', 'skew all 0 deg'];
    const used = (text: string) =>
      reported(text)
        .assumptions.filter((line) => line.endsWith('(default)') || line.endsWith('(default).'))
        .map((line) => line.replace(/:/g, ''))
        .join('\n');
    const bare = used(windingText({ layout: 'layers 4 span 5' }));
    for (const word of defaults) expect(bare).toContain(word);
    const full = used(
      windingText({
        machine: 'slots 12 poles 2 phases 3 gap inner',
        layout: 'layers 4 span 5 stagger 1 belt 60 edeg skew all 0 deg',
        rest: 'connect { star route paths 1 }',
      }),
    );
    for (const word of defaults) expect(full).not.toContain(word.split(' ')[0]);
  });

  it('names what would make a figure computable, and giving it does', () => {
    const without = reported(windingText({ machine: 'slots 12 poles 2 phases 3' }));
    expect(without.missing).toContainEqual({
      quantity: 'MMF in amperes',
      needs: ['machine current', 'connect star, delta or open'],
    });
    expect(without.mmf!.perAmpere).toBe(true);
    const given = reported(
      windingText({ machine: 'slots 12 poles 2 phases 3 current 10 A', rest: 'connect { star }' }),
    );
    expect(given.missing.map(({ quantity }) => quantity)).not.toContain('MMF in amperes');
    expect(given.mmf!.perAmpere).toBe(false);
    const wave = (report: typeof given) =>
      report.mmf!.waves.find(({ order, direction }) => order === 1 && direction === 'forward')!.amplitude;
    expect(wave(given)).toBeCloseTo(10 * wave(without), 10);
  });
});

describe('any text', () => {
  for (const [name, texts, numRuns] of [
    ['damaged', damagedTexts, 30],
    ['valid', validTexts, 25],
    ['any', anyTexts, 100],
  ] as const) {
    it(`has a report: ${name} texts`, () => {
      fc.assert(
        fc.property(texts, (text) => {
          const report = reported(text);
          const errors = report.findings.filter(({ severity }) => severity === 'error');
          // A text that yields no winding says why.
          if (report.winding === null) expect(errors.length).toBeGreaterThan(0);
          // A limit that is not met has its finding, or the text has other errors.
          if (report.limits.some(({ met }) => met !== true)) expect(errors.length).toBeGreaterThan(0);
        }),
        { seed: 3, numRuns: tries(numRuns) },
      );
    });
  }
});
