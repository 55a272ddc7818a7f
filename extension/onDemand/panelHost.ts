import {
  type Disposable,
  env,
  l10n,
  type TextDocument,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { Parts } from '../loadOnDemand.ts';
import { type PageMessage, readPageMessage, readPageState } from '../messages.ts';
import { layoutPanelType } from '../panelTypes.ts';
import type { Studies } from '../studies.ts';
import { chosenWinding, fileName, isWinding } from '../windingDocument.ts';
import { firstWish, type Wish } from '../wish.ts';
import { startCursorMarks } from './cursorMarks.ts';
import { createNonce } from './nonce.ts';
import { nextShown, type Shown } from './panelContent.ts';
import { panelPage } from './panelPage.ts';
import { createSender } from './panelSender.ts';
import { noticeWords, pageWords } from './panelWords.ts';
import { reveal } from './reveal.ts';

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
    restore: async (panel, state) =>
      panels.adopt(panel, await savedDocument(state), readPageState(state)?.wish ?? null),
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      panels.dispose();
    },
  };
}

/** The document a saved panel showed, if it can still be read. */
async function savedDocument(state: unknown): Promise<TextDocument | null> {
  const saved = readPageState(state);
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
  /** Takes over a panel that the editor restored, with the view it showed. */
  readonly adopt: (panel: WebviewPanel, document: TextDocument | null, wish: Wish | null) => void;
  /** Turns an open panel to this document. */
  readonly follow: (document: TextDocument) => void;
  /** Brings an open panel up to date if it shows this document. */
  readonly changed: (document: TextDocument) => void;
}

/** Keeps the one panel; what it shows is remembered here, because a hidden page is destroyed by the editor. */
function createPanelKeeper(extensionUri: Uri, studies: Studies, parts: Parts): PanelKeeper {
  let panel: WebviewPanel | null = null;
  let shown: Shown | null = null;
  let wish = firstWish;

  const sender = createSender(parts, () => ({
    shown,
    wish,
    post: (message) => panel?.webview.postMessage(message),
  }));
  const marks = startCursorMarks(parts, studies, {
    source: () => (panel === null ? null : (shown?.source ?? null)),
    study: () => shown?.study ?? null,
    post: (message) => panel?.webview.postMessage(message),
  });
  const follow = (document: TextDocument) => {
    if (panel === null) return;
    const before = shown;
    shown = nextShown(before, document.uri.toString(), studies.of(document), noticeWords());
    panel.title = l10n.t('Layout of {0}', fileName(document));
    if (shown.study === before?.study && shown.notice !== null) panel.webview.postMessage(shown.notice);
    else void sender.send();
  };
  const show = (next: Wish | null) => {
    wish = next ?? wish;
    void sender.send();
  };
  const adopt = (next: WebviewPanel, document: TextDocument | null, saved: Wish | null) => {
    panel?.dispose();
    panel = next;
    shown = null;
    wish = saved ?? firstWish;
    next.onDidDispose(() => {
      if (panel === next) panel = null;
    });
    next.webview.onDidReceiveMessage((value: unknown) => {
      const message = readPageMessage(value);
      if (message !== null && panel === next) answer(message, show, marks.answer);
    });
    fillPanel(next, extensionUri);
    if (document !== null) follow(document);
  };
  return {
    adopt,
    follow,
    show: (document) => {
      if (panel === null) adopt(createPanel(), document, null);
      else {
        panel.reveal(undefined, true);
        follow(document);
      }
    },
    changed: (document) => {
      if (document.uri.toString() === shown?.source && isWinding(document)) follow(document);
    },
    dispose: () => {
      marks.dispose();
      panel?.dispose();
    },
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

type Pointing = Extract<PageMessage, { readonly kind: 'point' | 'choose' | 'step' }>;

function answer(
  message: PageMessage,
  show: (wish: Wish | null) => void,
  pointed: (message: Pointing) => void,
): void {
  switch (message.kind) {
    case 'ready':
    case 'show':
      show(message.wish);
      return;
    case 'reveal':
      void reveal(Uri.parse(message.source, true), message.range, false);
      return;
    case 'copy':
      void env.clipboard.writeText(message.text);
      return;
    default:
      pointed(message);
  }
}
