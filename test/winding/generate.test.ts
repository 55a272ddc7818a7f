import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phaseBalance } from '../../core/analysis/phaseBalance.ts';
import { generateTable } from '../../core/winding/generate.ts';
import { phaseSystem } from '../../core/winding/phases.ts';
import { generated, request, rowText, tryGenerate } from '../analysis/windings.ts';
import { tries } from '../support/tries.ts';

const repeated = (row: string, times: number) => Array(times).fill(row).join(' ');

describe('generated layouts equal the handbook tables', () => {
  // Common practice: the phase belts U -W V -U W -V in every textbook on integer-slot windings.
  it('q = 2, full pitch', () => {
    const winding = generated(48, 8, 6);
    expect(rowText(winding, 0)).toBe(repeated('+U +U -W -W +V +V -U -U +W +W -V -V', 4));
    expect(rowText(winding, 1)).toBe(rowText(winding, 0));
  });

  it('q = 2, pitch 5 of 6: the second layer is moved back by one slot', () => {
    const winding = generated(24, 4, 5);
    expect(rowText(winding, 0)).toBe(repeated('+U +U -W -W +V +V -U -U +W +W -V -V', 2));
    expect(rowText(winding, 1)).toBe(repeated('+U -W -W +V +V -U -U +W +W -V -V +U', 2));
  });

  it('further pairs are staggered', () => {
    const winding = generated(24, 4, 6, { layers: 4, stagger: 1 });
    expect(rowText(winding, 2)).toBe(repeated('-V +U +U -W -W +V +V -U -U +W +W -V', 2));
    expect(rowText(winding, 3)).toBe(rowText(winding, 2));
  });

  it('one layer, q = 2', () => {
    const winding = generated(24, 4, 6, { layers: 1 });
    expect(rowText(winding, 0)).toBe(repeated('+U +U -W -W +V +V -U -U +W +W -V -V', 2));
  });

  it('12 slots, 10 poles, tooth coils in two layers', () => {
    // Magnussen & Sadarangani, Winding factors and Joule losses of PM machines with concentrated
    // windings, IEEE IEMDC 2003, from memory: coils U U' V' V W W' U' U V V' W' W, a dash for the other
    // sense; here they begin at tooth 6.
    const winding = generated(12, 10, 1);
    const go = rowText(winding, 0).split(' ');
    expect([...go.slice(5), ...go.slice(0, 5)].join(' ')).toBe('+U -U -V +V +W -W -U +U +V -V -W +W');
    const back = rowText(winding, 1).split(' ');
    expect([...back.slice(6), ...back.slice(0, 6)].join(' ')).toBe('-U +U +V -V -W +W +U -U -V +V +W -W');
  });

  it('12 slots, 10 poles, tooth coils in one layer wind every second tooth', () => {
    // The star of the six coils, 60 electrical degrees apart: U V' W U' V W'.
    const winding = generated(12, 10, 1, { layers: 1 });
    expect(rowText(winding, 0)).toBe('+U -U -V +V +W -W -U +U +V -V -W +W');
  });

  it('five phases', () => {
    const winding = generated(20, 4, 5, { phases: phaseSystem(5) });
    expect(rowText(winding, 0)).toBe(repeated('+U -X +V -Y +W -U +X -V +Y -W', 2));
  });

  it('two sets 30 degrees apart', () => {
    const winding = generated(24, 4, 6, { phases: phaseSystem(6, 30) });
    expect(rowText(winding, 0)).toBe(repeated('+1U +2U -1W -2W +1V +2V -1U -2U +1W +2W -1V -2V', 2));
  });

  it('wide belts have go sides of one sign only', () => {
    const winding = generated(24, 4, 5, { belt: 120 });
    expect(rowText(winding, 0)).toBe(repeated('+U +U +U +U +V +V +V +V +W +W +W +W', 2));
  });

  it('q = 5/2 in sectors of 2 and 3 slots in turn', () => {
    const winding = generated(30, 4, 7);
    expect(rowText(winding, 0)).toBe(repeated('+U +U +U -W -W +V +V +V -U -U +W +W +W -V -V', 2));
  });
});

describe('refusals carry their reason', () => {
  const reason = (...args: Parameters<typeof tryGenerate>) => {
    const result = tryGenerate(...args);
    return result.ok ? null : result.reason;
  };

  it('unbalanced, with the numbers of the rule', () => {
    expect(reason(24, 18, 1)).toMatchObject({
      kind: 'unbalanced',
      rule: { coilsAre: 'slots', coils: 24, share: 3, commonDivisor: 3, quotient: '8/3', met: false },
    });
    expect(reason(24, 4, 6, { phases: phaseSystem(5) })).toMatchObject({
      kind: 'unbalanced',
      rule: { share: 5, commonDivisor: 2, quotient: '12/5' },
      nearestSlots: [15, 20, 25, 30],
    });
    expect(reason(36, 4, 9, { phases: phaseSystem(6, 30) })).toMatchObject({
      kind: 'unbalanced',
      rule: { share: 12, commonDivisor: 2, quotient: '3/2' },
    });
  });

  it('tooth coils in one layer count half the slots', () => {
    expect(reason(9, 8, 1, { layers: 1 })).toMatchObject({ kind: 'slots-odd', slots: 9 });
    expect(reason(6, 6, 1, { layers: 1 })).toMatchObject({
      kind: 'unbalanced',
      rule: { coilsAre: 'half-the-slots', coils: 3, commonDivisor: 3, quotient: '1/3' },
    });
  });

  it('layers, belts, sets, spans and staggers', () => {
    expect(reason(24, 4, 6, { layers: 3 })).toEqual({ kind: 'odd-layers', layers: 3 });
    expect(reason(24, 4, 6, { belt: 90 })).toEqual({ kind: 'belt-refused', belt: 90, allowed: [60, 120] });
    expect(reason(24, 4, 6, { belt: 60, phases: phaseSystem(6, 30) })).toEqual({
      kind: 'belt-refused',
      belt: 60,
      allowed: [30],
    });
    expect(reason(24, 4, 6, { layers: 1, belt: 120 })).toEqual({
      kind: 'belt-refused',
      belt: 120,
      allowed: [60],
    });
    expect(reason(24, 4, 6, { phases: phaseSystem(6, 20) })).toEqual({ kind: 'two-sets-need-30', apart: 20 });
    expect(reason(24, 4, 0)).toEqual({ kind: 'span-out-of-range', span: 0, slots: 24 });
    expect(reason(24, 4, 24)).toEqual({ kind: 'span-out-of-range', span: 24, slots: 24 });
    expect(reason(24, 4, 5, { layers: 1 })).toEqual({
      kind: 'span-does-not-close',
      span: 5,
      spansThatDo: [6],
    });
    expect(reason(48, 8, 5, { layers: 1 })).toEqual({
      kind: 'span-does-not-close',
      span: 5,
      spansThatDo: [6, 18],
    });
    expect(reason(36, 8, 4, { layers: 1 })).toEqual({
      kind: 'span-does-not-close',
      span: 4,
      spansThatDo: [],
    });
    expect(reason(24, 4, 12)).toEqual({ kind: 'span-links-no-fundamental', span: 12, polePitch: 6 });
    expect(reason(24, 4, 6, { layers: 4, stagger: 6 })).toEqual({
      kind: 'stagger-cancels-fundamental',
      stagger: 6,
      pairs: 2,
    });
  });

  it('a belt of 180/7 may be written with two decimals', () => {
    expect(tryGenerate(28, 4, 7, { phases: phaseSystem(7), belt: 25.71 }).ok).toBe(true);
    expect(tryGenerate(28, 4, 7, { phases: phaseSystem(7), belt: 25.6 }).ok).toBe(false);
  });

  it('misuse throws', () => {
    for (const wrong of [
      { slots: 0 },
      { poles: 5 },
      { poles: 0 },
      { layers: 0 },
      { span: 1.5 },
      { stagger: 0.5 },
    ]) {
      expect(() => generateTable({ ...request(24, 4, 6), ...wrong })).toThrow(RangeError);
    }
  });
});

describe('every generated layout', () => {
  it('is balanced, fills every place, and has as many + as - bars', () => {
    const phases = fc.constantFrom(phaseSystem(3), phaseSystem(5), phaseSystem(7), phaseSystem(6, 30));
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 120 }),
        fc.integer({ min: 1, max: 30 }),
        phases,
        fc.constantFrom(1, 2, 4, 6),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: -3, max: 5 }),
        fc.boolean(),
        (slots, pairs, system, layers, span, stagger, wide) => {
          const belt = (wide ? 360 : 180) / system.names.length;
          const result = tryGenerate(slots, 2 * pairs, span, { phases: system, layers, stagger, belt });
          fc.pre(result.ok);
          const winding = generated(slots, 2 * pairs, span, { phases: system, layers, stagger, belt });
          const balance = phaseBalance(winding);
          expect(balance.balanced).toBe(true);
          for (let phase = 1; phase <= system.names.length; phase++) {
            const plus = winding.table.cells.filter((cell) => cell === phase).length;
            const minus = winding.table.cells.filter((cell) => cell === -phase).length;
            expect(plus).toBe(minus);
            expect(plus + minus).toBe((slots * layers) / system.names.length);
          }
        },
      ),
      { seed: 20260501, numRuns: tries(80) },
    );
  });
});
