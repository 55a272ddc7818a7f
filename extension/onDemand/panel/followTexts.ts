import { type Disposable, window, workspace } from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { isWinding } from '../../windingDocument.ts';
import { followFiles } from '../followFiles.ts';
import type { OpenPanels } from './openPanels.ts';

/** Keeps panels in step with their texts: edited, turned to, closed, renamed, or with their paths found. */
export function followTexts(panels: OpenPanels, studies: Studies): Disposable[] {
  const changed: Parameters<Studies['onFound']>[0] = (document) => {
    if (!isWinding(document)) return;
    for (const { session } of panels.showing(document.uri.toString())) session.follow(document);
  };
  return [
    { dispose: studies.onFound(changed) },
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor === undefined || !isWinding(editor.document)) return;
      for (const { session } of panels.following()) session.follow(editor.document);
    }),
    workspace.onDidOpenTextDocument(changed),
    workspace.onDidChangeTextDocument(({ document }) => changed(document)),
    ...followFiles({
      sources: panels.sources,
      opened: (source, document) => {
        for (const { session } of panels.showing(source)) session.follow(document);
      },
      lost: (source) => {
        for (const { session } of panels.showing(source)) session.lost();
      },
    }),
  ];
}
