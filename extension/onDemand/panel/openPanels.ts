import { commands, type Memento, type TextDocument, type Uri, type WebviewPanel, window } from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { layoutPanelType } from '../../panelTypes.ts';
import type { Wish } from '../../protocol/wish.ts';
import { l10n } from '../../wording.ts';
import { givePage } from '../page.ts';
import { panelColumn } from '../reveal.ts';
import { panelPage } from './page.ts';
import { type PanelSession, startPanelSession } from './session.ts';
import { pageWords } from './words.ts';

/** Which of its commands the editor offers for the panel that has the focus. */
const pinnedKey = 'slotwright.panelPinned';
/** Under this name the editor keeps where readers put the divider. */
const dividerKey = 'panel.lower';

export interface OpenPanel {
  readonly panel: WebviewPanel;
  readonly session: PanelSession;
  pinned: boolean;
  /** It stands in a window of its own, so that no others join it. */
  apart: boolean;
}

/** The layout panels that are open. */
export interface OpenPanels {
  /** The one that has the focus. */
  readonly active: () => OpenPanel | undefined;
  /** Those that follow the text that the reader works in. */
  readonly following: () => readonly OpenPanel[];
  /** Those that show the text of this address. */
  readonly showing: (source: string) => readonly OpenPanel[];
  /** The addresses of all texts shown. */
  readonly sources: () => ReadonlySet<string>;
  /** Takes in a panel that the editor has made; it is empty until it is filled. */
  readonly take: (panel: WebviewPanel, wish: Wish | null, pinned: boolean) => OpenPanel;
  readonly fill: (panel: WebviewPanel) => void;
  readonly create: (document: TextDocument, how: { readonly pinned: boolean }) => OpenPanel;
  /** Shows a text in the panel that follows, else in one that is pinned to it, else in a new one. */
  readonly show: (document: TextDocument) => OpenPanel;
  readonly pin: (open: OpenPanel, pinned: boolean) => void;
  readonly dispose: () => void;
}

/**
 * The editor keeps the group of a panel for panels (`autoLockGroups`). Where the panel that was closed stood in the only
 * group that is left, the next text is to open in it, not beside an empty one.
 */
function freeGroupOnceEmpty(): void {
  const free = () => {
    const [group, ...others] = window.tabGroups.all;
    if (group?.tabs.length === 0 && others.length === 0)
      void commands.executeCommand('workbench.action.unlockEditorGroup');
  };
  free();
  // The tab may be told of as closed only after its panel.
  const listening = window.tabGroups.onDidChangeTabs(() => {
    listening.dispose();
    free();
  });
}

/** None are open yet. */
export function createOpenPanels(extensionUri: Uri, studies: Studies, memory?: Memento): OpenPanels {
  const open = new Set<OpenPanel>();
  const active = () => [...open].find(({ panel }) => panel.active);
  const following = () => [...open].filter(({ pinned }) => !pinned);
  const showing = (source: string) => [...open].filter(({ session }) => session.source() === source);
  const tellPinned = () => commands.executeCommand('setContext', pinnedKey, active()?.pinned === true);

  const take = (panel: WebviewPanel, wish: Wish | null, pinned: boolean): OpenPanel => {
    const session = startPanelSession(panel, studies, wish, (lower) => {
      void memory?.update(dividerKey, lower ?? undefined);
    });
    const taken = { panel, session, pinned: false, apart: false };
    open.add(taken);
    pin(taken, pinned);
    panel.onDidChangeViewState(tellPinned);
    panel.onDidDispose(() => {
      session.end();
      open.delete(taken);
      void tellPinned();
      freeGroupOnceEmpty();
    });
    return taken;
  };
  const fill = (panel: WebviewPanel) =>
    givePage(panel, extensionUri, 'panel', (files) =>
      panelPage({ ...files, words: pageWords(), lower: memory?.get<number>(dividerKey) }),
    );
  const create: OpenPanels['create'] = (document, { pinned }) => {
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
  const pin = (each: OpenPanel, pinned: boolean) => {
    each.pinned = pinned;
    each.session.pin(pinned);
    void tellPinned();
  };
  return {
    active,
    following,
    showing,
    sources: () => new Set([...open].map(({ session }) => session.source())),
    take,
    fill,
    create,
    show: (document) => {
      const known = following()[0] ?? showing(document.uri.toString())[0];
      if (known === undefined) return create(document, { pinned: false });
      known.panel.reveal(undefined, true);
      known.session.follow(document);
      return known;
    },
    pin,
    dispose: () => {
      for (const { panel } of open) panel.dispose();
    },
  };
}
