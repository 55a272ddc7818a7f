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
import type { Parts } from '../loadOnDemand.ts';
import { type PageState, readPageState } from '../messages.ts';
import { layoutPanelType } from '../panelTypes.ts';
import type { Studies } from '../studies.ts';
import { chosenWinding, isWinding } from '../windingDocument.ts';
import type { Wish } from '../wish.ts';
import { createNonce } from './nonce.ts';
import { panelPage } from './panelPage.ts';
import { type PanelSession, startPanelSession } from './panelSession.ts';
import { pageWords } from './panelWords.ts';

/** The layout panel, kept in step with the text. */
export interface LayoutPanel extends Disposable {
  /** Opens the panel beside the text, or brings it forward; for the document of the address, else the active one. */
  readonly show: (uri?: unknown) => Promise<void>;
  /** Takes over a panel that the editor restored. */
  readonly restore: (panel: WebviewPanel, state: unknown) => Promise<void>;
}

/** The panel, not open yet; once open it follows the active text and every edit of the text it shows. */
export function createLayoutPanel(extensionUri: Uri, studies: Studies, parts: Parts): LayoutPanel {
  const panels = createPanelKeeper(extensionUri, studies, parts);
  const listeners = [
    { dispose: studies.onFound((document) => panels.changed(document)) },
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor !== undefined && isWinding(editor.document)) panels.follow(editor.document);
    }),
    workspace.onDidChangeTextDocument(({ document }) => panels.changed(document)),
  ];
  return {
    show: async (uri) => {
      const document = await chosenWinding(uri);
      if (document === null) window.showInformationMessage(l10n.t('Open a winding file to see its layout.'));
      else panels.show(document);
    },
    restore: (panel, state) => panels.adopt(panel, readPageState(state)),
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      panels.dispose();
    },
  };
}

/** The document a saved panel showed, if it can still be read. */
async function savedDocument(saved: PageState | null): Promise<TextDocument | null> {
  if (saved === null) return chosenWinding(undefined);
  try {
    return await workspace.openTextDocument(Uri.parse(saved.source, true));
  } catch {
    return chosenWinding(undefined);
  }
}

interface PanelKeeper extends Disposable {
  /** Opens the panel beside the text, or brings it forward, with this document. */
  readonly show: (document: TextDocument) => void;
  /** Takes over a panel that the editor restored, with the view it showed; its text is opened meanwhile. */
  readonly adopt: (panel: WebviewPanel, saved: PageState | null) => Promise<void>;
  /** Turns an open panel to this document. */
  readonly follow: (document: TextDocument) => void;
  /** Brings an open panel up to date if it shows this document. */
  readonly changed: (document: TextDocument) => void;
}

interface OpenPanel {
  readonly panel: WebviewPanel;
  readonly session: PanelSession;
}

/** Keeps the one panel. */
function createPanelKeeper(extensionUri: Uri, studies: Studies, parts: Parts): PanelKeeper {
  let open: OpenPanel | null = null;

  const take = (panel: WebviewPanel, wish: Wish | null): PanelSession => {
    open?.panel.dispose();
    const session = startPanelSession(panel, studies, parts, wish);
    const mine = { panel, session };
    open = mine;
    panel.onDidDispose(() => {
      session.end();
      if (open === mine) open = null;
    });
    return session;
  };
  return {
    adopt: async (panel, saved) => {
      const session = take(panel, saved?.wish ?? null);
      if (saved !== null) session.awaitText(saved.source);
      fillPanel(panel, extensionUri);
      const document = await savedDocument(saved);
      // The reader may have turned to another text meanwhile.
      if (open?.session === session && session.source() === (saved?.source ?? '')) session.follow(document);
    },
    follow: (document) => open?.session.follow(document),
    show: (document) => {
      if (open !== null) {
        open.panel.reveal(undefined, true);
        open.session.follow(document);
        return;
      }
      const panel = createPanel();
      take(panel, null).follow(document);
      fillPanel(panel, extensionUri);
    },
    changed: (document) => {
      if (document.uri.toString() === open?.session.source() && isWinding(document))
        open.session.follow(document);
    },
    dispose: () => open?.panel.dispose(),
  };
}

function createPanel(): WebviewPanel {
  return window.createWebviewPanel(
    layoutPanelType,
    l10n.t('Layout'),
    { viewColumn: ViewColumn.Beside, preserveFocus: true },
    {},
  );
}

/** Gives the panel its icon, its rights and its page. */
function fillPanel(panel: WebviewPanel, extensionUri: Uri): void {
  const folder = Uri.joinPath(extensionUri, 'dist', 'extension');
  const { webview } = panel;
  panel.iconPath = {
    light: Uri.joinPath(extensionUri, 'media', 'layout-light.svg'),
    dark: Uri.joinPath(extensionUri, 'media', 'layout-dark.svg'),
  };
  webview.options = { enableScripts: true, localResourceRoots: [folder] };
  webview.html = panelPage({
    nonce: createNonce(),
    script: webview.asWebviewUri(Uri.joinPath(folder, 'panel.js')).toString(),
    style: webview.asWebviewUri(Uri.joinPath(folder, 'panel.css')).toString(),
    words: pageWords(),
  });
}
