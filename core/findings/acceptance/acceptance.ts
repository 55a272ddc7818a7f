import { type Finding, type Fix, finding, type Range } from '../../language/finding.ts';
import type { AcceptedCode } from '../../language/specification/specification.ts';
import type { Given } from '../../language/specification/statements.ts';
import { nearestWord, replacement } from '../../language/suggest.ts';
import { visible } from '../../language/text/visible.ts';
import { findingKinds, maybeWarning } from '../registry.ts';
import { acceptCodeUnknown, acceptOfError, acceptRepeated, acceptUnused } from './findingKinds.ts';

/** What a finding says, with the reason where it is accepted; fit to be shown. */
export function toldMessage(message: string, reason: string | undefined): string {
  return reason === undefined ? message : `${message} Accepted: ${visible(reason.trim())}`;
}

/** Whether a finding is a warning that the text may accept. */
export function canBeAccepted({ code, severity }: Pick<Finding, 'code' | 'severity'>): boolean {
  return severity === 'warning' && code !== acceptUnused.code;
}

/** The warnings that one accept of the text turns into infos. */
export interface AcceptedWarnings extends AcceptedCode {
  readonly statement: Range;
  readonly findings: readonly Finding[];
}

/** Findings after the text's accepts, with those about the accepts themselves, and what is accepted. */
export interface Accepting {
  readonly findings: readonly Finding[];
  /** In the order of the text; accepts that meet no warning are not among them. */
  readonly accepted: readonly AcceptedWarnings[];
}

/**
 * Turns the accepted warnings into infos with their reasons. `all` says that the findings are all there are:
 * an accept that meets nothing is told only then.
 */
export function acceptWarnings(
  text: string,
  accepts: readonly Given<AcceptedCode>[],
  findings: readonly Finding[],
  all: boolean,
): Accepting {
  if (accepts.length === 0) return { findings, accepted: [] };
  const first = new Map<string, Given<AcceptedCode>>();
  for (const accept of accepts) if (!first.has(accept.value.code)) first.set(accept.value.code, accept);
  const judged = findings.map((each): Finding => {
    const accept = each.severity === 'warning' ? first.get(each.code) : undefined;
    if (!accept) return each;
    const { reason } = accept.value;
    return { ...each, severity: 'info', accepted: { reason, statement: accept.statement } };
  });
  const told = accepts.flatMap((accept) => {
    const earlier = first.get(accept.value.code)!;
    return earlier === accept
      ? findingsOn(text, accept, accepts, judged, all)
      : [repeated(text, accept, earlier)];
  });
  const accepted = [...first.values()]
    .map(({ value, statement }) => ({
      ...value,
      statement,
      findings: judged.filter((each) => each.accepted?.statement === statement),
    }))
    .filter((each) => each.findings.length > 0);
  return { findings: [...judged, ...told], accepted };
}

function repeated(text: string, accept: Given<AcceptedCode>, earlier: Given<AcceptedCode>): Finding {
  const { code } = accept.value;
  const related = [{ message: 'first accepted here', range: earlier.statement }];
  return finding(acceptRepeated, accept.statement, { code }, { related, fix: removal(text, accept) });
}

/** What is wrong with an accept, the first of its code. */
function findingsOn(
  text: string,
  accept: Given<AcceptedCode>,
  accepts: readonly Given<AcceptedCode>[],
  judged: readonly Finding[],
  all: boolean,
): readonly Finding[] {
  const { code } = accept.value;
  const kind = findingKinds.find((each) => each.code === code);
  if (!kind) {
    const given = accepts.map(({ value }) => value.code);
    const suggestion = nearestWord(
      code,
      findingKinds.map((each) => each.code).filter((each) => maybeWarning(each) && !given.includes(each)),
    );
    const fix = replacement(accept.range, suggestion);
    return [finding(acceptCodeUnknown, accept.range, { code, suggestion }, fix)];
  }
  const own = judged.filter((each) => each.code === code);
  const errors = own.filter(({ severity }) => severity === 'error');
  const always = kind.severity === 'error' && !maybeWarning(code);
  if (always || errors.length > 0) {
    const related = errors.slice(0, mostRelated).map(({ message, range }) => ({ message, range }));
    return [finding(acceptOfError, accept.range, { code, always }, { related })];
  }
  if (!all || own.some((each) => each.accepted)) return [];
  const info = own.length > 0 || !maybeWarning(code);
  return [finding(acceptUnused, accept.range, { code, info }, { fix: removal(text, accept) })];
}

const mostRelated = 5;

/** The edit that takes a statement out, with its line where it stands alone on it. */
function removal(text: string, { statement: { start, end } }: Given<AcceptedCode>): Fix {
  const before = /(^|[\r\n])[ \t]*$/.exec(text.slice(0, start));
  const behind = /^[ \t]*(?:\r\n|\n|\r)/.exec(text.slice(end));
  const blanks = /^[ \t]*/.exec(text.slice(end))![0].length;
  const range =
    before && behind
      ? { start: before.index + before[1]!.length, end: end + behind[0].length }
      : { start, end: end + blanks };
  return { title: 'Remove this accept', edits: [{ range, text: '' }] };
}
