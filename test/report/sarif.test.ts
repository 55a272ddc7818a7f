// Takes its time: studies whole windings.

import type { Log } from 'sarif';
import { describe, expect, it } from 'vitest';
import { findingKinds } from '../../core/findings/registry.ts';
import { visible } from '../../core/language/text/visible.ts';
import { fingerprint, plainMessage, sarifLog } from '../../core/report/sarif.ts';
import { examples } from '../support/files.ts';
import { hostileTexts, inQuotes } from '../support/hostile.ts';
import { study } from '../support/study.ts';
import { sarifProblems } from './sarifSchema.ts';

const options = { version: '1.2.3', kinds: findingKinds, complaints: () => [] };

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

/** Every text in a log that its readers take for a message: all but what a fix inserts. */
function messagesOf(part: unknown): readonly string[] {
  if (typeof part !== 'object' || part === null) return [];
  return Object.entries(part).flatMap(([name, value]) => {
    if (name === 'insertedContent') return [];
    if (typeof value === 'string') return name === 'text' || name === 'markdown' ? [value] : [];
    return messagesOf(value);
  });
}

/** A message as read after SARIF 2.1.0, 3.11.5 and 3.11.6: its placeholders and links, and its words. */
function readMessage(message: string): { readonly acting: readonly string[]; readonly words: string } {
  const placeholders = message.replace(/\{\{|\}\}/g, '').match(/[{}]/g) ?? [];
  const links = message.match(/(?<!\\)(?:\\\\)*\[(?:[^\\[\]]|\\[\\[\]])*\]\([^)]*\)/g) ?? [];
  // As some viewers look for links, without heeding escapes.
  const loose = message.match(/\[[^\]]*\]\([^)]+\)/g) ?? [];
  const words = message.includes('\u200b(')
    ? message.replace(/\\([\\[\]])/g, '$1').replaceAll('\u200b', '')
    : message;
  return {
    acting: [...placeholders, ...links, ...loose],
    words: words.replace(/\{\{|\}\}/g, ([brace]) => brace!),
  };
}

describe('the SARIF log', () => {
  it('has a schema that refuses what is no log', () => {
    expect(sarifProblems({ version: '2.1.0', runs: [{}] })).not.toEqual([]);
  });

  it('is valid for every example, for broken text and for nothing', () => {
    logOf(examples.map(({ name, text }) => ({ uri: `examples/${name}`, text })));
    logOf([{ uri: 'a%20b.winding', text: hostile }]);
    logOf([]);
    logOf([], {
      home: 'https://slotwright.example',
      complaints: () => ['x.winding: no such file or folder.'],
    });
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
      // Viewers open it: it is a page, or none.
      expect(rule.helpUri).toBeUndefined();
      expect(rule.help!.text).not.toBe('');
    }
    const [atHome] = logOf([], { home: 'https://slotwright.example' }).runs;
    for (const rule of atHome!.tool.driver.rules!)
      expect(rule.helpUri).toBe('https://slotwright.example/docs/findings.md');
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

  it('has no links and no placeholders', () => {
    const log = logOf(
      [...hostileTexts, '[here](0)', '{0} and {1}', '}{', '\\[a\\](b)', '[a]](b)', '[[a](b)](c)'].map(
        (words) => ({
          uri: 'x.winding',
          text: `${words}\nmachine { ${words}\n slots ${words}\n slots 4 }\nlayout { skew ${inQuotes(words)} }`,
        }),
      ),
      { complaints: () => ['[a](b) {0}.winding: no such file or folder.'] },
    );
    const messages = messagesOf(log);
    expect(messages.length).toBeGreaterThan(2 * findingKinds.length + hostileTexts.length);
    expect(messages.filter((message) => readMessage(message).acting.length > 0)).toEqual([]);
  });

  it.each([
    ['the block needs { here.', 'the block needs {{ here.'],
    ['{0}', '{{0}}'],
    ['[a] (b) [c]', '[a] (b) [c]'],
    ['C:\\drives\\[a](b)', 'C:\\\\drives\\\\\\[a\\]\u200b(b)'],
    ['[a](b)', '\\[a\\]\u200b(b)'],
  ])('reads as written: %s', (text, message) => {
    expect(plainMessage(text)).toBe(message);
    expect(readMessage(message)).toEqual({ acting: [], words: text });
    // What is changed had to be.
    expect(readMessage(text).acting.length > 0).toBe(text !== message);
  });

  it('reads as written, whatever the words', () => {
    for (const words of hostileTexts)
      expect(readMessage(plainMessage(words))).toEqual({ acting: [], words: visible(words) });
  });

  it('hashes after FNV-1a', () => {
    // http://www.isthe.com/chongo/tech/comp/fnv: the empty text has the offset basis; our units are 16 bits,
    // so "a" is the bytes 61 00.
    expect(fingerprint('')).toBe('cbf29ce484222325');
    expect(fingerprint('a')).toBe('089be207b544f1e4');
  });
});
