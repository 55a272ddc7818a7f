import type { Range } from '../finding.ts';
import { unitAt } from '../vocabulary/units.ts';
import { lineEnd, stringEnd } from './lines.ts';
import { type PlainText, plainText } from './oddCharacters.ts';

export type TokenKind =
  | 'string'
  | 'number'
  | 'hop'
  | 'position'
  | 'signed-phase'
  | 'mark'
  | 'word'
  | 'unit'
  | 'punctuation'
  | 'comment'
  | 'unclosed-string'
  | 'unknown'
  | 'end';

export interface Token extends Range {
  readonly kind: TokenKind;
  /** What is written, without odd characters; its length is that of the range where there are none. */
  readonly text: string;
  /** The first token on its line. */
  readonly startsLine: boolean;
}

// Order and lookaheads are those of the language reference: a number is not followed by a letter or
// digit, so `12e` is slot 12 layer e and `1e9` a number.
const numberShape = /[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?(?![A-Za-z0-9]|\.\d)/y;
const hopShape = /[+-]\d+[a-z](?![A-Za-z0-9])/y;
const positionShape = /\d+[a-z](?![A-Za-z0-9])/y;
const signedPhaseShape = /[+-]\d?[A-Z](?![A-Za-z0-9])/y;
const markShape = /\d?[A-Z]\d?(?![A-Za-z0-9]|-[A-Za-z])/y;
const wordShape = /[a-z][a-z0-9-]*(?![\p{L}\p{M}\p{N}_])/uy;
const punctuationShape = />=|<=|[{}()*|.=]/y;
const runShape = /[+-]?[\p{L}\p{N}_][\p{L}\p{M}\p{N}_.+-]*|[\uD800-\uDBFF][\uDC00-\uDFFF]|[\s\S]/uy;

type Shapes = readonly (readonly [TokenKind, RegExp])[];

/** The shapes a token can have, by the kind of its first character, in the order they are tried. */
const afterSign: Shapes = [
  ['number', numberShape],
  ['hop', hopShape],
  ['signed-phase', signedPhaseShape],
];
const afterDigit: Shapes = [
  ['number', numberShape],
  ['position', positionShape],
  ['mark', markShape],
];
const afterCapital: Shapes = [['mark', markShape]];
const afterSmallLetter: Shapes = [['word', wordShape]];
const afterOther: Shapes = [['punctuation', punctuationShape]];

function shapesFor(c: number): Shapes {
  if (c >= 97 && c <= 122) return afterSmallLetter;
  if (c >= 48 && c <= 57) return afterDigit;
  if (c === 43 || c === 45) return afterSign;
  if (c >= 65 && c <= 90) return afterCapital;
  return afterOther;
}

/**
 * Cuts a text into tokens, comments among them; the last is `end`. Never fails: what has no shape of
 * the language becomes an `unknown` token. `plain` is the text with odd characters replaced by what they
 * look like; the tokens' places are those in the text as written.
 */
export function tokenize(written: string, plain: PlainText = plainText(written)): readonly Token[] {
  const { text } = plain;
  const tokens: Token[] = [];
  let offset = 0;
  let startsLine = true;
  let afterNumber = false;
  let blank = false;

  const push = (kind: TokenKind, end: number) => {
    // Nearly all texts are plain, and need no look-up for every token.
    const place = plain.odd.length === 0 ? null : plain.written(offset, end);
    tokens.push({
      kind,
      text: text.slice(offset, end),
      start: place ? place.start : offset,
      end: place ? place.end : end,
      startsLine,
    });
    startsLine = false;
    afterNumber = kind === 'number';
    blank = false;
    offset = end;
  };

  while (offset < text.length) {
    const c = text.charCodeAt(offset);
    if (c === 10 || c === 13) {
      startsLine = true;
      afterNumber = false;
      offset++;
    } else if (c === 32 || c === 9 || c === 0xfeff) {
      blank = true;
      offset++;
    } else if (c === 35) {
      push('comment', lineEnd(text, offset));
    } else if (c === 34) {
      const end = stringEnd(text, offset);
      if (end === null) push('unclosed-string', lineEnd(text, offset));
      else push('string', end);
    } else {
      const unit = afterNumber && (blank || c === 37) ? unitAt(text, offset) : undefined;
      if (unit) push('unit', offset + unit.name.length);
      else pushShape(text, offset, push);
    }
  }
  tokens.push({ kind: 'end', text: '', start: written.length, end: written.length, startsLine: true });
  return tokens;
}

function pushShape(text: string, offset: number, push: (kind: TokenKind, end: number) => void): void {
  for (const [kind, shape] of shapesFor(text.charCodeAt(offset))) {
    shape.lastIndex = offset;
    if (shape.test(text)) {
      push(kind, shape.lastIndex);
      return;
    }
  }
  runShape.lastIndex = offset;
  push('unknown', runShape.test(text) ? runShape.lastIndex : offset + 1);
}

/** The text a string token stands for; `badEscapes` are the places of escapes other than \" and \\. */
export function stringValue(token: Token): { readonly text: string; readonly badEscapes: readonly Range[] } {
  const badEscapes: Range[] = [];
  let value = '';
  for (let i = 1; i < token.text.length - 1; i++) {
    const c = token.text.charAt(i);
    if (c !== '\\') {
      value += c;
      continue;
    }
    const escaped = token.text.charAt(++i);
    if (escaped !== '"' && escaped !== '\\') {
      badEscapes.push({ start: token.start + i - 1, end: token.start + i + 1 });
      value += '\\';
    }
    value += escaped;
  }
  return { text: value, badEscapes };
}

/** Index of the first token that begins at `offset` or behind it; tokens are in text order. */
export function tokenIndexAt(tokens: readonly Token[], offset: number): number {
  let low = 0;
  let high = tokens.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tokens[middle]!.start < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A token at a line's start that continues the statement above: a sign, digit, ( ) | . or `to`. */
export function continuesStatement(token: Token): boolean {
  switch (token.kind) {
    case 'number':
    case 'hop':
    case 'position':
    case 'signed-phase':
      return true;
    case 'punctuation':
      return /^[()|.]/.test(token.text);
    case 'word':
      return token.text === 'to';
    default:
      return /^[+\-0-9]/.test(token.text);
  }
}
