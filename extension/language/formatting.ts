import { type Disposable, EndOfLine, languages, Range, type TextDocument, TextEdit } from 'vscode';
import type { EngineAtHand } from '../engineAtHand.ts';
import { windingLanguage } from '../windingDocument.ts';
import { minimalEdit } from './minimalEdit.ts';

/** Offers the formatter to the editor's own command, so that it is undone like any edit. */
export function startFormatting(engine: EngineAtHand): Disposable {
  return languages.registerDocumentFormattingEditProvider(
    { language: windingLanguage },
    {
      provideDocumentFormattingEdits: (document) =>
        engine.ask(({ format }) => formattingEdits(document, format)),
    },
  );
}

function formattingEdits(document: TextDocument, format: (text: string) => string): TextEdit[] {
  const text = document.getText();
  const lineEnd = document.eol === EndOfLine.CRLF ? '\r\n' : '\n';
  const edit = minimalEdit(text, format(text).replace(/\r?\n/g, lineEnd));
  if (edit === null) return [];
  const range = new Range(document.positionAt(edit.start), document.positionAt(edit.end));
  return [TextEdit.replace(range, edit.text)];
}
