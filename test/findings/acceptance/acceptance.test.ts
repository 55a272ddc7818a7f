// Takes its time: studies whole windings.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ConnectionState } from '../../../core/facts/connection.ts';
import * as kinds from '../../../core/findings/acceptance/findingKinds.ts';
import { checkText } from '../../../core/findings/checkedText.ts';
import { findingKinds, maybeWarning } from '../../../core/findings/registry.ts';
import type { Finding, Fix } from '../../../core/language/finding.ts';
import { reasonMissing } from '../../../core/language/textFindingKinds.ts';
import { examples } from '../../support/files.ts';
import { expectFindings, expectWithin, marked } from '../../support/marked.ts';
import { study } from '../../support/study.ts';
import { tries } from '../../support/tries.ts';

// 9 slots and 8 poles have no common divisor: a warning of a net pull, and no other.
const machine =
  'winding "Slipway winch"\nmachine { slots 9  poles 8  phases 3 }\nlayout { layers 2  span 1 }\n';
const requiring = (lines: string) => `${machine}require {\n  ${lines}\n}\n`;
const reason = 'Bearings are rated for the pull, report 7 of the test shop';
const accepting = requiring(`accept unbalanced-pull "${reason}"`);

const serious = (text: string) => study(text).findings.filter(({ severity }) => severity !== 'info');

/** The text after the edits of a fix. */
function mended(text: string, fix: Fix | undefined): string {
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.range.start - a.range.start)
    .reduce((now, { range, text: part }) => now.slice(0, range.start) + part + now.slice(range.end), text);
}

describe('a warning that is accepted with a reason', () => {
  it('is an info with that reason, and nothing else changes', () => {
    const [before] = serious(machine);
    expect([before!.code, before!.severity]).toEqual(['unbalanced-pull', 'warning']);
    const { findings } = study(accepting);
    expect(serious(accepting)).toEqual([]);
    const after = findings.find(({ code }) => code === 'unbalanced-pull')!;
    const { accepted, ...rest } = after;
    expect(rest).toEqual({ ...before, severity: 'info' });
    expect(accepted!.reason).toBe(reason);
    expect(accepting.slice(accepted!.statement.start, accepted!.statement.end)).toBe(
      `accept unbalanced-pull "${reason}"`,
    );
  });

  it('is so for every finding of that code, and for no other', () => {
    const { text } = examples.find(({ name }) => name === 'bow-thruster.winding')!;
    const codes = (list: readonly Finding[]) =>
      list.map(({ code, severity }) => `${code} ${severity}`).sort();
    const { findings } = study(text);
    expect(codes(findings)).toContain('legs-bent-apart warning');
    const accepted = text.replace('require {', 'require {\n  accept legs-bent-apart "bent by hand"');
    expect(codes(study(accepted).findings)).toEqual(
      codes(findings).map((each) => each.replace('legs-bent-apart warning', 'legs-bent-apart info')),
    );
  });

  it('may be one of the text itself', () => {
    const text = accepting.replace('winding "Slipway winch"\n', '');
    expect(serious(text).map(({ code }) => code)).toEqual(['title-missing']);
    const both = text.replace('require {', 'require {\n  accept title-missing "a trial"');
    expect(serious(both)).toEqual([]);
  });

  it('may stand on one line with limits, in any order', () => {
    const line = `winding-factor >= 0.9  accept unbalanced-pull "${reason}"  pitch-factor >= 0.9`;
    const text = `${machine}require { ${line} }\n`;
    expect(serious(text)).toEqual([]);
    expect(study(text).limits).toHaveLength(2);
  });

  it('is listed in the order of the text', () => {
    const { accepted, text } = study(accepting);
    expect(accepted.map(({ code, reason: why, findings }) => [code, why, findings.length])).toEqual([
      ['unbalanced-pull', reason, 1],
    ]);
    expect(text.slice(accepted[0]!.statement.start, accepted[0]!.statement.end)).toMatch(/^accept /);
    expect(study(machine).accepted).toEqual([]);
  });
});

describe('what cannot be accepted', () => {
  it('is an error: told at the accept, and it stays', () => {
    const source = requiring('winding-factor >= 1\n  accept «limit-failed» "later"');
    const { text } = marked(source);
    const findings = serious(text);
    expect(findings.map(({ code, severity }) => `${code} ${severity}`)).toEqual([
      'unbalanced-pull warning',
      'limit-failed error',
      'accept-of-error error',
    ]);
    expect(findings[2]!.message).toBe(kinds.acceptOfError.message({ code: 'limit-failed', always: true }));
    expect(text.slice(findings[2]!.range.start, findings[2]!.range.end)).toBe('limit-failed');
  });

  it('is an error of a code that may also be a warning; the warnings of it are accepted', () => {
    const { text } = examples.find(({ name }) => name === 'broken-unequal-paths.winding')!;
    const code = 'paths-unequal-voltage';
    const had = study(text).findings.filter((each) => each.code === code);
    expect(new Set(had.map(({ severity }) => severity))).toEqual(new Set(['error']));
    const found = study(`${text}\nrequire { accept ${code} "for the test bench" }\n`).findings;
    expect(found.filter((each) => each.code === code)).toEqual(had);
    const told = found.find((each) => each.code === 'accept-of-error')!;
    expect(told.message).toBe(kinds.acceptOfError.message({ code, always: false }));
    expect(told.related.map(({ range }) => range)).toEqual(had.map(({ range }) => range));
  });

  it('is a code that there is none of, with the one that was meant', () => {
    const [finding] = expectFindings(
      requiring('accept «unbalanced-pul» "x"'),
      ['accept-code-unknown'],
      (text) => serious(text).filter(({ code }) => code !== 'unbalanced-pull'),
    );
    expect(finding!.message).toBe(
      kinds.acceptCodeUnknown.message({ code: 'unbalanced-pul', suggestion: 'unbalanced-pull' }),
    );
    expect(finding!.severity).toBe('error');
    expect(mended('unbalanced-pul', { title: '', edits: [] })).toBe('unbalanced-pul');
    expect(finding!.fix!.edits[0]!.text).toBe('unbalanced-pull');
    // Errors are no advice: they cannot be accepted.
    const [other] = serious(requiring('accept limit-faild "x"')).filter(({ code }) =>
      code.startsWith('accept'),
    );
    expect(other!.message).not.toContain('did you mean');
  });

  it('is an accept without a reason', () => {
    const codes = (lines: string) => serious(requiring(lines)).map(({ code }) => code);
    expect(codes('accept unbalanced-pull')).toEqual(['unbalanced-pull', 'value-expected']);
    expect(codes('accept')).toEqual(['unbalanced-pull', 'value-expected']);
    expect(codes('accept "reason"')).toEqual(['unbalanced-pull', 'value-expected']);
    expect(codes('accept unbalanced-pull reason')).toEqual(['unbalanced-pull', 'value-expected']);
    for (const empty of ['', ' ', '\t', '...', '\u00a0\u200b'])
      expect(codes(`accept unbalanced-pull "${empty}"`)).toEqual(['unbalanced-pull', reasonMissing.code]);
    const [missing] = study(requiring('accept unbalanced-pull')).document.findings;
    expect(missing!.message).toContain('a reason in quotes');
  });

  it('counts as no limit where it cannot be read', () => {
    const report = study(requiring('accept unbalanced-pull')).report();
    expect(report.limits).toEqual([]);
  });
});

describe('an accept that meets nothing', () => {
  it('is a warning, with a fix that takes it out', () => {
    const source = requiring(`accept unbalanced-pull "${reason}"\n  accept «terminals-apart» "short leads"`);
    const { text } = marked(source);
    const [finding] = expectFindings(source, ['accept-unused'], serious);
    expect([finding!.severity, finding!.message]).toEqual([
      'warning',
      kinds.acceptUnused.message({ code: 'terminals-apart', info: false }),
    ]);
    expect(mended(text, finding!.fix)).toBe(accepting);
  });

  it('is told where there is only an info of that code', () => {
    const connected = `${machine}connect { star }\nrequire { accept unbalanced-pull "x"  accept starts-at-mixed-radius "y" }\n`;
    const [finding] = serious(connected).filter(({ code }) => code === 'accept-unused');
    expect(finding!.message).toContain('starts-at-mixed-radius');
  });

  it('cannot be accepted itself', () => {
    const text = requiring(
      'accept unbalanced-pull "a"\n  accept terminals-apart "b"\n  accept accept-unused "c"',
    );
    expect(serious(text).map(({ code, message }) => [code, message.includes('accept-unused')])).toEqual([
      ['accept-unused', false],
      ['accept-unused', true],
    ]);
  });

  it('is not told while it is not known: paths still being found, text with errors, paths refused', () => {
    const text = `${machine}connect { star }\nrequire { accept unbalanced-pull "a"  accept bare-end-too-long "b" }\n`;
    expect(serious(text).map(({ code }) => code)).toContain('accept-unused');
    const pending = checkText(text, (): ConnectionState => ({ kind: 'pending' }));
    expect(pending.pending).toBe(true);
    expect(pending.findings.map(({ code }) => code)).not.toContain('accept-unused');
    expect(pending.accepted.map(({ code }) => code)).toEqual(['unbalanced-pull']);
    for (const wrong of [
      text.replace('span 1', 'span 1 sapn 2'),
      text.replace('star', 'star route paths 7'),
      text.replace('machine', 'machina'),
    ])
      expect(
        serious(wrong).map(({ code }) => code),
        wrong,
      ).not.toContain('accept-unused');
  });
});

describe('a code that is accepted twice', () => {
  it('is told at the second, and the first counts', () => {
    const source = requiring(`accept unbalanced-pull "${reason}"\n  «accept unbalanced-pull "again"»`);
    const { text } = marked(source);
    const [finding] = expectFindings(source, ['accept-repeated'], serious);
    expect(finding!.severity).toBe('error');
    expect(text.slice(finding!.related[0]!.range.start, finding!.related[0]!.range.end)).toContain(reason);
    expect(study(text).accepted.map(({ reason: why }) => why)).toEqual([reason]);
    expect(mended(text, finding!.fix)).toBe(accepting);
  });
});

describe('a warning that appears with the found paths', () => {
  it('is accepted when it is there', () => {
    const example = examples.find(({ name }) => name === 'tidal-pump.winding')!;
    const text = example.text.replace(/^ +accept .*\n/m, '');
    const accepted = text.includes('require {')
      ? text.replace('require {', 'require {\n  accept terminals-apart "long leads are wanted"')
      : `${text}\nrequire {\n  accept terminals-apart "long leads are wanted"\n}\n`;
    const waiting = checkText(accepted, () => ({ kind: 'pending' }));
    expect(waiting.findings.filter(({ code }) => code.startsWith('accept'))).toEqual([]);
    const found = checkText(accepted);
    expect(found.findings.find(({ code }) => code === 'terminals-apart')!.severity).toBe('info');
    expect(found.findings.some(({ severity }) => severity === 'warning')).toBe(false);
  });
});

describe('the codes that can be accepted', () => {
  it('are those that any winding is warned of', () => {
    const warned = examples.flatMap(({ text }) =>
      study(text).findings.flatMap(({ code, severity }) => (severity === 'warning' ? [code] : [])),
    );
    expect(warned.length).toBeGreaterThan(5);
    for (const code of warned) expect(maybeWarning(code), code).toBe(true);
    expect(findingKinds.some(({ code }) => !maybeWarning(code))).toBe(true);
  });
});

describe('any accept of any text', () => {
  it('never hides an error, and its findings stay within the text', () => {
    const codes = fc.constantFrom(...findingKinds.map(({ code }) => code), 'nothing-such');
    fc.assert(
      fc.property(fc.array(codes, { maxLength: 6 }), fc.constantFrom(...examples), (accepts, { text }) => {
        const lines = accepts.map((code) => `accept ${code} "seen"`).join('\n  ');
        const both = `${text}\nrequire { ${lines}\n}\n`;
        const has = text.includes('require {');
        const asked = has ? text.replace('require {', `require {\n  ${lines}\n`) : both;
        const before = study(text).findings.filter(({ severity }) => severity === 'error');
        const found = study(asked).findings;
        expectWithin(asked, found);
        for (const { code, message } of before)
          expect(
            found.some((each) => each.code === code && each.message === message && each.severity === 'error'),
          ).toBe(true);
        for (const each of found) if (each.accepted) expect(each.severity).toBe('info');
      }),
      { seed: 11, numRuns: tries(10) },
    );
  });
});
