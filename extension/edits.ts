import {
  Range as EditorRange,
  type TextDocument,
  TextEditorRevealType,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { Range } from '../core/language/finding.ts';

/** A stretch of a text as the editor counts it. */
export function editorRange(document: Pick<TextDocument, 'positionAt'>, { start, end }: Range): EditorRange {
  return new EditorRange(document.positionAt(start), document.positionAt(end));
}

/** A stretch of a text, and what replaces it. */
export interface TextChange {
  readonly range: Range;
  readonly text: string;
}

/** Changes of a text as one edit, which one undo takes back. */
export function editOf(document: TextDocument, changes: readonly TextChange[]): WorkspaceEdit {
  const edit = new WorkspaceEdit();
  for (const { range, text } of changes) edit.replace(document.uri, editorRange(document, range), text);
  return edit;
}

/** Makes changes of a text as one edit; false where the editor refuses it. */
export function changeText(document: TextDocument, changes: readonly TextChange[]): Thenable<boolean> {
  return workspace.applyEdit(editOf(document, changes));
}

/**
 * Makes changes of a text and brings what was written into sight wherever that text is on the screen: the reader asked
 * for it from elsewhere. False where the editor refuses it.
 */
export async function changeInSight(
  document: TextDocument,
  changes: readonly TextChange[],
): Promise<boolean> {
  const start = Math.min(...changes.map(({ range }) => range.start));
  const behind = document.getText().length - Math.max(...changes.map(({ range }) => range.end));
  if (!(await changeText(document, changes))) return false;
  if (changes.length === 0) return true;
  const written = editorRange(document, { start, end: document.getText().length - behind });
  for (const editor of window.visibleTextEditors)
    if (editor.document === document)
      editor.revealRange(written, TextEditorRevealType.InCenterIfOutsideViewport);
  return true;
}
