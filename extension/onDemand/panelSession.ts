import { commands, env, l10n, type TextDocument, Uri, type WebviewPanel } from 'vscode';
import { type HostMessage, type PageMessage, readPageMessage } from '../messages.ts';
import { createFeed } from '../protocol/feed.ts';
import { nothingMarked, type PanelMarks } from '../protocol/panelState.ts';
import type { Studies } from '../studies.ts';
import { fileName } from '../windingDocument.ts';
import { firstWish, type Wish } from '../wish.ts';
import { startCursorMarks } from './cursorMarks.ts';
import { createPanelStates, nextShown, nothingOpen, type Shown, waitingFor } from './panelContent.ts';
import { noticeWords } from './panelWords.ts';
import { revealPlace } from './reveal.ts';

/** One open panel with the text it shows. */
export interface PanelSession {
  /** Address of the text it shows; empty while there is none. */
  readonly source: () => string;
  /** Says that this text is to be shown, which is still to be opened. */
  readonly awaitText: (source: string) => void;
  /** Shows this document as it is now; null where no winding is open. */
  readonly follow: (document: TextDocument | null) => void;
  /** The text it shows cannot be read any more: what is shown stays, and that is said. */
  readonly lost: () => void;
  /** Whether it keeps to its text, which its title tells and the page remembers. */
  readonly pin: (pinned: boolean) => void;
  /** Lights what the cursor of its text stands on, as if it had just come there. */
  readonly lightCursor: () => void;
  /** Ends what listens for the panel; the panel itself is the editor's. */
  readonly end: () => void;
}

/**
 * Keeps a panel's page in step with its text. What the page shows is remembered here, because the editor destroys
 * a page that is hidden; the page says when it begins anew.
 */
export function startPanelSession(
  panel: WebviewPanel,
  studies: Studies,
  saved: Wish | null,
  remember: (lower: number | null) => void,
): PanelSession {
  const words = noticeWords();
  const stateOf = createPanelStates(words);
  const post = (message: HostMessage) => void panel.webview.postMessage(message);
  let shown: Shown = waitingFor('', '');
  let wish = saved ?? firstWish;
  let marks = nothingMarked;
  let pinned = false;

  const feed = createFeed(() => stateOf(shown, wish, marks), post);
  const mark = (next: PanelMarks) => {
    marks = next;
    feed.changed();
  };
  const show = (next: Shown) => {
    if (next.heading.source !== shown.heading.source) marks = nothingMarked;
    shown = next;
    nameTab();
    feed.changed();
  };
  const nameTab = () => {
    const { file } = shown.heading;
    const title = file === '' ? l10n.t('Layout') : l10n.t('Layout of {0}', file);
    panel.title = pinned ? l10n.t('{0} (pinned)', title) : title;
  };
  const cursor = startCursorMarks(studies, {
    source: () => shown.heading.source,
    study: () => shown.study,
    mark,
    name: (text) => post({ kind: 'name', source: shown.heading.source, words: text }),
  });
  const answer = (message: PageMessage) => {
    switch (message.kind) {
      case 'ready':
        wish = message.wish ?? wish;
        post({ kind: 'pinned', pinned });
        feed.begun();
        return;
      case 'shown':
        feed.answered(message.version, message.followed);
        return;
      case 'show':
        wish = message.wish;
        feed.changed();
        return;
      case 'copy':
        void env.clipboard.writeText(message.text);
        return;
      case 'divide':
        remember(message.lower);
        return;
      case 'export':
        void commands.executeCommand('slotwright.exportDrawing', Uri.parse(message.source, true));
        return;
      case 'reveal':
        void revealPlace(studies, message.source, message.place);
        return;
      case 'release':
        if (message.source === shown.heading.source) mark(nothingMarked);
        return;
      default:
        cursor.answer(message);
    }
  };
  const listeners = [
    cursor,
    panel.webview.onDidReceiveMessage((value: unknown) => {
      const message = readPageMessage(value);
      if (message !== null) answer(message);
    }),
    panel.onDidChangeViewState(() => {
      if (!panel.visible) feed.gone();
    }),
  ];
  return {
    source: () => shown.heading.source,
    awaitText: (source) => show(waitingFor(source, source.split('/').at(-1) ?? source)),
    lost: () => {
      const { heading } = shown;
      const headline = l10n.t('{0} cannot be read any more. Shown is what was known of it.', heading.file);
      const notice = { stamp: l10n.t('Out of date'), headline, places: [] };
      show({ ...shown, heading: { ...heading, waiting: false }, notice });
    },
    pin: (next) => {
      pinned = next;
      nameTab();
      post({ kind: 'pinned', pinned });
    },
    follow: (document) => {
      if (document === null) show(nothingOpen(words));
      else {
        const text = { source: document.uri.toString(), file: fileName(document) };
        show(nextShown(shown, text, studies.of(document), words));
      }
    },
    lightCursor: cursor.light,
    end: () => {
      feed.gone();
      for (const listener of listeners) listener.dispose();
    },
  };
}
