import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { scaleOf } from '../../core/review/numbers/scales.ts';
import { movedTexts } from '../../core/review/words.ts';
import { tries } from '../support/tries.ts';

const texts = (quantity: string, old: number, now: number) =>
  movedTexts({ quantity, old, new: now, difference: now - old });

describe('a difference', () => {
  it.each<[string, number, number, string, string, string]>([
    ['torque', 208.09, 330.471, '208.09 Nm', '330.47 Nm', '+122.38 Nm'],
    ['line-voltage', 93.548, 93.98349, '93.548 V', '93.983 V', '+0.435 V'],
    ['copper-mass', 7.877, 7.43356, '7.877 kg', '7.4336 kg', '−0.4434 kg'],
    ['jumpers', 3, 0, '3', '0', '−3'],
    // Figures with fixed decimals have as many as tell the two apart.
    ['hot-spot-temperature', 94.802, 94.8219, '94.80 °C', '94.82 °C', '+0.02 °C'],
    ['winding-factor', 0.9659, 0.933, '0.9659', '0.9330', '−0.0329'],
    ['winding-factor', 0.947608, 0.9476, '0.94761', '0.94760', '−0.00001'],
    // So have others.
    ['line-voltage', 94.802, 94.8019766, '94.802 V', '94.80198 V', '−0.00002 V'],
    // It is that of the values as they are read, and not 0.4 from 93.5 to 94.0.
    ['hot-spot-temperature', 93.548, 93.98349, '93.5 °C', '94.0 °C', '+0.5 °C'],
    // Were it 0.2 or 0.1, it would be far off: a decimal more.
    ['hot-spot-temperature', 12.34, 12.46, '12.34 °C', '12.46 °C', '+0.12 °C'],
    ['hot-spot-temperature', 12.349, 12.351, '12.349 °C', '12.351 °C', '+0.002 °C'],
    // Too small or too large to be written out.
    ['line-voltage', 1.25e-8, 1.2e-8, '1.25e−8 V', '1.2e−8 V', '−5e−10 V'],
  ])('of %s from %f to %f', (quantity, old, now, ...told) => {
    expect(Object.values(texts(quantity, old, now))).toEqual(told);
  });
});

/** What is read, in steps of a power of ten that all numbers are whole in. */
function read(text: string): { readonly steps: bigint; readonly digits: number } {
  const [, sign, whole, part = '', power = '0'] = /^([+−]?)(\d+)(?:\.(\d+))?(?:e([+−-]?\d+))?(?: \S+)?$/.exec(
    text,
  )!;
  const steps = BigInt(`${whole}${part}`) * 10n ** BigInt(60 - part.length + Number(power.replace('−', '-')));
  return { steps: sign === '−' ? -steps : steps, digits: part.length };
}

test('old and difference together are new as all three are read, whatever the values', () => {
  const size = fc.integer({ min: -99_999_989, max: 99_999_989 }).map((whole) => whole / 1e8);
  const value = fc.tuple(size, fc.integer({ min: -9, max: 7 })).map(([part, power]) => part * 10 ** power);
  const share = fc.integer({ min: -8, max: 1 }).map((power) => 10 ** power);
  const quantities = [
    'hot-spot-temperature',
    'winding-factor',
    'differential-leakage',
    'torque',
    'phase-resistance',
  ];
  fc.assert(
    fc.property(fc.constantFrom(...quantities), value, share, size, (quantity, old, of, by) => {
      const now = old + by * of * Math.abs(old);
      // No move for a comparison.
      fc.pre(Math.abs(now - old) > 1e-9 * Math.max(Math.abs(old), Math.abs(now)) + 1e-15);
      const told = texts(quantity, old, now);
      const [before, after, moved] = [told.old, told.new, told.difference].map((text) => read(text).steps);
      expect(before! + moved!, JSON.stringify(told)).toBe(after);
      // Nor is it far from what is computed, whichever digits are told.
      const off = (Number(moved) / 1e60) * scaleOf(quantity).factor - (now - old);
      expect(Math.abs(off), JSON.stringify(told)).toBeLessThanOrEqual(0.5001 * Math.abs(now - old));
    }),
    { numRuns: tries(1000) },
  );
});
