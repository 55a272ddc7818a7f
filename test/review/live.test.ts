import { describe, expect, test } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { designFigures } from '../../core/report/figures.ts';
import { compare } from '../../core/review/compare.ts';
import { liveDifference } from '../../core/review/live.ts';
import { studyOf } from '../../core/study.ts';
import { smallHairpins } from '../space/machines.ts';
import { writtenGate } from '../support/lockGate.ts';

const checked = (text: string) => checkText(text);
const between = (old: string, now: string) => liveDifference(checked(old), checked(now));

describe('what changed while typing', () => {
  test('is nothing where only letters did', () => {
    const same = writtenGate.replace('Lock gate', 'Sluice gate').replace('(', ' (');
    expect(between(writtenGate, same)).toEqual({ bars: [], joints: { added: [], removed: [] }, figures: [] });
  });

  test('is the bars, joints and key figures that a whole comparison tells too', () => {
    const now = writtenGate.replace('7b -3a -3b -3a', '1b -3a -3b -3a');
    const live = between(writtenGate, now)!;
    const whole = compare(studyOf(checked(writtenGate)), studyOf(checked(now)));
    expect(live.bars).toEqual(whole.bars);
    expect(live.joints.added.length).toBeGreaterThan(0);
    expect(live.joints).toEqual(whole.joints);
  });

  test('tells figures before and now, as they are shown', () => {
    const base = writtenGate.replace('slots 12', 'slots 24').replace(/connect[^}]*\}/, 'connect { delta }');
    const five = base.replace('span 3', 'span 5');
    const figures = between(base.replace('span 3', 'span 6'), five)!.figures;
    expect(figures.find(({ label }) => label === 'Winding factor')).toEqual({
      label: 'Winding factor',
      old: '0.9659',
      now: '0.9330',
    });
  });

  test('tells every figure that heads the panel, those of machine and bars too', () => {
    const base = smallHairpins();
    const before = /height [\d.]+ mm/.exec(base.slice(base.indexOf('bar {')))![0];
    const lower = base.replace(before, 'height 1.2 mm');
    const [old, now] = [base, lower].map((text) =>
      designFigures(studyOf(checked(text)).facts!).map(({ label, value }) => [label, value]),
    );
    const moved = now!.filter(([label, value], i) => old![i]![0] === label && old![i]![1] !== value);
    expect(moved.map(([label]) => label)).toContain('Bare conductors in the slot');
    const told = between(base, lower)!.figures.map(({ label, now: value }) => [label, value]);
    expect(told).toEqual(expect.arrayContaining(moved));
  });

  test('is not told where a text yields no winding', () => {
    expect(between(writtenGate, 'winding "Nothing"')).toBeNull();
  });
});
