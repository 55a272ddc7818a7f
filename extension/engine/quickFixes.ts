import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range,
  SnippetString,
  SnippetTextEdit,
  type TextDocument,
  WorkspaceEdit,
} from 'vscode';
import { canBeAccepted } from '../../core/findings/acceptance/acceptance.ts';
import { acceptEdit } from '../../core/findings/acceptance/acceptEdit.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { Finding, Fix } from '../../core/language/finding.ts';
import { oddCharacters } from '../../core/language/text/oddCharacters.ts';
import { editOf, editorRange } from '../edits.ts';
import { codeOf } from '../findingCode.ts';
import { fixWords, l10n } from '../wording.ts';

/** The fixes that findings in a stretch of a text carry. */
export function fixActions(
  study: CheckedText,
  document: TextDocument,
  range: Range,
  diagnostics: readonly Diagnostic[],
): readonly CodeAction[] {
  const { findings } = study;
  const here = findings.filter((finding) => overlaps(document, finding, range));
  return [
    ...here.filter(isFirstOfItsFix).map((finding) => fixOf(document, finding, diagnostics)),
    ...everyOddCharacter(document, here, findings),
    ...accepting(document, study, here, diagnostics),
  ];
}

/** Whether none before it is mended by the same words at the same place, as a finding of either side. */
function isFirstOfItsFix({ fix }: Finding, index: number, all: readonly Finding[]): boolean {
  const same = (other: Fix | undefined) => JSON.stringify(other) === JSON.stringify(fix);
  return fix !== undefined && all.findIndex((other) => same(other.fix)) === index;
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

/** Accepting each warning here: the edit leaves the cursor between the quotes of the reason. */
function accepting(
  document: TextDocument,
  study: CheckedText,
  here: readonly Finding[],
  diagnostics: readonly Diagnostic[],
): readonly CodeAction[] {
  const codes = new Set(here.filter(canBeAccepted).map(({ code }) => code));
  return [...codes].flatMap((code) => {
    const edit = acceptEdit(study.document, code);
    if (!edit) return [];
    const title =
      codes.size === 1
        ? l10n.t('Accept this warning with a reason')
        : l10n.t('Accept the warning {0} with a reason', code);
    const action = new CodeAction(title, CodeActionKind.QuickFix);
    action.edit = new WorkspaceEdit();
    const snippet = new SnippetString()
      .appendText(edit.before)
      .appendTabstop(1)
      .appendText(edit.after)
      .appendTabstop(0);
    action.edit.set(document.uri, [SnippetTextEdit.replace(editorRange(document, edit.range), snippet)]);
    action.diagnostics = diagnostics.filter((each) => codeOf(each) === code);
    return [action];
  });
}

function overlaps(document: TextDocument, { range }: Finding, at: Range): boolean {
  return editorRange(document, range).intersection(at) !== undefined;
}

function fixOf(document: TextDocument, finding: Finding, diagnostics: readonly Diagnostic[]): CodeAction {
  const { title, edits } = finding.fix!;
  const action = actionOf(document, fixWords(title), edits);
  action.diagnostics = diagnostics.filter(
    (each) => codeOf(each) === finding.code && each.range.isEqual(editorRange(document, finding.range)),
  );
  action.isPreferred = true;
  return action;
}

function actionOf(document: TextDocument, title: string, edits: Fix['edits']): CodeAction {
  const action = new CodeAction(title, CodeActionKind.QuickFix);
  action.edit = editOf(document, edits);
  return action;
}
