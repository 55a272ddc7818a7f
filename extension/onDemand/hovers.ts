import { Hover, l10n, MarkdownString, type Position, Range, type TextDocument } from 'vscode';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { LimitResult } from '../../core/findings/limits.ts';
import { helpOf } from '../../core/findings/registry.ts';
import type { Range as TextRange } from '../../core/language/finding.ts';
import { lineColumn, lineStarts } from '../../core/language/text/lines.ts';
import { explainedWord, tokenAt } from '../../core/language/vocabulary/explain.ts';
import { valueText } from '../../core/review/words.ts';
import { entryLines } from './entryWords.ts';
import { marksAt } from './marks.ts';
import { nameOf } from './names.ts';

const mostBars = 6;
const mostAccepted = 6;

/** What is said about the text at a position: a word's meaning, how a limit stands, which bars a place means. */
export function hoverAt(study: CheckedText, document: TextDocument, position: Position): Hover | null {
  const offset = document.offsetAt(position);
  const said = acceptHover(study, offset) ?? wordHover(study, offset) ?? placeHover(study, offset);
  if (said === null) return null;
  const range = new Range(document.positionAt(said.range.start), document.positionAt(said.range.end));
  return new Hover(new MarkdownString(said.lines.join('\n\n')), range);
}

interface Said {
  readonly range: TextRange;
  readonly lines: readonly string[];
}

/** What an accepted code means, and which warnings of it there are. */
function acceptHover({ specification, accepted, text }: CheckedText, offset: number): Said | null {
  const accept = specification.accepts.find(({ range }) => range.start <= offset && offset <= range.end);
  if (!accept) return null;
  const { code } = accept.value;
  const met = accepted.find(({ statement }) => statement === accept.statement)?.findings ?? [];
  const starts = lineStarts(text);
  const lines = met
    .slice(0, mostAccepted)
    .map(
      ({ message, range }) => `- ${l10n.t('Line {0}: {1}', lineColumn(starts, range.start).line, message)}`,
    );
  const more = met.length > mostAccepted ? [l10n.t('and {0} more', met.length - mostAccepted)] : [];
  const here = met.length === 0 ? l10n.t('There is no such warning at present.') : l10n.t('Accepted here:');
  return {
    range: accept.range,
    lines: [`**${code}**`, helpOf(code), here, lines.join('\n'), ...more].filter((line) => line !== ''),
  };
}

function wordHover(study: CheckedText, offset: number): Said | null {
  const word = explainedWord(study.document, offset);
  if (word === null) return null;
  const { entry, range } = word;
  const head = entry.pattern === '' || entry.pattern === 'limit' ? '' : ` \`${entry.pattern}\``;
  const limit = study.limits.find((one) => one.range.start <= offset && offset <= one.range.end);
  const stands = limit && entry.role === 'quantity' ? [limitWords(limit)] : [];
  return { range, lines: [`**${entry.word}**${head}`, ...stands, ...entryLines(entry)] };
}

function limitWords({ quantity, actual, met, reason }: LimitResult): string {
  if (actual === null) return l10n.t('Cannot be computed: {0}.', reason ?? '');
  const value = valueText(quantity, actual);
  return met
    ? l10n.t('Now {0}: the limit holds.', value)
    : l10n.t('Now {0}: the limit does not hold.', value);
}

/** The bars that a position, a hop or a place of a row stands for. */
function placeHover(study: CheckedText, offset: number): Said | null {
  const token = tokenAt(study.document.tokens, offset);
  if (!token || !/^(position|hop|signed-phase)$/.test(token.kind)) return null;
  const { bars } = marksAt(study, offset);
  if (bars.length === 0) return null;
  const named = bars.slice(0, mostBars).map((bar) => `- ${nameOf(study, { bar })}`);
  const more = bars.length > mostBars ? [l10n.t('and {0} more', bars.length - mostBars)] : [];
  return { range: { start: token.start, end: token.end }, lines: [named.join('\n'), ...more] };
}
