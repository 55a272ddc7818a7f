import { describe, expect, test } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { compare } from '../../core/review/compare.ts';
import { liveDifference } from '../../core/review/live.ts';
import { studyOf } from '../../core/study.ts';
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

  test('is not told where a text yields no winding', () => {
    expect(between(writtenGate, 'winding "Nothing"')).toBeNull();
  });
});
