import { describe, expect, it } from 'vitest';
import type { CopperProblem } from '../../core/copper/copperFigures.ts';
import { crossedDrive, examine, ferryDrive, withLine } from './machines.ts';

function problems(text: string): readonly (CopperProblem & { readonly text: string })[] {
  return examine(text).problems.map((problem) => ({
    ...problem,
    text: text.slice(problem.range.start, problem.range.end),
  }));
}

describe('what cannot be built', () => {
  it('the drives of the other tests can', () => {
    expect(problems(ferryDrive)).toEqual([]);
    expect(problems(crossedDrive)).toEqual([]);
  });

  it('bars too wide: the missing width, at the bar width', () => {
    const [problem, ...others] = problems(withLine(ferryDrive, 'width 3.6', '  width 4.1 mm'));
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ kind: 'bars-do-not-fit', direction: 'width', text: 'width 4.1 mm' });
    // 4.1 + 2 x 0.09 in 4.6 - 2 x 0.25.
    if (problem?.kind === 'bars-do-not-fit') expect(problem.lacking).toBeCloseTo(0.18e-3, 12);
  });

  it('bars too high: the missing depth', () => {
    const found = problems(withLine(ferryDrive, 'height', '  height 3.4 mm'));
    expect(found.map(({ kind }) => kind)).toEqual(['bars-do-not-fit']);
    // 4 x (3.4 + 0.18) in 15.2 - 1 - 0.25.
    if (found[0]?.kind === 'bars-do-not-fit') expect(found[0].lacking).toBeCloseTo(0.37e-3, 12);
  });

  it('a bar that just fits is no problem', () => {
    expect(problems(withLine(ferryDrive, 'width 3.6', '  width 3.92 mm'))).toEqual([]);
  });

  it('corner beyond half the thinner side', () => {
    const text = withLine(ferryDrive, 'corner', '  corner 1.6 mm');
    expect(problems(text)).toMatchObject([{ kind: 'corner-too-large', text: 'corner 1.6 mm', most: 1.5e-3 }]);
    expect(examine(text).copper.section.barArea).toBeNull();
  });

  it('bends that cannot pass: needed, pitch and the clearance that fits', () => {
    const text = withLine(ferryDrive, 'end-clearance', '  end-clearance 8 mm');
    const found = problems(text);
    const { radii, length, missing } = examine(text).copper;
    expect(found.map(({ kind }) => kind)).toEqual(
      ['bends-cannot-pass', 'bends-cannot-pass', 'bends-nearly-touch', 'bends-nearly-touch'].slice(
        0,
        found.length,
      ),
    );
    const [first] = found;
    if (first?.kind !== 'bends-cannot-pass') throw new Error('no such problem');
    expect(first.text).toBe('end-clearance 8 mm');
    expect(first.needed).toBeCloseTo(11.78e-3, 12);
    expect(first.pitch).toBeCloseTo((2 * Math.PI * (radii![0]! - 1.59e-3)) / 48, 12);
    expect(first.clearanceThatFits).toBeCloseTo(first.pitch - 3.78e-3, 12);
    expect(length.bars).toBeNull();
    const entry = missing.find(({ quantity }) => quantity === 'copper.length.bars');
    expect(entry?.needs[0]).toBe('bar end-clearance with which the bends of layer a can pass each other');
    const fits = (first.clearanceThatFits! - 1e-6) * 1e3;
    const better = withLine(ferryDrive, 'end-clearance', `  end-clearance ${fits.toFixed(6)} mm`);
    expect(examine(better).copper.length.bars).not.toBeNull();
  });

  it('fill above common practice', () => {
    const text = ferryDrive
      .replace('width 4.6 mm', 'width 3.7 mm')
      .replace('liner 0.25 mm', 'liner 0 mm')
      .replace('height 3 mm', 'height 3.3 mm')
      .replace('wedge 1 mm', 'wedge 0 mm')
      .replace('coating 0.09 mm', 'coating 0 mm');
    expect(problems(text)).toMatchObject([{ kind: 'fill-too-high', most: 0.8 }]);
  });

  it('slots as wide as the slot pitch', () => {
    const found = problems(withLine(ferryDrive, 'width 4.6', '  width 12 mm'));
    expect(found).toMatchObject([{ kind: 'slot-wider-than-pitch', width: 12e-3, text: 'width 12 mm' }]);
  });

  it('two gaps: bore, slot and outside must add up', () => {
    const text = ferryDrive.replace('gap inner', 'gap both\n  outside 194 mm');
    const [problem] = problems(text);
    expect(problem).toMatchObject({ kind: 'diameters-disagree', outside: 194e-3, text: 'outside 194 mm' });
    if (problem?.kind === 'diameters-disagree')
      expect(problem.outsideFromSlots).toBeCloseTo(162e-3 + 2 * (15.2e-3 + 2 * 0.8e-3), 12);
  });
});
