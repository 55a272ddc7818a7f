import { type Disposable, type TextDocument, type Uri, workspace } from 'vscode';
import { addressNamed, isWinding } from '../windingDocument.ts';

/** Texts that are shown somewhere, by their addresses. */
export interface ShownTexts {
  readonly sources: () => Iterable<string>;
  /** The text of this address is this document now, which may have another address. */
  readonly opened: (source: string, document: TextDocument) => void;
  /** It cannot be read any more. */
  readonly lost: (source: string) => void;
}

/**
 * A text that the editor let go is opened again while it is shown, so that changes of its file are seen; a renamed one
 * is followed.
 */
export function followFiles(texts: ShownTexts): Disposable[] {
  const isShown = (source: string) => [...texts.sources()].includes(source);
  const reopen = async (from: string, to: Uri) => {
    if (!isShown(from)) return;
    const document = await workspace.openTextDocument(to).then(
      (opened) => (isWinding(opened) ? opened : null),
      () => null,
    );
    if (!isShown(from)) return;
    if (document === null) texts.lost(from);
    else texts.opened(from, document);
  };
  const renamed = ({ oldUri, newUri }: { readonly oldUri: Uri; readonly newUri: Uri }) => {
    const before = oldUri.toString();
    for (const source of new Set(texts.sources()))
      if (source === before || source.startsWith(`${before}/`))
        void reopen(source, addressNamed(newUri.toString() + source.slice(before.length)));
  };
  return [
    workspace.onDidCloseTextDocument(({ uri }) => {
      const source = uri.toString();
      if (uri.scheme !== 'untitled') void reopen(source, uri);
      // Opened by its name it would be a new text.
      else if (isShown(source)) texts.lost(source);
    }),
    workspace.onDidRenameFiles(({ files }) => files.forEach(renamed)),
  ];
}
