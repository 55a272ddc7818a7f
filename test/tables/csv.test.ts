import { describe, expect, it } from 'vitest';
import { withstandVoltage } from '../../core/sheets/notes.ts';
import { csvCell, csvHeading } from '../../core/tables/csv.ts';

describe('cells of a CSV file', () => {
  const cell = (unit: 'length' | 'meters' | 'speed' | 'factor', value: number) =>
    csvCell({ heading: 'x', meaning: '', unit }, value);

  it('are in the units of their headings', () => {
    expect(cell('length', 0.0124)).toBe(12.4);
    expect(cell('meters', 0.0124)).toBe('0.012400000');
    expect(cell('speed', 50)).toBe(3000);
    expect(cell('factor', -0.5)).toBe('-0.500000000');
  });

  it('have temperatures under a heading of letters alone', () => {
    expect(csvHeading({ heading: 'hot spot', meaning: '', unit: 'temperature' })).toBe('hotSpotDegC');
  });
});

it('the withstand voltage of the sheets is 2 U + 1000 V, at least 1500 V (from memory, as they say)', () => {
  expect([100, 250, 400].map(withstandVoltage)).toEqual([1500, 1500, 1800]);
});
