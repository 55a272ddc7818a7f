import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Disposable,
  l10n,
  languages,
  Range,
  type TextDocument,
  WorkspaceEdit,
} from 'vscode';
import type { Finding, Fix } from '../core/language/finding.ts';
import { oddCharacters } from '../core/language/text/oddCharacters.ts';
import type { Studies } from './studies.ts';
import { windingLanguage } from './windingDocument.ts';

/** Offers the fixes that findings carry. */
export function startQuickFixes(studies: Studies): Disposable {
  return languages.registerCodeActionsProvider(
    { language: windingLanguage },
    {
      provideCodeActions: (document, range, context) => {
        const { findings } = studies.of(document);
        const here = findings.filter((finding) => overlaps(document, finding, range));
        return [
          ...here
            .filter(({ fix }) => fix !== undefined)
            .map((finding) => fixOf(document, finding, context.diagnostics)),
          ...everyOddCharacter(document, here, findings),
        ];
      },
    },
    { providedCodeActionKinds: [CodeActionKind.QuickFix] },
  );
}

/** The fix for all odd characters at once, where there are several: they come in crowds when text is pasted. */
function everyOddCharacter(
  document: TextDocument,
  here: readonly Finding[],
  findings: readonly Finding[],
): readonly CodeAction[] {
  const isOdd = ({ code }: Finding) => code === oddCharacters.code;
  const edits = findings.filter(isOdd).flatMap(({ fix }) => fix?.edits ?? []);
  if (!here.some(isOdd) || edits.length < 2) return [];
  const title = l10n.t('Replace or remove all odd characters of the text');
  return [actionOf(document, title, edits)];
}

function overlaps(document: TextDocument, { range }: Finding, at: Range): boolean {
  return editorRange(document, range).intersection(at) !== undefined;
}

function editorRange(document: TextDocument, { start, end }: Finding['range']): Range {
  return new Range(document.positionAt(start), document.positionAt(end));
}

function fixOf(document: TextDocument, finding: Finding, diagnostics: readonly Diagnostic[]): CodeAction {
  const { title, edits } = finding.fix!;
  const action = actionOf(document, title, edits);
  action.diagnostics = diagnostics.filter(
    ({ code, range }) => code === finding.code && range.isEqual(editorRange(document, finding.range)),
  );
  action.isPreferred = true;
  return action;
}

function actionOf(document: TextDocument, title: string, edits: Fix['edits']): CodeAction {
  const action = new CodeAction(title, CodeActionKind.QuickFix);
  action.edit = new WorkspaceEdit();
  for (const { range, text } of edits) action.edit.replace(document.uri, editorRange(document, range), text);
  return action;
}
