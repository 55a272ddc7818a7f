import { type Finding, finding, type Range } from '../finding.ts';
import { layerOfLetter } from '../layerLetters.ts';
import { beginsStatement } from '../specification/reader.ts';
import { matchValues } from '../specification/values.ts';
import { nearestWord, replacement } from '../suggest.ts';
import {
  blockLabelUnexpected,
  blockNotClosed,
  blockNotOpened,
  blockRepeated,
  blocksTooMany,
  fileTooLarge,
  findingsTooMany,
  statementRepeated,
  statementsTooMany,
  strayBrace,
  unknownBlock,
  unknownWord,
} from '../textFindingKinds.ts';
import { tradeWordElsewhere, tradeWordIn } from '../vocabulary/tradeWords.ts';
import {
  type BlockName,
  blockNames,
  statementBlocks,
  statementEntry,
  statementWords,
} from '../vocabulary/vocabulary.ts';
import type { Block, Document, Statement } from './document.ts';
import { continuesStatement, type Token, tokenize } from './lexer.ts';
import { oddCharacterFindings, plainText } from './oddCharacters.ts';
import { trailingText, valueFindings } from './statementChecks.ts';

/** Most UTF-16 units a text may have. */
export const longestText = 2 * 1024 * 1024;
/** Findings a text can have: after so many in its form the rest is not read, it is no winding file. */
export const mostFindings = 1000;

/** Most blocks of a text: each once, and slot for each layer, are far fewer. */
export const mostBlocks = 100;

/** Most statements of a block; connect names paths, of which there may be one for every bar of a phase. */
export function mostStatements(block: BlockName): number {
  return block === 'connect' ? 40_000 : 1000;
}

interface Parser {
  /** Tokens without comments; the last is `end`. */
  readonly tokens: readonly Token[];
  readonly findings: Finding[];
  at: number;
  /** End of the statements' line that holds `at`, as found by `statementLimit`; 0 before the first. */
  limit: number;
}

/**
 * Reads a text into a document. Never throws and never stops at the first error: each bad statement
 * yields a finding with an exact range and is left out; all else is understood.
 */
export function parse(text: string): Document {
  if (text.length > longestText) {
    const findings = [finding(fileTooLarge, { start: 0, end: 1 }, { bytes: text.length, most: longestText })];
    return { text, tokens: [], title: null, blocks: [], broken: [{ start: 0, end: text.length }], findings };
  }
  const plain = plainText(text);
  const all = tokenize(text, plain);
  const parser: Parser = {
    tokens: all.filter((token) => token.kind !== 'comment'),
    findings: [],
    at: 0,
    limit: 0,
  };
  const blocks: Block[] = [];
  const broken: Range[] = [];
  let title: Statement | null = null;

  const first = new Map<string, Block>();
  for (let token = peek(parser); token.kind !== 'end' && !hasTooMany(parser); token = peek(parser)) {
    if (token.kind === 'word' && token.text === 'winding') {
      const statement = readStatement(parser, 'file', new Set(), broken);
      if (statement && title) parser.findings.push(repeated(statement, title));
      title ??= statement;
    } else if (blocks.length >= mostBlocks) {
      parser.findings.push(finding(blocksTooMany, token, { most: mostBlocks }));
      parser.at = parser.tokens.length - 1;
      broken.push({ start: token.start, end: peek(parser).end });
    } else if (isBlockName(token)) {
      const block = readBlock(parser, token.text as BlockName, broken);
      reportRepeatedBlock(block, first, parser.findings);
      blocks.push(block);
    } else {
      readUnknownTopLevel(parser, new Set([...first.keys(), ...(title ? ['winding'] : [])]), broken);
    }
  }
  if (hasTooMany(parser)) giveUp(parser, broken);
  else
    parser.findings.push(
      ...oddCharacterFindings(text, plain.odd).slice(0, mostFindings - parser.findings.length),
    );
  return { text, tokens: all, title, blocks, broken, findings: parser.findings };
}

function hasTooMany({ findings }: Parser): boolean {
  return findings.length >= mostFindings;
}

/** Leaves the rest of the text unread, and says so. */
function giveUp(parser: Parser, broken: Range[]): void {
  const { start, end } = peek(parser).kind === 'end' ? parser.tokens[parser.at - 1]! : peek(parser);
  parser.findings.length = mostFindings;
  parser.findings.push(finding(findingsTooMany, { start, end }, { most: mostFindings }));
  broken.push({ start, end: parser.tokens[parser.tokens.length - 1]!.end });
}

function peek(parser: Parser): Token {
  return parser.tokens[parser.at]!;
}

function isBlockName(token: Token): boolean {
  return token.kind === 'word' && (blockNames as readonly string[]).includes(token.text);
}

function repeated(statement: Statement, first: Statement): Finding {
  return finding(
    statementRepeated,
    statement.range,
    { word: statement.entry.word },
    {
      related: [{ message: 'first given here', range: first.range }],
    },
  );
}

/** Reports a block that stands a second time; `first` holds the first of each name. */
function reportRepeatedBlock(block: Block, first: Map<string, Block>, findings: Finding[]): void {
  const earlier = first.get(block.name);
  if (!earlier) {
    first.set(block.name, block);
    return;
  }
  // Two slot blocks are for two groups of layers; whether those overlap is seen when they are read.
  if (block.name === 'slot' && block.layers.length > 0 && earlier.layers.length > 0) return;
  const related = [{ message: 'the first stands here', range: earlier.word }];
  findings.push(finding(blockRepeated, block.word, { block: block.name }, { related }));
}

/**
 * A top-level text that begins no block: reported, and skipped with the braces it opens. `given` are the
 * blocks that are there already.
 */
function readUnknownTopLevel(parser: Parser, given: ReadonlySet<string>, broken: Range[]): void {
  const token = peek(parser);
  parser.at++;
  if (token.text === '}') {
    parser.findings.push(finding(strayBrace, token, null));
    broken.push(token);
    return;
  }
  parser.findings.push(unknownBlockFinding(token, opensBraces(parser, parser.at), given));
  let depth = token.text === '{' ? 1 : 0;
  let last = token;
  for (; peek(parser).kind !== 'end'; parser.at++) {
    const next = peek(parser);
    if (depth === 0 && (next.text === '}' || (next.startsLine && next.text !== '{'))) break;
    if (next.text === '{') depth++;
    else if (next.text === '}') depth--;
    else if (next.startsLine && opensBlock(parser, parser.at)) break;
    last = next;
  }
  broken.push({ start: token.start, end: last.end });
}

function unknownBlockFinding(token: Token, opens: boolean, given: ReadonlySet<string>): Finding {
  const place = { start: token.start, end: token.end };
  const { text } = token;
  // Slot blocks may be several, for different layers.
  const mayStand = (word: string) => word === 'slot' || !given.has(word);
  const trade = tradeWordIn('file', text, (word) => mayStand(word) && opens === (word !== 'winding'))?.ours;
  const elsewhere = opens || token.kind !== 'word' || trade !== undefined ? [] : statementBlocks(text);
  const words = ['winding', ...blockNames];
  const nearest = () =>
    nearestWord(
      text,
      words.filter(mayStand),
      words.filter((word) => !mayStand(word)),
    );
  const suggestion = elsewhere.length > 0 ? undefined : (trade ?? nearest());
  return finding(unknownBlock, place, { text, suggestion, elsewhere }, replacement(place, suggestion));
}

/** Whether a block begins at this token: its word, layers perhaps, and the brace. */
function opensBlock(parser: Parser, at: number): boolean {
  return isBlockName(parser.tokens[at]!) && opensBraces(parser, at + 1);
}

/** More letters between a block's word and its brace name no layers, or every look ahead would read all of them. */
const mostLabels = 100;

/** Whether a brace opens at this token, or behind layers that are named. */
function opensBraces(parser: Parser, at: number): boolean {
  let i = at;
  while (parser.tokens[i]!.kind === 'word' && parser.tokens[i]!.text.length === 1 && i < at + mostLabels) i++;
  return parser.tokens[i]!.text === '{';
}

function readBlock(parser: Parser, name: BlockName, brokenOutside: Range[]): Block {
  const word = peek(parser);
  parser.at++;
  const layers = readLayers(parser, name);
  const broken: Range[] = [];
  const statements: Statement[] = [];
  const blockTo = (end: number): Block => {
    return { name, word, layers, statements, broken, range: { start: word.start, end } };
  };
  const leftBroken = (kind: typeof blockNotOpened): Block => {
    parser.findings.push(finding(kind, word, { block: name }));
    const block = blockTo(parser.tokens[parser.at - 1]!.end);
    brokenOutside.push(block.range);
    return block;
  };
  if (peek(parser).text !== '{') {
    skipLine(parser);
    return leftBroken(blockNotOpened);
  }
  parser.at++;
  if (!readStatements(parser, name, statements, broken)) return leftBroken(blockNotClosed);
  const close = peek(parser);
  if (close.text === '}') parser.at++;
  return blockTo(close.end);
}

/** The letters of layers behind a block's word; reported where its blocks are not for layers. */
function readLayers(parser: Parser, name: BlockName): Block['layers'] {
  const layers: { layer: number; range: Range }[] = [];
  while (peek(parser).kind === 'word' && peek(parser).text.length === 1) {
    const token = peek(parser);
    layers.push({ layer: layerOfLetter(token.text), range: token });
    parser.at++;
  }
  if (layers.length > 0 && name !== 'slot') {
    const range = { start: layers[0]!.range.start, end: layers[layers.length - 1]!.range.end };
    parser.findings.push(finding(blockLabelUnexpected, range, { block: name }));
  }
  return layers;
}

/** Reads statements up to the brace that closes their block; false where the text ends or another block begins before. */
function readStatements(parser: Parser, name: BlockName, statements: Statement[], broken: Range[]): boolean {
  const first = new Map<string, Statement>();
  for (let token = peek(parser); token.text !== '}'; token = peek(parser)) {
    if (hasTooMany(parser)) break;
    if (token.kind === 'end' || (token.startsLine && opensBlock(parser, parser.at)) || isTitle(parser))
      return false;
    if (statements.length >= mostStatements(name)) {
      leaveOutRest(parser, name, broken);
      continue;
    }
    const statement = readStatement(parser, name, first, broken);
    if (statement === null) continue;
    const earlier = first.get(statement.entry.word);
    if (earlier && !statement.entry.repeatable) {
      parser.findings.push(repeated(statement, earlier));
      continue;
    }
    first.set(statement.entry.word, statement);
    statements.push(statement);
  }
  return true;
}

/** Leaves the rest of a block unread, up to its brace or the next block. */
function leaveOutRest(parser: Parser, block: BlockName, broken: Range[]): void {
  const { start, end } = peek(parser);
  parser.findings.push(finding(statementsTooMany, { start, end }, { block, most: mostStatements(block) }));
  let depth = 0;
  for (; peek(parser).kind !== 'end'; parser.at++) {
    const token = peek(parser);
    if (token.text === '{') depth++;
    if (token.text === '}' && depth-- === 0) break;
    if (token.startsLine && (opensBlock(parser, parser.at) || isTitle(parser))) break;
  }
  broken.push({ start, end: parser.tokens[parser.at - 1]!.end });
}

function isTitle(parser: Parser): boolean {
  const token = peek(parser);
  return (
    token.startsLine &&
    token.kind === 'word' &&
    token.text === 'winding' &&
    parser.tokens[parser.at + 1]!.kind === 'string'
  );
}

function skipLine(parser: Parser): void {
  while (peek(parser).kind !== 'end' && !peek(parser).startsLine) parser.at++;
}

/** Index after the last token that can belong to the statement which starts at `at`. */
function statementLimit(parser: Parser, at: number): number {
  // Statements that share a line share its end, which is looked for once.
  if (at + 1 <= parser.limit) return parser.limit;
  let i = at + 1;
  for (; ; i++) {
    const token = parser.tokens[i]!;
    const isEnd = token.kind === 'end' || token.text === '}' || token.text === '{';
    if (isEnd || (token.startsLine && !continuesStatement(token))) break;
  }
  parser.limit = i;
  return i;
}

/** Words of statements that are given already. */
type GivenWords = Pick<ReadonlyMap<string, unknown>, 'has'>;

function readStatement(
  parser: Parser,
  block: BlockName,
  given: GivenWords,
  broken: Range[],
): Statement | null {
  const word = peek(parser);
  const limit = statementLimit(parser, parser.at);
  const entry = beginsStatement(block, word) ? statementEntry(block, word.text) : undefined;
  if (!entry) {
    parser.findings.push(unknownWordFinding(block, word, given));
    if (word.text === '{') {
      parser.at = afterBraces(parser, parser.at);
      broken.push({ start: word.start, end: parser.tokens[parser.at - 1]!.end });
      return null;
    }
    recover(parser, block, parser.at + 1, limit, word, broken);
    return null;
  }
  const before = parser.findings.length;
  const match = matchValues(entry, parser.tokens, parser.at + 1, limit, parser.findings);
  if (match.failure) {
    parser.findings.push(match.failure);
    recover(parser, block, Math.max(match.next, parser.at + 1), limit, word, broken);
    return null;
  }
  const last = parser.tokens[match.next - 1]!;
  const range = { start: word.start, end: last.end };
  parser.at = match.next;
  if (match.next < limit) {
    const token = parser.tokens[match.next]!;
    const trailing = beginsStatement(block, token)
      ? null
      : trailingText({ entry, values: match.values }, token, match.couldFollow);
    if (trailing) {
      parser.findings.push(trailing);
      recover(parser, block, match.next, limit, word, broken);
      return null;
    }
  }
  // With a group left out or unclosed, a row or path is not what was meant.
  if (parser.findings.length > before && match.values.some(({ kind }) => kind === 'row' || kind === 'walk')) {
    broken.push(range);
    return null;
  }
  const statement: Statement = { entry, word, values: match.values, range };
  const bad = valueFindings(statement);
  parser.findings.push(...bad);
  if (bad.some((item) => item.severity === 'error')) {
    broken.push(range);
    return null;
  }
  return statement;
}

/** Goes on at the next word of the block on this line, or at the next line. */
function recover(
  parser: Parser,
  block: BlockName,
  from: number,
  limit: number,
  word: Token,
  broken: Range[],
): void {
  let i = from;
  while (i < limit && !beginsStatement(block, parser.tokens[i]!)) i++;
  // A brace inside a statement that makes no sense there is skipped with what it holds.
  if (i === limit && parser.tokens[i]!.text === '{') i = afterBraces(parser, i);
  parser.at = Math.max(i, parser.at + 1);
  broken.push({ start: word.start, end: parser.tokens[parser.at - 1]!.end });
}

function afterBraces(parser: Parser, at: number): number {
  let depth = 0;
  for (let i = at; ; i++) {
    const token = parser.tokens[i]!;
    if (token.kind === 'end') return i;
    if (i > at && token.startsLine && opensBlock(parser, i)) return i;
    if (token.text === '{') depth++;
    else if (token.text === '}' && --depth === 0) return i + 1;
  }
}

function unknownWordFinding(block: BlockName, word: Token, given: GivenWords): Finding {
  const { text } = word;
  const place = { start: word.start, end: word.end };
  const words = block === 'file' ? ['winding'] : statementWords(block);
  const isGiven = (one: string) => given.has(one) && !statementEntry(block, one)?.repeatable;
  const known = tradeWordIn(block, text, (ours) => words.includes(ours.split(' ')[0]!));
  if (known) {
    const { ours, remark } = known;
    const hint = { ours, remark, given: isGiven(ours.split(' ')[0]!) };
    const fix = hint.given || remark !== undefined ? undefined : ours;
    return finding(
      unknownWord,
      place,
      { text, block, suggestion: undefined, elsewhere: [], trade: [hint] },
      replacement(place, fix),
    );
  }
  const suggestion = nearestWord(
    text,
    words.filter((one) => !isGiven(one)),
    words.filter(isGiven),
  );
  const elsewhere =
    word.kind === 'word' && suggestion === undefined ? [...new Set(statementBlocks(text))] : [];
  const trade =
    suggestion === undefined && elsewhere.length === 0
      ? tradeWordElsewhere(block, text).filter(({ block: other, ours }) => statementEntry(other, ours))
      : [];
  return finding(
    unknownWord,
    place,
    { text, block, suggestion, elsewhere, trade },
    replacement(place, suggestion),
  );
}
