import { visible } from '../../language/text/visible.ts';

/**
 * Text of the user as a Markdown code span, the one form in which a forge neither renders markup nor makes
 * links, mentions of people or references to issues of it. Longer texts are cut at `most` characters.
 */
export function code(text: string, most = 80): string {
  const line = visible(text.replace(/\s+/g, ' ').trim());
  const shown = line.length > most ? `${line.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…` : line;
  if (shown === '') return '';
  let longest = 0;
  for (const [run] of shown.matchAll(/`+/g)) longest = Math.max(longest, run.length);
  const fence = '`'.repeat(longest + 1);
  const pad = /^`|`$/.test(shown) ? ' ' : '';
  return `${fence}${pad}${shown}${pad}${fence}`;
}

/**
 * What a forge acts on in the rendered text, where no escape would stop it: mentions, references to issues,
 * merge requests, labels, milestones, commits and tickets, bare addresses, emoji, formulas. Each as it can
 * stand between two blanks.
 */
const acting = new RegExp(
  [
    '[@$`]',
    '[#!&~^%][\\p{L}\\p{N}_#"\']',
    ':\\S',
    '[\\p{L}\\p{N}]\\.\\p{L}',
    '\\p{L}-\\d',
    '[0-9a-f]{7}',
    '[{[][+-]',
  ].join('|'),
  'iu',
);

/** What makes a line a list, a rule or an order to the forge where it stands first. */
const opening = /^(?:[-+=]+|\d+[.)]|\/.*)$/;

/**
 * A sentence that may quote the user, or the user's own words: nothing in it starts markup, HTML, a link, a
 * mention or a reference. Words that a forge would act on become code spans, all others are escaped.
 */
export function sentence(text: string): string {
  const parts: { readonly acts: boolean; words: string }[] = [];
  const words = visible(text.replace(/\s+/g, ' ').trim()).split(' ');
  words.forEach((word, i) => {
    const acts = acting.test(word) || (i === 0 && opening.test(word));
    const last = parts[parts.length - 1];
    if (last?.acts === acts) last.words += ` ${word}`;
    else parts.push({ acts, words: word });
  });
  return parts.map(({ acts, words }) => (acts ? quotedCode(words) : escaped(words))).join(' ');
}

/** Words as a code span; quotation marks, parentheses and punctuation round them stay outside. */
function quotedCode(words: string): string {
  const before = /^['"(]*/.exec(words)![0];
  const rest = words.slice(before.length);
  let end = rest.length;
  while (end > 0 && `'"),.;:?`.includes(rest.charAt(end - 1))) end--;
  const whole = Number.POSITIVE_INFINITY;
  return end === 0 ? code(words, whole) : `${before}${code(rest.slice(0, end), whole)}${rest.slice(end)}`;
}

const entities = new Map([
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['&', '&amp;'],
  // Where tables are cut into cells, not all readers heed a backslash alike.
  ['|', '&#124;'],
]);

function escaped(text: string): string {
  return text.replace(/[\\*_{}[\]#|<>~&]/g, (c) => entities.get(c) ?? `\\${c}`);
}
