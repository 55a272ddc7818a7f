import { describe, expect, it } from 'vitest';
import { replaceUnseen, visible } from '../../core/language/text/visible.ts';
import { buildCommands, hostileTexts } from '../support/hostile.ts';

/** Every code point of a Unicode category. Planes 4 to 13 hold no characters, 15 and 16 those of private use. */
function everyOf(category: RegExp): readonly string[] {
  const found: string[] = [];
  for (const [first, last] of [
    [0, 0x3ffff],
    [0xe0000, 0xeffff],
  ] as const)
    for (let point = first; point <= last; point++) {
      const character = String.fromCodePoint(point);
      if (category.test(character)) found.push(character);
    }
  return found;
}

/** Format characters that have a glyph of their own, which encloses or begins a number (The Unicode Standard, property Prepended_Concatenation_Mark). */
const letterlike = new Set(
  [0x600, 0x601, 0x602, 0x603, 0x604, 0x605, 0x6dd, 0x70f, 0x890, 0x891, 0x8e2, 0x110bd, 0x110cd].map(
    (point) => String.fromCodePoint(point),
  ),
);

describe('text as shown', () => {
  it('shows every control and format character, separator and half pair as U+FFFD', () => {
    const unseen = everyOf(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u).filter((each) => !letterlike.has(each));
    expect(unseen.length).toBeGreaterThan(2048 + 65 + 150);
    for (const each of ['\u200b', '\u200e', '\u200f', '\u061c', '\u00ad', '\ufeff', '\u2028', '\u{e0041}'])
      expect(unseen).toContain(each);
    const wrong = unseen.filter((each) => visible(`a${each}b`) !== 'a\ufffdb');
    expect(wrong.map((each) => each.codePointAt(0)!.toString(16))).toEqual([]);
    for (const each of letterlike) expect(visible(`a${each}1`)).toBe(`a${each}1`);
  });

  it('leaves all letters, marks, numbers, signs and blanks alone', () => {
    const seen = everyOf(/[\p{L}\p{M}\p{N}\p{P}\p{S}\p{Zs}]/u).join('');
    expect(visible(seen)).toBe(seen);
    expect(visible('Schütz-Antrieb ⌀ 162 mm, Ω, 😀')).toBe('Schütz-Antrieb ⌀ 162 mm, Ω, 😀');
  });

  it('keeps joiners where spelling needs them, and shows them elsewhere', () => {
    // Persian with a non-joiner, Sinhala with a joiner, a pictograph of three.
    for (const word of ['می\u200cخواهم', 'ශ්\u200dරී', '👩\u200d🔧', '👩🏽\u200d🔧', '❤\ufe0f\u200d🔥'])
      expect(visible(word)).toBe(word);
    for (const word of ['pu\u200dmp', 'pump\u200c', '\u200dpump', 'на\u200dсос', '1\u200d2', 'خ\u200ca'])
      expect(visible(word)).toBe(word.replace(/[\u200c\u200d]/, '\ufffd'));
  });

  it('parts what a build server would take for a command', () => {
    for (const text of hostileTexts) expect(buildCommands(`x ${visible(text)}`)).toEqual([]);
    expect(visible('a ##[group]b ##vso[x]c')).toBe('a ##\ufffd[group]b ##\ufffdvso[x]c');
    expect(visible('## [x] # #[y]')).toBe('## [x] # #[y]');
  });

  it('can be told in other ways', () => {
    expect(replaceUnseen('a\u200e\u{e0041}b', (c) => `<${c.codePointAt(0)!.toString(16)}>`)).toBe(
      'a<200e><e0041>b',
    );
  });
});
