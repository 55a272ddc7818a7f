import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Disposable,
  languages,
  Range,
  type TextDocument,
  WorkspaceEdit,
} from 'vscode';
import type { Finding } from '../core/language/finding.ts';
import type { Studies } from './studies.ts';
import { windingLanguage } from './windingDocument.ts';

/** Offers the fixes that findings carry. */
export function startQuickFixes(studies: Studies): Disposable {
  return languages.registerCodeActionsProvider(
    { language: windingLanguage },
    {
      provideCodeActions: (document, range, context) =>
        studies
          .of(document)
          .findings.filter((finding) => finding.fix && overlaps(document, finding, range))
          .map((finding) => fixOf(document, finding, context.diagnostics)),
    },
    { providedCodeActionKinds: [CodeActionKind.QuickFix] },
  );
}

function overlaps(document: TextDocument, { range }: Finding, at: Range): boolean {
  return editorRange(document, range).intersection(at) !== undefined;
}

function editorRange(document: TextDocument, { start, end }: Finding['range']): Range {
  return new Range(document.positionAt(start), document.positionAt(end));
}

function fixOf(document: TextDocument, finding: Finding, diagnostics: readonly Diagnostic[]): CodeAction {
  const action = new CodeAction(finding.fix!.title, CodeActionKind.QuickFix);
  action.edit = new WorkspaceEdit();
  for (const { range, text } of finding.fix!.edits)
    action.edit.replace(document.uri, editorRange(document, range), text);
  action.diagnostics = diagnostics.filter(
    ({ code, range }) => code === finding.code && range.isEqual(editorRange(document, finding.range)),
  );
  action.isPreferred = true;
  return action;
}
