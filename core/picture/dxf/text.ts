import { printable, textWidth } from '../fontMetrics.ts';
import type { Text } from '../picture.ts';

/** Programs that draw Greek letters as blobs in other styles draw them well in one of this name. */
export const cadTextStyle = 'iso3098';
export const cadFont = 'isocpeur.ttf';

/** Height of capital letters, which is what CAD calls text height, in em (DejaVu Sans Condensed: 1493 of 2048). */
export const capitalHeight = 1493 / 2048;

/** A stretch of a line of text: words as CAD writes them, or a symbol drawn as lines. */
export interface TextPiece {
  readonly kind: 'words' | TextSymbol;
  readonly words: string;
  /** From the start of the line, and its width, in millimeters. */
  readonly start: number;
  readonly width: number;
}

export type TextSymbol = 'circle-dot' | 'circle-cross' | 'diameter';

const symbols: Readonly<Record<string, TextSymbol>> = {
  '⊙': 'circle-dot',
  '⊗': 'circle-cross',
  '⌀': 'diameter',
};

/** Longer stretches are cut in several: programs disagree on how much one text may hold. */
const mostCharacters = 250;

/**
 * A line of text as stretches that CAD programs can draw, one after another within the text's width:
 * symbols that their fonts lack become lines of their own, words are spelled as `cadWords` says.
 */
export function textPieces(text: Text): readonly TextPiece[] {
  const stretches: { kind: TextPiece['kind']; words: string }[] = [];
  let open: { kind: TextPiece['kind']; words: string; count: number } | null = null;
  for (const character of printable(text.text)) {
    const symbol = symbols[character];
    if (symbol !== undefined) {
      stretches.push({ kind: symbol, words: character });
      open = null;
      continue;
    }
    if (open === null || open.count >= mostCharacters) {
      open = { kind: 'words', words: '', count: 0 };
      stretches.push(open);
    }
    open.words += character;
    open.count++;
  }
  const natural = textWidth(printable(text.text), text.size);
  const scale = natural === 0 ? 0 : text.width / natural;
  let start = 0;
  return stretches.map(({ kind, words }) => {
    const width = scale * textWidth(words, text.size);
    const piece = { kind, words: kind === 'words' ? cadWords(words) : words, start, width };
    start += width;
    return piece;
  });
}

/** Characters that CAD fonts lack, in characters that they have. */
const spelled: Readonly<Record<string, string>> = {
  '\u2010': '-',
  '\u2011': '-',
  '\u2012': '-',
  '\u2013': '-',
  '\u2014': '-',
  '\u2212': '-',
  '\u2190': '<-',
  '\u2192': '->',
  '\u2194': '<->',
  '\u2191': '^',
  '\u2264': '<=',
  '\u2265': '>=',
  '\u2260': '<>',
  '\u2248': '~',
  '\u2009': ' ',
  '\u202f': ' ',
  '\u00a0': ' ',
  '\u2026': '...',
  '\u2022': '-',
  '\ufffd': '?',
};

/**
 * Words as the value of a TEXT entity: nothing in them is taken for a code. `%%` starts a code, `^` a
 * control character, `\U+` and `\M+` a character by its number.
 */
export function cadWords(words: string): string {
  const plain = [...words].map((character) => spelled[character] ?? character).join('');
  const noCodes = plain.includes('%%') ? plain.replaceAll('%', '%%%') : plain;
  return noCodes.replaceAll('^', '^ ').replace(/\\(?=[UM]\+)/gi, '\\U+005C');
}
