import type { Finding, Range } from '../language/finding.ts';
import { lineColumn } from '../language/text/lines.ts';
import type { ReportedFinding } from './schema.ts';

/** Findings with lines and columns instead of offsets. */
export function reportedFindings(findings: readonly Finding[], starts: readonly number[]): ReportedFinding[] {
  const place = ({ start, end }: Range) => ({
    start: lineColumn(starts, start),
    end: lineColumn(starts, end),
  });
  return findings.map(({ code, severity, message, range, related }) => ({
    code,
    severity,
    message,
    range: place(range),
    related: related.map((other) => ({ message: other.message, range: place(other.range) })),
  }));
}
