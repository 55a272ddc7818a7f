import { describe, expect, test } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { compare } from '../../core/review/compare.ts';
import { liveDifference } from '../../core/review/live.ts';
import { studyOf } from '../../core/study.ts';

const gate = `winding "Lock gate"
machine { slots 12  poles 4  phases 3 }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 7b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

const checked = (text: string) => checkText(text);
const between = (old: string, now: string) => liveDifference(checked(old), checked(now));

describe('what changed while typing', () => {
  test('is nothing where only letters did', () => {
    const same = gate.replace('Lock gate', 'Sluice gate').replace('(', ' (');
    expect(between(gate, same)).toEqual({ bars: [], joints: { added: [], removed: [] }, figures: [] });
  });

  test('is the bars, joints and key figures that a whole comparison tells too', () => {
    const now = gate.replace('7b -3a -3b -3a', '1b -3a -3b -3a');
    const live = between(gate, now)!;
    const whole = compare(studyOf(checked(gate)), studyOf(checked(now)));
    expect(live.bars).toEqual(whole.bars);
    expect(live.joints.added.length).toBeGreaterThan(0);
    expect(live.joints).toEqual(whole.joints);
  });

  test('tells figures before and now, as they are shown', () => {
    const base = gate.replace('slots 12', 'slots 24').replace(/connect[^}]*\}/, 'connect { delta }');
    const five = base.replace('span 3', 'span 5');
    const figures = between(base.replace('span 3', 'span 6'), five)!.figures;
    expect(figures.find(({ label }) => label === 'Winding factor')).toEqual({
      label: 'Winding factor',
      old: '0.9659',
      now: '0.9330',
    });
  });

  test('is not told where a text yields no winding', () => {
    expect(between(gate, 'winding "Nothing"')).toBeNull();
  });
});
