import {
  Diagnostic,
  DiagnosticRelatedInformation,
  DiagnosticSeverity,
  Location,
  type TextDocument,
} from 'vscode';
import { toldMessage } from '../../core/findings/acceptance/acceptance.ts';
import { helpOf } from '../../core/findings/registry.ts';
import type { Finding, Severity } from '../../core/language/finding.ts';
import { editorRange } from '../edits.ts';
import { explanation } from '../findingCode.ts';
import type { ShownSeverity } from '../settings.ts';
import { findingWords, relatedWords } from '../wording.ts';

/** The codes among these that are those of no finding. */
export function unknownCodes(severities: ReadonlyMap<string, ShownSeverity>): readonly string[] {
  return [...severities.keys()].filter((code) => helpOf(code) === '');
}

/** What the editor shows of findings, each as severe as the reader wants it. */
export function diagnosticsOf(
  document: Placed,
  findings: readonly Finding[],
  severities: ReadonlyMap<string, ShownSeverity>,
): Diagnostic[] {
  return findings.flatMap((finding) => {
    const shown = shownSeverity(finding, severities);
    if (shown === null) return [];
    const diagnostic = new Diagnostic(
      editorRange(document, finding.range),
      toldMessage(findingWords(finding), finding.accepted?.reason),
      shown,
    );
    diagnostic.source = 'slotwright';
    diagnostic.code = { value: finding.code, target: explanation(finding.code) };
    diagnostic.relatedInformation = finding.related.map(
      ({ message, range }) =>
        new DiagnosticRelatedInformation(
          new Location(document.uri, editorRange(document, range)),
          relatedWords(message),
        ),
    );
    return [diagnostic];
  });
}

/** As the reader wants it; errors stay errors, because what they tell cannot be built. Null where it is not shown. */
function shownSeverity(
  { code, severity }: Finding,
  severities: ReadonlyMap<string, ShownSeverity>,
): DiagnosticSeverity | null {
  const wanted = severity === 'error' ? undefined : severities.get(code);
  if (wanted === 'off') return null;
  return wanted === undefined ? editorSeverity[severity] : wantedSeverity[wanted];
}

const wantedSeverity: Readonly<Record<Exclude<ShownSeverity, 'off'>, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

const editorSeverity: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** What gives places of a text. */
type Placed = Pick<TextDocument, 'uri' | 'positionAt'>;
