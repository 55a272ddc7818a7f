import type { Primitive } from '../../picture/picture.ts';
import type { Block } from './flow.ts';
import { splitBlock } from './split.ts';
import { drawHeading, headingHeight } from './table.ts';
import { type LetterHeight, line, linePitch, toBase, widthOf, wrapped } from './text.ts';

/** Running text under a heading. */
export interface Paragraphs {
  /** Unique in the set; ids of its primitives begin with it. */
  readonly id: string;
  readonly section: string;
  readonly heading: string;
  readonly paragraphs: readonly string[];
  /** In mm. */
  readonly width: number;
  readonly letters?: LetterHeight;
  /** Put before each paragraph: its number, or a dash; later lines stand under its words. */
  readonly marks?: 'numbers' | 'dashes';
}

interface SetLine {
  readonly mark: string;
  readonly words: string;
  readonly first: boolean;
}

const paragraphGap = 1.2;
/** Texts up to this height are not split. */
const wholeHeight = 90;

/** A block of running text; split, each part has its heading. */
export function paragraphsBlock(text: Paragraphs): Block {
  const lines = setLines(text);
  const pitch = linePitch(text.letters ?? 2.5);
  const block = splitBlock({
    section: text.section,
    width: text.width,
    count: lines.length,
    head: () => headingHeight,
    height: (index, first) => pitch + (lines[index]!.first && !first ? paragraphGap : 0),
    wholeHeight,
    least: 2,
    draw: (from, count) => (left, top) => drawLines(text, lines.slice(from, from + count), from, left, top),
  });
  return { ...block, goesBack: true };
}

function setLines({ paragraphs, width, letters = 2.5, marks }: Paragraphs): readonly SetLine[] {
  const indent = indentOf(marks, letters, paragraphs.length);
  return paragraphs.flatMap((words, index) =>
    wrapped(words, letters, width - indent).map((line, row) => ({
      mark: row > 0 || marks === undefined ? '' : marks === 'numbers' ? String(index + 1) : '\u2013',
      words: line,
      first: row === 0,
    })),
  );
}

function indentOf(marks: Paragraphs['marks'], letters: LetterHeight, count: number): number {
  if (marks === undefined) return 0;
  return widthOf(marks === 'numbers' ? String(count) : '\u2013', letters) + 1.8;
}

function drawLines(
  text: Paragraphs,
  lines: readonly SetLine[],
  from: number,
  left: number,
  top: number,
): readonly Primitive[] {
  const { id, letters = 2.5, marks, paragraphs } = text;
  const heading = from === 0 ? text.heading : `${text.heading}, continued`;
  const indent = indentOf(marks, letters, paragraphs.length);
  const items: Primitive[] = [...drawHeading(`${id}-heading-${from}`, heading, left, top)];
  let y = top + headingHeight;
  lines.forEach(({ mark, words, first }, index) => {
    if (first && index > 0) y += paragraphGap;
    const base = y + toBase(letters);
    const key = `${id}-${from + index + 1}`;
    if (mark !== '') items.push(line(`${key}-mark`, 'sheet-text', left, base, mark, { height: letters }));
    if (words !== '') items.push(line(key, 'sheet-text', left + indent, base, words, { height: letters }));
    y += linePitch(letters);
  });
  return items;
}
