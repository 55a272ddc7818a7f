import { Position, type TextDocument, type Uri } from 'vscode';
import { lineColumn, lineStarts } from '../core/language/text/lines.ts';

/** A winding file as studies and findings need it, open in an editor or not. */
export type ReadText = Pick<TextDocument, 'uri' | 'version' | 'getText' | 'positionAt'>;

/** A winding file that is not open. */
export function closedFile(uri: Uri, text: string): ReadText {
  const starts = lineStarts(text);
  return {
    uri,
    version: 1,
    getText: () => text,
    positionAt: (offset) => {
      const { line, column } = lineColumn(starts, offset);
      return new Position(line - 1, column - 1);
    },
  };
}
