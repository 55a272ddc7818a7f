import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../cli/program.ts';
import { findingKinds } from '../../core/findings/registry.ts';
import { junitXml } from '../../core/report/junit.ts';
import { sarifLog } from '../../core/report/sarif.ts';
import { reportSchema } from '../../core/report/schema.ts';
import { readXml } from '../picture/checkPicture.ts';
import { allTexts, sheetSet, sheetTroubles } from '../sheets/sheetSets.ts';
import { study } from '../support/study.ts';
import { sarifProblems } from './sarifSchema.ts';

const reason = 'Bearings are sized for the pull | #7 *test*';
const warned =
  'winding "Slipway winch"\nmachine { slots 9  poles 8  phases 3 }\nlayout { layers 2  span 1 }\n';
const accepted = `${warned}require {\n  winding-factor >= 0.9\n  accept unbalanced-pull "${reason}"\n}\n`;
const [warning] = study(warned).findings;

describe('the report of an accepted warning', () => {
  it('lists it with its reason and both places, after the schema', () => {
    const report = reportSchema.parse(study(accepted).report());
    expect(report.accepted).toEqual([
      {
        code: 'unbalanced-pull',
        reason,
        range: { start: { line: 6, column: 3 }, end: { line: 6, column: 28 + reason.length } },
        findings: [{ message: warning!.message, range: report.findings[0]!.range }],
      },
    ]);
    const found = report.findings.filter(({ code }) => code === 'unbalanced-pull');
    expect(found.map(({ severity, accepted: why, message }) => [severity, why, message])).toEqual([
      ['info', reason, warning!.message],
    ]);
    expect(study(warned).report().accepted).toEqual([]);
    expect(study(warned).report().findings[0]).not.toHaveProperty('accepted');
  });

  it('tells it to people, and nothing in the reason acts as markup', () => {
    const text = study(accepted).markdown();
    expect(text).toContain('No errors, 1 accepted warning. 1 of 1 required limit holds.');
    expect(text).toContain('## Accepted warnings');
    const row = text.split('\n').find((line) => line.startsWith('| `unbalanced-pull`'))!;
    expect(row.split(/(?<!\\)\|/)).toHaveLength(7);
    expect(row).toContain('Bearings are sized for the pull &#124; `#7` \\*test\\*');
    expect(text).toMatch(/\*\*info\*\* line 2: .*pull.* Accepted: Bearings/);
    expect(study(warned).markdown()).not.toContain('Accepted');
  });

  it('shows control characters of a reason as signs', () => {
    const text = accepted.replace('Bearings', '\u001b[31m\u202eBearings');
    for (const output of [study(text).markdown(), junitOf(text)])
      expect(output).not.toMatch(/[\u001b\u202e]/);
  });
});

function junitOf(text: string): string {
  return junitXml([{ file: 'winch.winding', ...study(text) }]);
}

describe('build servers', () => {
  it('get it as a test that passes, with the reason in the output', () => {
    const xml = readXml(junitOf(accepted));
    expect(xml.attributes).toMatchObject({ failures: '0', errors: '0' });
    expect(junitOf(accepted)).toContain('info: ');
    expect(junitOf(accepted)).toContain(`Accepted: ${reason}`);
  });

  it('get it as suppressed in the source, with its justification and place', () => {
    const text = `${accepted.replace('winding "Slipway winch"\n', '')}`;
    const log = sarifLog([{ uri: 'winch.winding', text, findings: study(text).findings }], {
      version: '1.0.0',
      kinds: findingKinds,
      complaints: () => [],
    });
    expect(sarifProblems(log)).toEqual([]);
    const results = log.runs[0]!.results!;
    const byCode = new Map(results.map((result) => [result.ruleId, result]));
    const region = { startLine: 5, startColumn: 3, endLine: 5, endColumn: 28 + reason.length };
    expect(byCode.get('unbalanced-pull')).toMatchObject({
      level: 'note',
      message: { text: warning!.message },
      suppressions: [
        {
          kind: 'inSource',
          status: 'accepted',
          justification: reason,
          location: { physicalLocation: { artifactLocation: { uri: 'winch.winding' }, region } },
        },
      ],
    });
    // Of all results or of none: what is not suppressed says so.
    expect(byCode.get('title-missing')).toMatchObject({ level: 'warning', suppressions: [] });
  });
});

describe('the handover sheets', () => {
  const words = (text: string) =>
    allTexts(sheetSet(text))
      .map((each) => each.text)
      .join(' ');

  it('list it with its reason, and count it apart from the remarks', () => {
    expect(sheetTroubles(sheetSet(accepted))).toEqual([]);
    expect(words(accepted)).toContain('Accepted warnings');
    expect(words(accepted)).toContain('Accepted: Bearings are sized');
    expect(words(accepted)).toContain('Findings: 0 errors, 0 warnings, 1 accepted warning, 0 remarks.');
    expect(words(warned)).toContain('Findings: 0 errors, 1 warning, 0 remarks.');
    expect(words(warned)).not.toContain('Accepted');
  });

  it('say which letters of a reason they lack', () => {
    expect(words(accepted.replace('Bearings', '\u6f6e Bearings'))).toContain('U+6F6E');
  });
});

describe('check', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slotwright-accept-'));
    writeFileSync(join(folder, 'winch.winding'), accepted);
    writeFileSync(join(folder, 'warned.winding'), warned);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const check = (name: string, ...args: string[]) => run(['check', join(folder, name), ...args], '0.0.0');

  it('with --max-warnings 0 passes a reviewed warning, and tells it with its reason', () => {
    expect(check('warned.winding', '--max-warnings', '0').exitCode).toBe(1);
    const { exitCode, output } = check('winch.winding', '--max-warnings', '0');
    expect(exitCode).toBe(0);
    expect(output).toContain(`: info: ${warning!.message} Accepted: ${reason} [unbalanced-pull]\n`);
    expect(output).toContain('1 file checked: 0 errors, 0 warnings, 1 accepted warning.\n');
  });

  it('as JSON has the reason with the finding', () => {
    const { files, warnings } = JSON.parse(check('winch.winding', '--format', 'json').output);
    expect(warnings).toBe(0);
    expect(files[0].findings[0]).toMatchObject({ severity: 'info', accepted: reason });
  });
});
