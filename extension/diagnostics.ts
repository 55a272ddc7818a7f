import { type Disposable, languages, type TextDocument, workspace } from 'vscode';
import type { EngineAtHand, Running } from './engineAtHand.ts';
import type { Log } from './log.ts';
import { wantedSeverities } from './settings.ts';
import { isWinding } from './windingDocument.ts';
import { l10n } from './wording.ts';
import type { ClosedFindings } from './workspaceFindings.ts';

/** Shows the findings of every open winding text, soon after the start and at every change. */
export function startDiagnostics(
  engine: EngineAtHand,
  log: Log,
  soon: (work: () => void) => void,
): { readonly closed: ClosedFindings; readonly disposables: Disposable[] } {
  const collection = languages.createDiagnosticCollection('slotwright');
  let severities = wantedSeverities();
  const refresh = (document: TextDocument) => {
    const running = isWinding(document) ? engine.now() : null;
    if (!running) return;
    const { findings } = running.studies.of(document);
    collection.set(document.uri, running.diagnosticsOf(document, findings, severities));
  };
  const tellUnknown = ({ unknownCodes }: Running) => {
    for (const code of unknownCodes(severities))
      log.error(
        l10n.t("The setting 'slotwright.severity' names '{0}', which is the code of no finding.", code),
      );
  };
  const refreshAll = () => workspace.textDocuments.forEach(refresh);
  soon(refreshAll);
  const disposables = [
    collection,
    engine.onBegun((running) => {
      tellUnknown(running);
      refreshAll();
    }),
    engine.onFound((document) => {
      // Its text may have been closed meanwhile.
      if (workspace.textDocuments.includes(document)) refresh(document);
    }),
    workspace.onDidOpenTextDocument(refresh),
    workspace.onDidChangeTextDocument(({ document }) => refresh(document)),
    workspace.onDidChangeConfiguration((event) => {
      if (!event.affectsConfiguration('slotwright')) return;
      severities = wantedSeverities();
      refreshAll();
      const running = engine.now();
      if (running) tellUnknown(running);
    }),
    workspace.onDidCloseTextDocument((document) => collection.delete(document.uri)),
  ];
  const closed: ClosedFindings = {
    set: ({ diagnosticsOf }, file, findings) =>
      collection.set(file.uri, diagnosticsOf(file, findings, severities)),
    clear: (uri) => collection.delete(uri),
  };
  return { closed, disposables };
}
