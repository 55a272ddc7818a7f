import { toldMessage } from '../../findings/acceptance/acceptance.ts';
import { isOne, plural } from '../../language/lists.ts';
import { code, sentence } from '../../report/markdown/guard.ts';
import { markdownTable } from '../../report/markdown/table.ts';
import type { ComparedAccept, ComparedFile, ComparedLimit, Comparison, FileStatus } from '../schema.ts';
import { shapeRows } from '../shapeRows.ts';
import { changedBarsParts, details, headline, limitChangesText, summaryText } from '../summary.ts';
import { comparedLimitName, limitText, valueText } from '../words.ts';
import { numberParts } from './numbers.ts';
import { folded, mostRows, mostUnfolded, table } from './parts.ts';

/** A comment on the common forges holds 65 536 characters. */
const mostCharacters = 60_000;

const caution =
  'Computed by Slotwright, a preliminary design aid: licensed people verify a design before anything is built or energized.';

/** Two windings compared, as a comment on a pull request: summary first, details folded. */
export function comparisonMarkdown(comparison: Comparison, oldName: string, newName: string): string {
  const names = `${code(oldName, 120)} → ${code(newName, 120)}`;
  const body = comparisonParts(comparison, 'changed');
  return fitted([`## Winding comparison\n\n${names}`, ...body], [caution]);
}

/** Several files compared, as one comment. `base` names what they are compared with; `notes` what was not looked at. */
export function comparedFilesMarkdown(
  files: readonly ComparedFile[],
  base: string,
  notes: readonly string[] = [],
): string {
  const shown = files.filter(({ status, trouble }) => status !== 'same' || trouble !== undefined);
  const changed = files.filter(({ status }) => status !== 'same').length;
  const same = files.length - changed;
  const rest = same === 0 ? '' : ` ${plural(same, 'file')} ${same === 1 ? 'is' : 'are'} the same.`;
  // A table of many files is cut, so what became of limits is said of all of them.
  const limits = limitChangesText(shown.flatMap(({ comparison }) => comparison?.limits ?? []));
  const gate = limits === '' || shown.length === 1 ? '' : ` **${limits}**`;
  const intro = `## Winding comparison\n\nAgainst ${code(base, 120)}: ${plural(changed, 'winding file')} changed.${rest}${gate}`;
  if (shown.length === 0) return `${intro}\n`;
  const parts: string[] = [intro, ...notes.map(sentence)];
  if (shown.length > 1)
    parts.push(
      markdownTable(
        ['file', 'status', 'summary'],
        ['left', 'left', 'left'],
        shown.slice(0, mostRows).map(({ file, ...rest }) => [code(file, 120), rest.status, summaryOf(rest)]),
      ),
    );
  const cut =
    shown.length > mostRows
      ? [
          `${plural(shown.length - mostRows, 'more file')} ${isOne(shown.length - mostRows) ? 'is' : 'are'} not listed.`,
        ]
      : [];
  for (const { file, oldFile, status, trouble, comparison } of shown.slice(0, mostRows)) {
    const unread = trouble === undefined ? null : sentence(trouble);
    // The table says all there is to say of a text that only moved.
    if (!comparison && unread === null && shown.length > 1) continue;
    const renamed = oldFile === undefined ? '' : `, was ${code(oldFile, 120)}`;
    parts.push(`### ${code(file, 120)} ${status}${renamed}`);
    if (!comparison) parts.push(`**${unread ?? sameText}**`);
    else if (unread !== null) {
      const notes = comparison.notes.filter((note) => note !== trouble);
      parts.push(...comparisonParts({ ...comparison, notes }, 'added', unread));
    } else parts.push(...comparisonParts(comparison, status));
  }
  return fitted([...parts, ...cut], [caution]);
}

const sameText = 'The same text.';

function summaryOf({ oldFile, status, trouble, comparison }: Omit<ComparedFile, 'file'>): string {
  if (trouble === undefined)
    return comparison ? summaryText(comparison, status) : `${sameText} Was ${code(oldFile ?? '', 120)}.`;
  return [sentence(trouble), ...(comparison ? details(comparison, 'added') : [])].join(' ');
}

/** Parts in order until the comment is full; folded details are left out first, and that is said. */
function fitted(parts: readonly string[], last: readonly string[]): string {
  const size = (list: readonly string[]) => list.reduce((sum, part) => sum + part.length + 2, 0);
  const room = mostCharacters - size(last) - 200;
  const note = 'Some details are left out because a comment holds no more; `--format json` has all of them.';
  let kept = [...parts];
  for (let i = kept.length - 1; i >= 0 && size(kept) > room; i--)
    if (kept[i]!.startsWith('<details>')) kept.splice(i, 1);
  while (size(kept) > room && kept.length > 1) kept = kept.slice(0, -1);
  const left = kept.length < parts.length ? [note] : [];
  return `${[...kept, ...left, ...last].join('\n\n')}\n`;
}

function comparisonParts(
  comparison: Comparison,
  status: FileStatus,
  head = headline(comparison, status),
): readonly string[] {
  const whole = status === 'changed' || status === 'renamed';
  return [
    [`**${head}**`, ...details(comparison, status)].join(' '),
    ...comparison.notes.map(sentence),
    ...(whole ? statementParts(comparison) : []),
    ...limitParts(comparison.limits),
    ...numberParts(comparison, whole),
    ...acceptedParts(comparison),
    ...findingParts(comparison, status),
    ...(whole ? [...barParts(comparison), ...jointParts(comparison), ...shapeParts(comparison)] : []),
  ];
}

/** Characters of a statement that are shown, and as many of what two have alike before they differ as tell the place. */
const [mostOfStatement, alikeShown] = [80, 24];

/** Two long statements without most of what they begin with alike, so that what differs is shown of both. */
function fromDifference(old: string | null, now: string | null): readonly [string | null, string | null] {
  if (old === null || now === null || Math.max(old.length, now.length) <= mostOfStatement) return [old, now];
  let alike = 0;
  while (alike < old.length && old[alike] === now[alike]) alike++;
  const from = old.lastIndexOf(' ', alike - alikeShown);
  return from <= 0 ? [old, now] : [`…${old.slice(from)}`, `…${now.slice(from)}`];
}

function statementParts({ statements }: Comparison): readonly string[] {
  if (statements.length === 0) return [];
  const value = (words: string | null) => (words === null ? '–' : code(words) || 'given');
  const rows = statements.map(({ what, old, new: now }) => {
    const [before, after] = fromDifference(old, now);
    return [code(what), value(before), value(after)];
  });
  const whole = table(['statement', 'old', 'new'], ['left', 'left', 'left'], rows);
  return [
    statements.length <= mostUnfolded ? whole : folded(plural(statements.length, 'changed statement'), whole),
  ];
}

function limitParts(limits: readonly ComparedLimit[]): readonly string[] {
  if (limits.length === 0) return [];
  const rows = limits.map((limit) => [
    code(comparedLimitName(limit)),
    limitText(limit).replace(/\b(loosened|dropped)\b/, '**$1**'),
    valueText(limit.quantity, limit.old),
    valueText(limit.quantity, limit.new),
    valueText(limit.quantity, limit.margin),
    holdsText(limit),
  ]);
  const head = ['limit', 'required', 'old', 'new', 'margin', 'holds'];
  return [table(head, ['left', 'left', 'right', 'right', 'right', 'left'], rows)];
}

function holdsText({ limit, new: now, holds, heldBefore }: ComparedLimit): string {
  if (limit === null) return '';
  if (holds) return heldBefore === false ? 'yes, now' : 'yes';
  return `**${now === null ? 'not computable' : 'no'}**${heldBefore ? ', held before' : ''}`;
}

/** What is accepted, with the reason, where a reviewer cannot overlook it. */
function acceptedParts({ accepted }: Comparison): readonly string[] {
  const row = (what: string) => (accept: ComparedAccept) => [
    what,
    code(accept.code),
    code(accept.reason, 200),
    accept.messages.map(sentence).join('<br>') || 'no such warning at present',
  ];
  const rows = [
    ...accepted.new.map(row('**newly accepted**')),
    ...accepted.gone.map(row('accepted no more')),
  ];
  if (rows.length === 0) return [];
  return [table(['', 'warning', 'reason', 'what it says'], ['left', 'left', 'left', 'left'], rows)];
}

function findingParts({ findings }: Comparison, status: FileStatus): readonly string[] {
  const line = ({ severity, code: name, message, range, accepted }: Comparison['findings']['new'][number]) =>
    `- **${severity}** line ${range.start.line}: ${sentence(toldMessage(message, accepted))} (\`${name}\`)`;
  const lines = (list: Comparison['findings']['new']) =>
    [
      ...list.slice(0, mostRows).map(line),
      ...(list.length > mostRows ? [`- ${list.length - mostRows} more`] : []),
    ].join('\n');
  const parts: string[] = [];
  if (findings.new.length > mostUnfolded)
    parts.push(folded(plural(findings.new.length, 'new finding'), lines(findings.new)));
  else if (findings.new.length > 0)
    parts.push(`${status === 'added' ? 'Findings' : 'New findings'}:\n\n${lines(findings.new)}`);
  if (findings.gone.length > 0 && status !== 'deleted')
    parts.push(folded(`${plural(findings.gone.length, 'finding')} gone`, lines(findings.gone)));
  return parts;
}

function barParts({ bars }: Comparison): readonly string[] {
  if (bars.length === 0) return [];
  const rows = bars.map(({ bar, old, new: now }) => [bar, old ?? 'empty', now ?? 'empty']);
  const body = table(['bar', 'old', 'new'], ['right', 'left', 'left'], rows);
  return [folded(changedBarsParts(bars).join(', '), body)];
}

function jointParts({ joints }: Comparison): readonly string[] {
  const { removed, added } = joints;
  // Of each as many as the other leaves room for: a table is cut.
  const room = (others: readonly unknown[]) => Math.max(mostRows / 2, mostRows - others.length);
  const [first, second] = [removed.slice(0, room(added)), added.slice(0, room(removed))];
  const left = removed.length + added.length - first.length - second.length;
  const rows = [
    ...first.map((joint) => ['removed', joint] as const),
    ...second.map((joint) => ['added', joint] as const),
  ].map(([what, { number, side, from, to, span, kind }]) => [
    what,
    String(number),
    side,
    from,
    to,
    span === null ? '' : String(span),
    kind,
  ]);
  if (rows.length === 0) return [];
  const head = ['', 'number', 'side', 'from', 'to', 'span', 'kind'];
  const body = table(head, ['left', 'right', 'left', 'left', 'left', 'right', 'left'], rows, left);
  return [folded(`${plural(added.length, 'joint')} added, ${removed.length} removed`, body)];
}

function shapeParts({ shapes }: Comparison): readonly string[] {
  const rows = shapeRows(shapes).map(({ what, shape, old, now }) => [what, shape, String(old), String(now)]);
  if (rows.length === 0) return [];
  const body = table(['', 'shape', 'old pieces', 'new pieces'], ['left', 'left', 'right', 'right'], rows);
  const counts = ({ added, removed }: { added: readonly unknown[]; removed: readonly unknown[] }) =>
    `${added.length} added, ${removed.length} removed`;
  return [folded(`Bar shapes: ${counts(shapes.bars)}; joint shapes: ${counts(shapes.joints)}`, body)];
}
