import {
  type Diagnostic,
  type Disposable,
  languages,
  type TextDocument,
  type TextDocumentContentChangeEvent,
  workspace,
} from 'vscode';
import type { EngineAtHand, Running } from './engineAtHand.ts';
import { codeOf } from './findingCode.ts';
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
  /** What the editor shows of texts, while that has not been touched since. */
  const shown = new WeakMap<TextDocument, readonly Diagnostic[]>();
  const refresh = (document: TextDocument) => {
    const running = isWinding(document) ? engine.now() : null;
    if (!running) return;
    const { findings } = running.studies.of(document);
    const next = running.diagnosticsOf(document, findings, severities);
    if (areSame(shown.get(document), next)) return;
    shown.set(document, next);
    collection.set(document.uri, next);
  };
  /** The editor moves what it shows along with the text, but an edit within it may leave less of it. */
  const touch = (document: TextDocument, changes: readonly TextDocumentContentChangeEvent[]) => {
    const touched = shown
      .get(document)
      ?.some(({ range }) => changes.some((change) => range.intersection(change.range)));
    if (touched) shown.delete(document);
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
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      touch(document, contentChanges);
      refresh(document);
    }),
    workspace.onDidChangeConfiguration((event) => {
      if (!event.affectsConfiguration('slotwright')) return;
      severities = wantedSeverities();
      refreshAll();
      const running = engine.now();
      if (running) tellUnknown(running);
    }),
    workspace.onDidCloseTextDocument((document) => {
      shown.delete(document);
      collection.delete(document.uri);
    }),
  ];
  const closed: ClosedFindings = {
    set: ({ diagnosticsOf }, file, findings) =>
      collection.set(file.uri, diagnosticsOf(file, findings, severities)),
    clear: (uri) => collection.delete(uri),
  };
  return { closed, disposables };
}

/** Whether the editor would show the same, at the same places. */
function areSame(before: readonly Diagnostic[] | undefined, next: readonly Diagnostic[]): boolean {
  return before?.length === next.length && before.every((each, index) => isSame(each, next[index]!));
}

function isSame(before: Diagnostic, next: Diagnostic): boolean {
  const [places, nextPlaces] = [before.relatedInformation ?? [], next.relatedInformation ?? []];
  return (
    before.message === next.message &&
    before.severity === next.severity &&
    codeOf(before) === codeOf(next) &&
    before.range.isEqual(next.range) &&
    places.length === nextPlaces.length &&
    places.every(({ message, location }, index) => {
      const other = nextPlaces[index]!;
      return message === other.message && location.range.isEqual(other.location.range);
    })
  );
}
