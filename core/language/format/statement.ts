import { largest } from '../numbers.ts';
import { takesCode } from '../text/cursorPlace.ts';
import type { Document, Statement } from '../text/document.ts';
import { type Token, tokenIndexAt } from '../text/lexer.ts';

/**
 * Canonical lines of one statement, without the block's indent; continuation lines carry their own.
 * `column` is where values begin (0: right behind the word); `width` the widest line wanted.
 */
export function statementLines(
  statement: Statement,
  document: Document,
  column: number,
  width: number,
): readonly string[] {
  const tokens = tokensOf(statement, document);
  const row = statement.values.find((value) => value.kind === 'row');
  const walk = statement.values.find((value) => value.kind === 'walk');
  const body = row ?? walk;
  if (body) {
    const head = joined(tokens.filter((token) => token.start < body.range.start));
    const tail = joined(tokens.filter((token) => token.start >= body.range.end));
    const items = tokens.filter((token) => token.start >= body.range.start && token.start < body.range.end);
    const start = pad(statement, head, column);
    if (row) return rowLines(`${start}  `, items, tail === '' ? '' : `  ${tail}`, document, width);
    return filled(`${start} `, walkChunks(items, tail), width);
  }
  const keyed = keyLength(statement, tokens);
  if (keyed !== null) return [keyedLine(tokens.slice(0, keyed), tokens.slice(keyed), column)];
  return [pad(statement, joined(tokens), column)];
}

function tokensOf(statement: Statement, document: Document): readonly Token[] {
  const { tokens } = document;
  const out: Token[] = [];
  for (
    let i = tokenIndexAt(tokens, statement.range.start);
    i < tokens.length && tokens[i]!.start < statement.range.end;
    i++
  ) {
    if (tokens[i]!.kind !== 'comment') out.push(tokens[i]!);
  }
  return out;
}

/** Tokens with single blanks between, none inside parentheses' edges or round a star. */
function joined(tokens: readonly Token[]): string {
  let text = '';
  tokens.forEach((token, i) => {
    const before = tokens[i - 1]?.text;
    const tight =
      i === 0 ||
      before === '(' ||
      token.text === ')' ||
      token.text === '*' ||
      (before === '*' && token.kind === 'number');
    text += tight ? token.text : ` ${token.text}`;
  });
  return text;
}

function pad(statement: Statement, text: string, column: number): string {
  const { word } = statement.entry;
  if (column <= word.length || text.length === word.length) return text;
  return word.padEnd(column) + text.slice(word.length + 1);
}

/** Tokens of the key of a statement: up to the relation of a limit, the code that is accepted, the word that varies. */
function keyLength({ entry, values }: Statement, tokens: readonly Token[]): number | null {
  const [first] = values;
  if (first?.kind === 'target') return tokens.filter(({ start }) => start < first.range.end).length;
  if (takesCode(entry)) return 2;
  if (entry.role !== 'quantity') return null;
  return tokens.findIndex(({ text }) => text === '<=' || text === '>=');
}

function keyedLine(first: readonly Token[], rest: readonly Token[], column: number): string {
  const key = joined(first);
  return `${key.padEnd(Math.max(column, key.length + 1))}${joined(rest)}`;
}

/** A row: on one line where it fits; else broken at whole poles (integer q) or whole basic windings. */
function rowLines(
  head: string,
  items: readonly Token[],
  tail: string,
  document: Document,
  width: number,
): readonly string[] {
  if (items.some(({ text }) => text === '(')) return filled(head, rowChunks(items, tail), width);
  const longest = largest(items.map(({ text }) => text.length));
  const cells = items.map(({ text }) => text.padEnd(longest));
  const single = `${head}${cells.join(' ').trimEnd()}${tail}`;
  if (single.length <= width) return [single];
  const fits = Math.max(1, Math.floor((width - head.length + 1) / (longest + 1)));
  const unit = breakUnit(document);
  const perLine = unit !== null && unit <= fits ? unit * Math.floor(fits / unit) : fits;
  const bodies: string[] = [];
  const add = (from: number, to: number) => bodies.push(cells.slice(from, to).join(' ').trimEnd());
  for (let i = 0; i < cells.length; i += perLine) {
    const lastWidth = head.length + (cells.length - i) * (longest + 1) - 1 + tail.length;
    if (i + perLine >= cells.length && lastWidth > width && cells.length - i > 1) {
      // The last line is too wide with what follows the row: its last pole (or place) goes to a line of its own.
      const rest = unit !== null && unit < cells.length - i ? unit : 1;
      add(i, cells.length - rest);
      add(cells.length - rest, cells.length);
    } else add(i, i + perLine);
  }
  const indent = ' '.repeat(head.length);
  return bodies.map((body, i) => (i === 0 ? head : indent) + body + (i === bodies.length - 1 ? tail : ''));
}

function rowChunks(items: readonly Token[], tail: string): readonly string[] {
  const chunks = atoms(items);
  chunks[chunks.length - 1] += tail;
  return chunks;
}

/** Slots of a pole (integer q) or of the basic winding; null where the machine does not say. */
function breakUnit(document: Document): number | null {
  const machine = document.blocks.find(({ name }) => name === 'machine');
  const amount = (word: string): number | null => {
    const value = machine?.statements.find(({ entry }) => entry.word === word)?.values[0];
    return value?.kind === 'quantity' ? value.value : null;
  };
  const [slots, poles, phases] = [amount('slots'), amount('poles'), amount('phases')];
  if (slots === null || poles === null || phases === null) return null;
  if (slots % (poles * phases) === 0) return slots / poles;
  let [a, b] = [slots, poles / 2];
  while (b > 0) [a, b] = [b, a % b];
  return slots / a;
}

/** Parts of a path that stay together where they fit: up to and with each group; the end with its terminal. */
function walkChunks(items: readonly Token[], tail: string): readonly string[] {
  const parts = atoms(items);
  const chunks: string[] = [];
  let chunk = '';
  for (const part of parts) {
    chunk += chunk === '' ? part : ` ${part}`;
    if (part.startsWith('(')) {
      chunks.push(chunk);
      chunk = '';
    }
  }
  if (chunk !== '') chunks.push(chunk);
  chunks.push(tail);
  return chunks;
}

/** Top-level items as text: a place, a step, or a whole group with its count. */
function atoms(items: readonly Token[]): string[] {
  const out: string[] = [];
  let depth = 0;
  let start = 0;
  items.forEach((token, i) => {
    if (token.text === '(') depth++;
    if (token.text === ')') depth--;
    const starFollows = items[i + 1]?.text === '*' || token.text === '*';
    if (depth === 0 && !starFollows) {
      out.push(joined(items.slice(start, i + 1)));
      start = i + 1;
    }
  });
  if (start < items.length) out.push(joined(items.slice(start)));
  return out;
}

/** Fills lines with chunks; a chunk too wide for a line of its own is broken at its blanks. */
function filled(head: string, chunks: readonly string[], width: number): readonly string[] {
  const indent = ' '.repeat(head.length);
  const lines: string[] = [];
  let line = head;
  const add = (text: string) => {
    const empty = line === head || line === indent;
    if (empty) line += text;
    else if (line.length + 1 + text.length <= width) line += ` ${text}`;
    else {
      lines.push(line);
      line = indent + text;
    }
  };
  for (const chunk of chunks) {
    if (head.length + chunk.length <= width) add(chunk);
    else for (const part of breakable(chunk)) add(part);
  }
  return [...lines, line];
}

/** Pieces of a chunk that may begin a line: signs, `1a`, parentheses, `|`, `.`, `to`; the rest stays glued on. */
function breakable(chunk: string): readonly string[] {
  const parts: string[] = [];
  for (const part of chunk.split(' ')) {
    const mayBegin = /^(?:[-+()|.]|\d+[a-z]$|to$)/.test(part);
    if (parts.length > 0 && !mayBegin) parts[parts.length - 1] += ` ${part}`;
    else parts.push(part);
  }
  return parts;
}
