import type { Finding, Range } from '../language/finding.ts';
import type { Statement } from '../language/text/document.ts';
import { lineStarts } from '../language/text/lines.ts';
import { reportedFindings } from '../report/reportedFindings.ts';
import type { Reviewed } from './reviewed.ts';
import type { Comparison } from './schema.ts';
import { statementName } from './statements.ts';

/**
 * Findings on one side only. A finding is the same when its code is, and the text at its place, or its
 * message, or the statement it stands at; lines do not count. In equal windings the code is enough. One that has
 * become graver, a warning that is an error now, is new, and gone as what it was; one that has become lighter is the
 * same. From a text that is not understood, no finding about the winding is gone: it is not known.
 */
export function changedFindings(
  old: Reviewed | null,
  now: Reviewed | null,
  equal: boolean,
): Comparison['findings'] {
  let before = old?.findings ?? [];
  let after = now?.findings ?? [];
  for (const keyOf of [placeKey, messageKey, statementKeys(), ...(equal ? [codeKey] : [])]) {
    [before, after] = unmatched(before, after, old, now, keyOf);
  }
  if (old && now?.broken) before = before.filter((finding) => old.document.findings.includes(finding));
  return {
    new: now ? reportedFindings(after, lineStarts(now.text)) : [],
    gone: old ? reportedFindings(before, lineStarts(old.text)) : [],
  };
}

type KeyOf = (finding: Finding, study: Reviewed) => string | null;

/** What is left of both lists when findings of equal keys are taken out pair by pair. */
function unmatched(
  before: readonly Finding[],
  after: readonly Finding[],
  old: Reviewed | null,
  now: Reviewed | null,
  keyOf: KeyOf,
): [readonly Finding[], readonly Finding[]] {
  if (!old || !now || before.length === 0 || after.length === 0) return [before, after];
  const waiting = new Map<string, Finding[]>();
  for (const finding of before) {
    const key = keyOf(finding, old);
    if (key === null) continue;
    const same = waiting.get(key);
    if (same) same.push(finding);
    else waiting.set(key, [finding]);
  }
  const matched = new Set<Finding>();
  const rest = after.filter((finding) => {
    const key = keyOf(finding, now);
    const same = key === null ? [] : (waiting.get(key) ?? []);
    const at = same.findIndex((each) => gravity(each) >= gravity(finding));
    for (const partner of at < 0 ? [] : same.splice(at, 1)) matched.add(partner);
    return at < 0;
  });
  return [before.filter((finding) => !matched.has(finding)), rest];
}

/** How grave a finding is; a warning that was accepted is one all the same, and told among the accepted ones. */
function gravity({ severity, accepted }: Finding): number {
  return ['info', 'warning', 'error'].indexOf(accepted ? 'warning' : severity);
}

function placeKey({ code, range }: Finding, { text }: Reviewed): string {
  return `${code}\n${text.slice(range.start, range.end).replace(/\s+/g, ' ').trim()}`;
}

function messageKey({ code, message }: Finding): string {
  return `${code}\n${message}`;
}

/**
 * A place within a row or path is one of many; the statement stands for it only as a whole. Statements may be
 * long, and many findings stand at one: each is read once.
 */
function statementKeys(): KeyOf {
  const names = new Map<Statement, string>();
  return ({ code, range }, study) => {
    const statement = statementAt(study, range);
    if (!statement) return null;
    const long = statement.values.some(({ kind }) => kind === 'row' || kind === 'walk');
    if (long && range.start !== statement.range.start) return null;
    const name = names.get(statement) ?? statementName(study, statement);
    names.set(statement, name);
    return `${code}\n${name}`;
  };
}

function codeKey({ code }: Finding): string {
  return code;
}

function statementAt({ document }: Reviewed, { start }: Range): Statement | null {
  const holds = (statement: Statement) => statement.range.start <= start && start < statement.range.end;
  if (document.title && holds(document.title)) return document.title;
  for (const { statements } of document.blocks) {
    const found = statements.find(holds);
    if (found) return found;
  }
  return null;
}
