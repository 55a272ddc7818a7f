// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparedFilesMarkdown, comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { comparisonFails } from '../../core/review/policy.ts';
import type { LimitChange } from '../../core/review/schema.ts';
import { summaryText } from '../../core/review/summary.ts';
import { smallHairpins } from '../space/machines.ts';
import { study } from '../support/study.ts';
import { unmeasured } from '../support/withoutEnds.ts';
import { generatedFerry } from './texts.ts';

// Bars that fit, so that the limits are all that can fail.
const fitting = generatedFerry.replace('height 6.0', 'height 3.0');
const requiring = (...limits: readonly string[]) =>
  `${fitting.slice(0, fitting.indexOf('require {'))}require {\n${limits.map((limit) => `  ${limit}\n`).join('')}}\n`;
const of = (old: string, now: string) => compare(study(old), study(now));
const changes = (old: readonly string[], now: readonly string[]) =>
  of(requiring(...old), requiring(...now)).limits.map(({ change }) => change);

const three = ['winding-factor harmonic 1 >= 0.93', 'differential-leakage <= 3.5 %', 'torque >= 50 Nm'];
const [, leakage, torque] = three as [string, string, string];

describe('limits at points of the duty', () => {
  const duty = (limit: string) =>
    `${requiring('terminal-current <= 300 A', `terminal-current at "ebb" <= ${limit}`)}duty { point "ebb" speed 900 rpm current 150 A for 2 min }\n`;

  it('are told from those at the rated load, in JSON and in words', () => {
    const comparison = of(duty('200 A'), duty('180 A'));
    expect(
      comparison.limits.map(({ quantity, point, limit, new: now }) => [quantity, point, limit, now]),
    ).toEqual([
      ['terminal-current', undefined, 300, 210],
      ['terminal-current', 'ebb', 180, 150],
    ]);
    const text = comparisonMarkdown(comparison, 'old', 'new');
    expect(text).toContain('| `terminal-current` | at most 300 A |');
    expect(text).toContain('| `terminal-current at "ebb"` | at most 180 A, tightened from 200 A |');
  });
});

describe('what is still being computed', () => {
  const text = `${smallHairpins()}require { end-clearance-left >= 0.1 mm  winding-factor >= 0.5 }\n`;

  it('is no limit that fails, and no number that came or went', () => {
    const [whole, partly] = [study(text), unmeasured(text)];
    expect(whole.measuring).toBe(false);
    expect(partly.measuring).toBe(true);
    expect(compare(whole, study(text.replace('0.5', '0.6'))).limits).toHaveLength(2);
    for (const [old, now] of [
      [whole, partly],
      [partly, whole],
    ] as const) {
      const comparison = compare(old, now);
      expect(comparison.limits.map(({ quantity }) => quantity)).toEqual(['winding-factor']);
      expect(comparison.numbers).toEqual([]);
      expect(summaryText(comparison)).toContain('The same winding. The limit holds.');
    }
  });
});

describe('limits that change', () => {
  it.each<[string, string, LimitChange | null]>([
    ['torque >= 50 Nm', 'torque >= 40 Nm', 'loosened'],
    ['torque >= 50 Nm', 'torque >= 55 Nm', 'tightened'],
    ['torque >= 50 Nm', 'torque >= 0.05 kNm', null],
    ['ac-ratio <= 1.6', 'ac-ratio <= 1.7', 'loosened'],
    ['ac-ratio <= 1.6', 'ac-ratio <= 1.5', 'tightened'],
    ['differential-leakage <= 3.5 %', 'differential-leakage <= 0.035', null],
    // Harmonic n of 8 poles is order 4 n; without a scope the working harmonic is meant.
    ['winding-factor harmonic 5 <= 0.3', 'winding-factor order 20 <= 0.4', 'loosened'],
    ['winding-factor >= 0.93', 'winding-factor harmonic 1 >= 0.93', null],
    ['winding-factor >= 0.93', 'winding-factor order 4 >= 0.94', 'tightened'],
  ])('%s to %s: %s', (old, now, change) => {
    expect(changes([old], [now])).toEqual([change]);
  });

  it('tells limits that are new or dropped from those that changed', () => {
    expect(changes(three, three.slice(0, 2))).toEqual([null, null, 'dropped']);
    expect(changes(three.slice(0, 2), three)).toEqual([null, null, 'new']);
    expect(changes(['torque >= 50 Nm'], ['torque <= 50 Nm'])).toEqual(['new', 'dropped']);
    expect(changes(['winding-factor harmonic 5 <= 0.3'], ['winding-factor harmonic 7 <= 0.3'])).toEqual([
      'new',
      'dropped',
    ]);
  });

  it('takes the strictest of several limits of one kind, in whatever order they stand', () => {
    const [lax, strict] = ['torque >= 40 Nm', 'torque >= 50 Nm'];
    expect(changes([strict, lax], [lax, strict])).toEqual([null]);
    expect(changes([strict, lax], [lax])).toEqual(['loosened']);
    expect(changes([lax, strict], [lax])).toEqual(['loosened']);
    expect(changes([lax], [lax, strict])).toEqual(['tightened']);
  });

  it('says nothing of limits of a file that is not there', () => {
    for (const comparison of [
      compare(null, study(requiring(...three))),
      compare(study(requiring(...three)), null),
    ]) {
      expect(comparison.limits.map(({ change }) => change)).toEqual([null, null, null]);
    }
    expect(comparisonFails(compare(study(requiring(...three)), null), 'worse')).toBe(false);
  });

  it('makes loosened and dropped ones worse, tightened and new ones not', () => {
    const fails = (old: readonly string[], now: readonly string[]) =>
      (['worse', 'errors', 'none'] as const).filter((failOn) =>
        comparisonFails(of(requiring(...old), requiring(...now)), failOn),
      );
    expect(fails(three, [three[0]!, leakage])).toEqual(['worse']);
    expect(fails(three, [three[0]!, leakage, 'torque >= 45 Nm'])).toEqual(['worse']);
    expect(fails(three, [three[0]!, leakage, 'torque >= 51 Nm'])).toEqual([]);
    expect(fails(three.slice(0, 2), three)).toEqual([]);
    expect(fails(three, [three[0]!, leakage, 'torque >= 5000 Nm'])).toEqual(['worse', 'errors']);
  });

  it('says them in the summary, of one file and of many', () => {
    const now = requiring('winding-factor harmonic 1 >= 0.92', torque.replace('50', '51'), 'jumpers <= 9');
    const comparison = of(requiring(...three), now);
    const said = '1 limit loosened, 1 limit dropped, 1 limit tightened and 1 new limit.';
    expect(summaryText(comparison)).toContain(said);
    const text = comparisonMarkdown(comparison, 'old.winding', 'new.winding');
    expect(text.slice(0, text.indexOf('|'))).toContain(said);
    expect(text).toContain('at least 0.9200, **loosened** from 0.9300');
    expect(text).toContain('at most 3.50 %, **dropped**');
    expect(text).toContain('tightened from');
    const file = (name: string) => ({ file: name, status: 'changed' as const, comparison });
    const many = comparedFilesMarkdown([file('a.winding'), file('b.winding')], 'main');
    expect(many).toContain('**2 limits loosened, 2 limits dropped, 2 limits tightened and 2 new limits.**');
    expect(many.split('\n').find((line) => line.startsWith('| `a.winding`'))).toContain(said);
  });
});

describe('what fails a comparison', () => {
  const failing = requiring('winding-factor harmonic 1 >= 0.99');

  it('is no error that was there before in the same winding', () => {
    for (const failOn of ['errors', 'worse'] as const) {
      expect(comparisonFails(of(failing, failing), failOn)).toBe(false);
      expect(comparisonFails(of(failing, failing.replaceAll('  ', '    ')), failOn)).toBe(false);
      expect(comparisonFails(of(failing, failing.replace('span   6', 'span   5')), failOn)).toBe(true);
      expect(comparisonFails(of(fitting, failing), failOn)).toBe(true);
      expect(comparisonFails(compare(null, study(failing)), failOn)).toBe(true);
    }
    const broken = 'winding "x"\nmachine { slots fourty }\n';
    expect(comparisonFails(of(broken, broken), 'errors')).toBe(false);
    expect(comparisonFails(of(broken, `${broken}slot { }\n`), 'errors')).toBe(false);
    expect(comparisonFails(of(fitting, broken), 'errors')).toBe(true);
  });
});
