import type { AcceptedWarnings } from '../findings/acceptance/acceptance.ts';
import type { Finding, Range } from '../language/finding.ts';
import { lineColumn } from '../language/text/lines.ts';
import type { ReportedAccepted, ReportedFinding } from './schema.ts';

/** Findings with lines and columns instead of offsets. */
export function reportedFindings(findings: readonly Finding[], starts: readonly number[]): ReportedFinding[] {
  return findings.map(({ code, severity, message, range, related, accepted }) => ({
    code,
    severity,
    message,
    range: placeOf(range, starts),
    related: related.map((other) => ({ message: other.message, range: placeOf(other.range, starts) })),
    ...(accepted ? { accepted: accepted.reason } : {}),
  }));
}

/** Accepted warnings with lines and columns instead of offsets. */
export function reportedAccepted(
  accepted: readonly AcceptedWarnings[],
  starts: readonly number[],
): ReportedAccepted[] {
  return accepted.map(({ code, reason, statement, findings }) => ({
    code,
    reason,
    range: placeOf(statement, starts),
    findings: findings.map(({ message, range }) => ({ message, range: placeOf(range, starts) })),
  }));
}

function placeOf({ start, end }: Range, starts: readonly number[]): ReportedFinding['range'] {
  return { start: lineColumn(starts, start), end: lineColumn(starts, end) };
}
