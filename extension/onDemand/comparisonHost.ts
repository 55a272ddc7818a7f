import {
  type Disposable,
  l10n,
  type TextDocument,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { studyOf } from '../../core/study.ts';
import { readComparisonPage, readComparisonState } from '../comparisonMessages.ts';
import { comparisonPanelType } from '../panelTypes.ts';
import type { Studies } from '../studies.ts';
import { fileName } from '../windingDocument.ts';
import { comparisonContent } from './comparisonContent.ts';
import { comparisonPage } from './comparisonPage.ts';
import { createNonce } from './nonce.ts';

/** A text to compare, and what to call it. */
export interface Side {
  readonly uri: Uri;
  readonly name: string;
}

/** The comparison panel; it follows every edit of both texts. */
export interface ComparisonPanel extends Disposable {
  /** Compares two texts; rejects where one cannot be read. */
  readonly show: (old: Side, now: Side) => Promise<void>;
  /** Takes over a panel that the editor restored. */
  readonly restore: (panel: WebviewPanel, state: unknown) => Promise<void>;
}

interface OpenSide {
  readonly document: TextDocument;
  readonly name: string;
}

/** The panel, not open yet. */
export function createComparisonPanel(extensionUri: Uri, studies: Studies): ComparisonPanel {
  let panel: WebviewPanel | null = null;
  let sides: { readonly old: OpenSide; readonly now: OpenSide } | null = null;

  const send = () => {
    if (panel === null || sides === null) return;
    const { old, now } = sides;
    panel.title = l10n.t('{0} against {1}', now.name, old.name);
    panel.webview.postMessage(comparisonContent(studied(old), studied(now)));
  };
  const studied = ({ document, name }: OpenSide) => ({
    source: document.uri.toString(),
    name,
    study: studyOf(studies.of(document)),
  });
  const changed = (document: TextDocument) => {
    if (sides === null) return;
    const { old, now } = sides;
    // A text that was closed and opened again is a new document.
    const isOf = (side: OpenSide) => side.document.uri.toString() === document.uri.toString();
    if (!isOf(old) && !isOf(now)) return;
    sides = { old: isOf(old) ? { ...old, document } : old, now: isOf(now) ? { ...now, document } : now };
    send();
  };
  const adopt = (next: WebviewPanel) => {
    panel?.dispose();
    panel = next;
    next.onDidDispose(() => {
      if (panel === next) panel = null;
    });
    next.webview.onDidReceiveMessage((value: unknown) => {
      const message = readComparisonPage(value);
      if (message === null || panel !== next || sides === null) return;
      if (message.kind === 'swap') sides = { old: sides.now, now: sides.old };
      send();
    });
    fill(next, extensionUri);
  };
  const listeners = [
    { dispose: studies.onFound(changed) },
    workspace.onDidChangeTextDocument(({ document }) => changed(document)),
  ];
  return {
    show: async (old, now) => {
      sides = { old: await opened(old), now: await opened(now) };
      if (panel === null) adopt(createPanel());
      else panel.reveal();
      send();
    },
    restore: async (restored, state) => {
      const saved = readComparisonState(state);
      if (saved === null) {
        restored.dispose();
        return;
      }
      const now = Uri.parse(saved.now, true);
      sides = {
        old: await opened({ uri: Uri.parse(saved.old, true), name: saved.oldName }),
        now: await opened({ uri: now, name: now.path.split('/').at(-1) ?? now.path }),
      };
      adopt(restored);
      send();
    },
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      panel?.dispose();
    },
  };
}

async function opened({ uri, name }: Side): Promise<OpenSide> {
  const document = await workspace.openTextDocument(uri);
  return { document, name: name || fileName(document) };
}

function createPanel(): WebviewPanel {
  return window.createWebviewPanel(comparisonPanelType, l10n.t('Winding comparison'), ViewColumn.Active, {});
}

function fill(panel: WebviewPanel, extensionUri: Uri): void {
  const folder = Uri.joinPath(extensionUri, 'dist', 'extension');
  const { webview } = panel;
  panel.iconPath = {
    light: Uri.joinPath(extensionUri, 'media', 'layout-light.svg'),
    dark: Uri.joinPath(extensionUri, 'media', 'layout-dark.svg'),
  };
  webview.options = { enableScripts: true, localResourceRoots: [folder] };
  const address = (name: string) => webview.asWebviewUri(Uri.joinPath(folder, name)).toString();
  webview.html = comparisonPage(createNonce(), address('comparison.js'), address('panel.css'));
}
