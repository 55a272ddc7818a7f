import {
  commands,
  type Disposable,
  type Memento,
  type TextDocument,
  type Uri,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { type PageState, readPageState } from '../../protocol/messages.ts';
import { addressNamed, chosenWinding } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { revealPlace, showText } from '../reveal.ts';
import { followTexts } from './followTexts.ts';
import { createOpenPanels, type OpenPanel } from './openPanels.ts';

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

/** The panels, none of them open yet. */
export function createLayoutPanels(extensionUri: Uri, studies: Studies, memory?: Memento): LayoutPanels {
  const panels = createOpenPanels(extensionUri, studies, memory);
  const listeners = followTexts(panels, studies);

  const focused = () => addressOf(panels.active()?.session.source());
  /** Does something with the panel of the document of the address, else of the active one, and with that document. */
  const withPanel = async (
    uri: unknown,
    act: (shown: OpenPanel, document: TextDocument) => unknown = () => undefined,
  ): Promise<void> => {
    const document = await chosen(uri);
    if (document !== null) await act(panels.show(document), document);
  };
  return {
    show: (uri) => withPanel(uri),
    focus: () => withPanel(undefined, ({ panel }) => panel.reveal(undefined, false)),
    focused,
    backToText: async () => {
      const shown = focused();
      if (shown) await showText(shown);
    },
    showPinned: async (uri) => {
      const document = await chosen(uri);
      if (document !== null) panels.create(document, { pinned: true });
    },
    showPlace: (uri, place) =>
      withPanel(uri, async ({ session }, document) => {
        if (typeof place === 'string') await revealPlace(studies, document.uri.toString(), place);
        session.lightCursor();
      }),
    pin: (pinned) => {
      const active = panels.active();
      if (active !== undefined) panels.pin(active, pinned);
    },
    chooseConnection: (uri) => withPanel(uri ?? focused(), ({ session }) => session.chooseConnection()),
    exploreVariants: (uri) => withPanel(uri ?? focused(), ({ session }) => session.exploreVariants()),
    drawPath: async (uri) => {
      const active = panels.active();
      if (active !== undefined && uri === undefined) return active.session.drawPath();
      await withPanel(uri, ({ panel, session }) => {
        session.lightCursor();
        panel.reveal(undefined, false);
        return session.drawPath();
      });
    },
    compareWhileTyping: async (uri) => {
      const active = panels.active();
      if (active !== undefined && uri === undefined) return compareWithAnswer(active);
      await withPanel(uri, compareWithAnswer);
    },
    moveToNewWindow: async () => {
      const active = panels.active();
      if (active !== undefined) return moveToNewWindow(active);
      await withPanel(undefined, moveToNewWindow);
    },
    restore: async (panel, state) => {
      const saved = readPageState(state);
      const pinned = saved?.pinned === true;
      // Asked for before it was restored, it would stand there twice.
      if (!pinned) for (const twin of panels.following()) twin.panel.dispose();
      const { session } = panels.take(panel, saved?.wish ?? null, pinned);
      if (saved !== null) session.awaitText(saved.source);
      panels.fill(panel);
      const document = await savedDocument(saved);
      // The reader may have turned to another text meanwhile.
      if (session.source() !== (saved?.source ?? '')) return;
      if (document === null && pinned) session.lost();
      else session.follow(document ?? (await chosenWinding(undefined)));
    },
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      panels.dispose();
    },
  };
}

/** The document of the address, else the active one; null where neither is a winding, which is said. */
async function chosen(uri: unknown): Promise<TextDocument | null> {
  const document = await chosenWinding(uri);
  if (document === null) window.showInformationMessage(l10n.t('Open a winding file to see its layout.'));
  return document;
}

/** Compares a panel's text, while it is typed, with what the reader chooses. */
async function compareWithAnswer({ session }: OpenPanel): Promise<void> {
  const picked = await window.showQuickPick(
    [
      { baseline: 'commit' as const, label: l10n.t('The last commit') },
      { baseline: 'kept' as const, label: l10n.t('The text as it is now, which is kept') },
      { baseline: 'off' as const, label: l10n.t('Nothing') },
    ],
    {
      title: l10n.t('Compare windings'),
      placeHolder: l10n.t('With what is the text to be compared while you type?'),
    },
  );
  if (picked !== undefined) await session.compareWith(picked.baseline);
}

async function moveToNewWindow(moved: OpenPanel): Promise<void> {
  moved.panel.reveal(undefined, false);
  await activeOnce(moved.panel);
  await commands.executeCommand('workbench.action.moveEditorToNewWindow');
  moved.apart = true;
}

/** The address of a panel's text; undefined while it shows none. */
function addressOf(source: string | undefined): Uri | undefined {
  return source ? addressNamed(source) : undefined;
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
    return await workspace.openTextDocument(addressNamed(saved.source));
  } catch {
    return null;
  }
}
