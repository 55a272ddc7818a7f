import {
  commands,
  type Disposable,
  l10n,
  Range,
  type TextDocument,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { Range as TextRange } from '../core/language/finding.ts';
import { type PageMessage, readPageMessage, readPageState } from './messages.ts';
import { createNonce } from './nonce.ts';
import { nextShown, type Shown } from './panelContent.ts';
import { panelPage } from './panelPage.ts';
import { noticeWords, pageWords } from './panelWords.ts';
import type { Studies } from './studies.ts';
import { fileName, isWinding } from './windingDocument.ts';

/** The panel's type, named in package.json as well so that a reloaded window wakes the extension. */
const panelType = 'slotwright.layout';

/** The command's name, also that of the button above the text. */
const showCommand = 'slotwright.showLayoutPanel';

/** Offers the layout panel: opens it on command, restores it after a reload, and keeps it in step with the text. */
export function startPanel(extensionUri: Uri, studies: Studies): Disposable[] {
  const panels = createPanelKeeper(extensionUri, studies);
  studies.onFound((document) => panels.changed(document));
  return [
    panels,
    commands.registerCommand(showCommand, async (uri?: unknown) => {
      const document = await chosenDocument(uri);
      if (document === null) window.showInformationMessage(l10n.t('Open a winding file to see its layout.'));
      else panels.show(document);
    }),
    window.registerWebviewPanelSerializer(panelType, {
      deserializeWebviewPanel: async (panel, state) => panels.adopt(panel, await savedDocument(state)),
    }),
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor !== undefined && isWinding(editor.document)) panels.follow(editor.document);
    }),
    workspace.onDidChangeTextDocument(({ document }) => panels.changed(document)),
  ];
}

/** The document the command was called on, else the one in the active editor, if it is a winding. */
async function chosenDocument(uri: unknown): Promise<TextDocument | null> {
  const document =
    uri instanceof Uri ? await workspace.openTextDocument(uri) : window.activeTextEditor?.document;
  return document !== undefined && isWinding(document) ? document : null;
}

/** The document a saved panel showed, if it can still be read. */
async function savedDocument(state: unknown): Promise<TextDocument | null> {
  const saved = readPageState(state);
  if (saved === null) return chosenDocument(undefined);
  try {
    return await workspace.openTextDocument(Uri.parse(saved.source, true));
  } catch {
    return chosenDocument(undefined);
  }
}

interface PanelKeeper extends Disposable {
  /** Opens the panel beside the text, or brings it forward, with this document. */
  readonly show: (document: TextDocument) => void;
  /** Takes over a panel that the editor restored. */
  readonly adopt: (panel: WebviewPanel, document: TextDocument | null) => void;
  /** Turns an open panel to this document. */
  readonly follow: (document: TextDocument) => void;
  /** Brings an open panel up to date if it shows this document. */
  readonly changed: (document: TextDocument) => void;
}

/** Keeps the one panel; what it shows is remembered here, because a hidden page is destroyed by the editor. */
function createPanelKeeper(extensionUri: Uri, studies: Studies): PanelKeeper {
  let panel: WebviewPanel | null = null;
  let shown: Shown | null = null;

  const send = () => {
    if (panel === null || shown === null) return;
    if (shown.content !== null) panel.webview.postMessage(shown.content);
    if (shown.notice !== null) panel.webview.postMessage(shown.notice);
  };
  const follow = (document: TextDocument) => {
    if (panel === null) return;
    const before = shown;
    shown = nextShown(before, document.uri.toString(), studies.of(document), noticeWords());
    panel.title = l10n.t('Layout of {0}', fileName(document));
    if (shown.content === before?.content && shown.notice !== null) panel.webview.postMessage(shown.notice);
    else send();
  };
  const adopt = (next: WebviewPanel, document: TextDocument | null) => {
    panel?.dispose();
    panel = next;
    shown = null;
    next.onDidDispose(() => {
      if (panel === next) panel = null;
    });
    next.webview.onDidReceiveMessage((value: unknown) => {
      const message = readPageMessage(value);
      if (message !== null && panel === next) answer(message, send);
    });
    fillPanel(next, extensionUri);
    if (document !== null) follow(document);
  };
  return {
    adopt,
    follow,
    show: (document) => {
      if (panel === null) adopt(createPanel(), document);
      else {
        panel.reveal(undefined, true);
        follow(document);
      }
    },
    changed: (document) => {
      if (document.uri.toString() === shown?.source && isWinding(document)) follow(document);
    },
    dispose: () => panel?.dispose(),
  };
}

function createPanel(): WebviewPanel {
  return window.createWebviewPanel(
    panelType,
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

function answer(message: PageMessage, send: () => void): void {
  if (message.kind === 'ready') send();
  else void reveal(Uri.parse(message.source, true), message.range);
}

/** Puts the editor's cursor on a place of the text, in the column where that text is open. */
async function reveal(uri: Uri, { start, end }: TextRange): Promise<void> {
  const document = await workspace.openTextDocument(uri);
  const selection = new Range(document.positionAt(start), document.positionAt(end));
  const open = window.visibleTextEditors.find((editor) => editor.document === document);
  await window.showTextDocument(document, { selection, viewColumn: open?.viewColumn ?? ViewColumn.One });
}
