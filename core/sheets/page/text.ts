import { visible } from '../../language/text/visible.ts';
import { ascent, descent, fitText, hasGlyph, textWidth, wrapText } from '../../picture/fontMetrics.ts';
import { text } from '../../picture/make.ts';
import type { Role, Text } from '../../picture/picture.ts';

/** Height of capitals in em, of the drawing's font (DejaVu Sans Condensed: 1493 of 2048 units). */
const capHeight = 1493 / 2048;

/** Letter heights of ISO 3098-1 that sheets use, in millimeters. */
export type LetterHeight = 1.8 | 2.5 | 3.5 | 5;

/** Font size of a letter height. */
function sizeOfHeight(height: LetterHeight): number {
  return height / capHeight;
}

/** Room of one line of text from ascent to descent, in millimeters. */
export function lineHeight(height: LetterHeight): number {
  return (ascent + descent) * sizeOfHeight(height);
}

/** Distance of base lines in running text: 1.9 letter heights (ISO 3098-1, with accents). */
export function linePitch(height: LetterHeight): number {
  return Math.max(1.9 * height, lineHeight(height) + 0.15);
}

/** Distance from the top of a line of text to its base line. */
export function toBase(height: LetterHeight): number {
  return ascent * sizeOfHeight(height);
}

/** Width of a line of text. */
export function widthOf(words: string, height: LetterHeight): number {
  return textWidth(words, sizeOfHeight(height));
}

/** How a line of text is set. */
export interface LineOptions {
  readonly height: LetterHeight;
  /** Which end of the text stands at its place; the start where it is not said. */
  readonly anchor?: Text['anchor'];
}

/** A line of text at a letter height; `y` is its base line. */
export function line(
  id: string,
  role: Role,
  x: number,
  y: number,
  words: string,
  { height, anchor = 'start' }: LineOptions,
): Text {
  return text(id, role, x, y, words, { anchor, size: sizeOfHeight(height) });
}

/** The words cut short with an ellipsis where they are wider than `width`. */
export function fitted(words: string, height: LetterHeight, width: number): string {
  return fitText(words, sizeOfHeight(height), width);
}

/** The words as lines no wider than `width`; a single wider word goes on in the next line. */
export function wrapped(words: string, height: LetterHeight, width: number): readonly string[] {
  const size = sizeOfHeight(height);
  const narrow = words
    .split(' ')
    .map((word) => brokenWord(word, size, width - 1e-6))
    .join(' ');
  return wrapText(narrow, size, width);
}

/** A word as pieces with blanks between them, no two of which fit on one line; at least one letter each. */
function brokenWord(word: string, size: number, width: number): string {
  if (textWidth(word, size) <= width) return word;
  const pieces: string[] = [];
  let piece = '';
  let used = 0;
  for (const character of word) {
    const wide = textWidth(character, size);
    if (piece !== '' && used + wide > width) {
      pieces.push(piece);
      [piece, used] = ['', 0];
    }
    piece += character;
    used += wide;
  }
  return [...pieces, piece].join(' ');
}

/** As `wrapped`, with at most `most` lines: what is left over is cut with an ellipsis. */
export function wrappedTo(
  words: string,
  height: LetterHeight,
  width: number,
  most: number,
): readonly string[] {
  const lines = wrapped(words, height, width);
  if (lines.length <= most) return lines;
  const last = lines.slice(most - 1).join(' ');
  return [...lines.slice(0, most - 1), fitted(`${last.slice(0, 400)}…`, height, width)];
}

/** The characters of some texts that the sheets' letters lack, each once, in their order. */
export function lackingCharacters(texts: readonly string[]): readonly string[] {
  const found = new Set<string>();
  for (const text of texts)
    for (const character of visible(text)) if (!hasGlyph(character)) found.add(character);
  return [...found];
}

/** A row of a table whose last cell is wrapped to a width, mm: what does not fit stands in rows of its own below it. */
export function underRows(cells: readonly string[], width: number): readonly (readonly string[])[] {
  const [first = '', ...more] = wrapped(cells.at(-1)!, 2.5, width);
  const others = cells.slice(0, -1);
  return [[...others, first], ...more.map((words) => [...others.map(() => ''), words])];
}
