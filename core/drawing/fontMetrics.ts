import { ascentUnits, descentUnits, fallbackUnits, unitsPerEm, widthRuns } from './fontTable.ts';

/** Height of a line of text above its base line, in em. */
export const ascent = ascentUnits / unitsPerEm;

/** Depth of a line of text below its base line, in em. */
export const descent = descentUnits / unitsPerEm;

const noGlyph = 0xfff;

const advances: ReadonlyMap<number, number> = new Map(
  widthRuns
    .flatMap(({ first, widths }) =>
      Array.from({ length: widths.length / 3 }, (_, index): [number, number] => {
        return [first + index, Number.parseInt(widths.slice(3 * index, 3 * index + 3), 16)];
      }),
    )
    .filter(([, units]) => units !== noGlyph),
);

/** Whether the font has a glyph for a character. */
export function hasGlyph(character: string): boolean {
  return advances.has(character.codePointAt(0) ?? 0);
}

/** Width of one line of text in DejaVu Sans Condensed without kerning, in the unit of `size` (font size, > 0). */
export function textWidth(text: string, size: number): number {
  let units = 0;
  for (const character of text) units += advances.get(character.codePointAt(0)!) ?? fallbackUnits;
  return (units * size) / unitsPerEm;
}

/**
 * The text with every character that may not stand in a drawing (control characters, line ends,
 * unpaired surrogates, non-characters) replaced by U+FFFD.
 */
export function printable(text: string): string {
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
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  return lines.map((each) => fitText(each, size, width));
}
