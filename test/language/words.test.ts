// Takes its time: puts every word beside every other.

import { describe, expect, it } from 'vitest';
import type { Fix } from '../../core/language/finding.ts';
import { parse } from '../../core/language/text/parser.ts';
import * as kinds from '../../core/language/textFindingKinds.ts';
import { parsePattern, patternLiterals } from '../../core/language/vocabulary/pattern.ts';
import { tradeWords } from '../../core/language/vocabulary/tradeWords.ts';
import { blockNames, statementWords, vocabulary } from '../../core/language/vocabulary/vocabulary.ts';
import { expectFindings, marked } from '../support/marked.ts';
import { tries } from '../support/tries.ts';

const findingsOf = (text: string) => parse(text).findings;

/** The text after the edits of a fix. */
function mended(text: string, fix: Fix | undefined): string {
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.range.start - a.range.start)
    .reduce((now, { range, text: part }) => now.slice(0, range.start) + part + now.slice(range.end), text);
}

/** What a message suggests, between the quotes of "did you mean". */
function suggested(message: string): string | undefined {
  return /did you mean '([^']*)'/.exec(message)?.[1];
}

describe('numbers with commas or blanks within', () => {
  it.each([
    ['bar { coating «0,15» mm }', 'bar { coating 0.15 mm }'],
    ['machine { speed «12 000» rpm }', 'machine { speed 12000 rpm }'],
    ['machine { rotor-skew «-3,75» deg }', 'machine { rotor-skew -3.75 deg }'],
    ['require { winding-factor harmonic 1 >= «0,93» }', 'require { winding-factor harmonic 1 >= 0.93 }'],
  ])('%s are told as they are written', (source, expected) => {
    const [finding] = expectFindings(source, ['number-parted'], findingsOf);
    expect(mended(marked(source).text, finding!.fix)).toBe(expected);
  });

  it('that could be either are told both ways, and nothing is chosen', () => {
    const [finding] = expectFindings('machine { speed «12,000» rpm }', ['number-parted'], findingsOf);
    expect(finding!.message).toBe("'12,000' is not a number here; write 12000 or 12.000.");
    expect(finding!.fix).toBeUndefined();
  });

  it('are none where two lengths follow each other, or values to try are listed', () => {
    expectFindings('machine { air-gap 1 mm 100 mm }', [], findingsOf);
    expectFindings('machine { slots 48 «,»poles 8 }', ['text-unexpected'], findingsOf);
    const [list] = findingsOf('vary { machine slots 36,48 }');
    expect(list!.code).not.toBe('number-parted');
  });
});

describe('what is suggested', () => {
  // Where a word was offered to itself, or one that cannot stand there.
  it.each([
    ['connect { star joined «joined» }', 'text-unexpected'],
    ['layout { layer a = layer b negated «moved» 5 }', 'text-unexpected'],
    ['connect { route paths 2 fewest joints «joints» }', 'text-unexpected'],
    ['connect { route paths 2 «joints» }', 'text-unexpected'],
    ['layout { layer b = «moved» 5 }', 'value-expected'],
    ['machine { rotor-skew 3 deg «steps» 4 }', 'text-unexpected'],
    ['connect { path U 1 from U1 1a +6b to N «+6B» }', 'text-unexpected'],
    ['connect { path U 1 from U1 1a «+u» to N }', 'value-expected'],
    ['machine { phases 6 «edeg» 30 }', 'unit-wrong'],
    ['layout { layer a +U -W repeat 4 «+u» }', 'text-unexpected'],
    ['connect { star «star» }', 'statement-repeated'],
    ['connect { route paths 2 fewest joints fewest «joints» }', 'word-repeated'],
    ['connect { route paths 2 deviation 1 % least copper «deviation» 2 % }', 'word-repeated'],
  ])('is nothing in %s', (source, code) => {
    const [finding] = expectFindings(source, [code], findingsOf);
    expect(finding!.message).not.toContain('did you mean');
    expect(finding!.fix).toBeUndefined();
  });

  it('is every word that a statement takes, where it takes one alone', () => {
    const [finding] = expectFindings('connect { rings star «terminals» }', ['text-unexpected'], findingsOf);
    expect(finding!.message).toBe(
      "'terminals' has no meaning after 'rings', which takes one of 'star', 'terminals', 'all'.",
    );
  });

  it('is no statement that is given already and stands only once', () => {
    const [finding] = expectFindings('machine { slots 48  «slotss» 24 }', ['word-unknown'], findingsOf);
    expect(finding!.message).not.toContain('did you mean');
    const [other] = expectFindings('machine { poles 8  «slotss» 24 }', ['word-unknown'], findingsOf);
    expect(suggested(other!.message)).toBe('slots');
    const [again] = expectFindings('bar { width a 3 mm  «widht» b 4 mm }', ['word-unknown'], findingsOf);
    expect(suggested(again!.message)).toBe('width');
  });

  it('is no block that is there already, but for slot', () => {
    const [second] = expectFindings('machine { slots 48 }\n«machin» { }', ['block-unknown'], findingsOf);
    expect(second!.message).not.toContain('did you mean');
    const source = 'slot a { width 4 mm }\n«slto» b { width 4 mm }';
    expect(suggested(expectFindings(source, ['block-unknown'], findingsOf)[0]!.message)).toBe('slot');
  });

  it('is the block of a statement that stands outside all blocks', () => {
    const [finding] = expectFindings('«slots» 48\n', ['block-unknown'], findingsOf);
    expect(finding!.message).toBe(
      kinds.unknownBlock.message({ text: 'slots', suggestion: undefined, elsewhere: ['machine'] }),
    );
    expect(finding!.message).toContain("it belongs in the block 'machine'");
  });

  it('is the block of a word that follows another statement on its line', () => {
    const [finding] = expectFindings('machine { slots 48 «span» 6 }', ['word-unknown'], findingsOf);
    expect(finding!.message).toContain('it belongs in layout');
  });

  // Every word of the language, followed by every word, literal or misspelling that could be offered: one in
  // five of the pairs, each word in turn with others, and all of them with more tries.
  const stride = tries(1) > 1 ? 1 : 5;
  it('never is what is written, nor what cannot stand there, whatever follows whatever', () => {
    const misspelled = (word: string) => word.slice(0, -1) + word.slice(-1).repeat(2);
    let told = 0;
    let pair = 0;
    const wrong: string[] = [];
    for (const block of blockNames) {
      const entries = vocabulary.filter((entry) => entry.block === block);
      const words = entries.map(({ word }) => word);
      for (const { example, role } of entries) {
        if (role !== 'statement' && role !== 'quantity') continue;
        const tokens = example.split(/\s+/);
        const cuts = [...new Set([1, tokens.length])];
        for (const next of words.flatMap((word) => [word, misspelled(word)])) {
          if (pair++ % stride !== 0) continue;
          for (const cut of cuts) {
            const text = `${block} { ${[...tokens.slice(0, cut), next].join(' ')} }`;
            for (const finding of findingsOf(text)) {
              const meant = suggested(finding.message);
              if (meant === undefined) continue;
              told++;
              const written = text.slice(finding.range.start, finding.range.end);
              // What is suggested can stand there: at that place nothing but its own values is missing.
              const still = findingsOf(mended(text, finding.fix)).filter(
                ({ code, range }) => code !== 'value-expected' && range.start === finding.range.start,
              );
              if (meant === written || still.length > 0)
                wrong.push(`${text}: ${meant}, ${still.map(({ message }) => message)}`);
            }
          }
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(told).toBeGreaterThan(300 / stride);
  });
});

describe('a layer that says how it is moved, but not from where', () => {
  it.each([
    ['layer b «moved» 5', 'layer b = layer a moved 5'],
    ['layer b «negated»', 'layer b = layer a negated'],
    ['layer c «moved» 5 negated', 'layer c = layer a moved 5 negated'],
    ['layer b «layer» a moved 5', 'layer b = layer a moved 5'],
  ])('%s', (source, meant) => {
    const block = (statement: string) => `layout {\n  layers 2\n  ${statement}\n}\n`;
    const [finding] = expectFindings(block(source), ['layer-source-missing'], findingsOf);
    expect(finding!.message).toContain('= layer a');
    const { text } = marked(block(source));
    expect(mended(text, finding!.fix)).toBe(block(meant));
  });

  it('is not layer a itself: another one has to be named', () => {
    const [finding] = expectFindings('layout { layer a «moved» 5 }', ['layer-source-missing'], findingsOf);
    expect(finding!.message).toContain("'= layer b'");
  });
});

describe('units by other names', () => {
  it.each([
    ['machine { speed 3600 «r/min» }', 'rpm'],
    ['machine { bore 162 «millimeters» }', 'mm'],
    ['machine { winding-temperature 120 «C» }', 'degC'],
    ['machine { current 210 «Amps» }', 'A'],
    ['layout { skew all 7.5 «degrees» }', 'deg'],
    ['require { current-density <= 12 «A/mm²» }', 'A/mm2'],
    ['require { torque >= 80 «N·m» }', 'Nm'],
    ['machine { rotor-field harmonic 3 12 «percent» }', '%'],
  ])('%s', (source, unit) => {
    const [finding] = expectFindings(source, ['unit-wrong'], findingsOf);
    expect(suggested(finding!.message)).toBe(unit);
    expect(findingsOf(mended(marked(source).text, finding!.fix))).toEqual([]);
  });

  it('of another quantity are no advice', () => {
    const [finding] = expectFindings('machine { bore 162 «Amps» }', ['unit-wrong'], findingsOf);
    expect(finding!.message).not.toContain('did you mean');
  });
});

describe('words of the trade', () => {
  it.each([
    ['connect { «wye» }', 'star', 'connect { star }'],
    ['layout { layers 2  «pitch» 6 }', 'span', 'layout { layers 2  span 6 }'],
    ['machine { «diameter» 162 mm }', 'bore', 'machine { bore 162 mm }'],
    ['machine { slots 48 «length» 96 mm }', 'stack', 'machine { slots 48 stack 96 mm }'],
    ['bar { width 3 mm «thickness» 2 mm }', 'height', 'bar { width 3 mm height 2 mm }'],
    ['connect { star  route «parallel» 2 }', 'paths', 'connect { star  route paths 2 }'],
    ['connect { star  «parallel» 2 }', 'route paths', 'connect { star  route paths 2 }'],
    ['«stator» { slots 48 }', 'machine', 'machine { slots 48 }'],
    ['require { «pitch» harmonic 5 <= 0.3 }', 'pitch-factor', 'require { pitch-factor harmonic 5 <= 0.3 }'],
    ['require { slot-fill «<» 78 % }', '<=', 'require { slot-fill <= 78 % }'],
    ['require { slot-fill «≤» 78 % }', '<=', 'require { slot-fill <= 78 % }'],
    ['bar { metal «cu» }', 'copper', 'bar { metal copper }'],
    ['machine { gap «internal» }', 'inner', 'machine { gap inner }'],
    ['machine { gap «0.8» mm }', 'air-gap', 'machine { air-gap 0.8 mm }'],
  ])('%s', (source, ours, meant) => {
    const { text, ranges } = marked(source);
    const [finding] = findingsOf(text);
    expect(findingsOf(text)).toHaveLength(1);
    expect(text.slice(finding!.range.start, finding!.range.end)).toBe(
      text.slice(ranges[0]!.start, ranges[0]!.end),
    );
    expect(finding!.message).toContain(`'${ours}'`);
    expect(mended(text, finding!.fix)).toBe(meant);
    expect(findingsOf(meant)).toEqual([]);
  });

  it('know their block: a length of the machine is its stack, not so in a bar', () => {
    const [finding] = expectFindings('bar { «diameter» 3 mm }', ['word-unknown'], findingsOf);
    expect(finding!.message).toContain("in machine it is 'bore'");
    expect(finding!.fix).toBeUndefined();
  });

  it('have no fix where the value would mean something else', () => {
    const [pairs] = expectFindings('machine { «pole-pairs» 4 }', ['word-unknown'], findingsOf);
    expect(pairs!.message).toContain("'poles'");
    expect(pairs!.message).toContain('twice');
    expect(pairs!.fix).toBeUndefined();
    const [outer] = expectFindings('machine { «outer-diameter» 200 mm }', ['word-unknown'], findingsOf);
    expect(outer!.message).toContain("'outside'");
    expect(outer!.fix).toBeUndefined();
  });

  it('are no words of their block, and lead to words that are', () => {
    for (const { block, word, ours } of tradeWords) {
      const own = block === 'file' ? ['winding', ...blockNames] : statementWords(block);
      expect(own, word).not.toContain(word);
      const literals = vocabulary
        .filter((entry) => entry.block === block)
        .flatMap(({ pattern }) => patternLiterals(parsePattern(pattern)));
      expect([...own, ...literals, '<=', '>='], `${block} ${word}`).toContain(ours.split(' ').at(-1));
      // A keyword may be taken for the statement that it belongs to: 'paths 2' for 'route paths 2'.
      if (!ours.endsWith(` ${word}`)) expect([...own, ...literals], `${block} ${word}`).not.toContain(word);
    }
    const keys = tradeWords.map(({ block, word, ours }) => `${block} ${word} ${ours}`);
    expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([]);
  });

  it('may be a keyword without its statement', () => {
    const source = 'winding "Pump"\nconnect { star «paths» 2 }';
    const [finding] = expectFindings(source, ['word-unknown'], findingsOf);
    expect(finding!.message).toBe("'paths' is not a word of connect; here it is 'route paths'.");
    expect(mended(marked(source).text, finding!.fix)).toContain('star route paths 2');
  });

  it('are replaced by words whose values fit, where they are replaced', () => {
    for (const { block, word, ours, remark } of tradeWords) {
      const entry = vocabulary.find(
        (one) =>
          one.block === block && one.word === ours && (one.role === 'statement' || one.role === 'quantity'),
      );
      if (!entry) continue;
      const written = `${word}${entry.example.slice(ours.length)}`;
      const text = block === 'file' ? written : `${block} { ${written} }`;
      const [finding] = findingsOf(text);
      expect(finding!.message, text).toContain(`'${ours}'`);
      if (remark === undefined) expect(findingsOf(mended(text, finding!.fix)), text).toEqual([]);
      else expect(finding!.fix, text).toBeUndefined();
    }
  });
});
