import type { Log } from 'sarif';
import { describe, expect, it } from 'vitest';
import { findingKinds } from '../../core/findings/registry.ts';
import { fingerprint, sarifLog } from '../../core/report/sarif.ts';
import { study } from '../../core/study.ts';
import { examples } from '../support/files.ts';
import { sarifProblems } from './sarifSchema.ts';

const options = { version: '1.2.3', kinds: findingKinds, complaints: [] };

function logOf(files: readonly { readonly uri: string; readonly text: string }[], extra = {}): Log {
  const log = sarifLog(
    files.map(({ uri, text }) => ({ uri, text, findings: study(text).findings })),
    { ...options, ...extra },
  );
  expect(sarifProblems(log)).toEqual([]);
  return log;
}

const hostile =
  'winding "a\u0000\ud83d\ude00" machine { slots 48\r\n poles \ud83d\ude00 phases 3 }\rlayout { spam 6 }';

describe('the SARIF log', () => {
  it('has a schema that refuses what is no log', () => {
    expect(sarifProblems({ version: '2.1.0', runs: [{}] })).not.toEqual([]);
  });

  it('is valid for every example, for broken text and for nothing', () => {
    logOf(examples.map(({ name, text }) => ({ uri: `examples/${name}`, text })));
    logOf([{ uri: 'a%20b.winding', text: hostile }]);
    logOf([]);
    logOf([], { home: 'https://slotwright.example', complaints: ['x.winding: no such file or folder.'] });
  });

  it('says what forges need for annotations', () => {
    const text = examples.find(({ name }) => name === 'broken-ballast-pump.winding')!.text;
    const [run] = logOf([{ uri: 'pumps/ballast.winding', text }]).runs;
    expect(run).toMatchObject({
      columnKind: 'utf16CodeUnits',
      automationDetails: { id: 'slotwright/check/' },
      invocations: [{ executionSuccessful: true }],
    });
    const rules = run!.tool.driver.rules!;
    expect(new Set(rules.map(({ id }) => id)).size).toBe(findingKinds.length);
    for (const rule of rules) {
      expect(rule.fullDescription!.text).not.toBe('');
      expect(rule.helpUri).toMatch(/^[a-z]+:/);
      expect(rule.help!.text).not.toBe('');
    }
    expect(run!.results!.length).toBe(study(text).findings.length);
    for (const result of run!.results!) {
      expect(rules[result.ruleIndex!]!.id).toBe(result.ruleId);
      const { artifactLocation } = result.locations![0]!.physicalLocation!;
      expect(artifactLocation).toEqual({ uri: 'pumps/ballast.winding', uriBaseId: 'SRCROOT' });
    }
  });

  it('points at the text of each finding, counted as an editor counts', () => {
    const [run] = logOf([{ uri: 'x.winding', text: hostile }]).runs;
    const lines = hostile.split(/\r\n|\r|\n/);
    study(hostile).findings.forEach(({ range }, i) => {
      const { startLine, startColumn, endLine, endColumn } =
        run!.results![i]!.locations![0]!.physicalLocation!.region!;
      if (startLine === endLine)
        expect(lines[startLine! - 1]!.slice(startColumn! - 1, endColumn! - 1)).toBe(
          hostile.slice(range.start, range.end),
        );
    });
    expect(run!.results!.length).toBeGreaterThan(0);
  });

  it('keeps fingerprints when lines move, and tells equal places apart', () => {
    const prints = (text: string) =>
      logOf([{ uri: 'x.winding', text }]).runs[0]!.results!.map(
        ({ partialFingerprints }) => partialFingerprints,
      );
    const text = 'machine { slots 48  poles 8  phases 3 }\nlayout { spam 6  spam 6 }\n';
    expect(prints(`# a comment\n\n${text}`)).toEqual(prints(text));
    const all = prints(text).map((print) => print!['findingPlace/v1']);
    expect(new Set(all).size).toBe(all.length);
  });

  it('hashes after FNV-1a', () => {
    // http://www.isthe.com/chongo/tech/comp/fnv: the empty text has the offset basis; our units are 16 bits,
    // so "a" is the bytes 61 00.
    expect(fingerprint('')).toBe('cbf29ce484222325');
    expect(fingerprint('a')).toBe('089be207b544f1e4');
  });
});
