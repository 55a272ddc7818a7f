// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { gapDiameter } from '../../core/analysis/machineInputs.ts';
import { outsideDiameter, outsideFromSlots } from '../../core/analysis/outsideDiameter.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { crossedDrive, ferryDrive, withLine } from '../copper/machines.ts';
import { study } from '../support/study.ts';

const specified = (text: string) => specify(parse(text));
const twoGaps = ferryDrive.replace('gap inner', 'gap both');

describe('outside diameter of two gaps', () => {
  it('is the one that is written', () => {
    const figure = outsideDiameter(specified(crossedDrive));
    expect(figure).toEqual({ known: true, value: 0.1992, assumptions: [] });
  });

  it('else bore, all slot rows and both openings, told as derived', () => {
    // By hand: 162 + 2 x (8.9 + 8.1 + 0.8 + 0.8) mm.
    const left = withLine(crossedDrive, 'outside', null);
    const figure = outsideDiameter(specified(left));
    expect(figure).toMatchObject({ known: true, value: expect.closeTo(0.1992, 12) });
    expect(figure.known && figure.assumptions).toEqual([
      'machine outside: 199.2 mm (from bore, slot depth and opening-height)',
    ]);
    expect(gapDiameter(specified(left), 'outer')).toEqual(figure);
  });

  it('takes each opening from the row at its gap, in whatever order the rows are written', () => {
    const rows = [
      'slot a b { depth 9 mm opening-height 0.5 mm }',
      'slot c d { depth 7 mm opening-height 1.5 mm }',
    ];
    const text = (order: readonly string[]) => `machine { gap both bore 100 mm } ${order.join('\n')}`;
    for (const order of [rows, [...rows].reverse()])
      expect(outsideFromSlots(specified(text(order)))).toMatchObject({ value: expect.closeTo(0.136, 12) });
  });

  it.each([
    ['depth', 'machine outside or slot depth'],
    ['opening-height', 'machine outside or slot opening-height'],
    ['bore', 'machine outside or machine bore'],
  ])('without %s it cannot be derived, and both statements are named', (word, need) => {
    expect(outsideDiameter(specified(withLine(twoGaps, word, null)))).toEqual({
      known: false,
      needs: [need],
    });
    const limited = `${withLine(withLine(twoGaps, word, null), 'skew', null)}require { copper-loss <= 900 W }\n`;
    const found = study(limited).findings.find(({ code }) => code === 'limit-not-computable');
    const quoted = need.replace(' or ', "' or '");
    expect(found?.message).toContain(`'${quoted}'`);
  });

  it('slot blocks that hold no run of layers are not added up', () => {
    const text = `machine { gap both bore 100 mm }
slot a c { depth 9 mm opening-height 1 mm }
slot b d { depth 9 mm opening-height 1 mm }`;
    expect(outsideDiameter(specified(text))).toEqual({
      known: false,
      needs: ['machine outside or slot blocks that hold neighboring layers'],
    });
  });

  it('with one gap the outside stays what the text says', () => {
    const outer = ferryDrive.replace('gap inner', 'gap outer');
    expect(outsideDiameter(specified(outer))).toEqual({ known: false, needs: ['machine outside'] });
    expect(study(ferryDrive).report().assumptions.join()).not.toContain('machine outside');
  });
});

describe('a text that leaves the outside diameter out', () => {
  const left = withLine(crossedDrive, 'outside', null);

  it('has the report of the text that gives it, but for the assumption', () => {
    const [derived, written] = [study(left).report(), study(crossedDrive).report()];
    expect(derived.emf!.gaps[1]!.diameter).toBeCloseTo(0.1992, 12);
    const line = 'machine outside: 199.2 mm (from bore, slot depth and opening-height)';
    expect(derived.assumptions.filter((each) => each === line)).toHaveLength(1);
    expect(written.assumptions).not.toContain(line);
    expect(derived.missing).toEqual(written.missing);
    expect(derived.mmf!.outerWaves).toHaveLength(written.mmf!.outerWaves!.length);
    derived.mmf!.outerWaves!.forEach((wave, index) => {
      expect(wave.amplitude).toBeCloseTo(written.mmf!.outerWaves![index]!.amplitude, 9);
    });
  });

  it('says so even where no figure uses it', () => {
    const text = withLine(withLine(left, 'air-gap', null), 'flux', null);
    expect(study(text).report().assumptions.join('\n')).toContain('machine outside: 199.2 mm');
  });
});
