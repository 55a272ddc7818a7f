import { visible } from '../language/kinds.ts';
import { ascent, descent, fitText, textWidth, wrapText } from './fontMetrics.ts';
import { text } from './make.ts';
import type { Role, Text } from './picture.ts';

/** Height of capitals in em, of the drawing's font (DejaVu Sans Condensed: 1493 of 2048 units). */
export const capHeight = 1493 / 2048;

/** Letter heights of ISO 3098-1 that sheets use, in millimetres. */
export type LetterHeight = 1.8 | 2.5 | 3.5 | 5;

/** Font size of a letter height. */
export function sizeOfHeight(height: LetterHeight): number {
  return height / capHeight;
}

/** Room of one line of text from ascent to descent, in millimetres. */
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

/** Text by the user, without characters that could disturb a reader's program. */
export function cleaned(words: string): string {
  return visible(words);
}

/** Width of a line of text. */
export function widthOf(words: string, height: LetterHeight): number {
  return textWidth(words, sizeOfHeight(height));
}

/** A line of text at a letter height; `y` is its base line. */
export function line(
  id: string,
  role: Role,
  x: number,
  y: number,
  words: string,
  height: LetterHeight,
  anchor: Text['anchor'] = 'start',
): Text {
  return text(id, role, x, y, words, anchor, sizeOfHeight(height));
}

/** The words cut short with an ellipsis where they are wider than `width`. */
export function fitted(words: string, height: LetterHeight, width: number): string {
  return fitText(words, sizeOfHeight(height), width);
}

/** The words as lines no wider than `width`. */
export function wrapped(words: string, height: LetterHeight, width: number): readonly string[] {
  return wrapText(words, sizeOfHeight(height), width);
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
