// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { ferryDrive, withLine } from '../../copper/machines.ts';
import { study } from '../../support/study.ts';

function findingsOf(text: string, code: string) {
  return study(text)
    .findings.filter((found) => found.code === code)
    .map((found) => ({ ...found, words: text.slice(found.range.start, found.range.end) }));
}

describe('temperature of the bars', () => {
  const cool = withLine(ferryDrive, 'winding-temperature', '  winding-temperature 91 degC');

  it('bars that settle above the winding temperature lose more than told', () => {
    const { heat } = study(cool).report().copper!;
    const [found] = findingsOf(cool, 'bars-hotter-than-winding');
    expect(found).toMatchObject({ severity: 'warning', words: 'winding-temperature 91 degC' });
    expect(found!.message).toContain('above the winding temperature of 91 degC');
    expect(found!.message).toContain(`${heat.hotSpot!.toPrecision(4)} degC at its hottest`);
  });

  it('below it there is nothing to say, and the model is told in full', () => {
    expect(findingsOf(ferryDrive, 'bars-hotter-than-winding')).toEqual([]);
    const line = study(ferryDrive)
      .report()
      .assumptions.find((each) => each.startsWith('heat along the bar'));
    expect(line).toContain('within the stack');
    expect(line).toContain('the overhang adds no rise');
  });
});

describe('what is out of common practice', () => {
  it('flux: p Phi/(D l) at the bore', () => {
    const density = (4 * 4.1e-3) / (0.162 * 0.096);
    expect(study(ferryDrive).report().emf!.gapFluxDensity).toBeCloseTo(density, 12);
    expect(findingsOf(ferryDrive, 'gap-field-high')).toEqual([]);
    // The same from a sine integrated over the pole at the bore: its flux is the one written.
    const pole = (Math.PI * 0.162) / 8;
    let flux = 0;
    for (let i = 0; i < 1000; i++)
      flux += density * Math.sin((Math.PI * (i + 0.5)) / 1000) * (pole / 1000) * 0.096;
    expect(flux / 4.1e-3).toBeCloseTo(1, 5);
    const text = withLine(ferryDrive, 'flux', '  flux 5 mWb');
    const [found] = findingsOf(text, 'gap-field-high');
    expect(found).toMatchObject({ severity: 'warning', words: 'flux 5 mWb' });
    expect(found!.message).toContain('1.286 T');
  });

  it('current density', () => {
    expect(findingsOf(ferryDrive, 'current-density-high')).toEqual([]);
    const text = withLine(ferryDrive, 'current', '  current 700 A');
    const area = 3.6 * 3 - (4 - Math.PI) * 0.25;
    const [found] = findingsOf(text, 'current-density-high');
    expect(found!.severity).toBe('warning');
    expect(found!.message).toContain(`${(350 / area).toPrecision(3)} A/mm2`);
  });

  it('harmonics that are equal in all phases circulate in a delta', () => {
    const field = ferryDrive.replace('  current', '  rotor-field harmonic 3 10 %\n  current');
    const text = field.replace('star', 'delta');
    const { emf, copper } = study(text).report();
    // kw3 of two slots a belt: cos 45 degrees, against cos 15 degrees.
    const third = (emf!.phaseVoltage! * 0.1 * Math.cos(Math.PI / 4)) / Math.cos(Math.PI / 12);
    const [found] = findingsOf(text, 'delta-circulation');
    expect(found).toMatchObject({ severity: 'info', words: 'rotor-field harmonic 3 10 %' });
    expect(found!.message).toContain(`${third.toPrecision(3)} V a phase`);
    const most = third / copper!.resistance.phase!;
    expect(found!.message).toContain(`at most ${Math.round(most)} A`);
    expect(findingsOf(field, 'delta-circulation')).toEqual([]);
    expect(findingsOf(text.replace('harmonic 3', 'harmonic 5'), 'delta-circulation')).toEqual([]);
  });
});

describe('slots at the gap', () => {
  it('an opening is no wider than its slot', () => {
    const text = withLine(ferryDrive, 'opening 1.2', '  opening 4.7 mm');
    const [found] = findingsOf(text, 'opening-too-wide');
    expect(found).toMatchObject({ severity: 'error', words: 'opening 4.7 mm' });
    expect(found!.message).toContain('slot of 4.6 mm');
    expect(findingsOf(withLine(ferryDrive, 'opening 1.2', '  opening 4.6 mm'), 'opening-too-wide')).toEqual(
      [],
    );
  });

  it('and narrower than the slot pitch', () => {
    const text = withLine(withLine(ferryDrive, 'opening 1.2', '  opening 11 mm'), 'width 4.6', null);
    expect(findingsOf(text, 'opening-too-wide')[0]!.message).toContain(
      // pi 162/48.
      'slot pitch of 10.6 mm',
    );
  });

  it('slots do not reach beyond the axis', () => {
    const text = ferryDrive
      .replace('gap inner', 'gap outer\n  outside 60 mm')
      .replace('depth 15.2 mm', 'depth 35 mm');
    const [found] = findingsOf(text, 'slots-beyond-axis');
    expect(found).toMatchObject({ severity: 'error', words: 'depth 35 mm' });
    expect(findingsOf(text, 'slot-wider-than-pitch')).toEqual([]);
    expect(study(text).report().copper?.length.bars).toBeNull();
  });
});

describe('where common practice ends', () => {
  // Section 10.5854 mm2, two paths: 30 A/mm2 at 635.12 A.
  it.each([
    ['635 A', 0],
    ['635.2 A', 1],
  ])('current density above 30 A/mm2: %s', (current, count) => {
    const text = withLine(ferryDrive, 'current', `  current ${current}`);
    expect(findingsOf(text, 'current-density-high')).toHaveLength(count);
  });

  // p Phi/(D l) = 1.2 T at 1.2 x 0.162 x 0.096/4 = 4.6656 mWb.
  it.each([
    ['4.665 mWb', 0],
    ['4.667 mWb', 1],
  ])('flux density above 1.2 T: %s', (flux, count) => {
    const text = withLine(ferryDrive, 'flux', `  flux ${flux}`);
    expect(findingsOf(text, 'gap-field-high')).toHaveLength(count);
  });

  // The slot pitch at the bore is pi 162/48 = 10.6029 mm.
  it.each([
    ['10.602 mm', 0],
    ['10.604 mm', 1],
  ])('an opening as wide as the slot pitch: %s', (opening, count) => {
    const text = withLine(withLine(ferryDrive, 'opening 1.2', `  opening ${opening}`), 'width 4.6', null);
    expect(findingsOf(text, 'opening-too-wide')).toHaveLength(count);
  });

  it('bars hotter than told: their mean against the winding temperature', () => {
    const [found] = findingsOf(
      withLine(ferryDrive, 'winding-temperature', '  winding-temperature 91 degC'),
      'bars-hotter-than-winding',
    );
    const mean = Number(/settles at ([\d.]+) degC in the mean/.exec(found!.message)?.[1]);
    expect(mean, found!.message).toBeGreaterThan(91);
    const told = Math.ceil(mean) + 2;
    expect(
      findingsOf(
        withLine(ferryDrive, 'winding-temperature', `  winding-temperature ${told} degC`),
        'bars-hotter-than-winding',
      ),
    ).toEqual([]);
  });
});
