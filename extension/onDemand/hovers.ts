import {
  type CancellationToken,
  Hover,
  MarkdownString,
  type Position,
  Range,
  type TextDocument,
} from 'vscode';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { type LimitResult, limitName, marginShare } from '../../core/findings/limits.ts';
import type { Range as TextRange } from '../../core/language/finding.ts';
import { significant } from '../../core/language/numbers.ts';
import { lineColumn, lineStarts } from '../../core/language/text/lines.ts';
import { explainedWord, tokenAt } from '../../core/language/vocabulary/explain.ts';
import { valueText } from '../../core/review/words.ts';
import { barName } from '../../core/winding/model.ts';
import { l10n, meaningWords } from '../wording.ts';
import { barNamed, barUse, connectionOf } from './barUse.ts';
import { entryLines } from './entryWords.ts';
import { createPause } from './inSlices.ts';
import { statementAt, valueAt } from './language/leaves.ts';
import { oneStepLines } from './language/oneStep.ts';
import { marksAt } from './marks.ts';
import { nameOf } from './names.ts';
import { meaningOf } from './reference.ts';

const mostBars = 6;
const mostAccepted = 6;

/**
 * What is said about the text at a position: a word's meaning, how a limit stands, which bars a place means and their
 * neighbors, what one step of a number would give. The last takes studies, which give way to typing.
 */
export async function hoverAt(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  token: CancellationToken,
): Promise<Hover | null> {
  const offset = document.offsetAt(position);
  const said =
    acceptHover(study, offset) ??
    wordHover(study, offset) ??
    placeHover(study, offset) ??
    (await numberHover(study, offset, createPause(token)));
  if (said === null || token.isCancellationRequested) return null;
  const range = new Range(document.positionAt(said.range.start), document.positionAt(said.range.end));
  const text = new MarkdownString(said.lines.join('\n\n'));
  text.isTrusted = { enabledCommands: [referenceCommand] };
  return new Hover(text, range);
}

const referenceCommand = 'slotwright.openReference';

/** A link to the page of the reference about a block or a kind of finding. */
function referenceLink(subject: { readonly block: string } | { readonly code: string }): string {
  const argument = encodeURIComponent(JSON.stringify([subject]));
  return `[${l10n.t('Language reference')}](command:${referenceCommand}?${argument})`;
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
    lines: [`**${code}**`, meaningOf(code), here, lines.join('\n'), ...more, referenceLink({ code })].filter(
      (line) => line !== '',
    ),
  };
}

function wordHover(study: CheckedText, offset: number): Said | null {
  const word = explainedWord(study.document, offset);
  if (word === null) return null;
  const { entry, range } = word;
  // Not 'current current', nor what a limit is.
  const head = ['', 'limit', entry.word].includes(entry.pattern) ? '' : ` \`${entry.pattern}\``;
  const limit = study.limits.find((one) => one.range.start <= offset && offset <= one.range.end);
  const stands = limit && entry.role === 'quantity' ? [limitWords(limit)] : [];
  const block = entry.role === 'block' ? entry.word : entry.block;
  return {
    range,
    lines: [`**${entry.word}**${head}`, ...stands, ...entryLines(entry), referenceLink({ block })],
  };
}

function limitWords(limit: LimitResult): string {
  const { quantity, actual, met, reason } = limit;
  if (actual === null) return l10n.t('Cannot be computed: {0}.', reason ?? '');
  const value = valueText(quantity, actual);
  const share = marginShare(limit);
  if (share === null || !met)
    return met
      ? l10n.t('Now {0}: the limit holds.', value)
      : l10n.t('Now {0}: the limit does not hold.', value);
  return l10n.t('Now {0}: the limit holds. {1} % of it is left.', value, significant(100 * share, 2));
}

/** A number: what it is, how the limit it sets stands, what one step less or more of it would give. */
async function numberHover(
  study: CheckedText,
  offset: number,
  pause: () => Promise<void>,
): Promise<Said | null> {
  const { statement } = statementAt(study.document, offset);
  const value = statement && valueAt(statement, offset);
  if (!statement || value?.kind !== 'quantity') return null;
  const { entry } = statement;
  const limit = study.limits.find(({ range }) => range.start === statement.range.start);
  if (limit) return { range: value.range, lines: [`**${limitName(limit)}**`, limitWords(limit)] };
  const steps = entry.word === 'path' ? [] : await oneStepLines(study, statement, value, pause);
  return { range: value.range, lines: [`**${entry.word}** ${meaningWords(entry.meaning)}`, ...steps] };
}

/** The bars that a position, a hop or a place of a row stands for. */
function placeHover(study: CheckedText, offset: number): Said | null {
  const token = tokenAt(study.document.tokens, offset);
  if (!token || !/^(position|hop|signed-phase)$/.test(token.kind)) return null;
  const { bars } = marksAt(study, offset);
  if (bars.length === 0) return null;
  const named = bars.slice(0, mostBars).map((bar) => `- ${nameOf(study, { bar })}`);
  const more = bars.length > mostBars ? [l10n.t('and {0} more', bars.length - mostBars)] : [];
  const [only] = bars.length === 1 ? bars : [];
  const neighbors = only === undefined ? [] : jointLines(study, only);
  const lines = [[...named, ...neighbors].join('\n'), ...more];
  return { range: { start: token.start, end: token.end }, lines };
}

/** The joints that lead to a bar and on from it, or the lead or star point where it is the first or the last. */
function jointLines(study: CheckedText, name: string): readonly string[] {
  const bar = study.winding && barNamed(study.winding, name);
  const place = bar && barUse(study, bar)?.place;
  const connection = connectionOf(study);
  if (!place || !connection) return [];
  const { joints, ends } = connection.joints();
  const { pathIndex, index } = place;
  const numbers = [
    ...joints.filter(
      ({ path, position }) => path === pathIndex && (position === index - 1 || position === index),
    ),
    ...ends.filter((end) => end.path === pathIndex && barName(end.bar) === name),
  ].map(({ number }) => number);
  return numbers.map((number) => `- ${nameOf(study, { joint: number })}`);
}
