import type { Range } from '../finding.ts';
import { parsePattern, patternLiterals } from '../vocabulary/pattern.ts';
import {
  type BlockName,
  blockNames,
  statementEntry,
  type VocabularyEntry,
} from '../vocabulary/vocabulary.ts';
import type { Token } from './lexer.ts';

/** Where in the language a place of the text lies, also while the text there is half written. */
export interface CursorPlace {
  /** The block round it; `file` outside all blocks. */
  readonly block: BlockName;
  /** The statement it stands in, behind its word; null where a statement begins. */
  readonly entry: VocabularyEntry | null;
  /** Tokens of that statement before the one that is being written, its word first. */
  readonly before: readonly Token[];
  /** The token that is being written; empty, at the offset, between tokens. */
  readonly written: Range;
}

/** The place at an offset; null inside comments, texts and numbers, where no word of the language stands. */
export function cursorPlace(text: string, tokens: readonly Token[], offset: number): CursorPlace | null {
  if (tokens.some((token) => holdsNoWord(token, offset))) return null;
  const written = tokens.find(({ kind, start, end }) => isWord(kind) && start < offset && offset <= end);
  const until = written?.start ?? offset;
  const range = { start: until, end: written?.end ?? offset };
  const earlier = tokens.filter(({ kind, end }) => kind !== 'comment' && kind !== 'end' && end <= until);
  const { block, opened } = blockRound(earlier);
  const inBlock = earlier.slice(opened);
  const begins = inBlock.map(({ kind, text: word }, index) => {
    if (kind !== 'word' || !statementEntry(block, word)) return false;
    // `rings star`, `accept jumpers`: a word that is the value of the one before it begins nothing.
    const before = inBlock[index - 1];
    // Behind `with` a row of `vary` goes on with another block's word.
    if (block === 'vary' && before && /^(with|opposite)$/.test(before.text)) return false;
    const asked = before?.kind === 'word' ? statementEntry(block, before.text) : undefined;
    return !(asked && (takesCode(asked) || patternLiterals(parsePattern(asked.pattern)).includes(word)));
  });
  const at = begins.lastIndexOf(true);
  if (at < 0 || beginsLine(text, until)) return { block, entry: null, before: [], written: range };
  const before = inBlock.slice(at);
  return { block, entry: statementEntry(block, before[0]!.text) ?? null, before, written: range };
}

/** Whether a statement's first value is the code of a finding. */
export function takesCode({ pattern }: VocabularyEntry): boolean {
  return /^code\b/.test(pattern);
}

function holdsNoWord({ kind, start, end }: Token, offset: number): boolean {
  if (offset <= start) return false;
  if (kind === 'string') return offset < end;
  return /^(comment|unclosed-string|number|hop|position|signed-phase)$/.test(kind) && offset <= end;
}

function isWord(kind: Token['kind']): boolean {
  return kind === 'word' || kind === 'mark' || kind === 'unknown' || kind === 'unit';
}

/** The block that is open behind these tokens, and the index of its first token inside. */
function blockRound(tokens: readonly Token[]): { readonly block: BlockName; readonly opened: number } {
  for (let i = tokens.length - 1; i >= 0; i--) {
    const { text, kind } = tokens[i]!;
    if (kind !== 'punctuation') continue;
    if (text === '}') return { block: 'file', opened: i + 1 };
    if (text !== '{') continue;
    let name = i - 1;
    // Layers may stand between the word `slot` and its brace.
    while (name > 0 && tokens[name]!.kind === 'word' && tokens[name]!.text.length === 1) name--;
    return { block: blockNames.find((known) => known === tokens[name]?.text) ?? 'file', opened: i + 1 };
  }
  return { block: 'file', opened: 0 };
}

function beginsLine(text: string, offset: number): boolean {
  return /(^|[\r\n])[ \t]*$/.test(text.slice(0, offset));
}
