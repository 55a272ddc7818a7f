import { ascentUnits, descentUnits, fallbackUnits, unitsPerEm, widthRuns } from './fontTable.ts';

/** Height of a line of text above its base line, in em. */
export const ascent = ascentUnits / unitsPerEm;

/** Depth of a line of text below its base line, in em. */
export const descent = descentUnits / unitsPerEm;

const noGlyph = 0xfff;

/** Advance by code point up to U+FFFF, in font units; `noGlyph` where the font has none. */
const advances = new Uint16Array(0x10000).fill(noGlyph);
for (const { first, widths } of widthRuns)
  for (let index = 0; 3 * index < widths.length; index++)
    advances[first + index] = Number.parseInt(widths.slice(3 * index, 3 * index + 3), 16);

/** Whether the font has a glyph for a character. */
export function hasGlyph(character: string): boolean {
  return (advances[character.codePointAt(0) ?? 0] ?? noGlyph) !== noGlyph;
}

function unitsOf(text: string): number {
  let units = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.codePointAt(index)!;
    if (code > 0xffff) index++;
    const advance = advances[code] ?? noGlyph;
    units += advance === noGlyph ? fallbackUnits : advance;
  }
  return units;
}

/** Width of one line of text in DejaVu Sans Condensed without kerning, in the unit of `size` (font size, > 0). */
export function textWidth(text: string, size: number): number {
  return (unitsOf(text) * size) / unitsPerEm;
}

/**
 * The text with every character that may not stand in a drawing (control characters, line ends,
 * unpaired surrogates, non-characters) replaced by U+FFFD.
 */
export function printable(text: string): string {
  // Nearly all texts are of plain letters, which is quick to see.
  if (/^[ -~]*$/.test(text)) return text;
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffe\uffff]|\p{Surrogate}/gu, '\ufffd');
}

/** The text if it is no wider than `width`, else as much of it as fits with an ellipsis; never less than the ellipsis. */
export function fitText(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const room = width - textWidth('…', size);
  let kept = '';
  let used = 0;
  for (const character of text) {
    used += textWidth(character, size);
    if (used > room) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** The words of a text as lines no wider than `width`; a single wider word is cut short. */
export function wrapText(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  let units = 0;
  for (const word of text.split(' ')) {
    const ofWord = unitsOf(word);
    const together = units + unitsOf(' ') + ofWord;
    if (line !== '' && (together * size) / unitsPerEm <= width) {
      line += ` ${word}`;
      units = together;
      continue;
    }
    if (line !== '') lines.push(line);
    line = word;
    units = ofWord;
  }
  lines.push(line);
  return lines.map((each) => fitText(each, size, width));
}
