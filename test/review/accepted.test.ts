import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { comparisonFails } from '../../core/review/policy.ts';
import { comparisonSchema } from '../../core/review/schema.ts';
import { summaryText } from '../../core/review/summary.ts';
import { study } from '../support/study.ts';

const warned =
  'winding "Slipway winch"\nmachine { slots 9  poles 8  phases 3 }\nlayout { layers 2  span 1 }\n';
const accepting = (reason: string, code = 'unbalanced-pull') =>
  `${warned}require { accept ${code} "${reason}" }\n`;
const of = (old: string | null, now: string | null) => {
  const comparison = compare(old === null ? null : study(old), now === null ? null : study(now));
  expect(comparisonSchema.parse(comparison)).toEqual(comparison);
  return comparison;
};

describe('a warning that is newly accepted', () => {
  const comparison = of(warned, accepting('seen by <b>@shop</b>'));

  it('is told with its reason and what it says', () => {
    const { message } = study(warned).findings[0]!;
    expect(comparison.accepted).toEqual({
      new: [{ code: 'unbalanced-pull', reason: 'seen by <b>@shop</b>', messages: [message] }],
      gone: [],
    });
    expect(comparison.findings).toEqual({ new: [], gone: [] });
    expect(comparison.warnings).toEqual({ old: 1, new: 0 });
    expect(summaryText(comparison)).toContain('1 kind of warning is newly accepted.');
    const text = comparisonMarkdown(comparison, 'old', 'new');
    expect(text).toContain('**newly accepted**');
    expect(text).toContain('`seen by <b>@shop</b>`');
  });

  it('counts as worse, and as no error', () => {
    expect(comparisonFails(comparison, 'worse')).toBe(true);
    expect(comparisonFails(comparison, 'errors')).toBe(false);
    expect(comparisonFails(of(null, accepting('seen')), 'worse')).toBe(true);
    expect(comparisonFails(of(warned, warned), 'worse')).toBe(false);
  });
});

describe('an accept on both sides', () => {
  it('is none of the change; another reason is a changed statement, and no harm', () => {
    const same = of(accepting('seen'), accepting('seen').replace('require', '\n\nrequire'));
    expect(same.accepted).toEqual({ new: [], gone: [] });
    expect(comparisonFails(same, 'worse')).toBe(false);
    const other = of(accepting('seen'), accepting('measured'));
    expect(other.accepted).toEqual({ new: [], gone: [] });
    expect(other.statements).toEqual([
      { what: 'require accept unbalanced-pull', old: '"seen"', new: '"measured"' },
    ]);
    expect(comparisonFails(other, 'worse')).toBe(false);
  });

  it('of other codes does not count', () => {
    const comparison = of(accepting('seen'), accepting('seen', 'terminals-apart'));
    expect(comparison.accepted.new.map(({ code, messages }) => [code, messages])).toEqual([
      ['terminals-apart', []],
    ]);
    expect(comparison.accepted.gone.map(({ code }) => code)).toEqual(['unbalanced-pull']);
    expect(summaryText(comparison)).toContain('1 kind of warning is newly accepted, 1 no more.');
  });
});

describe('an accept that is taken back', () => {
  it('is told, and is no harm', () => {
    const comparison = of(accepting('seen'), warned);
    expect(comparison.accepted.gone.map(({ code }) => code)).toEqual(['unbalanced-pull']);
    expect(summaryText(comparison)).toContain('1 kind of warning is accepted no more.');
    expect(comparisonFails(comparison, 'worse')).toBe(false);
  });
});
