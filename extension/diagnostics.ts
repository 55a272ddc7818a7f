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
import { toldMessage } from '../core/findings/acceptance.ts';
import type { Finding, Range, Severity } from '../core/language/finding.ts';
import type { Studies } from './studies.ts';
import { isWinding } from './windingDocument.ts';

/** Shows the findings of every open winding text, at every change. */
export function startDiagnostics(studies: Studies): Disposable[] {
  const collection = languages.createDiagnosticCollection('slotwright');
  const refresh = (document: TextDocument) => {
    if (isWinding(document))
      collection.set(document.uri, diagnosticsOf(document, studies.of(document).findings));
  };
  workspace.textDocuments.forEach(refresh);
  studies.onFound(refresh);
  return [
    collection,
    workspace.onDidOpenTextDocument(refresh),
    workspace.onDidChangeTextDocument(({ document }) => refresh(document)),
    workspace.onDidCloseTextDocument((document) => collection.delete(document.uri)),
  ];
}

function diagnosticsOf(document: TextDocument, findings: readonly Finding[]): Diagnostic[] {
  return findings.map((finding) => {
    const diagnostic = new Diagnostic(
      editorRange(document, finding.range),
      toldMessage(finding.message, finding.accepted?.reason),
      editorSeverity[finding.severity],
    );
    diagnostic.source = 'slotwright';
    diagnostic.code = finding.code;
    diagnostic.relatedInformation = finding.related.map(
      ({ message, range }) =>
        new DiagnosticRelatedInformation(new Location(document.uri, editorRange(document, range)), message),
    );
    return diagnostic;
  });
}

const editorSeverity: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

function editorRange(document: TextDocument, { start, end }: Range): EditorRange {
  return new EditorRange(document.positionAt(start), document.positionAt(end));
}
