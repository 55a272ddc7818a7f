import type { Range } from '../finding.ts';
import type { Block, Document, Statement } from './document.ts';

/** A part of the text as an outline shows it. */
export interface OutlineEntry {
  readonly kind: 'winding' | 'block' | 'statement';
  readonly name: string;
  readonly detail: string;
  readonly range: Range;
  /** Its first word, which lies within `range`. */
  readonly word: Range;
  readonly children: readonly OutlineEntry[];
}

const longestDetail = 60;

/** Title, blocks, and their statements, in the order of the text. */
export function outline({ text, title, blocks }: Document): readonly OutlineEntry[] {
  const entries = blocks.map((block) => blockEntry(text, block));
  const head = title ? [{ ...statementEntryOf(text, title), kind: 'winding' as const }] : [];
  return [...head, ...entries].sort((a, b) => a.range.start - b.range.start);
}

/** A stretch that can be folded. */
export interface FoldedStretch extends Range {
  /** Its last line closes it and stays in sight. */
  readonly closes: boolean;
}

/** The stretches that can be folded: every block, and statements that go over several lines. */
export function foldedStretches({ text, blocks }: Document): readonly FoldedStretch[] {
  return blocks.flatMap(({ range, statements }) => [
    { ...range, closes: true },
    ...statements
      .filter((statement) => /[\r\n]/.test(text.slice(statement.range.start, statement.range.end)))
      .map((statement) => ({ ...statement.range, closes: false })),
  ]);
}

function blockEntry(text: string, { name, word, layers, statements, range }: Block): OutlineEntry {
  const letters = layers.map((layer) => text.slice(layer.range.start, layer.range.end)).join(' ');
  const children = statements.map((statement) => statementEntryOf(text, statement));
  return {
    kind: 'block',
    name,
    detail: letters,
    range,
    word: { start: word.start, end: word.end },
    children,
  };
}

function statementEntryOf(text: string, { entry, word, range }: Statement): OutlineEntry {
  const values = text.slice(word.end, range.end).replace(/\s+/g, ' ').trim();
  const detail = values.length > longestDetail ? `${values.slice(0, longestDetail)}…` : values;
  const own = { start: word.start, end: word.end };
  return { kind: 'statement', name: entry.word, detail, range, word: own, children: [] };
}
