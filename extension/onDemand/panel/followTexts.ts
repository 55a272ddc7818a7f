import { type Disposable, type Uri, window, workspace } from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { addressNamed, isWinding } from '../../windingDocument.ts';
import type { OpenPanels } from './openPanels.ts';

/** Keeps panels in step with their texts: edited, turned to, closed, renamed, or with their paths found. */
export function followTexts(panels: OpenPanels, studies: Studies): Disposable[] {
  const changed: Parameters<Studies['onFound']>[0] = (document) => {
    if (!isWinding(document)) return;
    for (const { session } of panels.showing(document.uri.toString())) session.follow(document);
  };
  /** A text that the editor let go is opened again while it is shown, so that changes of its file are seen. */
  const reopen = async (from: string, to: Uri) => {
    if (panels.showing(from).length === 0) return;
    const document = await workspace.openTextDocument(to).then(
      (opened) => (isWinding(opened) ? opened : null),
      () => null,
    );
    for (const { session } of panels.showing(from))
      if (document !== null) session.follow(document);
      else session.lost();
  };
  const renamed = ({ oldUri, newUri }: { readonly oldUri: Uri; readonly newUri: Uri }) => {
    const before = oldUri.toString();
    for (const source of panels.sources())
      if (source === before || source.startsWith(`${before}/`))
        void reopen(source, addressNamed(newUri.toString() + source.slice(before.length)));
  };
  return [
    { dispose: studies.onFound(changed) },
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor === undefined || !isWinding(editor.document)) return;
      for (const { session } of panels.following()) session.follow(editor.document);
    }),
    workspace.onDidOpenTextDocument(changed),
    workspace.onDidChangeTextDocument(({ document }) => changed(document)),
    workspace.onDidCloseTextDocument(({ uri }) => {
      if (uri.scheme !== 'untitled') void reopen(uri.toString(), uri);
    }),
    workspace.onDidRenameFiles(({ files }) => files.forEach(renamed)),
  ];
}
