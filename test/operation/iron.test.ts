import { describe, expect, it } from 'vitest';
import { withLine } from '../copper/machines.ts';
import { told } from '../support/told.ts';
import { study } from '../support/withoutEnds.ts';
import { smallDrive } from './machines.ts';

const drive = smallDrive.replace('  stack 80 mm', '  stack 80 mm\n  stack-factor 0.96\n  yoke-height 12 mm');
const ironOf = (text: string) => told('iron', study(text).facts!.iron());
const missingOf = (text: string) =>
  ironOf(text)
    .missing.map(({ quantity }) => quantity.replace('iron.', ''))
    .sort();

describe('flux density of the iron', () => {
  it('by hand: the tooth at the inner end of its slot, the yoke behind it', () => {
    const { tooth, yoke } = ironOf(drive);
    // Peak at the bore, and what a slot pitch of it puts into a tooth.
    const peak = (2 * 3.4e-3) / (0.09 * 0.08);
    const width = (Math.PI * (90 + 1.6)) / 24 - 4.6;
    expect(tooth.noLoad).toBeCloseTo((peak * ((Math.PI * 90) / 24)) / (width * 0.96), 12);
    expect(yoke!.noLoad).toBeCloseTo(3.4e-3 / (2 * 0.012 * 0.08 * 0.96), 12);
    // At load times |E + j w Lm I|/E.
    const { emf } = study(drive).report({ orders: 1 });
    const drop = 2 * Math.PI * 150 * emf!.magnetizingInductance! * 120;
    const rise = Math.hypot(emf!.phaseVoltage!, drop) / emf!.phaseVoltage!;
    expect(tooth.load! / tooth.noLoad!).toBeCloseTo(rise, 12);
    expect(yoke!.load! / yoke!.noLoad!).toBeCloseTo(rise, 12);
    // Against the field the current takes flux away.
    const weak = ironOf(withLine(drive, 'current-angle', '  current-angle 60 edeg'));
    expect(weak.tooth.load!).toBeLessThan(weak.tooth.noLoad!);
  });

  it('an outer gap: the tooth is narrowest at the bottom of the slot', () => {
    const outer = drive.replace('gap inner', 'gap outer').replace('bore 90 mm', 'outside 110 mm');
    const width = (Math.PI * (110 - 1.6 - 16.4)) / 24 - 4.6;
    expect(ironOf(outer).tooth.noLoad).toBeCloseTo(
      (Math.PI * 2 * 3.4e-3) / (24 * 0.08 * width * 1e-3 * 0.96),
      12,
    );
  });

  it('two gaps: the narrowest place between the mouths, and no yoke to ask for', () => {
    const both = withLine(drive, 'yoke-height', null).replace('gap inner', 'gap both');
    const rows = both
      .replace('skew all 0 deg', 'skew a +1 slot\n  skew b -1 slot')
      .replace(
        'slot {',
        'slot b { width 7.2 mm  depth 8.2 mm  opening 1.2 mm  opening-height 0.8 mm }\nslot a {',
      );
    const width = (Math.PI * (90 + 1.6 + 16.4)) / 24 - 7.2;
    const result = ironOf(rows);
    expect(result.tooth.noLoad).toBeCloseTo((Math.PI * 2 * 3.4e-3) / (24 * 0.08 * width * 1e-3 * 0.96), 12);
    expect(result.missing.some(({ quantity }) => quantity.includes('yoke'))).toBe(false);
  });

  it('warns of teeth above 2.0 T and a yoke above 1.7 T, on the larger of no load and load', () => {
    const codes = (text: string) =>
      study(text)
        .findings.map(({ code }) => code)
        .filter((code) => code.endsWith('-field-high') && !code.startsWith('gap'));
    // 1.67 and 1.84 T as it stands.
    const fits = withLine(drive, 'yoke-height', '  yoke-height 14 mm');
    expect(codes(fits)).toEqual([]);
    expect(codes(drive)).toEqual(['yoke-field-high']);
    expect(codes(withLine(fits, 'flux', '  flux 4.3 mWb'))).toEqual(['tooth-field-high', 'yoke-field-high']);
  });

  it('limits hold the larger of the two', () => {
    const weak = withLine(drive, 'current-angle', '  current-angle 60 edeg');
    const { limits } = study(
      `${weak}require { tooth-flux-density <= 1.8 T  yoke-flux-density <= 1800 mT }\n`,
    );
    const { tooth, yoke } = ironOf(weak);
    expect(limits.map(({ actual }) => actual)).toEqual([tooth.noLoad, yoke!.noLoad]);
    expect(limits.map(({ met }) => met)).toEqual([true, false]);
  });

  const load = ['tooth.load', 'yoke.load'];
  const all = [...load, 'tooth.noLoad', 'yoke.noLoad'];
  it.each([
    ['flux', all],
    ['stack ', all],
    ['bore', ['tooth.noLoad', ...load]],
    ['width 4.6', ['tooth.load', 'tooth.noLoad']],
    ['opening-height', ['tooth.load', 'tooth.noLoad']],
    ['yoke-height', ['yoke.load', 'yoke.noLoad']],
    ['current 120', load],
    ['air-gap', load],
    ['magnet-height', load],
    ['depth', []],
    ['speed', []],
    ['stack-factor', []],
  ])('without %s exactly what follows from it is missing', (start, expected) => {
    expect(missingOf(withLine(drive, start, null))).toEqual([...expected].sort());
  });

  it('the default of the stack factor is told', () => {
    const { assumptions } = ironOf(withLine(drive, 'stack-factor', null));
    expect(assumptions).toContain('machine stack-factor: 0.95 (default)');
    expect(ironOf(drive).missing).toEqual([]);
  });
});
