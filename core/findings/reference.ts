import { listed } from '../language/lists.ts';
import { findingKinds } from './registry.ts';

/** The list of all findings as a Markdown page, made from the registry. */
export function findingsReference(): string {
  const rows = [...findingKinds]
    .sort((a, b) => (a.code < b.code ? -1 : 1))
    .map(({ code, severity, graded = [], help }) => {
      const severities = listed([severity, ...graded]).replace(' and ', ' or ');
      return `| \`${code}\` | ${severities} | ${help.replace(/\|/g, '\\|')} |`;
    });
  const introduction = `# Findings

What the checks report, by code. An error means that the winding, or the text, is not right: command-line checks exit with 1. A warning is worth a look; an info is worth knowing.

A warning that was looked at and does no harm is accepted in the text, with the reason:

\`\`\`
require {
  accept terminals-apart "Long leads are wanted: the terminal box sits on both sides."
}
\`\`\`

All warnings of that code are infos then, with the reason behind them; reports, sheets and comparisons list them as accepted. Errors cannot be accepted, and an accept that meets no warning is a warning itself.`;
  return `${[introduction, '', '| code | severity | meaning |', '| --- | --- | --- |', ...rows].join('\n')}
`;
}
