import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import * as acceptanceKinds from '../../core/findings/acceptance/findingKinds.ts';
import * as connectionKinds from '../../core/findings/connection/findingKinds.ts';
import * as copperKinds from '../../core/findings/copper/findingKinds.ts';
import * as limitKinds from '../../core/findings/limits.ts';
import * as operationKinds from '../../core/findings/operation/findingKinds.ts';
import * as registryKinds from '../../core/findings/registry.ts';
import * as ruleKinds from '../../core/findings/rules.ts';
import * as sheetKinds from '../../core/findings/sheetRules.ts';
import * as spaceKinds from '../../core/findings/space/findingKinds.ts';
import type { Finding } from '../../core/language/finding.ts';
import * as oddKinds from '../../core/language/text/oddCharacters.ts';
import * as textKinds from '../../core/language/textFindingKinds.ts';
import * as varyKinds from '../../core/language/varyFindingKinds.ts';
import { rangeWords } from '../../core/language/vocabulary/explain.ts';
import { describePlaceholder } from '../../core/language/vocabulary/patternWords.ts';
import { vocabulary } from '../../core/language/vocabulary/vocabulary.ts';
import * as layoutKinds from '../../core/winding/layoutFindingKinds.ts';
import * as pathKinds from '../../core/winding/paths/pathFindingKinds.ts';
import { explanations } from '../../extension/german/explanations.ts';
import { findingWords, german } from '../../extension/german/main.ts';
import { meaning, meanings } from '../../extension/german/meanings.ts';
import { beside, correction, expectation } from '../../extension/german/phrases.ts';
import { words } from '../../extension/german/words.ts';
import { entryLines } from '../../extension/onDemand/entryWords.ts';
import { referencePage } from '../../extension/onDemand/reference.ts';
import { l10n, speak, speakWanted, startLanguageChoice } from '../../extension/wording.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { editorState, events, resetStub } from './vscodeStub.ts';

afterEach(() => speak('en', null));

const folder = join(import.meta.dirname, '../../extension');

/** Every sentence that the extension says through `l10n.t`. */
function saidSentences(): readonly string[] {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  return files.flatMap((name) => {
    const source = readFileSync(join(folder, name), 'utf8');
    return [
      ...source.matchAll(/\bl10n\.t\(\s*(?:'((?:[^'\\]|\\.)*)'|"((?:[^"\\]|\\.)*)"|`((?:[^`\\$]|\\.)*)`)/g),
    ].map(([, single, double, back]) =>
      (single ?? double ?? back)!.replaceAll(/\\n/g, '\n').replaceAll(/\\(.)/g, '$1'),
    );
  });
}

const blanks = (sentence: string) => [...sentence.matchAll(/\{\d+\}/g)].map(([mark]) => mark).sort();

describe('the German words of the extension', () => {
  test('every sentence has one, with the same blanks, and none is left over', () => {
    const said = new Set(saidSentences());
    expect(said.size).toBeGreaterThan(400);
    expect([...said].filter((sentence) => words[sentence] === undefined)).toEqual([]);
    expect(Object.keys(words).filter((sentence) => !said.has(sentence))).toEqual([]);
    for (const [english, own] of Object.entries(words))
      expect([own, blanks(own)]).toEqual([own, blanks(english)]);
  });

  test('nothing is said by a sentence that is put together beforehand', () => {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    const odd = files.filter((name) =>
      /\bl10n\.t\(\s*(?!['"`\s)])/.test(readFileSync(join(folder, name), 'utf8')),
    );
    expect(odd).toEqual([]);
  });

  test('every part takes its sentences from the words of the extension, not from the editor', () => {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    const editors = files.filter((name) =>
      /import[^;]*\bl10n\b[^;]*from 'vscode'/.test(readFileSync(join(folder, name), 'utf8')),
    );
    expect(editors).toEqual(['wording.ts']);
  });

  test('waves along the bore are Oberwellen, what a current or voltage has in time Oberschwingungen', () => {
    const inTime = /Strom|Strang|EMK|Wirbelstr|Verlust|Phasenfolge|Dreieck|Ring/i;
    const files = readdirSync(join(folder, 'german'), { recursive: true, encoding: 'utf8' });
    const lines = files
      .filter((name) => name.endsWith('.ts'))
      .flatMap((name) => readFileSync(join(folder, 'german', name), 'utf8').split('\n'))
      .map((line) => line.replaceAll('\\u00ad', ''));
    const told = lines.filter((line) => line.includes('Oberschwingung'));
    expect(told.length).toBeGreaterThan(5);
    expect(told.filter((line) => !inTime.test(line))).toEqual([]);
    expect(lines.filter((line) => line.includes('doppeltverkettet'))).toEqual([]);
  });

  test('the words of the manifest are complete', () => {
    const read = (name: string) =>
      JSON.parse(readFileSync(join(folder, '..', name), 'utf8')) as Record<string, string>;
    const own = read('package.nls.de.json');
    const english = read('package.nls.json');
    expect(Object.keys(own)).toEqual(Object.keys(english));
    const commands = (text: string) => text.match(/\(command:[^)]*\)/g) ?? [];
    for (const [key, text] of Object.entries(english)) expect(commands(own[key]!)).toEqual(commands(text));
  });

  test('settings that come after the start are followed, by beginning anew or by an offer to', async () => {
    resetStub();
    const begun: string[] = [];
    let open = false;
    const choice = startLanguageChoice(() => {
      if (!open) begun.push('again');
      return !open;
    });
    const asked = () => events.configured.fire({ affectsConfiguration: () => true });
    asked();
    expect(begun).toEqual([]);
    editorState.settings.set('language', 'de');
    asked();
    expect(begun).toEqual(['again']);
    await speakWanted(async () => german);
    asked();
    expect([begun, l10n.t('{0} of {1} limits hold', 3, 4)]).toEqual([
      ['again'],
      '3 von 4 Grenzen eingehalten',
    ]);
    open = true;
    editorState.settings.set('language', 'en');
    asked();
    await expect.poll(() => editorState.information.length).toBe(1);
    expect(begun).toEqual(['again']);
    await speakWanted(async () => german);
    expect(l10n.t('{0} of {1} limits hold', 3, 4)).toBe('3 of 4 limits hold');
    choice.dispose();
  });

  test('sentences are filled in', () => {
    speak('de', german);
    expect(l10n.t('{0} of {1} limits hold', 3, 4)).toBe('3 von 4 Grenzen eingehalten');
    speak('en', null);
    expect(l10n.t('{0} of {1} limits hold', 3, 4)).toBe('3 of 4 limits hold');
  });
});

const vocabularyWords = new Set(vocabulary.map(({ word }) => word));

/** The modules that declare kinds of findings, under the names that their words have. */
const declared: Readonly<Record<keyof typeof findingWords, object>> = {
  text: textKinds,
  oddCharacters: oddKinds,
  vary: varyKinds,
  layout: layoutKinds,
  paths: pathKinds,
  connection: connectionKinds,
  copper: copperKinds,
  space: spaceKinds,
  operation: operationKinds,
  limits: limitKinds,
  acceptance: acceptanceKinds,
  rules: ruleKinds,
  sheet: sheetKinds,
  registry: registryKinds,
};

describe('findings in German', () => {
  test('the words of a kind stand under its code', () => {
    for (const [name, kinds] of Object.entries(findingWords))
      for (const [kind, [code]] of Object.entries(kinds)) {
        const module = declared[name as keyof typeof findingWords] as Record<string, { code: string }>;
        expect([kind, code]).toEqual([kind, module[kind]!.code]);
      }
  });

  test('every kind of finding has words', () => {
    const codes = Object.values(findingWords).flatMap((kinds) => Object.values(kinds).map(([code]) => code));
    expect([...codes].sort()).toEqual(registryKinds.findingKinds.map(({ code }) => code).sort());
  });

  test('every kind of finding is explained, with the same numbers and words of the language', () => {
    const told = registryKinds.findingKinds.map(({ code, help }) => [code, help, explanations[code] ?? '']);
    expect(told.filter(([, , own]) => own === '')).toEqual([]);
    expect(Object.keys(explanations).filter((code) => registryKinds.helpOf(code) === '')).toEqual([]);
    // What is written as in a text, and numbers with their blanks.
    const kept = (words: string) =>
      [...words.matchAll(/`[^`]+`|(?<!\w)'[^']+'(?!\w)|\d[\d ]*\d|\b[a-z]+(?:-[a-z]+)+\b/g)].map(
        ([mark]) => mark,
      );
    for (const [code, english, own] of told) {
      const [inEnglish, inGerman] = [kept(english!), kept(own!)];
      const words = [...vocabularyWords].filter((word) => inEnglish.includes(word));
      const lost = inEnglish.filter((mark) => /[`'\d]/.test(mark) || words.includes(mark));
      expect([code, lost.filter((mark) => !inGerman.includes(mark))]).toEqual([code, []]);
      expect([
        code,
        /\b(the|is|are|has|have|and|which|that|with)\b/.exec(own!.replaceAll(/'[^']*'/g, '')),
      ]).toEqual([code, null]);
    }
  });

  test('every word of the language means something in German, and so does the range of its values', () => {
    const english = new Set(vocabulary.map(({ meaning: words }) => words));
    expect([...english].filter((words) => meaning(words) === undefined)).toEqual([]);
    expect(Object.keys(meanings).filter((words) => !english.has(words))).toEqual([]);
    const told = [...english].map((words) => meaning(words)!);
    const ranges = vocabulary.flatMap(rangeWords).map(expectation);
    const left = /\b(the|or|of|above|up|from|whole|number|which|that|with|characters)\b/;
    expect([...told, ...ranges].filter((words) => left.test(words))).toEqual([]);
    // Words of the language, and numbers, stay as they are.
    const kept = (words: string) =>
      [...words.matchAll(/\b[a-z]+(?:-[a-z]+)+\b|\d[\d/]*/g)]
        .map(([mark]) => mark)
        .filter((mark) => /\d/.test(mark) || vocabularyWords.has(mark));
    for (const words of english)
      expect([words, kept(words).filter((mark) => !meaning(words)!.includes(mark))]).toEqual([words, []]);
  });

  test('a word is explained in German', () => {
    speak('de', german);
    const bore = vocabulary.find(({ block, word }) => block === 'machine' && word === 'bore')!;
    expect(entryLines(bore).slice(0, 2)).toEqual([
      'Ständerdurchmesser am inneren Luftspalt.',
      'Werte: eine Länge von 0.1 mm bis 100 m.',
    ]);
  });

  test('the page behind a code, and what is said of an accepted one, are German', () => {
    speak('de', german);
    const page = referencePage('/finding/terminals-apart.md');
    expect(page).toContain(`Warnung\n\n${explanations['terminals-apart']}`);
    expect(page).not.toMatch(/\b(warning|Starts of|make)\b/);
    speak('en', null);
    expect(referencePage('/finding/terminals-apart.md')).toContain('Starts of all paths near each other');
  });

  test('what the words of the language expect is said in German', () => {
    const english = /\b(an?|the|or|of|above|up|number|whole|length|share|angle|after|from)\b/;
    const rules = vocabulary.flatMap(({ rules: of }) =>
      Object.values(of).flatMap((rule) => [rule.words, rule.name, rule.advice]),
    );
    const placeholders = vocabulary.flatMap(({ pattern }) =>
      (pattern.replaceAll(/'[^']*'/g, '').match(/[a-z-]+/g) ?? []).map(describePlaceholder),
    );
    const told = [...new Set([...rules, ...placeholders])].filter((phrase) => phrase !== undefined);
    expect(told.length).toBeGreaterThan(40);
    const left = told
      .map(expectation)
      .filter((phrase) => english.test(phrase.replaceAll(/'[^']*'|slots 36 48|as in.*/g, '')));
    expect(left).toEqual([]);
  });

  test('findings of the examples, and of texts that are broken, change their words and nothing else', () => {
    const broken = [
      'winding machine { slots 1 bore 12 poles 8 phases 3 } layout { span "x" } connect { star',
      'winding "a"\nmachine { slots 12 poles 10 phases 3 bore 100 speed 5000 kHz }\nlayout { layers 2 span 1 }\nconnect { star route paths 5 }',
      'winding "a"\nmachine { slots 12 poles 2 phases 3 }\nlayout {\n  layer a +U +U -W -W +V +V -U -U +W +W -V -V\n}\nconnect { star\n  path U 1 from U1 1a +6a to N\n  path U 1 from U1 2a 99a to N\n}',
    ];
    const shown = examples.filter(({ name }) => name.startsWith('broken-'));
    const texts = [...shown.map(({ text }) => text), ...broken];
    const findings = texts.flatMap((text) => [...study(text).findings]);
    expect(findings.length).toBeGreaterThan(20);
    for (const finding of findings) {
      const own = german.finding(finding);
      expect(own).not.toBe(finding.message);
      expect(own).not.toMatch(/undefined|NaN|\[object/);
      expect(own).not.toMatch(/ (the|of|is|are|has|have|and) /);
    }
  });

  test('a finding that has no words keeps its English ones', () => {
    const unknown = { code: 'no-such-code', message: 'As it is.', data: null } as unknown as Finding;
    expect(german.finding(unknown)).toBe('As it is.');
  });

  test.each([
    ["Write 'shift 4'", '„shift 4“ schreiben'],
    ["Replace by 'slots'", 'Durch „slots“ ersetzen'],
    ['Remove U+200B and U+FEFF', 'U+200B and U+FEFF entfernen'],
    ['Write out the found paths', 'Gefundene Zweige ausschreiben'],
  ])('the title %s', (english, own) => {
    expect(correction(english)).toBe(own);
  });

  test.each([
    ['first given here', 'zuerst hier angegeben'],
    ['1a is first used here', '1a wird zuerst hier benutzt'],
    ['U: no fundamental', 'U: keine Grundwelle'],
  ])('beside a finding: %s', (english, own) => {
    expect(beside(english)).toBe(own);
  });
});
