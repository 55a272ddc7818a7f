import { describe, expect, it } from 'vitest';
import { pathsUnequal } from '../../core/findings/connection/findingKinds.ts';

describe('a share of more than the whole', () => {
  const message = (circulating: number) =>
    pathsUnequal.message({ phase: 'U', difference: 0.2, worst: 'path U 1', circulating, deviation: null });

  it('is told as how many times', () => {
    expect(message(10)).toContain('a circulating current of 10 times the path current');
    expect(message(1.5)).toContain('1.5 times the path current');
  });

  it('and below in percent', () => {
    expect(message(0.034)).toContain('a circulating current of 3.4 % of the path current');
    expect(message(1)).toContain('100 % of the path current');
  });
});
