import { findingKinds } from './registry.ts';

/** The list of all findings as a Markdown page, made from the registry. */
export function findingsReference(): string {
  const rows = [...findingKinds]
    .sort((a, b) => (a.code < b.code ? -1 : 1))
    .map(({ code, severity, help }) => `| \`${code}\` | ${severity} | ${help.replace(/\|/g, '\\|')} |`);
  const introduction = `# Findings

What the checks report, by code. An error means that the winding, or the text, is not right: command-line checks exit with 1. A warning is worth a look; an info is worth knowing.`;
  return `${[introduction, '', '| code | severity | meaning |', '| --- | --- | --- |', ...rows].join('\n')}\n`;
}
