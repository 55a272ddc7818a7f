import {
  Diagnostic,
  DiagnosticRelatedInformation,
  DiagnosticSeverity,
  type Disposable,
  Range as EditorRange,
  Location,
  languages,
  type TextDocument,
  workspace,
} from 'vscode';
import { toldMessage } from '../core/findings/acceptance/acceptance.ts';
import { helpOf } from '../core/findings/registry.ts';
import type { Finding, Range, Severity } from '../core/language/finding.ts';
import type { Studies } from './engine/studies.ts';
import { explanation } from './findingCode.ts';
import type { Log } from './log.ts';
import { type ShownSeverity, wantedSeverities } from './settings.ts';
import { isWinding } from './windingDocument.ts';
import { findingWords, l10n, relatedWords } from './wording.ts';
import type { ClosedFindings } from './workspaceFindings.ts';

/** Shows the findings of every open winding text, soon after the start and at every change. */
export function startDiagnostics(
  studies: Studies,
  log: Log,
  soon: (work: () => void) => void,
): { readonly closed: ClosedFindings; readonly disposables: Disposable[] } {
  const collection = languages.createDiagnosticCollection('slotwright');
  let severities = wantedSeverities();
  const refresh = (document: TextDocument) => {
    if (isWinding(document))
      collection.set(document.uri, diagnosticsOf(document, studies.of(document).findings, severities));
  };
  const tellUnknown = () => {
    for (const code of severities.keys())
      if (helpOf(code) === '')
        log.error(
          l10n.t("The setting 'slotwright.severity' names '{0}', which is the code of no finding.", code),
        );
  };
  tellUnknown();
  soon(() => workspace.textDocuments.forEach(refresh));
  studies.onFound(refresh);
  const disposables = [
    collection,
    workspace.onDidOpenTextDocument(refresh),
    workspace.onDidChangeTextDocument(({ document }) => refresh(document)),
    workspace.onDidChangeConfiguration((event) => {
      if (!event.affectsConfiguration('slotwright')) return;
      severities = wantedSeverities();
      tellUnknown();
      workspace.textDocuments.forEach(refresh);
    }),
    workspace.onDidCloseTextDocument((document) => collection.delete(document.uri)),
  ];
  const closed: ClosedFindings = {
    set: (file, findings) => collection.set(file.uri, diagnosticsOf(file, findings, severities)),
    clear: (uri) => collection.delete(uri),
  };
  return { closed, disposables };
}

function diagnosticsOf(
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

function editorRange(document: Placed, { start, end }: Range): EditorRange {
  return new EditorRange(document.positionAt(start), document.positionAt(end));
}
