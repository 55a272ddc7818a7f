import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';

const file = join(import.meta.dirname, '../../syntaxes/winding.tmLanguage.json');
const source = JSON.parse(readFileSync(file, 'utf8'));

describe('scopes of a winding text', () => {
  let grammar: IGrammar;
  beforeAll(async () => {
    const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
    await oniguruma.loadWASM(readFileSync(wasm));
    const registry = new textmate.Registry({
      onigLib: Promise.resolve(oniguruma),
      loadGrammar: async () => source,
    });
    const loaded = await registry.loadGrammar('source.winding');
    if (loaded === null) throw new Error('The grammar could not be loaded');
    grammar = loaded;
  });

  /** The innermost scope of each word of a line, without the trailing `.winding`. */
  function scopes(line: string): Record<string, string> {
    const { tokens } = grammar.tokenizeLine(line, textmate.INITIAL);
    const pairs = tokens.map(({ startIndex, endIndex, scopes: all }): [string, string] => [
      line.slice(startIndex, endIndex).trim(),
      (all.at(-1) ?? '').replace(/\.winding$/, ''),
    ]);
    return Object.fromEntries(pairs.filter(([text]) => text !== ''));
  }

  test('a measured statement', () => {
    expect(scopes('  bore    162.5 mm   # at the inner gap')).toEqual({
      bore: 'support.type.property-name',
      '162.5': 'constant.numeric',
      mm: 'keyword.other.unit',
      '#': 'punctuation.definition.comment',
      'at the inner gap': 'comment.line.number-sign',
    });
  });

  test('slot is a unit after a number and a block before a brace', () => {
    expect(scopes('skew all 1 slot')).toMatchObject({ all: 'keyword.other', slot: 'keyword.other.unit' });
    expect(scopes('slot a b { width 4.6 mm }')).toMatchObject({ slot: 'keyword.control.block' });
  });

  test('places, hops, phases, terminals', () => {
    expect(scopes('path U 1 from U1 1a (+6b -12a)*3 to N')).toMatchObject({
      path: 'support.type.property-name',
      U: 'entity.name.label',
      '1': 'constant.numeric',
      U1: 'entity.name.label',
      '1a': 'constant.numeric.place',
      '+6b': 'constant.numeric.place',
      '-12a': 'constant.numeric.place',
      to: 'keyword.other',
      N: 'entity.name.label',
    });
    expect(scopes('layer a +U -2W . repeat 4 alternating')).toMatchObject({
      '+U': 'variable.other.phase',
      '-2W': 'variable.other.phase',
      '.': 'keyword.operator',
      alternating: 'keyword.other',
    });
  });

  test('words that start statements and stand within others', () => {
    for (const word of ['speed', 'current', 'voltage', 'frequency'])
      expect(scopes(`  ${word} 20`)).toMatchObject({ [word]: 'support.type.property-name' });
    expect(scopes('point "climb" speed 900 rpm current 20 A for 2 min }')).toMatchObject({
      point: 'support.type.property-name',
      speed: 'keyword.other',
      current: 'keyword.other',
      for: 'keyword.other',
      '}': 'punctuation.section',
    });
    expect(scopes('star route paths 2 least voltage } sheet')).toMatchObject({
      star: 'support.type.property-name',
      route: 'support.type.property-name',
      voltage: 'keyword.other',
      sheet: 'keyword.control.block',
    });
    expect(scopes('layer a +U -W repeat 4')).toMatchObject({ repeat: 'keyword.other' });
    expect(scopes('repeat U as V shift 16')).toMatchObject({ repeat: 'support.type.property-name' });
  });

  test('a limit', () => {
    expect(scopes('  winding-factor harmonic 5 <= 0.30')).toMatchObject({
      'winding-factor': 'support.function.quantity',
      harmonic: 'keyword.other',
      '<=': 'keyword.operator.comparison',
      '0.30': 'constant.numeric',
    });
    expect(scopes('slot-fill <= 78%')).toMatchObject({
      'slot-fill': 'support.function.quantity',
      '%': 'keyword.other.unit',
    });
  });

  test('an accept: its code is no quantity, even where one has that name', () => {
    expect(scopes('  accept jumpers "by hand"')).toMatchObject({
      accept: 'support.type.property-name',
      jumpers: 'entity.name.tag.code',
      'by hand': 'string.quoted.double',
    });
    expect(scopes('jumpers <= 0')).toMatchObject({ jumpers: 'support.function.quantity' });
  });

  test('words and signs inside strings and comments stay text; a string ends with its line', () => {
    expect(scopes('title "slots 48 \\" # mm"')).toEqual({
      title: 'support.type.property-name',
      '"': 'string.quoted.double',
      'slots 48': 'string.quoted.double',
      '\\"': 'constant.character.escape',
      '# mm': 'string.quoted.double',
    });
    expect(scopes('# slots 48')).toEqual({
      '#': 'punctuation.definition.comment',
      'slots 48': 'comment.line.number-sign',
    });
    const { ruleStack } = grammar.tokenizeLine('title "open', textmate.INITIAL);
    const next = grammar.tokenizeLine('slots 48', ruleStack).tokens[0];
    expect(next?.scopes).toContain('support.type.property-name.winding');
  });

  test('no part of a longer word lights up', () => {
    expect(scopes('slots-per-pole myslots')).toEqual({ 'slots-per-pole myslots': 'source' });
  });
});
