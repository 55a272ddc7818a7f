import { describe, expect, it } from 'vitest';
import { phaseSystem } from '../../core/winding/phases.ts';

describe('phase systems', () => {
  it('names three and five phases as IEC 60034-8 does, from memory', () => {
    expect(phaseSystem(3)).toEqual({ names: ['U', 'V', 'W'], axes: [0, 120, 240], sets: 1 });
    expect(phaseSystem(5)).toEqual({
      names: ['U', 'V', 'W', 'X', 'Y'],
      axes: [0, 72, 144, 216, 288],
      sets: 1,
    });
  });

  it('names seven and more phases by letters that cannot be misread', () => {
    expect(phaseSystem(7).names.join('')).toBe('ABCDEFG');
    expect(phaseSystem(15).names.join('')).toBe('ABCDEFGHJKLMPQR');
    expect(new Set(phaseSystem(15).names).size).toBe(15);
  });

  it('lets the second of two sets lag by the declared angle', () => {
    expect(phaseSystem(6, 30)).toEqual({
      names: ['1U', '1V', '1W', '2U', '2V', '2W'],
      axes: [0, 120, 240, 30, 150, 270],
      sets: 2,
    });
    expect(phaseSystem(6, 180).axes).toEqual([0, 120, 240, 180, 300, 60]);
  });

  it.each([
    [0, undefined],
    [1, undefined],
    [2, undefined],
    [4, undefined],
    [6, undefined],
    [6, Number.NaN],
    [6, 360],
    [6, -30],
    [8, 30],
    [17, undefined],
    [3.5, undefined],
    [3, 30],
  ])('refuses %s phases apart %s', (count, apart) => {
    expect(() => phaseSystem(count, apart)).toThrow(RangeError);
  });
});
