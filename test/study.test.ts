import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format } from '../core/language/format/formatter.ts';
import { pictureToSvg } from '../core/picture/svg.ts';
import { study } from '../core/study.ts';
import { anyTexts, damagedTexts, validTexts } from './support/documents.ts';
import { soundExamples } from './support/files.ts';
import { expectWithin } from './support/marked.ts';
import { tries } from './support/tries.ts';
import { cleanWinding, windingText } from './support/windingText.ts';

describe('the study of a text', () => {
  it('finds nothing in a clean winding', () => {
    const studied = study(cleanWinding);
    expect(studied.findings).toEqual([]);
    expect(studied.broken).toBe(false);
    expect(studied.limits.map(({ met }) => met)).toEqual([true, true]);
    expect(format(cleanWinding)).toBe(cleanWinding);
  });

  it('lists findings in text order', () => {
    const { findings } = study(
      windingText({
        machine: 'slots 9 poles 8 phases 3 polse 3',
        layout: 'layers 2 span 1',
        rest: 'require { winding-factor >= 1  winding-factor <= 0.1 }',
      }),
    );
    const starts = findings.map(({ range }) => range.start);
    expect(starts.length).toBeGreaterThan(3);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it('is broken where the text has errors of form, or yields no winding; not where a limit fails', () => {
    expect(study('').broken).toBe(true);
    expect(study(windingText({ machine: 'slots 12 poles 2 phases 3 polse 3' })).broken).toBe(true);
    expect(study(windingText({ layout: 'layers 2 span 12' })).broken).toBe(true);
    expect(study(windingText({ rest: 'require { winding-factor >= 1 }' })).broken).toBe(false);
  });

  it('still computes what can be understood', () => {
    const { facts, findings } = study(
      windingText({ machine: 'slots 12 poles 2 phases 3 bore 162 kg', rest: 'gearbox { }' }),
    );
    expect(findings.length).toBeGreaterThanOrEqual(2);
    expect(facts!.factorRow(1).winding).toBeGreaterThan(0.9);
  });

  it('makes a title fit to be shown', () => {
    expect(study('winding "a\u0007b\u202ec"').title).toBe('a\ufffdb\ufffdc');
    expect(study('').title).toBe('Untitled winding');
  });

  it('is the same whatever the line ends', () => {
    const { text } = soundExamples[0]!;
    const figures = (variant: string) => study(variant).keyFigures();
    expect(figures(text.replace(/\n/g, '\r\n'))).toEqual(figures(text));
    expect(figures(`\ufeff${text}`)).toEqual(figures(text));
  });

  it('does not change when the text is formatted', () => {
    fc.assert(
      fc.property(damagedTexts, (text) => {
        const before = study(text);
        const after = study(format(text));
        expect(after.keyFigures()).toEqual(before.keyFigures());
        expect(after.findings.map(({ code }) => code).sort()).toEqual(
          before.findings.map(({ code }) => code).sort(),
        );
      }),
      { seed: 5, numRuns: tries(30) },
    );
  });

  for (const [name, texts, numRuns] of [
    ['damaged', damagedTexts, 30],
    ['valid', validTexts, 30],
    ['any', anyTexts, 120],
  ] as const) {
    it(`never fails: ${name} texts`, () => {
      fc.assert(
        fc.property(texts, (text) => {
          const studied = study(text);
          expectWithin(text, studied.findings);
          expect(studied.findings.filter(({ code }) => code === 'check-crashed')).toEqual([]);
          const shown = [
            ...studied.keyFigures().map(({ value }) => value),
            ...studied.factorRows().flatMap((row) => Object.values(row)),
          ];
          expect(shown.join(' ')).not.toMatch(/NaN|undefined|Infinity/);
          const picture = studied.layoutPicture();
          if (picture) expect(pictureToSvg(picture)).not.toMatch(/NaN|undefined|Infinity/);
          expect(studied.markdown()).not.toMatch(/NaN|undefined|Infinity/);
        }),
        { seed: 13, numRuns: tries(numRuns) },
      );
    });
  }
});

describe('windings at the edge', () => {
  it.each([
    ['the largest', 'slots 2400 poles 400 phases 3', 'layers 2 span 6'],
    ['26 layers', 'slots 48 poles 8 phases 3', 'layers 26 span 6'],
    ['15 phases', 'slots 60 poles 4 phases 15', 'layers 2 span 15'],
    ['more poles than slots', 'slots 12 poles 14 phases 3', 'layers 2 span 1'],
    ['one place filled', 'slots 3 poles 2 phases 3', 'layers 1 layer a +U . .'],
    ['no place filled', 'slots 3 poles 2 phases 3', 'layers 1 layer a . . .'],
    ['one phase missing', 'slots 3 poles 2 phases 3', 'layers 1 layer a +U -U .'],
    ['a skew of a full turn', 'slots 12 poles 2 phases 3', 'layers 2 span 5 skew all 360 deg'],
    [
      'poles far above the slots',
      'slots 12 poles 2400 phases 3',
      'layers 1 layer a +U -U +V -V +W -W repeat 2',
    ],
  ])('%s', (_, machine, layout) => {
    const text = windingText({
      machine,
      layout,
      rest: 'require { winding-factor >= 0.1  differential-leakage <= 10 %  wave-relative harmonic 5 <= 10 % }',
    });
    const studied = study(text);
    expect(studied.winding).not.toBeNull();
    expectWithin(text, studied.findings);
    expect(studied.findings.filter(({ code }) => code === 'check-crashed')).toEqual([]);
    expect(studied.markdown()).not.toMatch(/NaN|undefined|Infinity/);
    expect(() => studied.report()).not.toThrow();
    expect(() => studied.layoutPicture()).not.toThrow();
  });
});

describe('the table of orders as shown', () => {
  it('has at most 60 rows, the lowest orders that have a factor or a wave', () => {
    const rows = study(
      'winding "x"\nmachine { slots 75 poles 2 phases 3 }\nlayout { layers 2 span 37 }\nconnect { star }\n',
    ).factorRows();
    expect(rows).toHaveLength(60);
    expect(rows[0]!.order).toBe('1');
    const few = study(
      'winding "x"\nmachine { slots 12 poles 4 phases 3 }\nlayout { layers 2 span 3 }\nconnect { star }\n',
    ).factorRows();
    expect(few.length).toBeLessThan(60);
  });
});
