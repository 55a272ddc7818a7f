import {
  commands,
  type Disposable,
  type Memento,
  type TextDocument,
  Uri,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { layoutPanelType } from '../../panelTypes.ts';
import { type PageState, readPageState } from '../../protocol/messages.ts';
import type { Wish } from '../../protocol/wish.ts';
import { chosenWinding, isWinding } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { givePage } from '../page.ts';
import { panelColumn, revealPlace, showText } from '../reveal.ts';
import { panelPage } from './page.ts';
import { type PanelSession, startPanelSession } from './session.ts';
import { pageWords } from './words.ts';

/**
 * The layout panels. One follows the text that its reader works in; any others are pinned, each to its own text.
 * All are kept in step with their texts.
 */
export interface LayoutPanels extends Disposable {
  /** Opens the following panel beside the text, or brings it forward; for the document of the address, else the active one. */
  readonly show: (uri?: unknown) => Promise<void>;
  /** The same, and gives it the focus. */
  readonly focus: () => Promise<void>;
  /** Gives the focus from a panel back to its text. */
  readonly backToText: () => Promise<void>;
  /** Opens one more panel, pinned to the document of the address, else to the active one. */
  readonly showPinned: (uri?: unknown) => Promise<void>;
  /**
   * Opens the following panel with a place of the text lit, and selects its text; without a place what the cursor
   * stands in.
   */
  readonly showPlace: (uri?: unknown, place?: unknown) => Promise<void>;
  /** The winding in the panel that has the focus. */
  readonly focused: () => Uri | undefined;
  /** Pins the panel that has the focus to its text, or lets it follow the active text again. */
  readonly pin: (pinned: boolean) => void;
  /** Lets the reader choose a connection of the document of the address, else of the active one, with its picture beside. */
  readonly chooseConnection: (uri?: unknown) => Promise<void>;
  /** Judges the variants of the document of the address, else of the active one, and shows them. */
  readonly exploreVariants: (uri?: unknown) => Promise<void>;
  /** Begins to draw a path by hand, in the panel that has the focus, else in that of the active document. */
  readonly drawPath: (uri?: unknown) => Promise<void>;
  /** Asks with what the text of the panel is to be compared while it is typed. */
  readonly compareWhileTyping: (uri?: unknown) => Promise<void>;
  /** Moves the panel that has the focus into a window of its own; without one, that of the active text. */
  readonly moveToNewWindow: () => Promise<void>;
  /** Takes over a panel that the editor restored. */
  readonly restore: (panel: WebviewPanel, state: unknown) => Promise<void>;
}

/** Which of its commands the editor offers for the panel that has the focus. */
const pinnedKey = 'slotwright.panelPinned';
/** Under this name the editor keeps where readers put the divider. */
const dividerKey = 'panel.lower';

interface OpenPanel {
  readonly panel: WebviewPanel;
  readonly session: PanelSession;
  pinned: boolean;
  /** It stands in a window of its own, so that no others join it. */
  apart: boolean;
}

/** The panels, none of them open yet. */
export function createLayoutPanels(extensionUri: Uri, studies: Studies, memory?: Memento): LayoutPanels {
  const fill = (panel: WebviewPanel) =>
    givePage(panel, extensionUri, 'panel', (files) =>
      panelPage({ ...files, words: pageWords(), lower: memory?.get<number>(dividerKey) }),
    );
  const open = new Set<OpenPanel>();
  const following = () => [...open].filter(({ pinned }) => !pinned);
  const activePanel = () => [...open].find(({ panel }) => panel.active);
  const tellPinned = () => commands.executeCommand('setContext', pinnedKey, activePanel()?.pinned === true);

  const take = (panel: WebviewPanel, wish: Wish | null, pinned: boolean): OpenPanel => {
    const session = startPanelSession(panel, studies, wish, (lower) => {
      void memory?.update(dividerKey, lower ?? undefined);
    });
    const mine = { panel, session, pinned, apart: false };
    open.add(mine);
    session.pin(pinned);
    void tellPinned();
    panel.onDidChangeViewState(tellPinned);
    panel.onDidDispose(() => {
      session.end();
      open.delete(mine);
      void tellPinned();
    });
    return mine;
  };
  const create = (document: TextDocument, pinned: boolean): OpenPanel => {
    const others = [...open].filter(({ apart }) => !apart).map(({ panel }) => panel.viewColumn);
    const panel = window.createWebviewPanel(
      layoutPanelType,
      l10n.t('Layout'),
      { viewColumn: panelColumn(others), preserveFocus: true },
      {},
    );
    const made = take(panel, null, pinned);
    made.session.follow(document);
    fill(panel);
    return made;
  };
  /** Shows a text in the panel that follows, else in one that is pinned to it, else in a new one. */
  const show = (document: TextDocument): OpenPanel => {
    const source = document.uri.toString();
    const [follower] = following();
    const known = follower ?? [...open].find(({ session }) => session.source() === source);
    if (known === undefined) return create(document, false);
    known.panel.reveal(undefined, true);
    known.session.follow(document);
    return known;
  };
  const showing = (source: string) => [...open].filter(({ session }) => session.source() === source);
  const changed = (document: TextDocument) => {
    if (!isWinding(document)) return;
    for (const { session } of showing(document.uri.toString())) session.follow(document);
  };
  /** A text that the editor let go is opened again while it is shown, so that changes of its file are seen. */
  const reopen = async (from: string, to: Uri) => {
    if (showing(from).length === 0) return;
    const document = await workspace.openTextDocument(to).then(
      (opened) => (isWinding(opened) ? opened : null),
      () => null,
    );
    for (const { session } of showing(from))
      if (document !== null) session.follow(document);
      else session.lost();
  };
  const renamed = ({ oldUri, newUri }: { readonly oldUri: Uri; readonly newUri: Uri }) => {
    const before = oldUri.toString();
    for (const source of new Set([...open].map(({ session }) => session.source())))
      if (source === before || source.startsWith(`${before}/`))
        void reopen(source, Uri.parse(newUri.toString() + source.slice(before.length), true));
  };
  const listeners = [
    { dispose: studies.onFound(changed) },
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor === undefined || !isWinding(editor.document)) return;
      for (const { session } of following()) session.follow(editor.document);
    }),
    workspace.onDidChangeTextDocument(({ document }) => changed(document)),
    workspace.onDidCloseTextDocument(({ uri }) => {
      if (uri.scheme !== 'untitled') void reopen(uri.toString(), uri);
    }),
    workspace.onDidRenameFiles(({ files }) => files.forEach(renamed)),
  ];
  const chosen = async (uri: unknown): Promise<TextDocument | null> => {
    const document = await chosenWinding(uri);
    if (document === null) window.showInformationMessage(l10n.t('Open a winding file to see its layout.'));
    return document;
  };
  return {
    show: async (uri) => {
      const document = await chosen(uri);
      if (document !== null) show(document);
    },
    focus: async () => {
      const document = await chosen(undefined);
      if (document !== null) show(document).panel.reveal(undefined, false);
    },
    chooseConnection: async (uri) => {
      const shown = activePanel()?.session;
      const document = await chosen(uri ?? addressOf(shown?.source()));
      if (document !== null) await show(document).session.chooseConnection();
    },
    compareWhileTyping: async (uri) => {
      const active = activePanel();
      const document = active === undefined || uri !== undefined ? await chosen(uri) : null;
      const session = document === null ? active?.session : show(document).session;
      if (session === undefined) return;
      const picked = await window.showQuickPick(
        [
          { baseline: 'commit' as const, label: l10n.t('The last commit') },
          { baseline: 'kept' as const, label: l10n.t('The text as it is now, which is kept') },
          { baseline: 'off' as const, label: l10n.t('Nothing') },
        ],
        { placeHolder: l10n.t('With what is the text to be compared while you type?') },
      );
      if (picked !== undefined) await session.compareWith(picked.baseline);
    },
    focused: () => addressOf(activePanel()?.session.source()),
    drawPath: async (uri) => {
      const active = activePanel();
      if (active !== undefined && uri === undefined) return active.session.drawPath();
      const document = await chosen(uri);
      if (document === null) return;
      const { panel, session } = show(document);
      session.lightCursor();
      panel.reveal(undefined, false);
      await session.drawPath();
    },
    backToText: async () => {
      const source = activePanel()?.session.source() ?? '';
      if (source !== '') await showText(Uri.parse(source, true));
    },
    showPinned: async (uri) => {
      const document = await chosen(uri);
      if (document !== null) create(document, true);
    },
    showPlace: async (uri, place) => {
      const document = await chosen(uri);
      if (document === null) return;
      const { session } = show(document);
      if (typeof place === 'string') await revealPlace(studies, document.uri.toString(), place);
      session.lightCursor();
    },
    exploreVariants: async (uri) => {
      const shown = activePanel()?.session;
      const document = await chosen(uri ?? addressOf(shown?.source()));
      if (document !== null) await show(document).session.exploreVariants();
    },
    pin: (pinned) => {
      const active = activePanel();
      if (active === undefined) return;
      active.pinned = pinned;
      active.session.pin(pinned);
      void tellPinned();
    },
    moveToNewWindow: async () => {
      const document = activePanel() === undefined ? await chosen(undefined) : null;
      const moved = activePanel() ?? (document && show(document));
      if (!moved) return;
      moved.panel.reveal(undefined, false);
      await activeOnce(moved.panel);
      await commands.executeCommand('workbench.action.moveEditorToNewWindow');
      moved.apart = true;
    },
    restore: async (panel, state) => {
      const saved = readPageState(state);
      const pinned = saved?.pinned === true;
      // Asked for before it was restored, it would stand there twice.
      if (!pinned) for (const twin of following()) twin.panel.dispose();
      const { session } = take(panel, saved?.wish ?? null, pinned);
      if (saved !== null) session.awaitText(saved.source);
      fill(panel);
      const document = await savedDocument(saved);
      // The reader may have turned to another text meanwhile.
      if (session.source() !== (saved?.source ?? '')) return;
      if (document === null && pinned) session.lost();
      else session.follow(document ?? (await chosenWinding(undefined)));
    },
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      for (const { panel } of open) panel.dispose();
    },
  };
}

/** The address of a panel's text; undefined while it shows none. */
function addressOf(source: string | undefined): Uri | undefined {
  return source ? Uri.parse(source, true) : undefined;
}

/** Resolves when the panel has the focus. */
function activeOnce(panel: WebviewPanel): Promise<void> {
  return new Promise((resolve) => {
    if (panel.active) return resolve();
    const listener = panel.onDidChangeViewState(() => {
      if (!panel.active) return;
      listener.dispose();
      resolve();
    });
  });
}

/** The document a saved panel showed, if it can still be read. */
async function savedDocument(saved: PageState | null): Promise<TextDocument | null> {
  if (saved === null) return null;
  try {
    return await workspace.openTextDocument(Uri.parse(saved.source, true));
  } catch {
    return null;
  }
}
