import { Range, type TextDocument, type Uri, ViewColumn, window, workspace } from 'vscode';
import type { Range as TextRange } from '../../core/language/finding.ts';

/** Selects a place of the text, in the column where that text is open; the reader asked for it. */
export async function reveal(uri: Uri, range: TextRange, preserveFocus: boolean): Promise<void> {
  const document = await workspace.openTextDocument(uri);
  const open = window.visibleTextEditors.find((editor) => editor.document === document);
  await window.showTextDocument(document, {
    selection: editorRange(document, range),
    viewColumn: open?.viewColumn ?? ViewColumn.One,
    preserveFocus,
  });
}

/** A stretch of the text as the editor counts it. */
export function editorRange(document: TextDocument, { start, end }: TextRange): Range {
  return new Range(document.positionAt(start), document.positionAt(end));
}
