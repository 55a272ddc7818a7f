import { describe, expect, it } from 'vitest';
import { tokenize } from '../../core/language/text/lexer.ts';

/** Kind and text of every token but the end. */
function cut(text: string): readonly string[] {
  const tokens = tokenize(text);
  expect(tokens[tokens.length - 1]!.kind).toBe('end');
  return tokens.slice(0, -1).map((token) => `${token.kind} ${token.text}`);
}

describe('the longest match', () => {
  it.each([
    ['12', ['number 12']],
    ['+12', ['number +12']],
    ['-0.5', ['number -0.5']],
    ['1e9', ['number 1e9']],
    ['1e-9', ['number 1e-9']],
    ['2.5E3', ['number 2.5E3']],
    ['12e', ['position 12e']],
    ['7b', ['position 7b']],
    ['+6b', ['hop +6b']],
    ['-12e', ['hop -12e']],
    ['+U', ['signed-phase +U']],
    ['-1U', ['signed-phase -1U']],
    ['U', ['mark U']],
    ['1U', ['mark 1U']],
    ['U1', ['mark U1']],
    ['1U1', ['mark 1U1']],
    ['2N', ['mark 2N']],
    ['A3', ['mark A3']],
    ['winding-factor', ['word winding-factor']],
    ['a1', ['word a1']],
    ['>=', ['punctuation >=']],
    ['<=', ['punctuation <=']],
    ['(+6b)*3', ['punctuation (', 'hop +6b', 'punctuation )', 'punctuation *', 'number 3']],
    ['7b|13a', ['position 7b', 'punctuation |', 'position 13a']],
    ['. . .', ['punctuation .', 'punctuation .', 'punctuation .']],
    ['slots 48', ['word slots', 'number 48']],
    ['"a # b"', ['string "a # b"']],
    ['"a \\" b"', ['string "a \\" b"']],
    ['48 # forty-eight', ['number 48', 'comment # forty-eight']],
  ])('%s', (text, tokens) => {
    expect(cut(text)).toEqual(tokens);
  });
});

describe('what has no shape of the language', () => {
  it.each([
    ['12ab', ['unknown 12ab']],
    ['12B3c', ['unknown 12B3c']],
    ['1.5mm', ['unknown 1.5mm']],
    ['Slots', ['unknown Slots']],
    ['+6B2', ['unknown +6B2']],
    ['U12', ['unknown U12']],
    ['ström', ['unknown ström']],
    ['😀', ['unknown 😀']],
    ['<', ['unknown <']],
    ['>', ['unknown >']],
    ['=>', ['punctuation =', 'unknown >']],
    ['1.', ['number 1', 'punctuation .']],
    ['+', ['unknown +']],
    ['width·3', ['word width', 'unknown ·', 'number 3']],
    ['widté·3', ['unknown widté', 'unknown ·', 'number 3']],
    ['widte\u0301', ['unknown widte\u0301']],
    ['"open', ['unclosed-string "open']],
    ['"open\\"', ['unclosed-string "open\\"']],
  ])('%j', (text, tokens) => {
    expect(cut(text)).toEqual(tokens);
  });
});

describe('units', () => {
  it('stand only behind a number and a blank', () => {
    expect(cut('162 mm')).toEqual(['number 162', 'unit mm']);
    expect(cut('mm')).toEqual(['word mm']);
    expect(cut('162\nmm')).toEqual(['number 162', 'word mm']);
    expect(cut('a mm')).toEqual(['word a', 'word mm']);
  });

  it('may hold a slash, a blank and parentheses; percent may touch its number', () => {
    expect(cut('12 A/mm2')).toEqual(['number 12', 'unit A/mm2']);
    expect(cut('12 W/(m K)')).toEqual(['number 12', 'unit W/(m K)']);
    expect(cut('3 Nm/sqrt(W)')).toEqual(['number 3', 'unit Nm/sqrt(W)']);
    expect(cut('3%')).toEqual(['number 3', 'unit %']);
    expect(cut('3 %')).toEqual(['number 3', 'unit %']);
  });

  it('are not the beginning of a longer word', () => {
    expect(cut('1 mWb')).toEqual(['number 1', 'unit mWb']);
    expect(cut('1 mx')).toEqual(['number 1', 'word mx']);
    expect(cut('1 slots')).toEqual(['number 1', 'word slots']);
    expect(cut('1 slot-fill')).toEqual(['number 1', 'word slot-fill']);
  });
});

describe('lines and blanks', () => {
  it.each(['\n', '\r\n', '\r'])('a line ends with %j', (lineBreak) => {
    const tokens = tokenize(['a', 'b', '"c'].join(lineBreak));
    expect(tokens.map(({ text, startsLine }) => [text, startsLine])).toEqual([
      ['a', true],
      ['b', true],
      ['"c', true],
      ['', true],
    ]);
  });

  it('a byte order mark and tabs are blanks', () => {
    expect(cut('\ufeffslots\t48')).toEqual(['word slots', 'number 48']);
  });

  it('blanks of other kinds are blanks, and characters that cannot be seen are read over', () => {
    const tokens = tokenize('sl\u200bots\u00a0\u200b48\u200b\u2028"\u200b" # \u00a0');
    expect(
      tokens.map(({ kind, text, start, end, startsLine }) => [kind, text, start, end, startsLine]),
    ).toEqual([
      ['word', 'slots', 0, 6, true],
      ['number', '48', 8, 10, false],
      ['string', '"\u200b"', 12, 15, true],
      ['comment', '# \u00a0', 16, 19, false],
      ['end', '', 19, 19, true],
    ]);
  });

  it('any Unicode stands in strings and comments', () => {
    expect(cut('"Gezeiten-Pumpe №7 潮 \u202e" # ≤ 😀')).toEqual([
      'string "Gezeiten-Pumpe №7 潮 \u202e"',
      'comment # ≤ 😀',
    ]);
  });

  it('tokens cover the text without overlap', () => {
    const text = 'a "b" 1 mm # c\n}{ ? +6b 1U1 "d';
    let at = 0;
    for (const { start, end, text: part } of tokenize(text)) {
      expect(text.slice(at, start)).toMatch(/^\s*$/);
      expect(text.slice(start, end)).toBe(part);
      at = end;
    }
    expect(at).toBe(text.length);
  });
});
