import { describe, expect, it } from 'vitest';
import { alikeFindings, linesInWords } from '../../core/findings/alike.ts';
import { sourceTexts } from '../../core/sheets/notes.ts';
import { study } from '../support/study.ts';

/** Four paths a phase whose crowns are special: each written path is warned of at its place. */
const text = `winding "Winch"
machine { slots 36 poles 6 phases 3 }
layout { layers 2 span 6 }
connect {
  star
  path U 1 from U1 14a +6b +6a +5b +6a +6b to N
  path U 2 from U1 13b -6a -6b -5a -6b -6a to N
  path U 3 from U1 13a +6b +6a +7b +6a +6b to N
  path U 4 from U1 14b -6a -6b -7a -6b -6a to N
  path V 1 from V1 18a +6b +6a +5b +6a +6b to N
  path V 2 from V1 17b -6a -6b -5a -6b -6a to N
  path V 3 from V1 17a +6b +6a +7b +6a +6b to N
  path V 4 from V1 18b -6a -6b -7a -6b -6a to N
  path W 1 from W1 22a +6b +6a +5b +6a +6b to N
  path W 2 from W1 21b -6a -6b -5a -6b -6a to N
  path W 3 from W1 21a +6b +6a +7b +6a +6b to N
  path W 4 from W1 22b -6a -6b -7a -6b -6a to N
}
`;
const code = 'special-joint-on-far-side';

describe('findings that are alike', () => {
  const studied = study(text);
  const alike = studied.findings.filter((each) => each.code === code);

  it('have their places in the editor', () => {
    expect(alike).toHaveLength(12);
    expect(new Set(alike.map(({ range }) => range.start)).size).toBe(12);
  });

  it('are one line of the report, with their number, what tells them apart and their lines', () => {
    const lines = studied.markdown({ orders: 1 }).match(new RegExp(`^- .*\`${code}\`.*$`, 'gm'));
    expect(lines).toHaveLength(1);
    expect(lines![0]).toMatch(
      /^- \*\*warning\*\* lines 6 to 17: 12 times: 1 special joint on the far side: 26a–31b; /,
    );
    for (const { message } of alike) expect(lines![0]).toContain(/\d+[ab]–\d+[ab]/.exec(message)![0]);
  });

  it('are one warning of the sheets, which count them all', () => {
    const given = { title: 'Winch', given: undefined, fileHash: 'a', findings: studied.findings };
    const [source, warnings] = sourceTexts(given, 'Source', 90);
    const all = studied.findings.filter(({ severity }) => severity === 'warning').length;
    expect(source!.paragraphs.join()).toContain(`${all} warnings`);
    expect(warnings!.paragraphs.filter((each) => each.includes('far side'))).toHaveLength(1);
    expect(warnings!.paragraphs.join()).toContain('12 times: 1 special joint on the far side: 26a');
  });

  it('are told apart by kind, severity, reason and words; two of them are told one by one', () => {
    const one = (message: string, more = {}) => ({ code: 'x', severity: 'warning', message, ...more });
    const messagesOf = (findings: readonly ReturnType<typeof one>[]) =>
      alikeFindings(findings, (each) => (each as { reason?: string }).reason).map(({ message }) => message);
    expect(messagesOf([one('Bar 1a.'), one('Bar 2a.')])).toEqual(['Bar 1a.', 'Bar 2a.']);
    expect(messagesOf([one('Bar 1a.'), one('Bar 2a is.'), one('Bar 3b.'), one('Bar 14c.')])).toEqual([
      '3 times: Bar 1a; 3b; 14c.',
      'Bar 2a is.',
    ]);
    const apart = [{}, { code: 'y' }, { severity: 'error' }, { reason: 'r' }];
    expect(messagesOf(apart.map((more, index) => one(`Bar ${index}a.`, more)))).toHaveLength(4);
    expect(messagesOf([1, 2, 3].map(() => one('The same.')))).toEqual(['3 times: The same.']);
    const many = Array.from({ length: 30 }, (_, index) => one(`Path U ${index} is long.`));
    expect(messagesOf(many)[0]).toMatch(/^30 times: Path U 0; 1; .*; 23; and 6 more is long\.$/);
  });

  it('lie in lines', () => {
    expect(linesInWords([7])).toBe('line 7');
    expect(linesInWords([9, 7, 8, 12, 12])).toBe('lines 7 to 9, 12');
  });
});
