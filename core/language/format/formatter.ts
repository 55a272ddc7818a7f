import type { Range } from '../finding.ts';
import { layerLetter } from '../layerLetters.ts';
import { largest } from '../numbers.ts';
import type { Block, Document, Statement, Value } from '../text/document.ts';
import { type Token, tokenIndexAt } from '../text/lexer.ts';
import { lineIndex, lineStarts } from '../text/lines.ts';
import { mostFindings, parse } from '../text/parser.ts';
import type { Role } from '../vocabulary/vocabulary.ts';
import { statementLines } from './statement.ts';

/** Widest line the formatter makes where a break is possible. */
export const lineWidth = 100;
/** Words up to this length share a value column; a longer one pushes its own value to the right. */
const widestAlignedWord = 12;

/** A stretch of the text that is laid out as a whole. */
interface Piece {
  readonly kind: 'statement' | 'open' | 'close' | 'oneline' | 'comment' | 'frozen';
  readonly range: Range;
  readonly depth: 0 | 1;
  /** Output lines without indent; a frozen piece holds its source lines as they stand. */
  readonly lines: readonly string[];
  /** A comment that stays behind the piece, on its last line. */
  comment?: string;
}

/**
 * The text in canonical form: two-space indent, aligned values, long rows and paths broken, one blank
 * line between blocks. Comments stay where they stand; lines with errors stay as they are. Formatting
 * twice changes nothing more, and the meaning never changes.
 */
export function format(text: string): string {
  return formatDocument(parse(text));
}

/** The same for a text that is parsed already. */
function formatDocument(document: Document): string {
  const { text, tokens } = document;
  // What was not read to its end cannot be laid out.
  if (tokens.length <= 1 || document.findings.length > mostFindings) return text;
  const lineBreak = /\r\n/.test(text.slice(0, text.search(/[\r\n]/) + 2)) ? '\r\n' : '\n';
  const starts = lineStarts(text);
  const line = (offset: number) => lineIndex(starts, offset);
  const pieces = thaw(document, line, starts);
  const out: OutputLine[] = [];
  let before: Piece | null = null;
  for (const piece of pieces) {
    if (before && blankBetween(before, piece, text)) out.push({ text: '' });
    const indent = piece.kind === 'frozen' ? '' : '  '.repeat(piece.depth);
    piece.lines.forEach((content, i) => {
      const comment = i === piece.lines.length - 1 ? piece.comment : undefined;
      out.push({ text: `${indent}${content}`, ...(comment ? { comment } : {}) });
    });
    before = piece;
  }
  if (out.length === 0) return text;
  const mark = text.charCodeAt(0) === 0xfeff ? '\ufeff' : '';
  const body = withComments(out).join(lineBreak) + lineBreak;
  // A byte order mark within the text, which is wrong, does not become the one at its beginning.
  return mark + (mark === '' && body.charCodeAt(0) === 0xfeff ? lineBreak : '') + body;
}

/**
 * The canonical form of each statement, brace or block on one line that begins its line, in text order: from the start
 * of its line to its own end, lines parted by LF. What has an error, and what stands behind something else, is not
 * among them.
 */
export function formattedPieces({
  text,
  ...rest
}: Document): readonly { readonly range: Range; readonly text: string }[] {
  const starts = lineStarts(text);
  const line = (offset: number) => lineIndex(starts, offset);
  return thaw({ text, ...rest }, line, starts).flatMap(({ kind, range, depth, lines }) => {
    const start = starts[line(range.start)]!;
    if (kind === 'frozen' || kind === 'comment' || text.slice(start, range.start).trim() !== '') return [];
    const indent = '  '.repeat(depth);
    const formed = lines.map((content) => `${indent}${content}`).join('\n');
    return [{ range: { start, end: range.end }, text: formed }];
  });
}

interface OutputLine {
  readonly text: string;
  readonly comment?: string;
}

/** Comments behind neighboring lines begin in one column. */
function withComments(lines: readonly OutputLine[]): readonly string[] {
  const out: string[] = [];
  for (let i = 0; i < lines.length; ) {
    let end = i;
    while (end < lines.length && lines[end]!.comment !== undefined) end++;
    const column = largest(lines.slice(i, end).map(({ text }) => text.length)) + 2;
    for (; i < end; i++) out.push(lines[i]!.text.padEnd(column) + lines[i]!.comment);
    if (end < lines.length) out.push(lines[end]!.text);
    i = end + 1;
  }
  return out;
}

/** All pieces in text order; those that touch a line with an error become frozen source lines. */
function thaw(
  document: Document,
  line: (offset: number) => number,
  starts: readonly number[],
): readonly Piece[] {
  const { text, tokens } = document;
  const units = formatUnits(document, line);
  const frozen = frozenLines(document, units, line);
  const pieces: Piece[] = units
    .filter((unit) => !frozen.has(line(unit.range.start)))
    .map((unit) => ({ ...unit, lines: unit.lines }));
  for (const [first, last] of runs(frozen)) {
    const start = starts[first]!;
    const end = last + 1 < starts.length ? starts[last + 1]! : text.length;
    const lines = Array.from({ length: last - first + 1 }, (_, i) => sourceLine(text, starts, first + i));
    pieces.push({ kind: 'frozen', range: { start, end }, depth: 0, lines });
  }
  pieces.sort((a, b) => a.range.start - b.range.start);
  const comments = tokens.filter((token) => token.kind === 'comment' && !frozen.has(line(token.start)));
  return withCommentPieces(pieces, comments, document, line);
}

function sourceLine(text: string, starts: readonly number[], index: number): string {
  const end = index + 1 < starts.length ? starts[index + 1]! : text.length;
  const content = text.slice(starts[index]!, end).replace(/\r?\n$|\r$/, '');
  return index === 0 ? content.replace(/^\ufeff/, '') : content;
}

/** Each comment goes behind the piece that ends on its line, or on a line of its own where it stands. */
function withCommentPieces(
  pieces: readonly Piece[],
  comments: readonly Token[],
  document: Document,
  line: (offset: number) => number,
): readonly Piece[] {
  const out: Piece[] = [];
  let [nextPiece, nextBlock] = [0, 0];
  for (const comment of comments) {
    while (nextPiece < pieces.length && pieces[nextPiece]!.range.start < comment.start)
      out.push(pieces[nextPiece++]!);
    const before = out[out.length - 1];
    const written = comment.text.trimEnd();
    const isBehind = before && before.kind !== 'comment' && !comment.startsLine;
    if (isBehind && line(before.range.end - 1) === line(comment.start)) {
      before.comment = written;
      continue;
    }
    while (nextBlock < document.blocks.length && document.blocks[nextBlock]!.range.end <= comment.start)
      nextBlock++;
    const depth = (document.blocks[nextBlock]?.range.start ?? comment.end) < comment.start ? 1 : 0;
    out.push({ kind: 'comment', range: comment, depth, lines: [written] });
  }
  return out.concat(pieces.slice(nextPiece));
}

/** The title, block braces and statements with their canonical lines. */
function formatUnits(document: Document, line: (offset: number) => number): readonly Piece[] {
  const units: Piece[] = [];
  const comments = document.tokens.filter((token) => token.kind === 'comment');
  if (document.title) units.push(statementPiece(document.title, 0, 0, document));
  for (const block of document.blocks) {
    const open = openingText(block);
    const single = oneLine(block, document, comments, line);
    if (single !== null) {
      units.push({ kind: 'oneline', range: block.range, depth: 0, lines: [single] });
      continue;
    }
    const brace = openingBrace(block, document.tokens);
    if (!brace) continue;
    units.push({ kind: 'open', range: { start: block.word.start, end: brace.end }, depth: 0, lines: [open] });
    const columnOf = valueColumns(block);
    for (const statement of block.statements)
      units.push(statementPiece(statement, 1, columnOf(statement), document));
    units.push({
      kind: 'close',
      range: { start: block.range.end - 1, end: block.range.end },
      depth: 0,
      lines: ['}'],
    });
  }
  return units.sort((a, b) => a.range.start - b.range.start);
}

function openingBrace(block: Block, tokens: readonly Token[]): Token | undefined {
  for (let i = tokenIndexAt(tokens, block.word.end); i < tokens.length; i++) {
    const token = tokens[i]!;
    if (token.start >= block.range.end) return undefined;
    if (token.kind === 'punctuation' && token.text === '{') return token;
  }
  return undefined;
}

function openingText(block: Block): string {
  const letters = block.layers.map(({ layer }) => layerLetter(layer));
  return [block.name, ...letters, '{'].join(' ');
}

function statementPiece(statement: Statement, depth: 0 | 1, column: number, document: Document): Piece {
  const lines = statementLines(statement, document, column, lineWidth - 2 * depth);
  return { kind: 'statement', range: statement.range, depth, lines };
}

/** A block written on one line stays on one line while it fits and holds no comment. */
function oneLine(
  block: Block,
  document: Document,
  comments: readonly Token[],
  line: (offset: number) => number,
): string | null {
  if (line(block.range.start) !== line(block.range.end - 1)) return null;
  const comment = comments[tokenIndexAt(comments, block.range.start)];
  if (comment && comment.start < block.range.end) return null;
  const parts = block.statements.map(
    (statement) => statementLines(statement, document, 0, Number.POSITIVE_INFINITY)[0]!,
  );
  const text = parts.length === 0 ? `${openingText(block)} }` : `${openingText(block)} ${parts.join('  ')} }`;
  return text.length <= lineWidth ? text : null;
}

/** Column at which the values of a block's statements begin, 0 for no alignment; limits and accepts have their own. */
function valueColumns(block: Block): (statement: Statement) => number {
  if (block.name === 'connect') return () => 0;
  if (block.name === 'require') {
    const column = (role: Role) => {
      const alike = block.statements.filter(({ entry }) => entry.role === role);
      return largest(alike.map((statement) => requireKey(statement).length)) + 1;
    };
    const [ofLimits, ofAccepts] = [column('quantity'), column('statement')];
    return ({ entry }) => (entry.role === 'quantity' ? ofLimits : ofAccepts);
  }
  if (block.name === 'vary') {
    const column = largest(block.statements.map((statement) => rowKey(statement).length)) + 1;
    return (statement) => (rowKey(statement) === '' ? 0 : column);
  }
  const lengths = block.statements
    .map(({ entry }) => entry.word.length)
    .filter((length) => length <= widestAlignedWord);
  const column = largest(lengths) + 1;
  return () => column;
}

/** The part of a row of vary before its values, `layout skew a b`; nothing for its other statements. */
function rowKey({ entry, values }: Statement): string {
  const [target] = values;
  if (target?.kind !== 'target') return '';
  const qualifiers = target.qualifiers.flatMap((value) => {
    if (value.kind === 'layer') return [layerLetter(value.layer)];
    return value.kind === 'keyword' ? [value.text] : value.kind === 'quantity' ? [value.written] : [];
  });
  return [entry.word, ...target.slotLayers.map(layerLetter), target.entry.word, ...qualifiers].join(' ');
}

/** The part of a limit before its relation, `winding-factor harmonic 5`, or of an accept before its reason. */
function requireKey(statement: Statement): string {
  const [code] = statement.values;
  if (code?.kind === 'code') return `${statement.entry.word} ${code.text}`;
  const relation = statement.values.findIndex(
    (value) => value.kind === 'keyword' && /^[<>]=$/.test(value.text),
  );
  const scope = statement.values.slice(0, Math.max(0, relation));
  const words = scope.map((value) =>
    value.kind === 'keyword' ? value.text : value.kind === 'quantity' ? value.written : writtenText(value),
  );
  return [statement.entry.word, ...words].join(' ');
}

/** A text in quotes as it is written; nothing for other values. */
function writtenText(value: Value): string {
  return value.kind === 'text' ? JSON.stringify(value.text) : '';
}

/** Lines that stay as they are: those with an error, and those of anything that shares a line with them. */
function frozenLines(
  document: Document,
  units: readonly Piece[],
  line: (offset: number) => number,
): Set<number> {
  const frozen = new Set<number>();
  const freeze = ({ start, end }: Range) => {
    const last = line(Math.max(start, end - 1));
    for (let i = line(start); i <= last; i++) frozen.add(i);
  };
  for (const { severity, range } of document.findings) if (severity === 'error') freeze(range);
  for (const range of document.broken) freeze(range);
  for (const block of document.blocks) for (const range of block.broken) freeze(range);
  for (const { kind, range } of units)
    if (kind === 'statement' && holdsComment(range, document)) freeze(range);
  // What shares a line with a frozen one freezes too, with all of its own lines: on to the end, and back.
  const spread = ({ range }: Piece) => {
    for (let i = line(range.start); i <= line(range.end - 1); i++) {
      if (!frozen.has(i)) continue;
      freeze(range);
      return;
    }
  };
  units.forEach(spread);
  [...units].reverse().forEach(spread);
  return frozen;
}

function holdsComment({ start, end }: Range, { tokens }: Document): boolean {
  for (let i = tokenIndexAt(tokens, start); i < tokens.length && tokens[i]!.start < end; i++)
    if (tokens[i]!.kind === 'comment') return true;
  return false;
}

function runs(lines: ReadonlySet<number>): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  for (const line of [...lines].sort((a, b) => a - b)) {
    const last = out[out.length - 1];
    if (last && last[1] === line - 1) last[1] = line;
    else out.push([line, line]);
  }
  return out;
}

/** Whether a blank line stands between two pieces. */
function blankBetween(before: Piece, piece: Piece, text: string): boolean {
  const between = text.slice(before.range.end, piece.range.start).replace(/#[^\r\n]*/, '');
  const written = (between.match(/\r\n|\n|\r/g) ?? []).length > (before.kind === 'frozen' ? 0 : 1);
  if (before.kind === 'frozen' || piece.kind === 'frozen') return written;
  if (before.kind === 'open' || piece.kind === 'close') return false;
  if (piece.depth === 1 || before.kind === 'comment') return written;
  return true;
}
