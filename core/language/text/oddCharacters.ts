import { type Finding, type Fix, finding, findingKind, type Range } from '../finding.ts';
import { firstOf, listed, plural } from '../lists.ts';
import { lineEnd, stringEnd } from './lines.ts';

// Blanks that are not plain, line ends that are none to an editor, and characters that cannot be seen look
// like nothing is wrong. Outside texts in quotes and comments they are read as what they look like, and told.

/** Most places with odd characters that are told one by one; the last finding speaks for all that are left. */
export const mostOddPlaces = 100;

/** A character as people look it up. */
export interface CodePoint {
  /** `U+00A0`. */
  readonly point: string;
  readonly name: string;
}

export const oddCharacters = findingKind<{
  /** The different ones, in the order they stand. */
  odd: readonly CodePoint[];
  /** What they look like: blanks, line ends, nothing, or several of these. */
  kind: 'blank' | 'line-end' | 'nothing' | 'mixed';
  /** Further places that this finding speaks for. */
  more: number;
}>({
  code: 'character-odd',
  severity: 'error',
  help: 'Outside quotes and comments, words are parted by plain blanks, tabs and line ends; other blanks, and characters that cannot be seen, often come along with copied text.',
  message: ({ odd, kind, more }) =>
    `${oddNames(odd)} ${odd.length === 1 ? 'stands' : 'stand'} here${looksLike[kind]}${more === 0 ? '' : `; the text holds odd characters at ${plural(more, 'more place')} behind it`}.`,
});

const looksLike = {
  blank: ' where a plain blank belongs',
  'line-end': ' where a line end belongs',
  nothing: ' and cannot be seen',
  mixed: ' and cannot be told from plain blanks, or cannot be seen',
} as const;

function oddNames(odd: readonly CodePoint[]): string {
  const names = odd.map(({ point, name }) => `${point} (${name})`);
  return names.length > 3 ? firstOf(names, 3) : listed(names);
}

// Every character but letters, digits and signs of the plain keyboard: the quick test that most texts pass.
const notPlain = /[^\t\n\r -~]/;
const lineEndLike = /^[\u0085\u2028\u2029]$/;
const blankLike = /^[\p{Zs}\u000b\u000c\u2800]$/u;
const oddShape = /(?![\t\n\r ])[\p{Cc}\p{Cf}\p{Zs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\u2800]/u;

/** One odd character of a text: its place, and what it is read as. */
interface OddCharacter extends Range {
  readonly readAs: ' ' | '\n' | '';
}

/** A text as its words are read: odd characters replaced by what they look like. */
export interface PlainText {
  readonly text: string;
  readonly odd: readonly OddCharacter[];
  /** The place in the text as written of a stretch of `text`. */
  readonly written: (start: number, end: number) => Range;
}

/** Replaces the odd characters of a text; texts in quotes and comments keep theirs, a byte order mark may begin it. */
export function plainText(text: string): PlainText {
  const odd = notPlain.test(text) && oddShape.test(text) ? oddIn(text) : [];
  if (odd.length === 0) return { text, odd, written: (start, end) => ({ start, end }) };
  const parts: string[] = [];
  const offsets: number[] = [];
  let at = 0;
  const take = (end: number, part: string) => {
    parts.push(part);
    for (let i = 0; i < part.length; i++) offsets.push(at + i);
    at = end;
  };
  for (const { start, end, readAs } of odd) {
    take(start, text.slice(at, start));
    take(end, readAs);
  }
  take(text.length, text.slice(at));
  offsets.push(text.length);
  return {
    text: parts.join(''),
    odd,
    // The end of a word stands behind its last character, before odd ones that follow it.
    written: (start, end) => ({
      start: offsets[start]!,
      end: end > start ? offsets[end - 1]! + 1 : offsets[start]!,
    }),
  };
}

function oddIn(text: string): readonly OddCharacter[] {
  const odd: OddCharacter[] = [];
  for (let i = text.charCodeAt(0) === 0xfeff ? 1 : 0; i < text.length; ) {
    const c = text.codePointAt(i)!;
    if (c === 35) i = lineEnd(text, i);
    else if (c === 34) i = stringEnd(text, i) ?? lineEnd(text, i);
    else {
      const end = i + (c > 0xffff ? 2 : 1);
      if ((c < 32 || c > 126) && oddShape.test(text.slice(i, end))) odd.push(oddCharacter(text, i, end));
      i = end;
    }
  }
  return odd;
}

function oddCharacter(text: string, start: number, end: number): OddCharacter {
  const character = text.slice(start, end);
  const readAs = lineEndLike.test(character) ? '\n' : blankLike.test(character) ? ' ' : '';
  return { start, end, readAs };
}

/** Findings for odd characters, each with the edit that puts in what they are read as. */
export function oddCharacterFindings(text: string, odd: readonly OddCharacter[]): readonly Finding[] {
  const places = oddPlaces(text, odd);
  const told = places.slice(0, mostOddPlaces - 1).map((place) => oddFinding(text, place, []));
  const [next, ...rest] = places.slice(mostOddPlaces - 1);
  return next ? [...told, oddFinding(text, next, rest)] : told;
}

/** Characters with nothing but plain blanks between them stand at one place. */
function oddPlaces(text: string, odd: readonly OddCharacter[]): readonly (readonly OddCharacter[])[] {
  const places: OddCharacter[][] = [];
  let end = -1;
  for (const character of odd) {
    if (end >= 0 && /^[ \t]*$/.test(text.slice(end, character.start))) places.at(-1)!.push(character);
    else places.push([character]);
    end = character.end;
  }
  return places;
}

function oddFinding(
  text: string,
  place: readonly OddCharacter[],
  rest: readonly (readonly OddCharacter[])[],
): Finding {
  const all = [...place, ...rest.flat()];
  const names = new Map<string, CodePoint>();
  for (const character of place) {
    const known = codePoint(text, character);
    names.set(known.point, known);
  }
  const kinds = new Set(place.map(({ readAs }) => readAs));
  const [readAs] = kinds;
  const kind = kinds.size > 1 ? 'mixed' : readAs === '' ? 'nothing' : readAs === '\n' ? 'line-end' : 'blank';
  const range = { start: all[0]!.start, end: all.at(-1)!.end };
  const odd = [...names.values()];
  return finding(
    oddCharacters,
    range,
    { odd, kind, more: rest.length },
    { fix: { title: fixTitle(odd, kind, rest.length), edits: editsOf(text, all) } },
  );
}

function fixTitle(odd: readonly CodePoint[], kind: keyof typeof looksLike, more: number): string {
  if (more > 0 || kind === 'mixed') return 'Replace odd blanks, remove invisible characters';
  const points = listed(odd.map(({ point }) => point));
  if (kind === 'nothing') return `Remove ${points}`;
  return `Replace ${points} by a plain ${kind === 'blank' ? 'blank' : 'line end'}`;
}

function editsOf(text: string, odd: readonly OddCharacter[]): Fix['edits'] {
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  return odd.map(({ start, end, readAs }) => ({
    range: { start, end },
    text: readAs === '\n' ? lineBreak : readAs,
  }));
}

function codePoint(text: string, { start, readAs }: OddCharacter): CodePoint {
  const c = text.codePointAt(start)!;
  const point = `U+${c.toString(16).toUpperCase().padStart(4, '0')}`;
  const isControl = c < 32 || (c >= 127 && c < 160);
  const other = isControl ? 'control character' : readAs === '' ? 'invisible character' : 'blank';
  return { point, name: names.get(c) ?? other };
}

// The names of the Unicode character database, where it has better ones than the kind of character.
const names: ReadonlyMap<number, string> = new Map([
  [0x0b, 'line tabulation'],
  [0x0c, 'form feed'],
  [0x85, 'next line'],
  [0xa0, 'no-break space'],
  [0xad, 'soft hyphen'],
  [0x34f, 'combining grapheme joiner'],
  [0x61c, 'Arabic letter mark'],
  [0x1680, 'ogham space mark'],
  [0x2000, 'en quad'],
  [0x2001, 'em quad'],
  [0x2002, 'en space'],
  [0x2003, 'em space'],
  [0x2004, 'three-per-em space'],
  [0x2005, 'four-per-em space'],
  [0x2006, 'six-per-em space'],
  [0x2007, 'figure space'],
  [0x2008, 'punctuation space'],
  [0x2009, 'thin space'],
  [0x200a, 'hair space'],
  [0x200b, 'zero width space'],
  [0x200c, 'zero width non-joiner'],
  [0x200d, 'zero width joiner'],
  [0x200e, 'left-to-right mark'],
  [0x200f, 'right-to-left mark'],
  [0x2028, 'line separator'],
  [0x2029, 'paragraph separator'],
  [0x202a, 'left-to-right embedding'],
  [0x202b, 'right-to-left embedding'],
  [0x202c, 'pop directional formatting'],
  [0x202d, 'left-to-right override'],
  [0x202e, 'right-to-left override'],
  [0x202f, 'narrow no-break space'],
  [0x205f, 'medium mathematical space'],
  [0x2060, 'word joiner'],
  [0x2061, 'function application'],
  [0x2062, 'invisible times'],
  [0x2063, 'invisible separator'],
  [0x2064, 'invisible plus'],
  [0x2066, 'left-to-right isolate'],
  [0x2067, 'right-to-left isolate'],
  [0x2068, 'first strong isolate'],
  [0x2069, 'pop directional isolate'],
  [0x2800, 'braille pattern blank'],
  [0x3000, 'ideographic space'],
  [0xfe0e, 'variation selector-15'],
  [0xfe0f, 'variation selector-16'],
  [0xfeff, 'byte order mark'],
]);
