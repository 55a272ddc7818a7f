import { EndOfLine, Position, Range, type TextDocument, TextEdit } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { formattedPieces } from '../../../core/language/format/formatter.ts';
import { minimalEdit } from '../../language/minimalEdit.ts';

/**
 * Lays out what was just finished: behind a line end the statement above it, behind a closing brace its whole block.
 * What has an error stays as it is.
 */
export function onTypeEdits(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  typed: string,
): TextEdit[] {
  const offset = document.offsetAt(position);
  const block = study.document.blocks.find(({ range }) => range.start < offset && offset <= range.end);
  const lineStart = (line: number) => document.offsetAt(new Position(Math.max(0, line), 0));
  const stretch =
    typed === '}' ? block?.range : { start: lineStart(position.line - 1), end: lineStart(position.line) - 1 };
  if (!stretch || (typed !== '}' && position.line === 0)) return [];
  const lineEnd = document.eol === EndOfLine.CRLF ? '\r\n' : '\n';
  return formattedPieces(study.document)
    .filter(({ range }) => range.end > stretch.start && range.end <= stretch.end)
    .flatMap(({ range, text }) => {
      const edit = minimalEdit(
        document.getText().slice(range.start, range.end),
        text.replace(/\n/g, lineEnd),
      );
      if (!edit) return [];
      const at = (place: number) => document.positionAt(range.start + place);
      return [TextEdit.replace(new Range(at(edit.start), at(edit.end)), edit.text)];
    });
}
